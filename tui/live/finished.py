"""The end of a sitting: what was done, in short, and from there to the whole of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from plans.logbook.figures import figures
from plans.shown import counted, show_duration
from plans.sitting.engine import Sitting
from plans.sitting.events import Word
from plans.text import plain
from tui.actions import Place, bindings
from tui.screens.foot_keys import foot_keys
from tui.screens.host import host_of
from tui.widgets.lines import KeyLine
from tui.widgets.marks import FINISHED, MarkRow

if TYPE_CHECKING:
    from tui.running.running_sitting import RunningSitting

_AROUND = 6
"""Rows of the sheet beside the summary, and one of the screen behind it."""


class FinishedScreen(ModalScreen[None]):
    """Stands over the live screen until the smith goes on, or takes the end back."""

    PLACE: ClassVar[Place] = Place.FINISHED
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(Place.FINISHED),
        Binding("down,j", "scroll(1)", show=False),
        Binding("up,k", "scroll(-1)", show=False),
    ]
    DEFAULT_CSS = """
    FinishedScreen { align: center middle; background: $background 60%; }
    FinishedScreen #sheet { width: 76; max-width: 96%; height: auto; max-height: 96%; }
    FinishedScreen #sheet { background: $surface; padding: 0 2 1 2; }
    FinishedScreen MarkRow { color: $accent; margin-bottom: 1; }
    FinishedScreen #list { height: auto; }
    FinishedScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, running: RunningSitting) -> None:
        super().__init__()
        self.running = running

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield MarkRow(FINISHED, blocks=host_of(self).settings.blocks)
            with VerticalScroll(id="list", can_focus=False):
                yield Static(summary_text(self.running.sitting))
            yield KeyLine()

    def on_mount(self) -> None:
        self.query_one(KeyLine).show(foot_keys(self, Place.FINISHED))

    def on_resize(self) -> None:
        # However long the summary is, the keys below it stay on the screen.
        self.query_one("#list").styles.max_height = max(1, self.app.size.height - _AROUND)

    def action_scroll(self, lines: int) -> None:
        self.query_one("#list").scroll_relative(y=lines, animate=False)

    async def action_review(self) -> None:
        app = host_of(self)
        if not app.presses.counts("next"):
            return
        name = self.running.id
        app.close_sitting()
        if app.outcome.errors:
            await app.leave_sitting()
            return
        await app.review_finished(name)

    def action_note(self) -> None:
        from tui.live.note import ask_note

        ask_note(host_of(self))

    def action_undo(self) -> None:
        if host_of(self).say(Word.UNDO):
            self.dismiss(None)

    async def action_leave(self) -> None:
        await host_of(self).leave_sitting()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def summary_text(sitting: Sitting) -> Content:
    """A sitting in a few lines: how long, the heats of each step, time struck too cold, calls."""
    found = figures(sitting)
    ended = sitting.state.ended_at if sitting.state.ended_at is not None else sitting.now
    lines = [
        Content.styled(plain(sitting.plan.title), "bold"),
        Content(f"done in {show_duration(ended)}"),
        Content(""),
    ]
    cold = 0.0
    for step in found["steps"]:
        heats = step["heats"]
        too_cold = sum(heat["too_cold_seconds"] for heat in heats)
        cold += too_cold
        planned = sitting.plan.steps[step["step"] - 1]
        count = counted(len(heats), planned.counts) if heats else ""
        parts = [count, f"{too_cold:.0f} s too cold" if too_cold >= 0.5 else ""]
        detail = ", ".join(part for part in parts if part)
        lines.append(
            Content.assemble(
                f"{step['step']:>2}  ",
                plain(step["title"]),
                "  ",
                (detail, "bold" if too_cold >= 0.5 else "$text-muted"),
            )
        )
    lines.append(Content(""))
    lines.append(
        Content(f"struck too cold for {show_duration(cold)} in all" if cold >= 0.5 else "nothing struck too cold")
    )
    counts: dict[str, int] = {}
    for call in found["calls"]:
        counts[call["call"]] = counts.get(call["call"], 0) + 1
    if counts:
        lines.append(Content("calls: " + ", ".join(f"{name} {count}" for name, count in counts.items())))
    if found["notes"]:
        lines.append(Content(f"notes: {len(found['notes'])}"))
    return Content("\n").join(lines)

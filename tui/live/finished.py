"""The end of a sitting: what was done, in short, and from there to the whole of it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from plans.logbook import LEAST_TOO_COLD, heat_figures
from plans.logbook.lines import not_done, short_time
from plans.prose import in_units
from plans.shown import counted, show_duration
from plans.sitting import Sitting, Word, last_word, length
from plans.text import plain
from plans.units import Units
from tui.actions import Place, bindings
from tui.screens import Told, host_of, keys_at_foot
from tui.widgets import FINISHED, KeyLine, MarkRow

if TYPE_CHECKING:
    from tui.running import RunningSitting

_AROUND = 7
"""Rows of the sheet beside the summary, with one that answers, and one of the screen behind it."""


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
                yield Static(summary_text(self.running.sitting, host_of(self).settings.units))
            yield Told()
            yield KeyLine()

    def tell(self, text: str, wrong: bool) -> None:
        """Show a message on the sheet, since that covers the rows of the screen behind it; see `Told.tell`."""
        self.query_one(Told).tell(text, wrong)

    def on_mount(self) -> None:
        self.query_one(KeyLine).show(keys_at_foot(self, Place.FINISHED))

    def on_resize(self) -> None:
        # However long the summary is, the keys below it stay on the screen.
        self.query_one("#list").styles.max_height = max(1, self.app.size.height - _AROUND)

    def action_scroll(self, lines: int) -> None:
        self.query_one("#list").scroll_relative(y=lines, animate=False)

    async def action_review(self) -> None:
        if host_of(self).presses.counts("next"):
            await self._review()

    async def action_lessons(self) -> None:
        """Put the log away, and stand before what can be said of it."""
        if await self._review():
            await host_of(self).screen.run_action("lessons")

    async def _review(self) -> bool:
        """Put the log away and go on to the whole of it; whether that could be."""
        app = host_of(self)
        header = self.running.logged.journal.header
        app.close_sitting()
        if app.outcome.errors:
            await app.leave_sitting()
            return False
        await app.review_finished(header.id, header.rehearsal)
        return getattr(app.screen, "PLACE", None) is Place.REVIEW

    def action_note(self) -> None:
        from tui.live.typed import ask_note

        ask_note(host_of(self))

    def action_measured(self) -> None:
        from tui.live.typed import ask_measured

        ask_measured(host_of(self))

    def action_undo(self) -> None:
        what = last_word(self.running.sitting.state)
        if not host_of(self).say(Word.UNDO):
            return
        if self.running.sitting.state.finished:
            # What was measured or ticked since is taken back before the end is.
            host_of(self).say_aside(f"taken back: {what}")
        else:
            self.dismiss(None)

    async def action_leave(self) -> None:
        await host_of(self).leave_sitting()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def summary_text(sitting: Sitting, units: Units) -> Content:
    """A sitting in a few lines: how long, the heats of each step, time struck too cold, calls."""
    found = heat_figures(sitting)
    lines = [
        Content.styled(plain(in_units(sitting.plan.title, units)), "bold"),
        Content(f"done in {show_duration(length(sitting.state, sitting.now))}"),
        Content(""),
    ]
    for step in found.steps:
        count = counted(step.done, sitting.plan.steps[step.step].counts) if step.heats else ""
        cold = f"{short_time(step.too_cold)} too cold" if step.too_cold >= LEAST_TOO_COLD else ""
        detail = ", ".join(part for part in (count, *not_done(step.heats), cold) if part)
        style = "bold" if cold else "$text-muted"
        lines.append(
            Content.assemble(f"{step.step + 1:>2}  ", plain(in_units(step.title, units)), "  ", (detail, style))
        )
    lines.append(Content(""))
    in_all = f"struck too cold for {short_time(found.too_cold)} in all"
    lines.append(Content(in_all if found.too_cold >= LEAST_TOO_COLD else "nothing struck too cold"))
    if counts := Counter(call.call.value for call in found.calls):
        lines.append(Content("calls: " + ", ".join(f"{name} {count}" for name, count in counts.items())))
    if found.notes:
        lines.append(Content(f"notes: {len(found.notes)}"))
    return Content("\n").join(lines)

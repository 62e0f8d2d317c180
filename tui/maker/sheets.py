"""Sheets of the maker: why a figure is so, and what changes in a plan when its answers do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from plans.editing import Difference, Remade
from plans.text import plain
from plans.units import Units
from tui.screens import Sheet
from tui.widgets import KeyLine


class WhySheet(Sheet):
    """Why a figure is so, and what its key means.

    Args:
        name: what it is called
        parts: what is said of it, each with a heading; one without words is left out
    """

    OPENED_BY = "maker.why"
    DEFAULT_CSS = "WhySheet #sheet { height: auto; max-height: 90%; } WhySheet #list { height: auto; max-height: 20; }"

    def __init__(self, name: str, parts: Iterable[tuple[str, str]]) -> None:
        super().__init__()
        self._called, self._parts = name, [(heading, words) for heading, words in parts if words]

    def heading(self) -> Iterable[Widget]:
        """What the figure is called."""
        return (Static(Content.styled(plain(self._called), "bold $accent")),)

    def reading(self) -> Iterable[Widget]:
        """What is said of it."""
        texts = [Content.assemble((f"{heading}  ", "$text-muted"), plain(words)) for heading, words in self._parts]
        return (Static(Content("\n\n").join(texts)),)


class RemadeScreen(ModalScreen[bool | None]):
    """Shows what changes in a plan that was changed by hand, and asks whether it shall.

    Args:
        told: what changes and what does not, each by its heading
        units: in which figures are shown
        asked: what stands above it
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "answer(True)", show=False),
        Binding("escape,q", "answer(False)", show=False),
        Binding("down", "scroll(1)", show=False),
        Binding("up", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(10)", show=False),
        Binding("pageup", "scroll(-10)", show=False),
    ]
    DEFAULT_CSS = """
    RemadeScreen { align: center middle; background: $background 60%; }
    RemadeScreen #sheet { width: 90%; max-width: 110; height: 90%; background: $surface; padding: 1 2; }
    RemadeScreen #list { height: 1fr; }
    RemadeScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(
        self,
        told: Mapping[str, Difference],
        units: Units,
        asked: str = "The plan was changed by hand, and its answers have changed",
    ) -> None:
        super().__init__()
        self._differs, self._units, self._asked = told, units, asked

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.styled(self._asked, "bold $accent"))
            with VerticalScroll(id="list", can_focus=False):
                yield Static(self.text, markup=False)
            yield KeyLine()

    def on_mount(self) -> None:
        self.query_one(KeyLine).show(
            [
                ("enter", "take it so", "answer(True)"),
                ("↓ ↑", "more", "scroll(5)"),
                ("esc", "leave the plan as it is", "answer(False)"),
            ]
        )

    @property
    def text(self) -> Content:
        """What follows the answers, what stays, and what could not."""
        parts = [line for heading, differs in self._differs.items() for line in _told(heading, differs, self._units)]
        return Content("\n").join(parts)

    def action_answer(self, take: bool) -> None:
        """Take the plan made anew, or leave it."""
        self.dismiss(take)

    def action_scroll(self, lines: int) -> None:
        """Scroll by so many lines, up where that is below zero."""
        self.query_one("#list", VerticalScroll).scroll_relative(y=lines, animate=False)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def told_of(remade: Remade) -> dict[str, Difference]:
    """What follows the answers in a plan made anew, what stays, and what could not, each by its heading."""
    return {
        "Follows the answers": remade.followed,
        "Stays as you have it": remade.kept,
        "Yours, but could not stay": remade.gave_way,
    }


def _told(heading: str, differs: Difference, units: Units) -> list[Content]:
    lines = [Content(f"  {plain(line)}") for line in differs.lines(units)]
    return [Content.styled(heading, "bold"), *lines, Content("")] if lines else []

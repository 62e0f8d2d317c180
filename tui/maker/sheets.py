"""Sheets of the maker: why a figure is so, and what changes in a plan when its answers do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from plans.editing import Difference, Remade
from plans.text import plain
from plans.units import Units
from tui.screens import ReadingSheet, Sheet
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


class RemadeScreen(ReadingSheet[bool | None]):
    """Shows what changes in a plan that was changed by hand, and asks whether it shall.

    Args:
        told: what changes and what does not, each by its heading
        units: in which figures are shown
        asked: what stands above it
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "answer(True)", show=False),
        Binding("escape,q", "answer(False)", show=False),
    ]
    DEFAULT_CSS = "RemadeScreen #sheet { max-width: 110; }"

    def __init__(
        self,
        told: Mapping[str, Difference],
        units: Units,
        asked: str = "The plan was changed by hand, and its answers have changed",
    ) -> None:
        super().__init__()
        self._differs, self._units, self._asked = told, units, asked

    def heading(self) -> Iterable[Widget]:
        """What is asked."""
        return (Static(Content.styled(self._asked, "bold $accent")),)

    def reading(self) -> Iterable[Widget]:
        """What follows the answers, what stays, and what could not."""
        parts = [line for heading, differs in self._differs.items() for line in _told(heading, differs, self._units)]
        return (Static(Content("\n").join(parts), markup=False),)

    def show_keys(self) -> None:
        """Say the keys at the foot."""
        self.query_one(KeyLine).show(
            [
                ("enter", "take it so", "answer(True)"),
                ("↓ ↑", "more", "scroll(5)"),
                ("esc", "leave the plan as it is", "answer(False)"),
            ]
        )

    def action_answer(self, take: bool) -> None:
        """Take the plan made anew, or leave it."""
        self.dismiss(take)


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

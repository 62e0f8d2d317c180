"""The steels that are known, to choose one's card from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content
from textual.widgets.option_list import Option

from plans.text import plain
from tui.widgets import Choices, clip, fill

if TYPE_CHECKING:
    from plans.steel import Grade

_NAME, _USE = 10, 16
"""Cells for a steel's name, and for what it is used for."""


class Steels(Choices):
    """Every grade, a row each."""

    DEFAULT_CSS = """
    Steels { width: 30; height: 1fr; padding: 0 1; }
    """

    def __init__(self) -> None:
        from plans.steel import all_grades

        super().__init__(*map(_row, all_grades()), markup=False)

    @property
    def chosen(self) -> str:
        """The name of the steel that is pointed at; the first, where none is."""
        option = self.highlighted_option or self.get_option_at_index(0)
        return option.id or ""

    def step(self, steps: int) -> None:
        """Point at the next steel, or the one before."""
        if steps > 0:
            self.action_cursor_down()
        else:
            self.action_cursor_up()


def _row(grade: Grade) -> Option:
    return Option(
        Content.assemble(fill(plain(grade.name), _NAME), (clip(plain(grade.use), _USE), "$text-muted")), id=grade.name
    )

"""A widget that is drawn as a whole after a change, and painted only where it came out otherwise than before."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any, Self, TypeVar

from rich.style import Style
from textual.geometry import Region, Size
from textual.reactive import reactive
from textual.strip import Strip

from tui.widgets.still import Still

Value = TypeVar("Value")


class CachedDrawing(Still):
    """What it shows depends on its `Shown` attributes, its styles and its size, and on nothing else."""

    _strips: Sequence[Strip] = ()
    """What was drawn last."""
    _strips_size: Size | None = None
    """The size of what was drawn; None where it is of no use any more, and then all of it waits to be painted."""
    _due = False
    """Whether something that it shows has changed since it was drawn; it will be drawn then, or is not to be seen."""
    _looks: dict[str, Style] | None = None

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        """`height` strips of `width` cells."""
        raise NotImplementedError

    def look(self, part: str = "") -> Style:
        """How a part is written, by the name of its component class, or the widget itself."""
        looks = self._looks = {} if self._looks is None else self._looks
        if part not in looks:
            looks[part] = self.get_component_rich_style(part) if part else self.rich_style
        return looks[part]

    def change(self) -> None:
        """Something that it shows has changed: draw it anew, once for all that changes at one time."""
        if not self._due:
            self._due = True
            self.call_next(self._draw_due)

    def _draw_due(self) -> None:
        """Draw what has changed and was not drawn meanwhile."""
        if self._due and self._strips_size == self.size:
            self._draw_what_differs()
        elif self._due:
            self.refresh()

    def _draw_what_differs(self) -> None:
        """Draw it in its old size; only rows that differ from those before are painted."""
        before = self._strips
        self._draw()
        rows = [row for row, (old, new) in enumerate(zip(before, self._strips, strict=True)) if old != new]
        # Neighbouring rows have the same distance to their places among those that differ.
        for _, run in groupby(enumerate(rows), lambda row: row[1] - row[0]):
            (_, first), *others = run
            self.refresh(Region(0, first, self.size.width, 1 + len(others)))

    def _draw(self) -> None:
        self._strips, self._strips_size, self._due = self.draw(*self.size), self.size, False

    def render_lines(self, crop: Region) -> list[Strip]:
        # A paint that was asked for by others may come before the drawing that is due.
        if self._due and self._strips_size == self.size:
            self._draw_what_differs()
        return super().render_lines(crop)

    def render_line(self, y: int) -> Strip:
        if self._due or self._strips_size != self.size:
            self._draw()
        return self._strips[y]

    def refresh(self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False) -> Self:
        if not regions:
            self._forget_looks()
            self._strips_size = None
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._forget_looks()
        # Mostly they come out as they were: the terminal lost the focus, the pointer came by.
        self.change()

    def _forget_looks(self) -> None:
        """Its styles may be others."""
        self._looks = None


class Shown(reactive[Value]):
    """An attribute of what is drawn: set to what it is already, it does nothing; else the widget is drawn anew."""

    def __init__(self, default: Value) -> None:
        super().__init__(default, repaint=False, init=False)

    def __set_name__(self, owner: Any, name: str) -> None:
        super().__set_name__(owner, name)
        setattr(owner, f"watch_{name}", CachedDrawing.change)

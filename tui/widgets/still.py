"""Widgets that are not painted again as long as nothing about them has changed."""

from __future__ import annotations

from typing import Self

from textual.containers import Horizontal, Vertical
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Static


class Still(Widget):
    """Hands out its lines as it painted them last.

    Textual asks every widget that lies between the first and the last row that changed for all of its lines, and works
    out backgrounds, padding and filters of each; of a screen that is mostly as it was, that is most of a frame.
    """

    _painted: tuple[Region, Size, list[Strip]] | None = None
    """A part of the widget, the size that the widget had, and the lines of that part."""

    def render_lines(self, crop: Region) -> list[Strip]:
        if self._painted is None or self._painted[:2] != (crop, self.size):
            self._painted = crop, self.size, super().render_lines(crop)
        return self._painted[2]

    def refresh(self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False) -> Self:
        self._painted = None
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)


class StillRow(Horizontal, Still):
    """Widgets beside each other."""


class StillColumn(Vertical, Still):
    """Widgets below each other."""


class StillText(Static, Still):
    """A text."""

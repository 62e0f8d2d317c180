"""A widget that is drawn as a whole after a change, and then handed out line by line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget


class CachedDrawing(Widget):
    """What it shows depends on its reactive attributes, its styles and its size, and on nothing else."""

    _strips: Sequence[Strip] = ()
    _strips_size: Size | None = None

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        """`height` strips of `width` cells."""
        raise NotImplementedError

    def render_line(self, y: int) -> Strip:
        size = self.size
        if self._strips_size != size:
            self._strips, self._strips_size = self.draw(size.width, size.height), size
        return self._strips[y]

    def refresh(self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False) -> Self:
        self._strips_size = None
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def notify_style_update(self) -> None:
        self._strips_size = None
        super().notify_style_update()

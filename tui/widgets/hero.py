"""Word and figure on the ground of their state: all that is to be taken in from across the smithy."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby
from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from plans.phase import PhaseKind
from plans.record import record
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.contrast import RGB, between, glow_shown, ink_on, rgb_of
from tui.widgets.figure import Drawn, drawn_figure, drawn_word
from tui.widgets.grounds import Ground, side_cells
from tui.widgets.marks import Mark, phase_mark

_LEAST_SIDE, _MOST_SIDE = 5, 18
"""Cells of the ground at each side of word and figure: narrower it is left out, and a mark is no wider."""
_SIDE_SHARE = 7
"""Of the width, one in so many is kept for the ground at each side."""
_MARGIN = 2
"""Cells between a letter and the ground, where there is room."""
_EVEN = 8
"""The room for word and figure grows by so many cells, so that the ground does not move with every digit."""
_ROOMY = 4
"""Rows from which a word can spare one."""
_QUIET = phase_mark(PhaseKind.READY)


@record
class Lettering:
    """What is to be drawn."""

    word: str = ""
    """In large letters."""
    figure: str = ""
    """Digits and `: . - + , / °`."""
    unit: str = ""
    """The unit of the figure, written small."""
    span: str = ""
    """Between what the figure may lie, such as `29-46`; empty where nobody knows."""
    word_is_big: bool = False
    """Whether the word has the place of the figure."""
    ground: Ground = Ground.EMPTY
    """What lies round both."""
    mark: Mark = _QUIET
    """The shape of the state, which stands at both sides."""
    glow: RGB | None = None
    """The colour of the ground; None leaves the theme's."""


class Hero(CachedDrawing):
    """The word above the figure, each as large as its rows let it be."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"hero--alarm"}
    DEFAULT_CSS = """
    Hero { width: 1fr; height: 1fr; }
    Hero > .hero--alarm { color: $error; }
    """

    said: Shown[Lettering] = Shown(Lettering())
    word_rows: Shown[int] = Shown(3)
    """Rows of the smaller of the two, or 0 where the other has all of the room."""
    blink_on: Shown[bool] = Shown(True)
    """Off, an alarm is turned over; other grounds do not blink."""

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        said = self.said
        spare = self._spare(width)
        parts = self._parts(width - 2 * spare, height)
        core = max(part.width for part, _ in parts) + 2 * _MARGIN
        side = max(spare, (width - core - -core % _EVEN) // 2)
        if said.ground not in (Ground.LEVEL, Ground.STRIPES):
            side = min(side, _MOST_SIDE)
        centre = [
            row
            for place, (part, rows) in enumerate(parts)
            # A small word keeps clear of the marks above it, a large one of the figure below.
            for row in part.rows(width - 2 * side, rows, low=place == 0 and not said.word_is_big)
        ]
        sides = side_cells(said.ground, said.mark, side, height) if side else ("",) * height
        middle, beside = self.colours()
        strips = []
        for row, edge in zip(centre, sides, strict=True):
            # The right side is the left one over again: a stripe that slants the other way would be another shape.
            segments = [*_segments(edge, *beside), *_segments(row, *middle), *_segments(edge, *beside)]
            strips.append(Strip(segments, width))
        return strips

    def _spare(self, width: int) -> int:
        """Cells that word and figure leave to the ground at each side, whatever they could fill."""
        spare = width // _SIDE_SHARE
        # An alarm blinks: that is ground enough, and its word has all of the room.
        return spare if spare >= _LEAST_SIDE and self.said.ground is not Ground.ALARM else 0

    def _parts(self, width: int, height: int) -> list[tuple[Drawn, int]]:
        """Word and figure, each with the rows that it has."""
        said = self.said
        small = min(self.word_rows, height - 1)
        above, below = (height - small, small) if said.word_is_big else (small, height - small)
        parts = []
        if above:
            # A row stays free beside a word that can spare it.
            free = 1 if above >= _ROOMY else 0
            parts.append((drawn_word(said.word, width, above - free), above))
        if below:
            parts.append((drawn_figure(said.figure, said.unit, said.span, width, below), below))
        return parts

    def colours(self) -> tuple[tuple[RGB, RGB], tuple[RGB, RGB]]:
        """Ink and field: of word and figure, and of the ground beside them."""
        said = self.said
        dark, light = rgb_of(self.look().bgcolor), rgb_of(self.look().color)
        glow = glow_shown(said.glow, self.app)
        match said.ground:
            case Ground.ALARM:
                # Without colours a grey would be fainter than all else.
                field = light if self.app.no_color else rgb_of(self.look("hero--alarm").color)
                both = (ink_on(field), field) if self.blink_on else (field, ink_on(field))
                return both, both
            case Ground.FULL:
                field = light if glow is None else glow
                return (ink_on(field), field), (ink_on(field), field)
            case Ground.EMPTY:
                return (light, dark), (between(light, dark), dark)
            case _:
                return (light, dark), (light, dark) if glow is None else (ink_on(glow), glow)


def _segments(row: str, ink: RGB, field: RGB) -> list[Segment]:
    """A row of cells. A full block is ink on ink: no seams where the font leaves gaps, and it shows without colours."""
    ground, solid = _styles(ink, field)
    return [Segment("".join(run), solid if is_ink else ground) for is_ink, run in groupby(row, "█".__eq__)]


@lru_cache(maxsize=64)
def _styles(ink: RGB, field: RGB) -> tuple[Style, Style]:
    """Ink on the field, and ink on ink."""
    inks, fields = Color.from_rgb(*ink), Color.from_rgb(*field)
    return Style(color=inks, bgcolor=fields, bold=True), Style(color=inks, bgcolor=inks)

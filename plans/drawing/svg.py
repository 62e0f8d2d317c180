"""A drawing as SVG: in one colour, that of the text around it, each steel in its own pattern.

The paper's colour is `Canvas`, which every browser knows by that name.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Final

from plans.drawing.records import Drawing, Measure, Part, Pattern, Point
from plans.drawing.side_by_side import lanes
from plans.units import Shown, Units

WIDTH: Final = 640.0
"""Width of the picture with all that is written beside it, at most, in units of the picture."""
_HEIGHT: Final = 360.0
"""Height of the parts, at most."""
_LANE, _LETTER, _SMALL = 20.0, 6.6, 4.0
"""Height of a line of dimensions; width of a letter, about; and of a tick, and between things."""

_FILLS: Final = {
    Pattern.DOTTED: '<circle cx="3" cy="3" r=".9" fill="currentColor"/>',
    Pattern.HATCHED: '<path d="M-1 1 1-1M-1 7 7-1M5 7 7 5" stroke="currentColor" stroke-width="1.1"/>',
    Pattern.COUNTER: '<path d="M-1 5 1 7M-1-1 7 7M5-1 7 1" stroke="currentColor" stroke-width="1.1"/>',
    Pattern.LINED: '<path d="M3 0V6" stroke="currentColor" stroke-width="1.1"/>',
    Pattern.CHECKED: '<path d="M0 1.5H3M3 4.5H6" stroke="currentColor" stroke-width="3"/>',
}
"""A tile of six by six of each pattern that is no plain filling."""


def as_svg(drawing: Drawing, units: Units = Units.METRIC) -> str:
    """A drawing as one SVG element, which can stand in a page or be a file of its own.

    Args:
        drawing: what is drawn
        units: in which its texts are written
    """
    return "".join(_Sheet(drawing, units).lines())


class _Sheet:
    """One drawing: from places in metres to places in the picture."""

    def __init__(self, drawing: Drawing, units: Units) -> None:
        self._drawing, self._units, self._bounds = drawing, units, drawing.bounds
        self._left, self._right = (self._gutter(far=far) for far in (False, True))
        room = WIDTH - self._left - self._right
        self._scale = min(room / self._bounds.width, _HEIGHT / self._bounds.height)
        self._above, self._below = (
            _LANE * (1 + max(lanes(map(self._level_span, drawing.beside(level=True, far=far))), default=-1))
            for far in (True, False)
        )
        self._foot = self._above + self._bounds.height * self._scale + self._below + _SMALL
        self._width = max(self._left + self._bounds.width * self._scale + self._right, self._legend_width())

    def _text(self, shown: Shown) -> str:
        return self._units.text(shown)

    def _gutter(self, *, far: bool) -> float:
        """Room for the upright dimensions of one side."""
        texts = [len(self._text(one.shown)) for one in self._drawing.beside(level=False, far=far)]
        return len(texts) * 3 * _SMALL + sum(texts) * _LETTER + _SMALL

    def _place(self, point: Point) -> tuple[float, float]:
        x = self._left + (point[0] - self._bounds.left) * self._scale
        return x, self._above + (self._bounds.top - point[1]) * self._scale

    def _level_span(self, one: Measure) -> tuple[float, float]:
        """How far a level dimension reaches with its text."""
        begin, end = ((at - self._bounds.left) * self._scale for at in one.span)
        middle, half = (begin + end) / 2, len(self._text(one.shown)) * _LETTER / 2 + _SMALL
        return min(begin, middle - half), max(end, middle + half)

    def _legend_width(self) -> float:
        return sum(len(self._text(part.name)) * _LETTER + 10 * _SMALL for part in self._drawing.named)

    def lines(self) -> Iterator[str]:
        height = self._foot + (_LANE + _SMALL if self._drawing.named else 0.0)
        box = f"0 0 {self._width:.1f} {height:.1f}"
        yield f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" width="{self._width:.0f}" role="img" '
        yield 'font-family="system-ui, sans-serif" font-size="12" text-anchor="middle">'
        yield f"<title>{escape(self._text(self._drawing.said))}</title><defs>"
        for pattern, tile in _FILLS.items():
            if any(part.pattern is pattern for part in self._drawing.parts):
                yield f'<pattern id="steel-{pattern}" width="6" height="6" patternUnits="userSpaceOnUse">'
                yield f'<rect width="6" height="6" fill="Canvas"/>{tile}</pattern>'  # it hides what it lies on
        yield "</defs>"
        for part in self._drawing.parts:
            yield _filled([self._place(point) for point in part.outline], part.pattern)
        for far in (False, True):
            yield from self._level(self._drawing.beside(level=True, far=far), far=far)
            yield from self._upright(self._drawing.beside(level=False, far=far), far=far)
        for note in self._drawing.notes:
            x, y = self._place(note.at)
            yield self._written(x, y + _SMALL, note.shown, halo=True)
        yield from self._legend(self._drawing.named)
        yield "</svg>"

    def _level(self, measures: tuple[Measure, ...], *, far: bool) -> Iterator[str]:
        for one, lane in zip(measures, lanes(map(self._level_span, measures)), strict=True):
            edge = self._above if far else self._above + self._bounds.height * self._scale
            y = edge + (-1 if far else 1) * (lane * _LANE + 1.5 * _SMALL)
            begin, end = (self._left + (at - self._bounds.left) * self._scale for at in one.span)
            yield f'<path d="M{begin:.1f} {y - 3:.1f}v6M{begin:.1f} {y:.1f}H{end:.1f}m0-3v6" {_LINE}/>'
            low, high = self._level_span(one)
            yield self._written(self._left + (low + high) / 2, y - 3 if far else y + 12, one.shown)

    def _upright(self, measures: tuple[Measure, ...], *, far: bool) -> Iterator[str]:
        x = self._left + self._bounds.width * self._scale + 2 * _SMALL if far else self._left - 2 * _SMALL
        for one in measures:
            top, bottom = (self._above + (self._bounds.top - at) * self._scale for at in reversed(one.span))
            yield f'<path d="M{x - 3:.1f} {top:.1f}h6M{x:.1f} {top:.1f}V{bottom:.1f}m-3 0h6" {_LINE}/>'
            broad = len(self._text(one.shown)) * _LETTER
            beside = (1 if far else -1) * (broad / 2 + _SMALL)
            yield self._written(x + beside, (top + bottom) / 2 + _SMALL, one.shown)
            x += (1 if far else -1) * (broad + 3 * _SMALL)

    def _legend(self, named: tuple[Part, ...]) -> Iterator[str]:
        x, y = _SMALL, self._foot + _SMALL
        for part in named:
            corners = [(x, y), (x + 20, y), (x + 20, y + 12), (x, y + 12)]
            yield _filled(corners, part.pattern)
            broad = len(self._text(part.name)) * _LETTER
            yield self._written(x + 26 + broad / 2, y + 10, part.name)
            x += broad + 10 * _SMALL

    def _written(self, x: float, y: float, shown: Shown, *, halo: bool = False) -> str:
        # Over a pattern a text has a rim of the paper's colour.
        rim = ' stroke="Canvas" stroke-width="3" paint-order="stroke"' if halo else ""
        return f'<text x="{x:.1f}" y="{y:.1f}" fill="currentColor"{rim}>{escape(self._text(shown))}</text>'


_LINE: Final = 'fill="none" stroke="currentColor" stroke-width=".8"'


def _filled(corners: list[tuple[float, float]], pattern: Pattern) -> str:
    """One part, by its corners in the picture."""
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in corners)
    if pattern is Pattern.EMPTY:
        return f'<polygon points="{points}" fill="none" stroke="currentColor" stroke-dasharray="3 2"/>'
    fill = "currentColor" if pattern is Pattern.SOLID else f"url(#steel-{pattern})"
    return f'<polygon points="{points}" fill="{fill}" stroke="currentColor" stroke-width=".8"/>'

"""Hot steel drawn in its own colours: a section as it warms through, or a row of heats side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from plans.record import record
from tui.widgets.axes import TIME, Axis
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.contrast import RGB, glow_shown
from tui.widgets.plain import clip

_SHADES = " ░▒▓█"
"""From cold to hot, where there are no colours to be had."""
_COLDEST, _HOTTEST = 773.15, 1623.15
"""Black heat, and as white as a forge makes it [K]."""


@record(eq=False)
class GlowData:
    """Temperatures over a plane; equal only to itself."""

    begin: float = 0.0
    """Left edge, in SI, of what the axis measures."""
    end: float = 1.0
    """Right edge, in SI, of what the axis measures."""
    across: Axis = TIME
    """The axis below the plane."""
    at: Callable[[float, float], float] | None = None
    """Temperature [K] at a place across, and a height from 0 at the middle to 1 at the upper or lower edge."""
    mark: float | None = None
    """A place that is pointed at."""
    rows: Sequence[str] = ()
    """Names of the edges and of the middle, from the top: written at the right."""


class GlowMap(CachedDrawing):
    """The plane, two dots to a cell; below it, its axis."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"glow--axis"}
    DEFAULT_CSS = """
    GlowMap { width: 1fr; height: 1fr; }
    GlowMap > .glow--axis { color: $text-muted; }
    """

    data: Shown[GlowData] = Shown(GlowData())

    def __init__(self, glow: Callable[[float], RGB], *, id: str | None = None) -> None:
        """A plane that is drawn with `glow`: the colour of steel at a temperature [K]."""
        super().__init__(id=id)
        self._glow = glow

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        data, axis = self.data, self.look("glow--axis")
        if data.at is None or height < 2 or width < 8:
            return [Strip.blank(width, self.look())] * height
        gutter = max((len(name) for name in data.rows), default=-1) + 1 if width >= 32 else 0
        plot, below = width - gutter, [self._axis(width - gutter)]
        if data.mark is not None and height > 3:
            below.insert(0, self._pointer(plot))
        rows = height - len(below)
        names = self._names(rows)
        strips = []
        for row in range(rows):
            name = f" {names.get(row, '')}".ljust(gutter)[:gutter]
            strips.append(Strip([*self._row(row, rows, plot), Segment(name, axis)], width))
        return [*strips, *(Strip([Segment(line.ljust(width), axis)], width) for line in below)]

    def _names(self, rows: int) -> dict[int, str]:
        """The names on the rows where they belong."""
        names, last = self.data.rows, len(self.data.rows) - 1
        return {round(place * (rows - 1) / last): name for place, name in enumerate(names)} if last > 0 else {}

    def _row(self, row: int, rows: int, plot: int) -> list[Segment]:
        upper, lower = (2 * abs((2 * row + dot + 0.5) / (2 * rows) - 0.5) for dot in (0, 1))
        found = []
        for column in range(plot):
            above, below = self._kelvin(column, plot, upper), self._kelvin(column, plot, lower)
            over, under = glow_shown(self._glow(above), self.app), glow_shown(self._glow(below), self.app)
            if over is None or under is None:
                # With a style, be it a plain one: the filter for NO_COLOR asks each segment for its.
                found.append(Segment(_shade((above + below) / 2), self.look()))
            else:
                found.append(Segment("▀", Style(color=Color.from_rgb(*over), bgcolor=Color.from_rgb(*under))))
        return found

    def _kelvin(self, column: int, plot: int, height: float) -> float:
        data = self.data
        place = data.begin + (column + 0.5) / plot * (data.end - data.begin)
        return data.at(place, height) if data.at is not None else 0.0

    def _pointer(self, plot: int) -> str:
        """A mark under the place that is pointed at."""
        data = self.data
        if data.mark is None or not data.begin <= data.mark <= data.end:
            return ""
        column = int((data.mark - data.begin) / (data.end - data.begin or 1.0) * plot)
        return " " * min(plot - 1, column) + "▲"

    def _axis(self, plot: int) -> str:
        """Round numbers, and the unit."""
        data = self.data
        step = data.across.step(data.begin, data.end, plot // 8)
        name = data.across.name(step)
        cells = [" "] * plot
        span = data.end - data.begin or 1.0
        for at, text in data.across.ticks(data.begin, data.end, step):
            _write(cells, int((at - data.begin) / span * plot), text, plot - len(name) - 1)
        _write(cells, plot - len(name), name, plot)
        return clip("".join(cells), plot)


def _write(cells: list[str], column: int, text: str, room: int) -> None:
    if column >= 0 and column + len(text) <= room:
        cells[column : column + len(text)] = text


def _shade(kelvin: float) -> str:
    share = (kelvin - _COLDEST) / (_HOTTEST - _COLDEST)
    return _SHADES[min(len(_SHADES) - 1, max(0, int(share * len(_SHADES))))]

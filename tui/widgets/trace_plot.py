"""A trace drawn as characters that each have a role; no colours yet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from math import ceil

from rich.cells import cell_len

from plans.text import plain
from tui.widgets.axes import CELSIUS, TIME, Axis
from tui.widgets.label_rows import rows_for_labels
from tui.widgets.plain import clip, fill
from tui.widgets.plotting import BRAILLE, HALF_BLOCKS, Curve, Extent, Grid, extents

Shade = tuple[float, float, str]
"""A heat: when it began and ended [s], and its label."""
Flag = tuple[float, float | None, str]
"""A call: when [s], at which temperature [K] if any, and its mark, one character."""


@dataclass(frozen=True, slots=True, eq=False)
class TraceData:
    """What a trace shows; equal only to itself, so that setting it on a widget compares nothing.

    Where `across` is no time, or `up` no temperature, read what those axes measure for "s" and "K" below.
    """

    begin: float = 0.0
    """Left edge [s]."""
    end: float = 60.0
    """Right edge [s]."""
    measured: Curve = field(default_factory=Curve)
    """The curve that is drawn whole."""
    modelled: Curve = field(default_factory=Curve)
    """The curve that is drawn dotted."""
    spans: Sequence[Shade] = ()
    """Stretches of time that are shaded: heats."""
    limits: Sequence[tuple[float, str]] = ()
    """Temperature [K] and label, the most important first."""
    flags: Sequence[Flag] = ()
    """Calls, each with its mark."""
    now: float | None = None
    """Where the upright line for the present stands [s]."""
    low: float | None = None
    """Bottom [K]; None lets curves and limits decide."""
    high: float | None = None
    """Top [K]; None lets curves and limits decide."""
    across: Axis = TIME
    """What the axis from left to right measures."""
    up: Axis = CELSIUS
    """What the axis from bottom to top measures."""


class Role(IntEnum):
    """What a character is there for."""

    BLANK = 0
    MEASURED = 1
    MODELLED = 2
    LIMIT = 3
    FLAG = 4
    NOW = 5
    CURSOR = 6
    AXIS = 7


_SHORTEST = 1e-3
"""A trace that is shorter is drawn as one of no time: its columns would lie closer together than numbers can [s]."""


class TracePlot:
    """`width` x `height` cells: the plot, temperatures on its right, spans and times below, as far as they fit.

    Args:
        blocks: half blocks in place of braille
        cursor: time of the reading line [s]
    """

    def __init__(
        self,
        data: TraceData,
        width: int,
        height: int,
        *,
        blocks: bool = False,
        cursor: float | None = None,
    ) -> None:
        self.width, self.height = width, height
        self.characters = [[" "] * width for _ in range(height)]
        self.roles = [[int(Role.BLANK)] * width for _ in range(height)]
        self.shaded = [False] * width
        """Whether a column lies in a span; the columns of labels never do."""
        if data.end - data.begin < _SHORTEST:
            data = replace(data, end=data.begin)
        self._data, self._blocks = data, blocks
        self._dots = HALF_BLOCKS if blocks else BRAILLE
        gutter = self._gutter()
        self.plot_width = width - gutter
        self.plot_height = height - (2 if data.spans and height >= 7 else 1 if height >= 4 else 0)
        columns = self.plot_width * self._dots.across
        measured = extents(data.measured, data.begin, data.end, columns)
        modelled = extents(data.modelled, data.begin, data.end, columns)
        self.low, self.high = self._ends(measured, modelled)
        self._draw_limits()
        self._draw_upright(data.now, Role.NOW)
        self._draw_upright(cursor, Role.CURSOR)
        self._draw_curve(modelled, Role.MODELLED)
        self._draw_curve(measured, Role.MEASURED)
        self._draw_flags()
        if gutter:
            self._label_up()
        self._shade_spans()
        if self.plot_height < height:
            self._label_across()

    def kelvin_at(self, row: int) -> float:
        """Temperature in the middle of a row of the plot [K]."""
        return self.high - (row + 0.5) / self.plot_height * (self.high - self.low)

    def _gutter(self) -> int:
        """Columns for the labels of temperature: none where the plot would become too narrow."""
        widest = max((len(plain(label)) + 7 for _, label in self._data.limits), default=6)
        return 0 if self.width < 32 else min(widest, self.width // 4)

    def _ends(self, *curves: Sequence[Extent | None]) -> tuple[float, float]:
        """Bottom and top of the plot [K]."""
        seen = [extent for curve in curves for extent in curve if extent is not None]
        lows = [extent[0] for extent in seen] + [kelvin for kelvin, _ in self._data.limits]
        highs = [extent[1] for extent in seen] + [kelvin for kelvin, _ in self._data.limits]
        low, high = min(lows, default=293.15), max(highs, default=1573.15)
        room = 0.04 * max(high - low, 25.0)
        low = low - room if self._data.low is None else self._data.low
        high = high + room if self._data.high is None else self._data.high
        return low, high if high > low else low + 1.0

    def _column(self, at: float, columns: int) -> int | None:
        """The column of a time, of `columns` over the whole plot; None beyond the edges."""
        data = self._data
        if not data.begin <= at <= data.end or data.end <= data.begin or not columns:
            return None
        return min(columns - 1, int((at - data.begin) / (data.end - data.begin) * columns))

    def _row(self, kelvin: float, rows: int) -> int:
        """The row of a temperature, of `rows` over the whole plot; beyond the edges the nearest."""
        return int(min(max(0.0, (self.high - kelvin) / (self.high - self.low) * rows), rows - 1))

    def _put(self, grid: Grid, role: Role, sign: str | None = None) -> None:
        """The cells that hold dots, drawn as these or all as one sign."""
        characters = grid.dots.characters
        for place, bits in grid.cells.items():
            row, column = divmod(place, grid.width)
            self.characters[row][column] = sign or characters[bits]
            self.roles[row][column] = role

    def _draw_curve(self, curve: Sequence[Extent | None], role: Role) -> None:
        """The measured curve whole, a modelled one dotted: every other column of dots."""
        grid = Grid(self.plot_width, self.plot_height, self._dots)
        dotted = role is Role.MODELLED
        for column, extent in enumerate(curve):
            if extent is not None and not (dotted and column % 2):
                low, high = extent
                grid.upright(column, self._row(high, grid.rows), self._row(low, grid.rows))
        self._put(grid, role, "·" if dotted and self._blocks else None)

    def _draw_limits(self) -> None:
        """Dashes, as high as the dots allow, so that one sees on which side of a limit the curve is."""
        grid = Grid(self.plot_width, self.plot_height, self._dots)
        for kelvin, _ in self._data.limits:
            if self.low <= kelvin <= self.high:
                grid.dash(self._row(kelvin, grid.rows))
        self._put(grid, Role.LIMIT, "─" if self._blocks else None)

    def _draw_upright(self, at: float | None, role: Role) -> None:
        column = None if at is None else self._column(at, self.plot_width)
        if column is not None:
            for row in range(self.plot_height):
                self.characters[row][column], self.roles[row][column] = "│", role

    def _draw_flags(self) -> None:
        """Each mark above the point that it is about, or at the top; where one stands already, the next row up."""
        for at, kelvin, mark in self._data.flags:
            column = self._column(at, self.plot_width)
            sign = clip(plain(mark), 1)
            if column is None or not sign.strip():
                continue
            row = 0 if kelvin is None else max(0, self._row(kelvin, self.plot_height) - 1)
            while row and self.roles[row][column] == Role.FLAG:
                row -= 1
            self.characters[row][column], self.roles[row][column] = sign, Role.FLAG

    def _write(self, row: int, column: int, text: str, role: Role) -> None:
        """Write from a column on; a character of two cells leaves an empty second one, one of none joins the last."""
        line, place = self.characters[row], column
        for character in text:
            wide = cell_len(character)
            if place + wide > self.width:
                return
            if wide == 0 and place > column:
                line[place - 1] += character
            for cell in range(place, place + wide):
                # What is written over half of a wide character leaves its other half blank.
                if line[cell] == "" and cell == place:
                    line[cell - 1] = " "
                if cell + 1 < self.width and line[cell + 1] == "":
                    line[cell + 1] = " "
                line[cell] = character if cell == place else ""
                self.roles[row][cell] = role
            place += wide

    def _label_up(self) -> None:
        """Limits with their names; round numbers on the rows between, where nothing else stands."""
        rows, room, up = self.plot_height, self.width - self.plot_width - 2, self._data.up
        step = up.step(self.low, self.high, rows // 3)
        limits = [limit for limit in self._data.limits if self.low <= limit[0] <= self.high][:rows]
        limits.sort(key=lambda limit: -limit[0])
        places = rows_for_labels([float(self._row(value, rows)) for value, _ in limits], rows)
        for row, (value, label) in zip(places, limits, strict=True):
            text = f"{up.label(up.shown(value), step)} {plain(label)}"
            self._write(row, self.plot_width + 1, fill(text, room).rstrip(), Role.AXIS)
        taken = {near for place in places for near in (place - 1, place, place + 1)}
        for value, text in up.ticks(self.low, self.high, step):
            row = self._row(value, rows)
            if row not in taken:
                taken |= {row - 1, row, row + 1}
                self._write(row, self.plot_width + 1, clip(text, room), Role.AXIS)

    def _shade_spans(self) -> None:
        """The columns of each span, and below the plot a bracket with its label."""
        for began, ended, label in self._data.spans:
            left = self._column(max(began, self._data.begin), self.plot_width)
            last = self._column(min(ended, self._data.end), self.plot_width)
            if left is None or last is None or ended < began:
                continue
            # A span ends before the column that begins at its end.
            share = (ended - self._data.begin) / (self._data.end - self._data.begin)
            right = max(left, min(last, ceil(share * self.plot_width) - 1))
            # Where one heat follows on the other, only every other one is shaded.
            shade = not (left and self.shaded[left - 1])
            self.shaded[left : right + 1] = [shade] * (right + 1 - left)
            if self.height - self.plot_height == 2:
                wide = right + 1 - left
                name = clip(plain(label), wide)
                bracket = (
                    f"└{f' {name} ' if wide > len(name) + 4 else name:─^{wide - 2}}┘" if wide > len(name) + 1 else name
                )
                self._write(self.plot_height, left, bracket, Role.AXIS)

    def _label_across(self) -> None:
        """Round numbers from the left edge on, the unit at the end."""
        data, row = self._data, self.height - 1
        step = data.across.step(data.begin, data.end, self.plot_width // 10)
        name = data.across.name(step)
        room = self.plot_width - len(name) - 1
        for at, text in data.across.ticks(data.begin, data.end, step):
            column = self._column(at, self.plot_width)
            if column is not None and column + len(text) <= room:
                self._write(row, column, text, Role.AXIS)
        if room >= 0:
            self._write(row, self.plot_width - len(name), name, Role.AXIS)
        if self.plot_width < self.width:
            self._write(row, self.plot_width + 1, clip(data.up.unit, self.width - self.plot_width - 1), Role.AXIS)

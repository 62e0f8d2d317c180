"""A trace drawn as characters that each have a role; no colours yet."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum
from typing import Final

from rich.cells import cell_len

from plans.text import plain
from tui.widgets.label_rows import rows_for_labels
from tui.widgets.plain import clip, fill
from tui.widgets.plotting import Grid
from tui.widgets.trace_layout import Stretch, TraceLayout


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
    FIRST = 8
    SECOND = 9
    THIRD = 10
    FOURTH = 11
    FIFTH = 12


SERIES: Final = (Role.FIRST, Role.SECOND, Role.THIRD, Role.FOURTH, Role.FIFTH)
"""The roles of the curves that are laid over one another, in order."""
_LETTERS_APART: Final = 16
"""A series has its letter on it so often, about [cells]."""


class TracePlot:
    """The cells of a trace, row by row.

    Args:
        laid: where everything lies
    """

    def __init__(self, laid: TraceLayout) -> None:
        self.laid = laid
        """Where everything lies."""
        self.characters = [[" "] * laid.width for _ in range(laid.height)]
        self.roles = [[int(Role.BLANK)] * laid.width for _ in range(laid.height)]
        self.shaded = [False] * laid.width
        """Whether a column lies in a span; the columns of labels never do."""
        self._draw_limits()
        self._draw_upright(laid.now, Role.NOW)
        self._draw_upright(laid.cursor, Role.CURSOR)
        self._draw_curve(laid.modelled, Role.MODELLED, dotted=True)
        self._draw_curve(laid.measured, Role.MEASURED)
        self._draw_series()
        self._draw_flags()
        if laid.plot_width < laid.width:
            self._label_up()
        self._shade_spans()
        if laid.plot_height < laid.height:
            self._label_across()

    def _grid(self) -> Grid:
        return Grid(self.laid.plot_width, self.laid.plot_height, self.laid.dots)

    def _put(self, grid: Grid, role: Role, sign: str | None = None) -> None:
        """The cells that hold dots, drawn as these or all as one sign."""
        characters = grid.dots.characters
        for place, bits in grid.cells.items():
            row, column = divmod(place, grid.width)
            self.characters[row][column] = sign or characters[bits]
            self.roles[row][column] = role

    def _draw_curve(self, curve: Sequence[Stretch | None], role: Role, dotted: bool = False) -> None:
        """A measured curve whole, a modelled one dotted: every other column of dots."""
        grid = self._grid()
        for column, stretch in enumerate(curve):
            if stretch is not None and not (dotted and column % 2):
                grid.upright(column, *stretch)
        self._put(grid, role, "·" if dotted and self.laid.blocks else None)

    def _draw_series(self) -> None:
        """Each curve in its role, and on it its letter, each at another place, so that no two of them meet."""
        for role, (_, measured, modelled) in zip(SERIES, self.laid.series, strict=False):
            self._draw_curve(modelled, role, dotted=True)
            self._draw_curve(measured, role)
        dots, count = self.laid.dots, len(self.laid.series)
        for number, (role, (sign, *curves)) in enumerate(zip(SERIES, self.laid.series, strict=False)):
            ends = [column for column in range(self.laid.plot_width) if self._row_of(curves, column) is not None]
            if not ends or not sign.strip():
                continue
            # The last cell that it has as well: where one curve goes on longer than the others, that is seen.
            first = ends[0] + 1 + number * _LETTERS_APART // count
            for column in {*range(first, ends[-1], _LETTERS_APART), ends[-1]}:
                row = self._row_of(curves, column)
                if row is not None:
                    self.characters[row // dots.down][column] = sign
                    self.roles[row // dots.down][column] = role

    def _row_of(self, curves: Sequence[Sequence[Stretch | None]], cell: int) -> int | None:
        """The highest row of dots of a curve in a column of cells; None where it has a gap."""
        across = self.laid.dots.across
        columns = range(cell * across, (cell + 1) * across)
        return min((found[0] for curve in curves for at in columns if (found := curve[at]) is not None), default=None)

    def _draw_limits(self) -> None:
        """Dashes, as high as the dots allow, so that one sees on which side of a limit the curve is."""
        laid, grid = self.laid, self._grid()
        for kelvin, _ in laid.limits:
            if laid.low <= kelvin <= laid.high:
                grid.dash(laid.row(kelvin, grid.rows))
        self._put(grid, Role.LIMIT, "─" if laid.blocks else None)

    def _draw_upright(self, column: int | None, role: Role) -> None:
        if column is not None:
            for row in range(self.laid.plot_height):
                self.characters[row][column], self.roles[row][column] = "│", role

    def _draw_flags(self) -> None:
        """Where a mark stands already, the next one goes a row up."""
        for column, row, sign in self.laid.flags:
            while row and self.roles[row][column] == Role.FLAG:
                row -= 1
            self.characters[row][column], self.roles[row][column] = sign, Role.FLAG

    def _write(self, row: int, column: int, text: str, role: Role) -> None:
        """Write from a column on; a character of two cells leaves an empty second one, one of none joins the last."""
        line, place = self.characters[row], column
        for character in text:
            wide = cell_len(character)
            if place + wide > self.laid.width:
                return
            if wide == 0 and place > column:
                line[place - 1] += character
            for cell in range(place, place + wide):
                # What is written over half of a wide character leaves its other half blank.
                if line[cell] == "" and cell == place:
                    line[cell - 1] = " "
                if cell + 1 < self.laid.width and line[cell + 1] == "":
                    line[cell + 1] = " "
                line[cell] = character if cell == place else ""
                self.roles[row][cell] = role
            place += wide

    def _label_up(self) -> None:
        """Limits with their names; round numbers on the rows between, where nothing else stands."""
        laid = self.laid
        rows, room, up = laid.plot_height, laid.width - laid.plot_width - 2, laid.up
        step = up.step(laid.low, laid.high, rows // 3)
        limits = [limit for limit in laid.limits if laid.low <= limit[0] <= laid.high][:rows]
        limits.sort(key=lambda limit: -limit[0])
        places = rows_for_labels([float(laid.row(value, rows)) for value, _ in limits], rows)
        for row, (value, label) in zip(places, limits, strict=True):
            text = f"{up.label(up.shown(value), step)} {plain(label)}"
            self._write(row, laid.plot_width + 1, fill(text, room).rstrip(), Role.AXIS)
        taken = {near for place in places for near in (place - 1, place, place + 1)}
        for value, text in up.ticks(laid.low, laid.high, step):
            row = laid.row(value, rows)
            if row not in taken:
                taken |= {row - 1, row, row + 1}
                self._write(row, laid.plot_width + 1, clip(text, room), Role.AXIS)

    def _shade_spans(self) -> None:
        """The columns of each span, and below the plot a bracket with its label."""
        for left, right, label in self.laid.spans:
            # Where one heat follows on the other, only every other one is shaded.
            shade = not (left and self.shaded[left - 1])
            self.shaded[left : right + 1] = [shade] * (right + 1 - left)
            if self.laid.height - self.laid.plot_height == 2:
                wide = right + 1 - left
                name = clip(plain(label), wide)
                bracket = (
                    f"└{f' {name} ' if wide > len(name) + 4 else name:─^{wide - 2}}┘" if wide > len(name) + 1 else name
                )
                self._write(self.laid.plot_height, left, bracket, Role.AXIS)

    def _label_across(self) -> None:
        """Round numbers from the left edge on, the unit at the end."""
        laid, row = self.laid, self.laid.height - 1
        step = laid.across.step(laid.begin, laid.end, laid.plot_width // 10)
        name = laid.across.name(step)
        room = laid.plot_width - len(name) - 1
        for at, text in laid.across.ticks(laid.begin, laid.end, step):
            column = laid.column(at)
            if column is not None and column + len(text) <= room:
                self._write(row, column, text, Role.AXIS)
        if room >= 0:
            self._write(row, laid.plot_width - len(name), name, Role.AXIS)
        if laid.plot_width < laid.width:
            self._write(row, laid.plot_width + 1, clip(laid.up.unit, laid.width - laid.plot_width - 1), Role.AXIS)

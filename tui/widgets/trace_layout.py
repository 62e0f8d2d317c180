"""Where everything of a trace lies in the cells that there are for it; nothing is drawn yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from math import ceil

from plans.record import record
from plans.text import plain
from tui.widgets.axes import CELSIUS, TIME, Axis
from tui.widgets.plain import clip
from tui.widgets.plotting import BRAILLE, HALF_BLOCKS, Curve, Dots, Extent, extents

Shade = tuple[float, float, str]
"""A heat: when it began and ended [s], and its label."""
Flag = tuple[float, float | None, str]
"""A call: when [s], at which temperature [K] if any, and its mark, one character."""


@record(eq=False)
class Series:
    """One of several curves that are laid over one another."""

    sign: str
    """The letter that stands on it at intervals, so that it is told from others without colour."""
    measured: Curve = field(default_factory=Curve)
    """Where it was measured: drawn whole."""
    modelled: Curve = field(default_factory=Curve)
    """Where it was modelled: drawn dotted."""


@record(eq=False)
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
    series: Sequence[Series] = ()
    """Curves of several sittings, up to five, over one another; drawn above the two."""


_SHORTEST = 1e-3
"""A trace that is shorter is drawn as one of no time: its columns would lie closer together than numbers can [s]."""

Stretch = tuple[int, int]
"""Highest and lowest row of dots in one column."""


@record
class TraceLayout:
    """A trace in `width` x `height` cells. Two that are equal are drawn alike, whatever their curves hold besides."""

    width: int
    """Cells across, those of the labels at the right among them."""
    height: int
    """Rows, those of the labels below among them."""
    blocks: bool
    """Half blocks in place of braille."""
    plot_width: int
    """Cells across that the curves have."""
    plot_height: int
    """Rows that the curves have."""
    begin: float
    """Left edge [s]."""
    end: float
    """Right edge [s]."""
    low: float
    """Bottom of the plot [K]."""
    high: float
    """Top of the plot [K]."""
    measured: tuple[Stretch | None, ...]
    """What each column of dots shows of the measured curve; None where it has a gap."""
    modelled: tuple[Stretch | None, ...]
    """What each column of dots shows of the modelled curve; None where it has a gap."""
    series: tuple[tuple[str, tuple[Stretch | None, ...], tuple[Stretch | None, ...]], ...]
    """Of each series its letter, and what each column of dots shows of it: measured, modelled."""
    limits: tuple[tuple[float, str], ...]
    """Temperature [K] and label, the most important first."""
    now: int | None
    """Column of the upright line for the present."""
    cursor: int | None
    """Column of the reading line."""
    flags: tuple[tuple[int, int, str], ...]
    """Column, row and mark of each call."""
    spans: tuple[tuple[int, int, str], ...]
    """First and last column of each heat, and its label."""
    across: Axis
    """What the axis from left to right measures."""
    up: Axis
    """What the axis from bottom to top measures."""

    @property
    def dots(self) -> Dots:
        """How its cells are divided into dots."""
        return HALF_BLOCKS if self.blocks else BRAILLE

    def kelvin_at(self, row: int) -> float:
        """Temperature in the middle of a row of the plot [K]."""
        return self.high - (row + 0.5) / self.plot_height * (self.high - self.low)

    def row(self, kelvin: float, rows: int) -> int:
        """The row of a temperature, of `rows` over the whole plot; beyond the edges the nearest."""
        return _row(kelvin, self.low, self.high, rows)

    def column(self, at: float) -> int | None:
        """The column of a time, of those of the plot; None beyond the edges."""
        return _column(at, self.begin, self.end, self.plot_width)


def lay_out(
    data: TraceData, width: int, height: int, *, blocks: bool = False, cursor: float | None = None
) -> TraceLayout:
    """Lay out a trace: the plot, temperatures on its right, spans and times below, as far as they fit.

    Args:
        data: what it shows
        width: cells across
        height: rows
        blocks: half blocks in place of braille
        cursor: time of the reading line [s]
    """
    begin, end = data.begin, data.end if data.end - data.begin >= _SHORTEST else data.begin
    plot_width = width - _gutter(data, width)
    plot_height = height - (2 if data.spans and height >= 7 else 1 if height >= 4 else 0)
    dots = HALF_BLOCKS if blocks else BRAILLE
    drawn = [data.measured, data.modelled, *(curve for one in data.series for curve in (one.measured, one.modelled))]
    curves = [extents(curve, begin, end, plot_width * dots.across) for curve in drawn]
    low, high = _ends(data, curves)
    measured, modelled, *others = (_stretches(curve, low, high, plot_height * dots.down) for curve in curves)
    return TraceLayout(
        width=width,
        height=height,
        blocks=blocks,
        plot_width=plot_width,
        plot_height=plot_height,
        begin=begin,
        end=end,
        low=low,
        high=high,
        measured=measured,
        modelled=modelled,
        series=tuple(zip([clip(plain(one.sign), 1) for one in data.series], others[::2], others[1::2], strict=True)),
        limits=tuple(data.limits),
        now=None if data.now is None else _column(data.now, begin, end, plot_width),
        cursor=None if cursor is None else _column(cursor, begin, end, plot_width),
        flags=tuple(_flags(data, begin, end, low, high, plot_width, plot_height)),
        spans=tuple(_spans(data, begin, end, plot_width)),
        across=data.across,
        up=data.up,
    )


def _gutter(data: TraceData, width: int) -> int:
    """Columns for the labels of temperature: none where the plot would become too narrow."""
    widest = max((len(plain(label)) + 7 for _, label in data.limits), default=6)
    return 0 if width < 32 else min(widest, width // 4)


def _ends(data: TraceData, curves: Sequence[Sequence[Extent | None]]) -> tuple[float, float]:
    """Bottom and top of the plot [K]."""
    seen = [extent for curve in curves for extent in curve if extent is not None]
    lows = [extent[0] for extent in seen] + [kelvin for kelvin, _ in data.limits]
    highs = [extent[1] for extent in seen] + [kelvin for kelvin, _ in data.limits]
    low, high = min(lows, default=293.15), max(highs, default=1573.15)
    room = 0.04 * max(high - low, 25.0)
    low = low - room if data.low is None else data.low
    high = high + room if data.high is None else data.high
    return low, high if high > low else low + 1.0


def _stretches(curve: Sequence[Extent | None], low: float, high: float, rows: int) -> tuple[Stretch | None, ...]:
    return tuple(
        None if extent is None else (_row(extent[1], low, high, rows), _row(extent[0], low, high, rows))
        for extent in curve
    )


def _flags(
    data: TraceData, begin: float, end: float, low: float, high: float, columns: int, rows: int
) -> Iterator[tuple[int, int, str]]:
    """Each mark above the point that it is about, or at the top."""
    for at, kelvin, mark in data.flags:
        column = _column(at, begin, end, columns)
        sign = clip(plain(mark), 1)
        if column is not None and sign.strip():
            yield column, 0 if kelvin is None else max(0, _row(kelvin, low, high, rows) - 1), sign


def _spans(data: TraceData, begin: float, end: float, columns: int) -> Iterator[tuple[int, int, str]]:
    for began, ended, label in data.spans:
        left = _column(max(began, begin), begin, end, columns)
        last = _column(min(ended, end), begin, end, columns)
        if left is not None and last is not None and ended >= began:
            # A span ends before the column that begins at its end.
            share = (ended - begin) / (end - begin)
            yield left, max(left, min(last, ceil(share * columns) - 1)), label


def _column(at: float, begin: float, end: float, columns: int) -> int | None:
    if not begin <= at <= end or end <= begin or not columns:
        return None
    return min(columns - 1, int((at - begin) / (end - begin) * columns))


def _row(kelvin: float, low: float, high: float, rows: int) -> int:
    return int(min(max(0.0, (high - kelvin) / (high - low) * rows), rows - 1))

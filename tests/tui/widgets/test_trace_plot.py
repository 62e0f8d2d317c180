from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st
from rich.cells import cell_len

from plans.units import Units
from tui.widgets.axes import temperature
from tui.widgets.plotting import Curve
from tui.widgets.trace_layout import Series, TraceData, lay_out
from tui.widgets.trace_plot import Role, TracePlot

ZERO = 273.15
SIZES = st.tuples(st.integers(1, 220), st.integers(1, 60))


def plotted(
    data: TraceData, width: int, height: int, *, blocks: bool = False, cursor: float | None = None
) -> TracePlot:
    return TracePlot(lay_out(data, width, height, blocks=blocks, cursor=cursor))


def text(sheet: TracePlot) -> list[str]:
    return ["".join(line) for line in sheet.characters]


def places(sheet: TracePlot, role: Role) -> set[tuple[int, int]]:
    """Row and column of the cells of a role."""
    return {(row, column) for row, line in enumerate(sheet.roles) for column, kind in enumerate(line) if kind == role}


def ramp(count: int = 100) -> TraceData:
    """From 1000 to 1100 degC in `count` seconds."""
    return TraceData(
        0,
        count,
        Curve([float(at) for at in range(count + 1)], [1000 + ZERO + 100 * at / count for at in range(count + 1)]),
        low=1000 + ZERO,
        high=1100 + ZERO,
    )


@st.composite
def traces(draw: st.DrawFn) -> TraceData:
    begin = draw(st.floats(0, 1e5))
    end = begin + draw(st.floats(0, 1e5))
    times = sorted(draw(st.lists(st.floats(begin - 10, end + 10), max_size=30)))
    values = st.none() | st.floats(200, 1800)
    curve = Curve(times, draw(st.lists(values, min_size=len(times), max_size=len(times))))
    labels = st.sampled_from(["cold", "burn", "刃", "[/x]", "", "e\u0301tape"])
    moments = st.floats(begin - 10, end + 10)
    return TraceData(
        begin,
        end,
        curve,
        Curve(times, [None if value is None else value - 20 for value in curve.values]),
        draw(st.lists(st.tuples(moments, moments, labels), max_size=4)),
        draw(st.lists(st.tuples(st.floats(200, 1800), labels), max_size=4)),
        draw(st.lists(st.tuples(moments, st.none() | st.floats(200, 1800), st.sampled_from("▼?刃\x1b")), max_size=5)),
        draw(st.none() | moments),
    )


@given(traces(), SIZES, st.booleans(), st.sampled_from(Units))
def test_every_row_is_as_wide_as_the_sheet(data: TraceData, size: tuple[int, int], blocks: bool, units: Units) -> None:
    width, height = size
    sheet = plotted(replace(data, up=temperature(units)), width, height, blocks=blocks, cursor=data.begin)
    assert [cell_len(line) for line in text(sheet)] == [width] * height
    assert [len(line) for line in sheet.roles] == [width] * height
    assert "\x1b" not in "".join(text(sheet))


@pytest.mark.parametrize("second", ["x", "刃"])
def test_a_label_over_half_of_a_wide_one_leaves_the_row_as_wide_as_it_was(second: str) -> None:
    """Two heats that end in the same two columns: the second one's label begins on the first one's second half."""
    spans = [(0.0, 2.0, "刃"), (1.0, 3.0, second)]
    sheet = plotted(TraceData(0.0, 10.0, spans=spans), 10, 10)
    assert {cell_len(line) for line in text(sheet)} == {10}
    assert second in text(sheet)[-2]
    assert second == "刃" or "刃" not in text(sheet)[-2]


@given(SIZES, st.booleans(), st.data())
def test_a_spike_of_one_sample_is_seen(size: tuple[int, int], blocks: bool, data: st.DataObject) -> None:
    """One reading in a thousand that touches the top of the plot."""
    peak = data.draw(st.integers(0, 999))
    kelvin: list[float | None] = [300.0] * 1000
    kelvin[peak] = 1500.0
    trace = TraceData(0, 999, Curve(range(1000), kelvin), low=200.0, high=1500.0)
    assert any(row == 0 for row, _ in places(plotted(trace, *size, blocks=blocks), Role.MEASURED))


@pytest.mark.parametrize("blocks", [False, True])
def test_a_ramp_rises_from_the_lower_left_to_the_upper_right(blocks: bool) -> None:
    sheet = plotted(ramp(), 20, 12, blocks=blocks)
    cells = places(sheet, Role.MEASURED)
    assert (sheet.laid.plot_width, sheet.laid.plot_height) == (20, 11)
    assert min(cells) == (0, 18) or min(cells) == (0, 19)
    assert (10, 0) in cells
    assert {column for _, column in cells} == set(range(20))


def test_where_the_probe_was_lost_there_is_no_curve() -> None:
    at = [float(second) for second in range(101)]
    kelvin = [None if 40 <= second <= 60 else 1300.0 for second in at]
    sheet = plotted(TraceData(0, 100, Curve(at, kelvin)), 25, 10)
    assert {column for _, column in places(sheet, Role.MEASURED)} == set(range(10)) | set(range(15, 25))


def test_a_modelled_curve_is_dotted_and_a_measured_one_hides_it() -> None:
    at = [0.0, 100.0]
    flat = Curve(at, [1300.0, 1300.0])
    modelled = plotted(TraceData(0, 100, modelled=flat), 20, 6)
    measured = plotted(TraceData(0, 100, measured=flat), 20, 6)
    both = plotted(TraceData(0, 100, measured=flat, modelled=flat), 20, 6)
    dots = {role: {sheet.characters[row][column] for row, column in places(sheet, role)} for sheet, role in (
        (modelled, Role.MODELLED), (measured, Role.MEASURED))}  # fmt: skip
    assert {(ord(sign) - 0x2800).bit_count() for sign in dots[Role.MODELLED]} == {1}
    assert {(ord(sign) - 0x2800).bit_count() for sign in dots[Role.MEASURED]} == {2}
    assert places(both, Role.MEASURED) == places(measured, Role.MEASURED)
    assert not places(both, Role.MODELLED)


def test_without_braille_there_is_none() -> None:
    flat = Curve([0.0, 100.0], [1300.0, 1300.0])
    other = Curve([0.0, 100.0], [1400.0, 1400.0])
    sheet = plotted(TraceData(0, 100, flat, other, limits=[(1350.0, "cold")]), 40, 12, blocks=True)
    drawn = "".join(text(sheet))
    assert not any("\u2800" <= sign <= "\u28ff" for sign in drawn)
    assert {sheet.characters[row][column] for row, column in places(sheet, Role.MODELLED)} == {"·"}
    assert {sheet.characters[row][column] for row, column in places(sheet, Role.LIMIT)} == {"─"}


def test_limits_are_dashed_across_and_named_at_the_right() -> None:
    data = TraceData(0, 60, limits=((1150 + ZERO, "cold"), (1320 + ZERO, "burn")), low=1000 + ZERO, high=1400 + ZERO)
    sheet = plotted(data, 60, 21)  # 20 rows of 20 degrees and one of times
    burn, cold = 4, 12
    assert {row for row, _ in places(sheet, Role.LIMIT)} == {burn, cold}
    assert text(sheet)[burn][sheet.laid.plot_width :].strip() == "1320 burn"
    assert text(sheet)[cold][sheet.laid.plot_width :].strip() == "1150 cold"
    assert text(sheet)[20].rstrip().endswith("degC")
    # Round numbers stand in between, never right beside a limit.
    numbers = {row: line[sheet.laid.plot_width :].strip() for row, line in enumerate(text(sheet)[:20])}
    assert numbers[0] == "1400"
    assert not any(numbers[row] for row in (burn - 1, burn + 1, cold - 1, cold + 1))


def test_limits_that_meet_are_piled() -> None:
    data = TraceData(0, 60, limits=((1500.0, "one"), (1500.5, "two"), (1501.0, "three")), low=1000.0, high=2000.0)
    sheet = plotted(data, 60, 12)
    said = [line[sheet.laid.plot_width :].strip() for line in text(sheet)]
    rows = [next(row for row, label in enumerate(said) if label.endswith(name)) for name in ("three", "two", "one")]
    assert rows == [rows[0], rows[0] + 1, rows[0] + 2]


def test_times_below() -> None:
    """25 minutes on 70 columns: a label every five minutes, 14 columns apart."""
    sheet = plotted(TraceData(0, 1500, limits=((1500.0, "x" * 20),)), 95, 10)
    assert sheet.laid.plot_width == 72
    sheet = plotted(TraceData(0, 1500), 76, 10)
    assert sheet.laid.plot_width == 70
    row = text(sheet)[9]
    assert {column: row[column : column + 2].strip() for column in (0, 14, 28, 42, 56)} == {
        0: "0", 14: "5", 28: "10", 42: "15", 56: "20",
    }  # fmt: skip
    assert row[:70].split() == ["0", "5", "10", "15", "20", "min"]


def test_short_times_in_minutes_and_seconds() -> None:
    row = text(plotted(TraceData(60, 120), 30, 6))[5]
    assert row.split() == ["1:00", "1:30", "m:s"]


def test_heats_that_follow_each_other_are_shaded_in_turn_and_bracketed() -> None:
    data = TraceData(0, 300, spans=((0, 100, "1"), (100, 200, "2"), (200, 300, "[b]")))
    sheet = plotted(data, 30, 10)
    assert sheet.shaded == [True] * 10 + [False] * 10 + [True] * 10
    assert text(sheet)[8].startswith("└── 1 ───")
    assert "[b]" in text(sheet)[8]
    apart = plotted(TraceData(0, 300, spans=((0, 90, "1"), (150, 200, "2"))), 30, 10)
    assert apart.shaded == [True] * 9 + [False] * 6 + [True] * 5 + [False] * 10


def test_calls_stand_above_what_they_are_about_and_never_on_each_other() -> None:
    data = TraceData(
        0, 100, flags=((50.0, 1300.0, "▼"), (50.0, 1300.0, "▲"), (20.0, None, "?"), (500.0, 1300.0, "!")),
        low=1000.0, high=1600.0,
    )  # fmt: skip
    sheet = plotted(data, 20, 7)
    assert places(sheet, Role.FLAG) == {(2, 10), (1, 10), (0, 4)}
    assert (sheet.characters[2][10], sheet.characters[1][10], sheet.characters[0][4]) == ("▼", "▲", "?")


def test_now_and_the_reading_line_stand_upright() -> None:
    sheet = plotted(TraceData(0, 100, now=75.0), 20, 6, cursor=25.0)
    assert {column for _, column in places(sheet, Role.NOW)} == {15}
    assert {column for _, column in places(sheet, Role.CURSOR)} == {5}
    assert len(places(sheet, Role.CURSOR)) == sheet.laid.plot_height == 5


@pytest.mark.parametrize("blocks", [False, True])
def test_curves_over_one_another_are_told_apart_by_their_letters(blocks: bool) -> None:
    """Also where they lie upon one another all along, and one goes on longer than the other."""
    short, long = (Curve([0.0, end], [1300.0, 1300.0]) for end in (50.0, 100.0))
    series = [Series("A", long), Series("B", modelled=short)]
    sheet = plotted(TraceData(0, 100, series=series), 30, 8, blocks=blocks)
    signs = {sign: [column for line in text(sheet) for column in range(30) if line[column] == sign] for sign in "AB"}
    assert len(signs["A"]) >= 2
    assert signs["A"][-1] == 29
    assert 14 <= signs["B"][-1] <= 15
    assert {column for _, column in places(sheet, Role.FIRST)} >= set(range(16, 30))

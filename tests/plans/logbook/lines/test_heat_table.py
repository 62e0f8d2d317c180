"""The columns of the heat table, and the one form of a time too cold."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.logbook.figures.of_a_sitting import HeatEnd, HeatFigures
from plans.logbook.lines.heat_table import COLUMNS, not_done, short_time, used_columns
from plans.sitting.events import Basis
from plans.units import Units

WELD = HeatFigures(
    heat=2,
    in_fire=160.0,
    soak=60.0,
    strike=16.0,
    air=0.0,
    hold=0.0,
    too_cold=0.0,
    peak=1513.15,
    leaving=1513.15,
    lowest_struck=1413.15,
    basis=Basis.MEASURED,
)


def texts(heat: HeatFigures, units: Units, *, unit: bool = True) -> dict[str, str]:
    return {column.title: column.text(heat, units, unit=unit) for column in COLUMNS}


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0.5, "0.5 s"),
        (5.25, "5.2 s"),
        (9.94, "9.9 s"),
        (9.97, "10 s"),
        (41.5, "42 s"),
        (59.4, "59 s"),
        (59.5, "1:00"),
        (72, "1:12"),
        (3672.0, "1:01:12"),
    ],
)
def test_a_short_time_has_tenths_while_they_tell(seconds: float, shown: str) -> None:
    assert short_time(seconds) == shown


@pytest.mark.parametrize(("too_cold", "shown"), [(0.0, ""), (0.49, ""), (0.5, "0.5 s"), (12.3, "12 s")])
def test_less_than_half_a_second_too_cold_is_not_spoken_of(too_cold: float, shown: str) -> None:
    assert texts(replace(WELD, too_cold=too_cold), Units.METRIC)["too cold"] == shown


def test_a_heat_in_the_units_that_are_set() -> None:
    metric, inch = texts(WELD, Units.METRIC), texts(WELD, Units.INCH)
    assert (metric["heat"], metric["in fire"], metric["soak"], metric["struck"]) == ("2", "2:40", "1:00", "0:16")
    assert (metric["peak"], metric["lowest struck"], metric["basis"]) == ("1240 degC", "1140 degC", "measured")
    # 1240 * 9/5 + 32 = 2264, 1140 * 9/5 + 32 = 2084
    assert (inch["peak"], inch["lowest struck"]) == ("2264 degF", "2084 degF")
    assert texts(WELD, Units.INCH, unit=False)["peak"] == "2264"
    assert texts(replace(WELD, peak=None), Units.METRIC)["peak"] == "--"


def test_a_column_in_which_no_heat_has_anything_is_left_out() -> None:
    cycle = replace(WELD, strike=0.0, lowest_struck=None, air=60.0)
    assert [column.title for column in used_columns([WELD])] == [
        "heat",
        "in fire",
        "soak",
        "leaving",
        "struck",
        "lowest struck",
        "peak",
        "basis",
    ]
    assert "air" in [column.title for column in used_columns([WELD, cycle])]
    assert "struck" not in [column.title for column in used_columns([cycle])]
    assert used_columns([]) == ()


def test_a_heat_that_was_cut_off_says_so_and_counts_apart() -> None:
    cut, goes_on = replace(WELD, end=HeatEnd.CUT_OFF), replace(WELD, end=HeatEnd.UNDER_WAY)
    assert "remark" not in [column.title for column in used_columns([WELD])]
    assert "remark" in [column.title for column in used_columns([WELD, cut])]
    assert [texts(heat, Units.METRIC)["remark"] for heat in (WELD, cut, goes_on)] == ["", "cut off", "under way"]
    assert not_done([WELD]) == []
    assert not_done([cut, WELD, cut, goes_on]) == ["2 cut off", "1 under way"]


def test_only_what_went_wrong_warns() -> None:
    assert [column.title for column in COLUMNS if column.warns] == ["too cold"]

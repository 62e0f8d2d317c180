"""Durations, clocks and counts as they are printed."""

from __future__ import annotations

import pytest

from plans.shown import counted, show_clock, show_duration, show_money


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (show_duration(250), "4 min 10 s"),
        (show_duration(59.7), "1 min"),
        (show_duration(7200), "2 h"),
        (show_duration(0), "0 s"),
        (show_duration(-0.2), "0 s"),
        (show_duration(-5), "-5 s"),
        (show_duration(86399), "24 h"),
        (show_duration(float("inf")), "--"),
        (show_clock(250), "4:10"),
        (show_clock(4328), "1:12:08"),
        (show_clock(59.6), "1:00"),
        (show_clock(3599.6), "1:00:00"),
        (show_clock(-5), "-0:05"),
        (show_clock(-0.4), "0:00"),
        (show_clock(float("nan")), "--"),
        (show_money(0.0141), "0.01"),
        (show_money(12.4), "12.40"),
        (show_money(1237.6), "1240"),
    ],
)
def test_prints(shown: str, text: str) -> None:
    assert shown == text


@pytest.mark.parametrize(("count", "text"), [(0, "0 heats"), (1, "1 heat"), (2, "2 heats")])
def test_one_of_a_thing_is_no_plural(count: int, text: str) -> None:
    assert counted(count, "heat") == text

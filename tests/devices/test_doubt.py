"""Readings that jump."""

from __future__ import annotations

from devices.doubt import JUMPED, Doubt
from plans.reading import Reading


def judged(*kelvins: float | None, every: float = 0.25) -> list[float | str | None]:
    doubt = Doubt(300.0)
    out: list[float | str | None] = []
    for index, kelvin in enumerate(kelvins):
        reading = doubt.judge(Reading(index * every, kelvin, "open circuit" if kelvin is None else None))
        out.append(reading.fault or reading.kelvin)
    return out


def test_a_lone_outlier_is_flagged_and_forgotten() -> None:
    assert judged(1000, 1500, 1001, 400, 1002) == [1000, JUMPED, 1001, JUMPED, 1002]


def test_a_step_is_believed_at_the_second_reading() -> None:
    assert judged(300, 1200, 1210, 1220) == [300, JUMPED, 1210, 1220]


def test_what_steel_can_do_is_believed() -> None:
    assert judged(1500, 1250, 960, 700) == [1500, 1250, 960, 700]


def test_faults_pass_and_change_nothing() -> None:
    assert judged(1000, None, 1001, 1500, None, 1002) == [1000, "open circuit", 1001, JUMPED, "open circuit", 1002]


def test_after_a_long_gap_anything_is_believed() -> None:
    assert judged(300, 1200, 300, every=10.0) == [300, 1200, 300]


def test_scattered_outliers_do_not_bear_each_other_out() -> None:
    assert judged(1000, 1500, 400, 2000, 1000) == [1000, JUMPED, JUMPED, JUMPED, 1000]

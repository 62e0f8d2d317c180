"""What the rehearsal quenches in, by the plan's words."""

from __future__ import annotations

import pytest

from devices.rehearsal.bar import Bar
from devices.rehearsal.bath import bath_of
from plans.shapes import Section

ICE = 273.15
MOMENT = 0.25


def seconds_to(celsius: float, medium: str, side: float = 0.010) -> float:
    bar, bath, passed = Bar(Section(side, side), 0.2, 850.0 + ICE), bath_of(medium), 0.0
    while bar.skin > celsius + ICE and passed < 600.0:
        conductance = bath.conductance(bar.skin)
        bar.step(MOMENT, conductance * (bath.kelvin - bar.skin), conductance)
        passed += MOMENT
    return passed


def test_media_quench_in_the_order_of_their_severity() -> None:
    """Brine, water, oil, air, as Grossmann's H has them: 5, 2, 0.7, 0.02; from memory."""
    times = [
        seconds_to(400.0, medium, 0.025) for medium in ("brine", "water", "oil at {55 degC}", "still air, fan off")
    ]
    assert times == sorted(times)
    assert times[2] > 1.3 * times[1]
    assert times[3] > 5.0 * times[2]


@pytest.mark.parametrize(
    ("medium", "celsius"),
    [
        ("oil at {60 degC}", 60.0),
        ("water, {104 degF}", 40.0),
        ("molten salt at {220 degC}", 220.0),
        ("Oil {warm}", 55.0),
    ],
)
def test_a_bath_has_the_temperature_that_the_plan_writes(medium: str, celsius: float) -> None:
    assert bath_of(medium).kelvin == pytest.approx(celsius + ICE, abs=0.3)
    assert seconds_to(celsius - 1.0, medium) == 600.0, "work gets no colder than its bath"
    assert seconds_to(celsius + 5.0, medium) < 120.0


def test_wire_is_quenched_without_a_swing_past_the_bath() -> None:
    bar, bath = Bar(Section(0.0005, 0.0005), None, 850.0 + ICE), bath_of("brine")
    for _ in range(40):
        before, conductance = bar.skin, bath.conductance(bar.skin)
        bar.step(30.0, conductance * (bath.kelvin - bar.skin), conductance)
        assert bath.kelvin - 0.01 <= bar.skin <= before

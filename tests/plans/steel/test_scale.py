"""Scale: more with heat and time, and more again when it is knocked off."""

from __future__ import annotations

from math import nan, sqrt

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.steel.errors import SteelError
from plans.steel.history import hold
from plans.steel.scale import METAL_FOR_SCALE, SCALE_FACTOR, mass_share, scale_loss, scale_thickness, share_lost
from plans.units import Units, kelvin

hot = st.floats(kelvin(700), kelvin(1250))
seconds = st.floats(1, 7200)


@given(hot, seconds, st.floats(0.1, 50))
def test_more_when_hotter_and_longer(at: float, time: float, more: float) -> None:
    assert scale_thickness(at + more, time) > scale_thickness(at, time)
    assert scale_thickness(at, time + more) > scale_thickness(at, time)


@given(hot, seconds)
def test_a_hold_as_a_history(at: float, time: float) -> None:
    assert scale_loss(hold(at, time)).value == pytest.approx(scale_thickness(at, time) * METAL_FOR_SCALE)


@given(hot, seconds, st.integers(1, 6))
def test_scale_knocked_off_grows_anew(at: float, time: float, pieces: int) -> None:
    cleaned = [time * i / pieces for i in range(1, pieces)]
    whole, broken = scale_loss(hold(at, time)), scale_loss(hold(at, time), cleaned)
    assert broken.value == pytest.approx(whole.value * sqrt(pieces))


@given(st.lists(st.tuples(st.floats(1, 300), st.floats(300, 1550)), min_size=2, max_size=6), seconds)
def test_a_longer_history_never_costs_less(steps: list[tuple[float, float]], more: float) -> None:
    at, history = 0.0, []
    for step, temperature in steps:
        at += step
        history.append((at, temperature))
    longer = [*history, (at + more, history[-1][1])]
    assert scale_loss(longer).value >= scale_loss(history).value


def test_cleaning_before_and_after_changes_nothing() -> None:
    history = hold(kelvin(1200), 300)
    assert scale_loss(history, [-5, 0, 300, 1e9]).value == pytest.approx(scale_loss(history).value)
    # The order in which the times come does not matter, nor one said twice.
    assert scale_loss(history, [200, 100, 100]).value == scale_loss(history, [100, 200]).value


def test_cleaning_while_nothing_is_known() -> None:
    history = [(0, 1473.0), (100, 1473.0), (101, None), (200, 1473.0), (300, 1473.0)]
    once = scale_loss(history, [150])
    assert once.value == pytest.approx(2 * scale_loss(hold(1473.0, 100)).value)
    assert "100 s without a temperature" in Units.METRIC.text(once.validity)


def test_it_says_that_it_is_an_upper_bound_from_memory() -> None:
    loss = scale_loss(hold(kelvin(1200), 300))
    assert (loss.least, loss.most) == (loss.value / SCALE_FACTOR, loss.value * SCALE_FACTOR)
    assert "upper bound" in Units.METRIC.text(loss.validity)
    assert "from memory" in str(loss.source)
    assert not loss.outside
    hotter = scale_loss(hold(kelvin(1300), 300))
    assert hotter.outside
    assert "1300 degC is hotter" in Units.METRIC.text(hotter.validity)
    colder = scale_loss(hold(kelvin(500), 300))
    assert colder.outside
    assert "500 degC is colder" in Units.METRIC.text(colder.validity)


sides = st.floats(1e-3, 0.2)


@given(sides, sides, st.floats(0, 0.05))
def test_a_share_is_a_share_and_grows_with_the_loss(one: float, other: float, loss: float) -> None:
    section = Section(max(one, other), min(one, other))
    share = mass_share(loss, section)
    assert 0 <= share <= mass_share(loss * 1.1, section) <= 1


def test_the_share_by_hand() -> None:
    assert mass_share(0.5e-3, Section(20e-3, 10e-3)) == pytest.approx(1 - 19 * 9 / 200)
    assert mass_share(0.5e-3, Section.round(20e-3)) == pytest.approx(1 - (19 / 20) ** 2)
    assert mass_share(6e-3, Section(20e-3, 10e-3)) == 1.0


def test_a_reckoned_share_keeps_its_range() -> None:
    loss = scale_loss(hold(kelvin(1200), 300))
    share = share_lost(loss, Section(0.05, 0.025))
    assert share.value == mass_share(loss.value, Section(0.05, 0.025))
    assert share.least is not None
    assert share.most is not None
    assert share.least < share.value < share.most
    assert share.validity == loss.validity


def test_impossible_things() -> None:
    for at in (0.0, -1.0, nan):
        with pytest.raises(SteelError, match="above absolute zero"):
            scale_thickness(at, 60)
    for time in (-1.0, nan):
        with pytest.raises(SteelError, match="from 0 up"):
            scale_thickness(1400.0, time)

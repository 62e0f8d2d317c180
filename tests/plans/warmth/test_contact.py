from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given, strategies as st

from plans.blows import USUAL, Blows, StruckBy
from plans.warmth.contact import CONDUCTANCE, DOUBT, averaged


def test_a_short_touch_lets_through_what_the_conductance_says() -> None:
    quick = Blows(StruckBy.PRESS, 1e-6, 1e-5)
    assert averaged(quick) == pytest.approx(0.1 * CONDUCTANCE[StruckBy.PRESS], rel=0.01)


def test_a_long_touch_lets_through_what_two_half_spaces_do() -> None:
    # Without resistance between them: b / sqrt(pi t) at every moment, twice that in the mean.
    tight = Blows(StruckBy.PRESS, 4.0, 4.0)
    work, tool = sqrt(27.3 * 7850 * 650), sqrt(40.0 * 7850 * 500)
    assert averaged(tight, 1e6) == pytest.approx(2 / sqrt(3.141592653589793 * 4.0) / (0.5 / work + 1 / tool), rel=0.001)


@given(st.sampled_from(StruckBy), st.floats(0.01, 5.0), st.floats(1.0, 5.0), st.floats(0.1, 5.0))
def test_longer_and_tighter_touches_take_more(by: StruckBy, seconds: float, more: float, times: float) -> None:
    every = seconds * more
    one = averaged(Blows(by, seconds, every), times)
    assert 0 < one <= CONDUCTANCE[by] * times * seconds / every * (1 + 1e-9)
    assert averaged(Blows(by, seconds, every), times * 1.5) > one
    assert averaged(Blows(by, seconds, 2 * every), times) == pytest.approx(one / 2)


def test_the_share_is_smooth_where_its_formula_changes() -> None:
    # Steps of a thousandth in the conductance, across both ends of the exact expression.
    for around in (0.01, 20.0):
        blows = Blows(StruckBy.PRESS, 1.0, 1.0)
        effusivity = 1 / (0.5 / sqrt(27.3 * 7850 * 650) + 1 / sqrt(40.0 * 7850 * 500))
        times = around * effusivity / CONDUCTANCE[StruckBy.PRESS]
        below, above = averaged(blows, times * 0.9995), averaged(blows, times * 1.0005)
        assert 1.0 < above / below < 1.0015


def test_what_is_usual_is_told_for_every_tool() -> None:
    for by in StruckBy:
        assert USUAL[by].by is by
        assert averaged(USUAL[by], 1 / DOUBT) < averaged(USUAL[by]) < averaged(USUAL[by], DOUBT)


@pytest.mark.parametrize(("seconds", "every"), [(0.0, 1.0), (-1.0, 1.0), (2.0, 1.0)])
def test_impossible_blows_are_refused(seconds: float, every: float) -> None:
    with pytest.raises(ValueError, match="touch"):
        Blows(StruckBy.HAND, seconds, every)

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from plans.warmth.glow import hue, luminance, screen_glow, tristimulus


@given(st.floats(-50.0, 5000.0))
def test_a_hue_is_a_colour_with_its_brightest_channel_full(kelvin: float) -> None:
    colour = hue(kelvin)
    assert max(colour) == 255
    assert min(colour) >= 0


def test_hotter_steel_goes_from_red_towards_white() -> None:
    greens = [hue(kelvin)[1] for kelvin in range(1000, 2000, 50)]
    assert all(after > before for before, after in pairwise(greens))
    assert hue(800)[1:] == (0, 0)


@given(st.floats(300.0, 2900.0), st.floats(5.0, 100.0))
def test_hotter_is_brighter(kelvin: float, more: float) -> None:
    assert luminance(kelvin) < luminance(kelvin + more)


def test_the_screen_is_black_at_black_heat_and_full_at_forging_heat() -> None:
    assert screen_glow(293.15) == screen_glow(480 + 273.15) == (0, 0, 0)
    assert screen_glow(1250 + 273.15) == hue(1250 + 273.15)
    reds = [screen_glow(celsius + 273.15)[0] for celsius in range(520, 1100, 20)]
    assert all(after > before for before, after in pairwise(reds))


@pytest.mark.parametrize("kelvin", [0.0, -1.0, float("nan"), 1e5])
def test_impossible_temperatures_are_refused(kelvin: float) -> None:
    with pytest.raises(ValueError, match="temperature"):
        tristimulus(kelvin)


def test_no_light_at_all_near_absolute_zero() -> None:
    assert tristimulus(20.0) == (0.0, 0.0, 0.0)

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.warmth.bar import BarShape
from plans.warmth.conduction import Conduction
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import Surroundings, fire, still_air

STEEL = carbon_steel()
SHAPES = st.builds(BarShape, half_thickness=st.floats(0.0005, 0.15), exponent=st.floats(0, 2))
KELVIN = st.floats(250.0, 1850.0)
TIMES = st.floats(0.001, 10_000.0)
LENGTHS = st.lists(TIMES, min_size=1, max_size=5)


def around(kelvin: float, emissivity: float, convection: float) -> Surroundings:
    return Surroundings(kelvin, kelvin, emissivity, convection)


OUTSIDE = st.builds(around, KELVIN, st.floats(0, 1), st.floats(1, 5000)) | KELVIN


@given(SHAPES, KELVIN, st.lists(st.tuples(OUTSIDE, st.floats(0.001, 10_000.0)), min_size=1, max_size=6))
def test_heat_is_conserved(shape: BarShape, start: float, course: list[tuple[Surroundings | float, float]]) -> None:
    bar = Conduction(shape, STEEL)
    heat, skin = STEEL.even(start, bar.count), start
    first = bar.mean(heat.joules)
    taken = moved = 0.0
    for outside, seconds in course:
        heat, skin, flux = bar.solve(heat, skin, seconds, outside)
        # What the surroundings give a skin this warm is reckoned anew, not taken from the solver.
        given_now = outside.flux(skin) if isinstance(outside, Surroundings) else flux
        taken += given_now * seconds
        moved += abs(given_now) * seconds
    gained = (bar.mean(heat.joules) - first) * bar.mass
    assert gained == pytest.approx(taken, abs=1e-6 * moved + 1e-6 * first * bar.mass * 1e-3)


@given(SHAPES, st.floats(300.0, 870.0) | st.floats(1180.0, 1500.0), st.lists(st.tuples(KELVIN, TIMES), max_size=6))
def test_a_round_gives_back_what_it_took(shape: BarShape, start: float, course: list[tuple[float, float]]) -> None:
    # Wherever it turned round, up or down and how far through the bar: back at its beginning it has taken nothing.
    bar = Conduction(shape, STEEL)
    first, skin, _ = bar.solve(STEEL.even(start, bar.count), start, 1e10, start)
    heat, taken, moved = first, 0.0, 0.0
    for outside, seconds in [*course, (start, 1e10)]:
        heat, skin, flux = bar.solve(heat, skin, seconds, outside)
        taken += flux * seconds
        moved += abs(flux) * seconds
    assert taken == pytest.approx(0.0, abs=1e-9 * moved + 1.0 * bar.mass)
    assert heat.joules == pytest.approx(first.joules, abs=1.0)
    assert tuple(heat.latent) == tuple(first.latent)


@given(SHAPES, KELVIN, OUTSIDE, LENGTHS)
def test_nothing_overshoots(shape: BarShape, start: float, outside: Surroundings | float, lengths: list[float]) -> None:
    bar = Conduction(shape, STEEL)
    heat, skin = STEEL.even(start, bar.count), start
    end = outside.radiating if isinstance(outside, Surroundings) else outside
    low, high = min(start, end) - 0.01, max(start, end) + 0.01
    for seconds in lengths:
        heat, skin, _ = bar.solve(heat, skin, seconds, outside)
        inside = [STEEL.temperature_of(*cell) for cell in zip(*heat, strict=True)]
        assert low <= min(*inside, skin)
        assert max(*inside, skin) <= high
        # From the middle to the skin all goes one way.
        steps = [after - before for before, after in zip(inside, [*inside[1:], skin], strict=True)]
        assert all(step >= -0.01 for step in steps) if end > start else all(step <= 0.01 for step in steps)


def test_a_skin_that_is_known_drives_the_bar_to_it() -> None:
    bar = Conduction(BarShape(0.0125, 1.0), STEEL)
    heat, skin, _ = bar.solve(STEEL.even(300.0, bar.count), 300.0, 1e6, 1200.0)
    assert skin == 1200.0
    assert bar.middle(heat) == pytest.approx(1200.0, abs=0.01)


@pytest.mark.parametrize(("start", "outside"), [(293.15, fire(1523.15)), (1523.15, still_air())])
def test_more_cells_and_shorter_steps_change_little(start: float, outside: Surroundings) -> None:
    def after_a_minute(count: int, step: float) -> tuple[float, float]:
        bar = Conduction(BarShape(0.0125, 1.0), STEEL, count)
        heat, skin = STEEL.even(start, count), start
        for _ in range(round(60 / step)):
            heat, skin, _ = bar.solve(heat, skin, step, outside)
        return bar.middle(heat), skin

    fine = after_a_minute(40, 0.02)
    assert after_a_minute(8, 0.5) == pytest.approx(fine, abs=2.0)
    assert after_a_minute(8, 0.02) == pytest.approx(fine, abs=0.2)

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.warmth.conduction import Conduction
from plans.warmth.cross_section import cross_section
from plans.warmth.material import Heat
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import Surroundings, fire, still_air, striking
from tests.plans.warmth.sections import EVEN_SIDED, EXAMPLES, SECTIONS

STEEL = carbon_steel()
KELVIN = st.floats(250.0, 1850.0)
TIMES = st.floats(0.001, 10_000.0)


def around(kelvin: float, emissivity: float, convection: float, contact: float, both_faces: bool) -> Surroundings:
    return Surroundings(kelvin, kelvin, emissivity, convection, contact, kelvin, 0.2 if contact else 0.0, both_faces)


OUTSIDE = st.builds(around, KELVIN, st.floats(0, 1), st.floats(1, 5000), st.just(0) | st.floats(0, 3000), st.booleans())
COURSE = st.lists(st.tuples(OUTSIDE, TIMES), min_size=1, max_size=5)


def taken_up(bar: Conduction, heat: Heat, outside: Surroundings) -> float:
    """What the surroundings give the skin at these temperatures, reckoned from the mesh's areas [W/m]."""
    kelvins, watts = bar.kelvins(heat), 0.0
    for one in bar.mesh.skin:
        kelvin = kelvins[one.node]
        touched = (one.below + (one.above if outside.both_faces else 0.0)) if outside.contact else 0.0
        gives = outside.flux(kelvin)
        watts += (one.area - outside.share * touched + (one.ends if gives < 0 else 0.0)) * gives
        watts += touched * outside.contact * (outside.touching - kelvin)
    return watts


@given(SECTIONS, KELVIN, COURSE)
def test_heat_is_conserved(section: Section, start: float, course: list[tuple[Surroundings, float]]) -> None:
    bar = Conduction(cross_section(section), STEEL)
    heat = STEEL.even(start, bar.count)
    for outside, seconds in course:
        before = bar.mean(heat.joules)
        heat = bar.solve(heat, seconds, outside)
        gained = (bar.mean(heat.joules) - before) * bar.mass
        # What is left of the last correction, in watts, is far below what would move a node by 0.02 K.
        slack = 1e-3 * sum(bar.mesh.diagonal) * seconds + 1e-9 * before * bar.mass
        assert gained == pytest.approx(taken_up(bar, heat, outside) * seconds, abs=slack, rel=1e-6)


@given(SECTIONS, st.floats(300.0, 870.0) | st.floats(1180.0, 1500.0), st.lists(st.tuples(KELVIN, TIMES), max_size=5))
def test_a_round_gives_back_what_it_took(section: Section, start: float, course: list[tuple[float, float]]) -> None:
    # Wherever it turned round, up or down and how far through the bar: back at its beginning it is as it was.
    bar = Conduction(cross_section(section), STEEL)
    first = heat = STEEL.even(start, bar.count)
    for kelvin, seconds in [*course, (start, 1e10)]:
        heat = bar.solve(heat, seconds, Surroundings(kelvin, kelvin, 0.0, 5000.0))
    assert heat.joules == pytest.approx(first.joules, abs=1.0)
    assert tuple(heat.latent) == tuple(first.latent)


@given(EVEN_SIDED, KELVIN, OUTSIDE, st.lists(TIMES, min_size=1, max_size=4))
def test_nothing_overshoots(section: Section, start: float, outside: Surroundings, lengths: list[float]) -> None:
    bar = Conduction(cross_section(section), STEEL)
    heat, end = STEEL.even(start, bar.count), outside.radiating
    low, high = min(start, end) - 0.05, max(start, end) + 0.05
    for seconds in lengths:
        heat = bar.solve(heat, seconds, outside)
        kelvins = bar.kelvins(heat)
        assert low <= min(kelvins)
        assert max(kelvins) <= high


@pytest.mark.parametrize("section", EXAMPLES)
def test_cooling_goes_inwards_from_the_coldest_place(section: Section) -> None:
    bar = Conduction(cross_section(section), STEEL)
    heat = STEEL.even(1500.0, bar.count)
    for _ in range(20):
        heat = bar.solve(heat, 0.5, still_air())
        seen = bar.warmth(heat)
        # What is round is as cold at every place of it.
        assert seen.coldest <= seen.skin + 1e-6
        assert seen.skin < seen.middle
        assert seen.middle == pytest.approx(max(bar.kelvins(heat)), abs=1.0)
    assert seen.skin - seen.coldest > (2.0 if section.is_round is False else -1e-6)


@pytest.mark.parametrize("section", EXAMPLES)
def test_the_face_on_the_anvil_is_colder_than_the_rest_and_dies_chill_both(section: Section) -> None:
    bar = Conduction(cross_section(section), STEEL)
    heat, between = STEEL.even(1500.0, bar.count), Surroundings(293.15, 293.15, 0.8, 10.0, 500.0, 353.15, 0.2, True)
    on_anvil, in_dies = bar.solve(heat, 3.0, striking()), bar.solve(heat, 3.0, between)
    seen = bar.warmth(on_anvil)
    assert seen.coldest <= seen.face < seen.skin < seen.middle
    below = [bar.kelvins(in_dies)[one.node] for one in bar.mesh.skin if one.below]
    above = [bar.kelvins(in_dies)[one.node] for one in bar.mesh.skin if one.above]
    assert sum(below) / len(below) == pytest.approx(sum(above) / len(above), abs=0.5)


@pytest.mark.parametrize("section", EXAMPLES)
def test_a_skin_that_is_known_is_come_to(section: Section) -> None:
    bar = Conduction(cross_section(section), STEEL)
    heat = bar.solve(STEEL.even(300.0, bar.count), 1e6, fire(1300.0), skin=1200.0)
    assert bar.warmth(heat).skin == pytest.approx(1200.0, abs=0.05)
    # It takes as much more through every part of the skin as the fire alone leaves out.
    heat = STEEL.even(1500.0, bar.count)
    for second in range(1, 20):
        heat = bar.solve(heat, 1.0, still_air(), skin=1500.0 - 15.0 * second)
        assert bar.warmth(heat).skin == pytest.approx(1500.0 - 15.0 * second, abs=0.05)


@pytest.mark.parametrize("section", EXAMPLES)
def test_ends_give_off_heat_and_take_none_up(section: Section) -> None:
    bar, stub = (Conduction(cross_section(section, length), STEEL) for length in (None, 0.1))
    cold, hot = STEEL.even(300.0, bar.count), STEEL.even(1500.0, bar.count)
    assert bar.warmth(bar.solve(cold, 5.0, fire(1500.0))) == stub.warmth(stub.solve(cold, 5.0, fire(1500.0)))
    long, short = bar.solve(hot, 5.0, still_air()), stub.solve(hot, 5.0, still_air())
    lost_long, lost_short = (bar.mean(hot.joules) - bar.mean(heat.joules) for heat in (long, short))
    assert lost_short / lost_long == pytest.approx(1 + 2 / 0.1 * section.area / section.around, rel=0.01)

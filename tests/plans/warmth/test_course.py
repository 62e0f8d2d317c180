from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from plans.shapes import Section
from plans.warmth.course import Course, Part
from plans.warmth.model import ThinEnd, WarmModel
from plans.warmth.surroundings import fire, still_air, striking
from tests.plans.warmth.sections import EXAMPLES

WELDING = 1523.15


def course(section: Section, start: float = WELDING) -> Course:
    model = WarmModel(section, start=start)
    return Course(model.piece, model.heat, striking())


@pytest.mark.parametrize("section", EXAMPLES)
def test_it_begins_where_it_was_put_to_the_last_bit(section: Section) -> None:
    model = WarmModel(section, start=1100.0)
    for _ in range(10):
        model.step(0.5, striking())
    begun = Course(model.piece, model.heat, striking())
    assert begun.heat_at(0.0).joules == list(model.heat.joules)
    assert tuple(begun.warmth_at(0.0)) == pytest.approx(tuple(model.warmth))


@pytest.mark.parametrize("section", EXAMPLES)
def test_the_temperature_at_the_time_that_it_tells_is_the_one_asked_for(section: Section) -> None:
    cooling = course(section)
    for part in Part:
        seconds = cooling.time_until(part, 1300.0, falls=True)
        assert seconds is not None
        assert cooling.warmth_at(seconds)[part.value] == pytest.approx(1300.0, abs=0.05)
        assert cooling.time_until(part, 1300.0, falls=True, after=seconds + 1.0) == seconds + 1.0


@settings(max_examples=20)
@given(st.lists(st.floats(0.0, 60.0), max_size=8))
def test_whoever_asks_first_the_answers_are_the_same(times: list[float]) -> None:
    asked, fresh = course(EXAMPLES[3]), course(EXAMPLES[3])
    for seconds in times:
        asked.warmth_at(seconds)
    assert [asked.warmth_at(at) for at in (0.5, 7.0, 33.3)] == [fresh.warmth_at(at) for at in (0.5, 7.0, 33.3)]
    assert asked.heat_at(12.0) == fresh.heat_at(12.0)


@pytest.mark.parametrize("section", EXAMPLES)
def test_going_on_from_half_way_comes_to_the_same(section: Section) -> None:
    # As the sitting does at every word: the course is cut and begun anew.
    whole, model = course(section), WarmModel(section, start=WELDING)
    model.take(whole.heat_at(6.0))
    rest = Course(model.piece, model.heat, striking())
    assert tuple(rest.warmth_at(8.0)) == pytest.approx(tuple(whole.warmth_at(14.0)), abs=2.0)


def test_folded_over_its_middle_it_comes_to_the_same() -> None:
    # Air is alike above and below, so that half of the piece is solved; a step of the model solves the whole.
    for section in EXAMPLES:
        model = WarmModel(section, start=WELDING)
        ahead = Course(model.piece, model.heat, still_air())
        for _ in range(200):
            model.step(0.05, still_air())
        assert tuple(ahead.warmth_at(10.0)) == pytest.approx(tuple(model.warmth), abs=2.5)
        assert ahead.heat_at(10.0).joules == pytest.approx(model.heat.joules, rel=3e-3)


def test_a_piece_that_was_struck_keeps_its_heat_when_it_is_folded() -> None:
    model = WarmModel(EXAMPLES[0], start=WELDING)
    for _ in range(10):
        model.step(0.5, striking())
    folded = model.piece.unfold(model.piece.fold(model.heat))
    assert model.piece.mean(folded.joules) == pytest.approx(model.piece.mean(model.heat.joules))


def test_a_thin_end_has_a_course_too() -> None:
    model = WarmModel(Section(0.020, 0.010), start=1373.15, end=ThinEnd(Section(0.004, 0.003), 0.06))
    seconds = Course(model.piece, model.heat, striking()).time_until(Part.COLDEST, 1173.15, falls=True)
    assert seconds is not None
    assert 3.0 < seconds < 8.0


def test_what_never_comes_is_none() -> None:
    model = WarmModel(EXAMPLES[0])
    warming = Course(model.piece, model.heat, fire(1400.0))
    assert warming.time_until(Part.MIDDLE, 1401.0, falls=False) is None
    assert warming.time_until(Part.SKIN, 1300.0, falls=False, within=10.0) is None

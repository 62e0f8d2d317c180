"""The warm model run along: the smith's eye, a probe, a pause, the thin part, and what was taken back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shapes import Section
from plans.sitting.events import Word
from plans.warmth.model import WarmModel
from plans.warmth.natural_convection import of_a_section
from plans.warmth.surroundings import ROOM, still_air, striking

Begin = Callable[..., Any]
ICE = 273.15
SOAK = PhaseKind.SOAK
EDGE = Section(0.020, 0.002)


def test_with_a_probe_on_the_work_the_middle_follows_it(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT)
    story.feel(1250.0, seconds=1)
    assert story.sitting.warm.middle[-1] < 600 + ICE, "the middle can't have caught up in a second"
    story.feel(1250.0, seconds=240)
    assert story.sitting.warm.middle[-1] == pytest.approx(1250 + ICE, abs=5)


def test_the_smiths_eye_brings_the_skin_up_but_not_the_middle(begin: Begin) -> None:
    """Said at once, with cold work: the soak must not be done in the same breath."""
    story = begin().say(Word.NEXT).wait(20).say(Word.NEXT)
    assert story.phase is PhaseKind.SOAK
    story.wait(0.5)
    assert story.sitting.warm.skin[-1] == pytest.approx(1250 + ICE, abs=10)
    assert story.calls == []


def test_during_a_pause_the_work_is_taken_to_cool(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    hot = story.sitting.warm.skin[-1]
    story.say(Word.PAUSE).wait(60)
    assert story.sitting.warm.skin[-1] < hot - 100


def test_undo_cools_the_work_no_further_than_it_was(begin: Begin) -> None:
    """A word said too early and taken back leaves the warm model as if it had never been said."""
    one, other = begin().say(Word.NEXT), begin().say(Word.NEXT)
    one.wait(120.0).say(Word.OUT).wait(20.0).say(Word.UNDO).wait(60.0)
    other.wait(200.0)
    assert one.sitting.warm.skin == other.sitting.warm.skin
    assert one.sitting.warm.middle == other.sitting.warm.middle


@pytest.fixture
def strike(begin: Begin, plan: Plan) -> Callable[[], Any]:
    """At the first blow of two heats: work of 4 mm, an edge of 2 mm."""
    work = Section(0.040, 0.004)
    step = replace(plan.steps[1], heats=2, section=work, reach=work, thin=EDGE)

    def strike() -> Any:
        return begin(of=replace(plan, steps=(step,))).say(Word.NEXT).wait(300).say(Word.OUT)

    return strike


def skins(story: Any, seconds: float) -> list[float]:
    """The edge's skin at each grid point [K]."""
    found = []
    for _ in range(round(seconds / 0.5)):
        story.wait(0.5)
        found.append(story.sitting.warm.thin.skin)
    return found


def test_the_edge_begins_as_hot_as_the_work_in_every_heat(strike: Callable[[], Any]) -> None:
    story = strike()
    first = skins(story, 10)
    story.say(Word.NEXT).wait(300)
    assert story.sitting.warm.thin is None
    story.say(Word.OUT)
    second = skins(story, 10)
    for course in (first, second):
        assert all(before > after for before, after in pairwise(course))
    assert second[0] == pytest.approx(first[0], abs=5)


def test_heats_told_in_one_breath_are_not_one_for_the_edge(strike: Callable[[], Any]) -> None:
    story = strike().wait(20)
    story.say(Word.NEXT).say(Word.NEXT).say(Word.OUT).wait(0.5)
    assert story.sitting.state.heat == 2
    assert story.sitting.warm.thin.skin == pytest.approx(story.sitting.warm.warmth.skin)


def test_in_a_pause_the_edge_goes_on_cooling_in_the_air(strike: Callable[[], Any]) -> None:
    story = strike()
    course = skins(story, 6)
    story.say(Word.PAUSE)
    course += skins(story, 4)
    story.say(Word.RESUME)
    course += skins(story, 6)
    alone, air = WarmModel(EDGE, start=course[0]), still_air(convection=of_a_section(EDGE, ROOM))
    expected = [course[0]]
    for index in range(1, len(course)):
        alone.step(0.5, air if 12 <= index < 20 else striking(around=air))
        expected.append(alone.skin)
    # Steps of half a second, as here, bring the end of the hammer time 0.2 s late.
    assert course == pytest.approx(expected, abs=6.0)


@pytest.mark.parametrize("word", [Word.BACK, Word.PAUSE, Word.NEXT, Word.FINISH, Word.REPEAT])
def test_a_word_that_was_taken_back_leaves_the_edge_as_if_it_had_never_been_said(
    strike: Callable[[], Any], word: Word
) -> None:
    told, untold = strike().wait(4), strike().wait(12)
    told.say(word).wait(4).say(Word.UNDO).wait(4)
    assert untold.sitting.warm.thin is not None
    assert told.sitting.warm.thin == untold.sitting.warm.thin
    left = [story.sitting.warm.until_thin_is_cold(story.sitting.exposure, 900.0) for story in (told, untold)]
    assert left[0] == left[1]

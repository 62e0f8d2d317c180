"""Whoever looks at a sitting, and when, changes nothing of it: live and replayed are the same to the last bit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings, strategies as st

from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Tick, Word
from plans.sitting.glance import glance_at
from plans.sitting.words import WordError
from plans.warmth.doubts import doubts_of

Begin = Callable[..., Any]
ICE = 273.15
WORDS = st.sampled_from([Word.NEXT, Word.OUT, Word.ON, Word.PAUSE, Word.RESUME, Word.BACK, Word.UNDO, Word.REPEAT])
STREAM = st.lists(st.tuples(st.floats(0.1, 40.0), WORDS | st.floats(500.0, 1280.0) | st.none()), max_size=15)


def play(plan: Plan, probe_on: ProbeOn | None, stream: list[tuple[float, Any]], looks: bool) -> Sitting:
    sitting, at = Sitting(plan, probe_on), 0.0
    sitting.open()
    for wait, what in stream:
        at += wait
        try:
            match what:
                case Word():
                    sitting.take(Said(at, what))
                case float():
                    for count in range(8):
                        sitting.take(Reading(at + count / 4, what + ICE, None))
                    at += 2.0
                case _:
                    sitting.take(Tick(at))
        except WordError:
            sitting.take(Tick(at))
        if looks:
            glance_at(sitting, at)
    sitting.take(Tick(at + 20.0))
    return sitting


@pytest.mark.parametrize("probe_on", [None, ProbeOn.WORK, ProbeOn.FIRE])
@settings(max_examples=15)
@given(stream=STREAM)
def test_looking_changes_nothing(plan: Plan, probe_on: ProbeOn | None, stream: list[tuple[float, Any]]) -> None:
    unseen, seen = (play(plan, probe_on, stream, looks) for looks in (False, True))
    for one, other in ((unseen.warm.skin, seen.warm.skin), (unseen.warm.middle, seen.warm.middle)):
        assert one.tobytes() == other.tobytes()
    assert unseen.state.calls == seen.state.calls


def test_out_and_back_between_two_grid_points(plan: Plan) -> None:
    step = replace(plan.steps[0], section=Section(0.04, 0.014), reach=None)
    stream = [(0.0, Word.NEXT), (300.2, Word.OUT), (0.1, Word.NEXT), (30.0, None)]
    unseen, seen = (play(replace(plan, steps=(step,)), None, stream, looks) for looks in (False, True))
    assert unseen.warm.skin.tobytes() == seen.warm.skin.tobytes()


def test_into_a_step_without_a_thin_part_and_out_in_one_breath(plan: Plan) -> None:
    first = replace(plan.steps[0], heats=1, section=Section(0.04, 0.014), reach=None, thin=Section(0.02, 0.003))
    second = replace(plan.steps[1], section=Section(0.04, 0.012), reach=None, thin=None)
    for steps in ((first, second), (first, replace(second, thin=Section(0.02, 0.004)))):
        stream = [(0.0, Word.NEXT), (300.0, Word.OUT), (5.0, None), (0.1, Word.NEXT), (0.1, Word.OUT)]
        sitting = play(replace(plan, steps=steps), None, stream, looks=True)
        assert sitting.state.step == 1


def test_hammer_time_counts_the_anvil_from_the_moment_that_a_pause_is_over(begin: Begin, plan: Plan) -> None:
    step = replace(plan.steps[0], section=Section(0.04, 0.014), reach=None, keep_above=900 + ICE)
    story = begin(ProbeOn.WORK, replace(plan, steps=(step,))).say(Word.NEXT).feel(1250, seconds=400).say(Word.OUT)
    story.feel(1240, seconds=3)
    struck = glance_at(story.sitting, story.at).figure.seconds
    story.say(Word.PAUSE).feel(1240, seconds=6).say(Word.RESUME)
    assert glance_at(story.sitting, story.at).figure.seconds == pytest.approx(struck, rel=0.1)
    story.feel(1240, seconds=1)
    assert glance_at(story.sitting, story.at).figure.seconds == pytest.approx(struck, rel=0.1)


def test_a_short_pause_leaves_the_struck_face_as_it_was(plan: Plan) -> None:
    step = replace(plan.steps[0], section=Section(0.05, 0.03), reach=None, keep_above=800 + ICE)
    stream = [(0.0, Word.NEXT), (700.0, Word.OUT), (30.0, None)]
    sitting = play(replace(plan, steps=(step,)), None, stream, looks=False)
    before = sitting.warm.warmth
    assert before is not None
    sitting.take(Said(750.0, Word.PAUSE))
    sitting.take(Tick(750.5))
    after = sitting.warm.warmth
    assert after is not None
    assert after.face < before.face + 6.0


def test_what_the_air_taught_narrows_no_fire_and_the_anvil_no_dies() -> None:
    shop, known = Shop(), Shop(1.17, 0.02, 2.0, 0.1)
    assert doubts_of(known).fire == doubts_of(shop).fire == doubts_of(shop).air
    assert doubts_of(known).dies == doubts_of(shop).dies == doubts_of(shop).anvil
    assert doubts_of(known).air == pytest.approx((0.95, 1.05))
    assert doubts_of(known).anvil == pytest.approx((0.9, 1.1))

"""What each word does, and when it means nothing."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting.course import PlanPoint
from plans.sitting.effects import effects_of
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Ended, Said, Word
from plans.sitting.folding import folded
from plans.sitting.words import WordError

Begin = Callable[..., Any]
Alone = Callable[..., Plan]
FIRE, STRIKE = PhaseKind.FIRE, PhaseKind.STRIKE


def test_repeat_on_the_anvil_is_one_heat_more(begin: Begin) -> None:
    story = begin()
    for _ in range(6):
        story.say(Word.NEXT)
    assert story.place == (0, 2, STRIKE)
    story.say(Word.REPEAT)
    assert story.place == (0, 2, STRIKE), "it says nothing of where the work is"
    assert story.say(Word.NEXT).place == (0, 3, FIRE)
    story.say(Word.NEXT).say(Word.NEXT).say(Word.NEXT)
    assert story.place == (1, 1, FIRE)


def test_repeat_in_the_fire_leaves_the_work_there(begin: Begin) -> None:
    story = begin().say(Word.NEXT).say(Word.REPEAT)
    assert story.place == (0, 1, FIRE)
    assert story.sitting.heats_planned(0) == 3


def test_on_leaves_the_heats_that_were_left(begin: Begin) -> None:
    story = begin()
    for _ in range(3):
        story.say(Word.NEXT)
    assert story.say(Word.ON).place == (1, 1, FIRE)


@pytest.mark.parametrize(("words", "out"), [(2, (0, 1, STRIKE)), (1, (0, 1, STRIKE))])
def test_out_is_out_whatever_the_clock_thought(begin: Begin, words: int, out: tuple[int, int, PhaseKind]) -> None:
    story = begin()
    for _ in range(words):
        story.say(Word.NEXT)
    assert story.say(Word.OUT).place == out


def test_out_on_the_anvil_is_refused_and_changes_nothing(begin: Begin) -> None:
    story = begin().say(Word.NEXT).say(Word.OUT)
    length = len(story.log)
    with pytest.raises(WordError, match="not in the fire"):
        story.say(Word.OUT)
    assert story.wait(0.1).place == (0, 1, STRIKE)
    assert len(story.log) == length


def test_out_twice_is_refused_on_the_way_to_the_quench(steps_alone: Alone) -> None:
    sitting = Sitting(steps_alone(3))
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    sitting.take(Said(2.0, Word.OUT))
    with pytest.raises(WordError):
        sitting.take(Said(3.0, Word.OUT))
    sitting.take(Said(4.0, Word.UNDO))
    assert sitting.state.left_fire_at is None


def test_next_in_a_pause_ends_the_pause_and_nothing_else(begin: Begin) -> None:
    story = begin().say(Word.NEXT).wait(5).say(Word.PAUSE).wait(5).say(Word.NEXT)
    assert (story.phase, story.sitting.state.paused) == (FIRE, False)


def test_a_finished_sitting_takes_notes_and_undo_only(begin: Begin) -> None:
    story = begin().say(Word.FINISH)
    for word in (Word.NEXT, Word.BACK, Word.PAUSE, Word.FINISH, Word.ON, Word.REPEAT):
        with pytest.raises(WordError, match="finished"):
            story.say(word)
    story.say(Word.NOTE, "weld took").say(Word.UNDO)
    assert not story.sitting.state.finished


@pytest.mark.parametrize("word", Word)
def test_every_word_says_itself_first_or_why_it_means_nothing(plan: Plan, word: Word) -> None:
    said = Said(1.0, word, {Word.NOTE: "a line", Word.MEASURED: "w 31.5 mm", Word.TICK: "step 1 item 1"}.get(word, ""))
    in_the_fire = folded([Begun(0.0, 0, 2, FIRE)])
    if word in (Word.RESUME, Word.UNDO, Word.REDO, Word.EARLIER, Word.IN):
        with pytest.raises(WordError):
            effects_of(said, plan, in_the_fire)
    else:
        assert effects_of(said, plan, in_the_fire)[0] == said


def test_a_word_is_answered_without_changing_the_state(plan: Plan) -> None:
    state = folded([Begun(0.0, 0, 1, FIRE), Begun(1.0, 0, 1, STRIKE)])
    before = deepcopy(state)
    for word in (Word.NEXT, Word.ON, Word.BACK, Word.REPEAT, Word.PAUSE, Word.FINISH):
        effects_of(Said(2.0, word), plan, state)
    assert state == before


def test_repeat_after_more_heats_than_planned_is_still_one_more(plan: Plan) -> None:
    """A probe on the work may have begun heats beyond the plan; "repeat" must not lead on to the next step."""
    state = folded([Begun(0.0, 0, 4, FIRE), Begun(1.0, 0, 4, STRIKE), Said(2.0, Word.REPEAT)])
    assert effects_of(Said(3.0, Word.NEXT), plan, state)[1] == PlanPoint(0, 5, FIRE)


def test_next_after_the_last_heat_of_the_last_step_ends_the_sitting(plan: Plan) -> None:
    state = folded([Begun(0.0, 6, 1, PhaseKind.BENCH)])
    said = Said(1.0, Word.NEXT)
    assert effects_of(said, plan, state) == (said, Ended(1.0))

"""What each word does, and when it means nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.plan import PhaseKind, Plan
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
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
    assert story.place == (0, 3, FIRE)
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

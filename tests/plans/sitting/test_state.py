"""The fold of a sitting's events, and what undo gives back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.sitting.events import Word
from plans.sitting.words import WordError

Begin = Callable[..., Any]
READY, FIRE = PhaseKind.READY, PhaseKind.FIRE


def test_undo_gives_the_phase_its_own_clock_back(begin: Begin) -> None:
    story = begin().say(Word.NEXT).wait(100).say(Word.OUT).wait(5).say(Word.UNDO)
    assert story.phase is FIRE
    assert story.sitting.state.elapsed(story.at) == pytest.approx(105)


def test_undo_takes_words_back_one_by_one_to_the_beginning(begin: Begin) -> None:
    story = begin()
    for word in (Word.NEXT, Word.OUT, Word.REPEAT, Word.PAUSE, Word.RESUME, Word.FINISH):
        story.say(word).wait(1)
    story.say(Word.NOTE, "a note is no word to take back")
    for _ in range(6):
        story.say(Word.UNDO)
    state = story.sitting.state
    assert (story.place, state.paused, state.finished, state.extra) == ((0, 1, READY), False, False, {})
    with pytest.raises(WordError, match="no word to take back"):
        story.say(Word.UNDO)


def test_undo_takes_the_word_back_and_leaves_the_note_that_came_after(begin: Begin) -> None:
    story = begin().say(Word.NEXT).say(Word.OUT).say(Word.NOTE, "too early").say(Word.UNDO)
    assert story.phase is FIRE
    assert [note.text for note in story.sitting.state.notes] == ["too early"]

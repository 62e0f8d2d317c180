"""Where the smith's words lead."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.plan import PhaseKind
from plans.sitting.events import Call, Word
from plans.sitting.words import WordError

Begin = Callable[..., Any]
READY, FIRE, SOAK, STRIKE = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE
AIR, QUENCH, OVEN, DIP, BENCH = PhaseKind.AIR, PhaseKind.QUENCH, PhaseKind.OVEN, PhaseKind.DIP, PhaseKind.BENCH


def test_next_alone_leads_through_the_whole_plan(begin: Begin) -> None:
    story = begin()
    places = [story.place]
    while not story.sitting.state.finished:
        story.say(Word.NEXT)
        places.append(story.place)
    assert places[:-1] == [
        (0, 1, READY),
        (0, 1, FIRE),
        (0, 1, SOAK),
        (0, 1, STRIKE),
        (0, 2, FIRE),
        (0, 2, SOAK),
        (0, 2, STRIKE),
        (1, 1, FIRE),  # hot from the anvil, straight in
        (1, 1, SOAK),
        (1, 1, STRIKE),
        (2, 1, READY),  # normalizing begins from black
        (2, 1, FIRE),
        (2, 1, SOAK),
        (2, 1, AIR),
        (2, 2, FIRE),
        (2, 2, SOAK),
        (2, 2, AIR),
        (3, 1, READY),
        (3, 1, FIRE),
        (3, 1, SOAK),
        (3, 1, QUENCH),
        (4, 1, READY),
        (4, 1, OVEN),
        (4, 1, AIR),
        (4, 2, OVEN),
        (4, 2, AIR),
        (5, 1, READY),
        (5, 1, DIP),
        (5, 1, BENCH),
        (5, 2, DIP),
        (5, 2, BENCH),
        (6, 1, BENCH),
    ]


def test_nothing_skips_a_step_without_the_smith(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait(3 * 3600)
    assert story.place == (0, 1, SOAK)


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


def test_back_goes_to_the_phase_before_across_heats_and_steps(begin: Begin) -> None:
    story = begin()
    for _ in range(7):
        story.say(Word.NEXT)
    places = []
    while True:
        try:
            story.say(Word.BACK)
        except WordError:
            break
        places.append(story.place)
    assert places == [
        (0, 2, STRIKE),
        (0, 2, SOAK),
        (0, 2, FIRE),
        (0, 1, STRIKE),
        (0, 1, SOAK),
        (0, 1, FIRE),
    ]


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


def test_undo_says_that_it_is_not_at_heat_yet(begin: Begin) -> None:
    """The model began the soak; the smith sees that it is too early, and from then on his word alone begins it."""
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    story.say(Word.UNDO)
    assert story.phase is FIRE
    assert story.sitting.warm.skin[-1] < 1250 + 273.15 or story.wait(0.5).sitting.warm.skin[-1] < 1250 + 273.15
    story.wait(600)
    assert story.phase is FIRE
    assert Call.SOAK_DONE not in story.calls
    assert Call.AT_HEAT in story.calls
    assert story.say(Word.NEXT).phase is SOAK


def test_back_from_the_soak_waits_for_the_smith_too(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    story.say(Word.BACK).wait(600)
    assert story.phase is FIRE


def test_next_in_a_pause_ends_the_pause_and_nothing_else(begin: Begin) -> None:
    story = begin().say(Word.NEXT).wait(5).say(Word.PAUSE).wait(5).say(Word.NEXT)
    assert (story.phase, story.sitting.state.paused) == (FIRE, False)


def test_undo_cools_the_work_no_further_than_it_was(begin: Begin) -> None:
    """A word said too early and taken back leaves the warm model as if it had never been said."""
    one, other = begin().say(Word.NEXT), begin().say(Word.NEXT)
    one.wait(120.0).say(Word.OUT).wait(20.0).say(Word.UNDO).wait(60.0)
    other.wait(200.0)
    assert one.sitting.warm.skin == other.sitting.warm.skin
    assert one.sitting.warm.middle == other.sitting.warm.middle


def test_a_pause_stops_the_clock_and_hushes_the_calls(begin: Begin) -> None:
    story = begin()
    for _ in range(4):
        story.say(Word.ON)
    story.say(Word.NEXT)
    assert story.phase is OVEN
    story.wait(7000).say(Word.PAUSE).wait(3600)
    assert Call.TIME_UP not in story.calls
    story.say(Word.RESUME).wait(199)
    assert Call.TIME_UP not in story.calls
    story.wait(2)
    assert story.calls == [Call.TIME_UP]


def test_during_a_pause_the_work_is_taken_to_cool(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    hot = story.sitting.warm.skin[-1]
    story.say(Word.PAUSE).wait(60)
    assert story.sitting.warm.skin[-1] < hot - 100


def test_a_finished_sitting_takes_notes_and_undo_only(begin: Begin) -> None:
    story = begin().say(Word.FINISH)
    for word in (Word.NEXT, Word.BACK, Word.PAUSE, Word.FINISH, Word.ON, Word.REPEAT):
        with pytest.raises(WordError, match="finished"):
            story.say(word)
    story.say(Word.NOTE, "weld took").say(Word.UNDO)
    assert not story.sitting.state.finished

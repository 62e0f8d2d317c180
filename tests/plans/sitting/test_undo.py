"""Undo, whatever was said and came about before it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from copy import deepcopy
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import assume, given, strategies as st

from plans.logbook.log import Log
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Called, Cause, Ended, Entry, LeftFire, Said, Tick, WentOn, Word
from plans.sitting.folding import fold, folded
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.state import State
from plans.sitting.undo import undoable
from plans.sitting.words import WordError

Alone = Callable[..., Plan]
Begin = Callable[..., Any]
READY, FIRE = PhaseKind.READY, PhaseKind.FIRE
ALL = Hands(HandsFree.ALL, grace=30.0)
NEVER = Hands(HandsFree.NEVER)
UNDOABLE = [word for word in Word if word in (Word.MEASURED, Word.TICK) or not (word.is_about_a_word or word.is_aside)]
GAPS = st.one_of(st.floats(0.0, 3.0), st.floats(0.0, 400.0), st.sampled_from([0.0, 0.5, 60.0]))
KELVINS = st.floats(280.0, 1700.0)
LONG_BREAK = "a long break"
SHORT_BREAK = "a short break"
THINGS = st.one_of(
    st.sampled_from(list(Word)),
    st.sampled_from([Word.NEXT, Word.NEXT, Word.OUT, Word.UNDO, Word.FINISH]),
    KELVINS,
    st.sampled_from([LONG_BREAK, SHORT_BREAK]),
)
STREAMS = st.lists(st.tuples(GAPS, THINGS), max_size=40)
PROBES = st.sampled_from([None, ProbeOn.WORK, ProbeOn.FIRE])
WORK_AND_CALLS = {"at", "calls", "undo_points", "redo_points", "alarms", "called"}


@pytest.fixture(scope="session")
def plan(plan: Plan) -> Plan:
    """The small plan, with an edge in all that is struck."""
    thin = Section(0.020, 0.003)
    return replace(plan, steps=tuple(replace(step, thin=thin) if step.keep_above else step for step in plan.steps))


def feed(sitting: Sitting, at: float, stream: Iterable[tuple[float, object]]) -> tuple[list[Entry], float]:
    """Hand over a stream; what was logged of it, and the time at its end [s]."""
    log: list[Entry] = []
    for gap, what in stream:
        before, at = at, at + gap
        entry: Said | Reading | WentOn
        match what:
            case Word():
                entry = Said(
                    at,
                    what,
                    {Word.NOTE: "a line", Word.MEASURED: "w 39 mm t 9 mm", Word.TICK: "step 1 item 1"}.get(what, ""),
                )
            case float():
                entry = Reading(at, what)
            case _:
                # Whoever goes on begins with what the log has: time ends there, and not at a tick after it.
                log += sitting.take(Said(before, Word.NOTE, "a line"))
                entry = WentOn(at, sitting.probe_on, before if what == LONG_BREAK else None)
        try:
            log += sitting.take(entry)
        except WordError:
            log += sitting.take(Tick(at))
    return log, at


def begun(plan: Plan, probe_on: ProbeOn | None, hands: Hands) -> tuple[Sitting, list[Entry]]:
    sitting = Sitting(plan, probe_on, hands)
    return sitting, sitting.open()


def without(state: State, *names: str) -> dict[str, object]:
    return {field.name: getattr(state, field.name) for field in fields(State) if field.name not in names}


def work_of(sitting: Sitting) -> tuple[object, ...]:
    warm = sitting.warm
    return warm.skin.tobytes(), warm.middle.tobytes(), warm.remember()


@given(stream=STREAMS, probe_on=PROBES)
def test_the_events_alone_fold_to_the_same_state_and_tell_the_end(
    plan: Plan, stream: list[tuple[float, object]], probe_on: ProbeOn | None
) -> None:
    sitting, log = begun(plan, probe_on, ALL)
    log += feed(sitting, 0.0, stream)[0]
    events = [entry for entry in log if not isinstance(entry, Reading)]
    state = folded(events)
    points = "undo_points", "redo_points"
    assert without(state, *points) == without(sitting.state, *points)
    assert state.undo_points == [replace(point, work=None) for point in sitting.state.undo_points]
    assert state.redo_points == [
        replace(redo, undone=replace(redo.undone, work=None), after=replace(redo.after, work=None))
        for redo in sitting.state.redo_points
    ]
    assert Log(log).ended is sitting.state.finished


@given(stream=STREAMS, word=st.sampled_from(UNDOABLE), probe_on=PROBES)
def test_a_word_that_is_taken_back_at_once_leaves_everything_as_it_was(
    plan: Plan, stream: list[tuple[float, object]], word: Word, probe_on: ProbeOn | None
) -> None:
    sitting, _ = begun(plan, probe_on, ALL)
    _, at = feed(sitting, 0.0, stream)
    before, work = deepcopy(sitting.state), work_of(sitting)
    try:
        sitting.take(Said(at, word, {Word.MEASURED: "t 9 mm", Word.TICK: "step 1 item 1"}.get(word, "")))
    except WordError:
        assume(False)
    sitting.take(Said(at, Word.UNDO))
    assert without(sitting.state, "at", "calls", "redo_points") == without(before, "at", "calls", "redo_points")
    assert work_of(sitting) == work


@given(
    stream=STREAMS,
    word=st.sampled_from(UNDOABLE),
    meanwhile=st.lists(st.tuples(GAPS, KELVINS), max_size=20),
    probe_on=PROBES,
)
def test_a_word_that_is_taken_back_later_was_never_said(
    plan: Plan,
    stream: list[tuple[float, object]],
    word: Word,
    meanwhile: list[tuple[float, object]],
    probe_on: ProbeOn | None,
) -> None:
    sitting, log = begun(plan, probe_on, NEVER)
    more, at = feed(sitting, 0.0, stream)
    log += more
    try:
        sitting.take(Said(at, word, {Word.MEASURED: "t 9 mm", Word.TICK: "step 1 item 1"}.get(word, "")))
    except WordError:
        assume(False)
    assume(not sitting.state.finished)  # a sitting that is over hears no probe
    heard, at = feed(sitting, at, meanwhile)
    sitting.take(Said(at, Word.UNDO))
    never_said = Sitting(plan, probe_on, NEVER)
    never_said.replay([*log, *(entry for entry in heard if isinstance(entry, Reading))])
    never_said.take(Tick(at))
    assert without(sitting.state, *WORK_AND_CALLS) == without(never_said.state, *WORK_AND_CALLS)
    assert len(sitting.state.undo_points) == len(never_said.state.undo_points)
    assert work_of(sitting) == work_of(never_said)


@pytest.mark.parametrize(
    ("event", "what"),
    [
        (Said(1.0, Word.NEXT), Word.NEXT),
        (Said(1.0, Word.PAUSE), Word.PAUSE),
        (Said(1.0, Word.UNDO), None),
        (Said(1.0, Word.NOTE, "a line"), None),
        (Said(1.0, Word.ACKNOWLEDGE), None),
        (Begun(1.0, 0, 1, PhaseKind.SOAK, Cause.TEMPERATURE), Cause.TEMPERATURE),
        (Begun(1.0, 0, 1, PhaseKind.AIR, Cause.CLOCK), Cause.CLOCK),
        (Begun(1.0, 0, 1, PhaseKind.FIRE, Cause.WORD), None),
        (LeftFire(1.0), None),
        (LeftFire(2.0, happened=1.0), Cause.PROBE),
        (Called(1.0, Call.TOO_COLD, 0, 1), None),
        (Ended(1.0), None),
    ],
)
def test_undo_takes_back_words_and_what_came_about_without_one(event: Said | Begun, what: Word | Cause | None) -> None:
    assert undoable(event) is what


def test_undo_on_the_way_to_the_quench_puts_the_work_back_into_the_fire_with_its_call(steps_alone: Alone) -> None:
    carried, stayed = (begun(steps_alone(3), None, NEVER)[0] for _ in range(2))
    for sitting in (carried, stayed):
        feed(sitting, 0.0, [(1.0, Word.NEXT), (600.0, Word.NEXT)])
        sitting.take(Tick(900.0))
        assert Call.SOAK_DONE in sitting.state.alarms
    feed(carried, 900.0, [(1.0, Word.OUT), (4.0, Word.UNDO)])
    assert Call.SOAK_DONE in carried.state.alarms
    carried.take(Tick(960.0))
    stayed.take(Tick(960.0))
    assert work_of(carried) == work_of(stayed)


def test_what_the_probe_felt_on_the_way_to_the_quench_is_taken_back_alone() -> None:
    begins = [Begun(0.0, 0, 1, PhaseKind.FIRE), Begun(60.0, 0, 1, PhaseKind.SOAK, Cause.TEMPERATURE)]
    state = folded([*begins, LeftFire(90.0, happened=88.0)])
    assert state.left_fire_at == 88.0
    fold(state, Said(91.0, Word.UNDO))
    assert (state.phase, state.left_fire_at) == (PhaseKind.SOAK, None)
    fold(state, Said(92.0, Word.UNDO))
    assert (state.phase, state.soak_by_word_only) == (PhaseKind.FIRE, True)


def test_an_undo_that_finds_nothing_changes_nothing() -> None:
    state = State()
    assert fold(state, Said(1.0, Word.UNDO)) is None
    assert without(state, "at") == without(State(), "at")


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

"""What was said is taken back, brought back, or was earlier: undo, redo and `earlier` in the state of a sitting."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from plans.measured import written_measured
from plans.sitting.calls import STATES, Call
from plans.sitting.events import Begun, Cause, Said, Word
from plans.sitting.state import State
from plans.sitting.undo import Measurement, RedoPoint, UndoPoint, WorkBefore

EARLIER = 10.0
"""By how much the word `earlier` moves what the last word said, where it does not say [s]."""


def last_word(state: State) -> str:
    """What the last word said, or what came about by itself, in a word or two; empty where there was none."""
    if not state.undo_points:
        return ""
    point = state.undo_points[-1]
    return _in_words(point, state.begins[point.begins :], state.measurements)


def taken_back(state: State) -> str:
    """What the undo that was said just now took back, in a word or two; empty where it took back only a question."""
    if not state.redo_points or state.redo_points[-1].after.at != state.at:
        return ""
    point = state.redo_points[-1]
    return _in_words(point.undone, point.begins, point.after.measurements)


def _in_words(point: UndoPoint, began: Sequence[Begun], measured: Sequence[Measurement]) -> str:
    if began:
        return began[0].phase.row.act
    figures = "".join(f" {written_measured(one.measured)}" for one in measured[len(point.measurements) :])
    return f"{point.what.value}{figures}"


def undo_point(state: State, at: float, what: Word | Cause, work: WorkBefore | None) -> UndoPoint:
    """All that a word may change, as it is now.

    Args:
        state: where the sitting stands
        at: when the word is said, or the thing comes about [s]
        what: the word; or, of what comes about without one, the cause
        work: the work in the warm model; None without one
    """
    return UndoPoint(
        at=at,
        what=what,
        moved=False,
        work=work,
        begins=len(state.begins),
        past_pauses=len(state.past_pauses),
        looks=len(state.looks),
        away_since_pause=state.away_since_pause,
        extra=tuple(sorted(state.extra.items())),
        measurements=state.measurements,
        ticked=state.ticked,
        paused_at=state.paused_at,
        seconds_paused=state.seconds_paused,
        left_fire_at=state.left_fire_at,
        soak_by_word_only=state.soak_by_word_only,
        end_by_word_only=state.end_by_word_only,
        ended_at=state.ended_at,
        alarms=state.alarms,
        called=state.called,
    )


def undo(state: State, remember: Callable[[], WorkBefore] | None) -> UndoPoint | None:
    """Take the last word back, or what came about without one.

    Args:
        state: where the sitting stands; it is changed
        remember: tells how the work is in the warm model now, for redo to go back to; None without a warm model

    Returns:
        the point that it went back to; None where there is nothing to take back
    """
    if not state.undo_points:
        return None
    point = state.undo_points.pop()
    state.redo_points.append(
        RedoPoint(
            undone=point,
            after=undo_point(state, state.at, point.what, None if remember is None else remember()),
            begins=tuple(state.begins[point.begins :]),
            seconds_paused_before=tuple(state.seconds_paused_before[point.begins :]),
            past_pauses=tuple(state.past_pauses[point.past_pauses :]),
            looks=tuple(state.looks[point.looks :]),
        )
    )
    state.extra = dict(point.extra)
    state.measurements, state.ticked = point.measurements, point.ticked
    if not point.moved:
        return point
    # Whether the probe is there is not the smith's word to take back; but the end had let go of every call.
    stands = (point.alarms if state.finished else state.alarms) & STATES
    del state.past_pauses[point.past_pauses :]
    del state.looks[point.looks :]
    _take_on(state, point)
    state.soak_by_word_only |= point.what is Cause.TEMPERATURE
    state.end_by_word_only |= point.what is Cause.CLOCK
    del state.begins[point.begins :]
    del state.seconds_paused_before[point.begins :]
    state.alarms = (point.alarms - STATES) | stands
    state.called = point.called
    return point


def redo(state: State) -> UndoPoint | None:
    """Bring back what the last undo took away.

    Args:
        state: where the sitting stands; it is changed

    Returns:
        a point that tells where the work was before that undo; None where nothing was taken back
    """
    if not state.redo_points:
        return None
    again = state.redo_points.pop()
    state.undo_points.append(again.undone)
    state.extra = dict(again.after.extra)
    state.measurements, state.ticked = again.after.measurements, again.after.ticked
    if again.undone.moved:
        state.past_pauses += again.past_pauses
        state.looks += again.looks
        _take_on(state, again.after)
        state.begins += again.begins
        state.seconds_paused_before += again.seconds_paused_before
        state.alarms = (again.after.alarms - STATES) | (state.alarms & STATES)
        state.called = again.after.called
    return replace(again.after, moved=again.undone.moved)


def _take_on(state: State, point: UndoPoint) -> None:
    state.paused_at = point.paused_at
    state.seconds_paused = point.seconds_paused
    state.left_fire_at = point.left_fire_at
    state.soak_by_word_only = point.soak_by_word_only
    state.end_by_word_only = point.end_by_word_only
    state.ended_at = point.ended_at
    state.away_since_pause = point.away_since_pause


def earliest(state: State) -> float | None:
    """The earliest that what the last word said can have been [s]; None where it says nothing that has a time."""
    if not state.undo_points or not state.undo_points[-1].moved:
        return None
    point = state.undo_points[-1]
    paused_until = max((spans[-1][1] for spans in (state.past_pauses, state.looks) if spans), default=0.0)
    if len(state.begins) > point.begins:
        return max(paused_until, state.begins[-2].began if len(state.begins) > 1 else 0.0)
    looked = Call.LOOKED in state.alarms and Call.LOOKED not in point.alarms
    if looked or _pauses_since(state, point) or _left_since(state, point):
        return max(paused_until, state.since)
    return None


def move_back(state: State, said: Said) -> UndoPoint | None:
    """Move what the last word said to an earlier time.

    Args:
        state: where the sitting stands; it is changed
        said: the word, and by how many seconds, where its text says so

    Returns:
        the point before that word, which tells where the work was then; None where it says nothing that has a time
    """
    first = earliest(state)
    if first is None:
        return None
    point, by = state.undo_points[-1], float(said.text or EARLIER)

    def moved(was: float) -> float:
        return round(max(first, was - by), 3)  # as the log has it, for what is told by it later

    if len(state.begins) > point.begins:
        last = state.begins[-1]
        state.begins[-1] = replace(last, happened=moved(last.began))
    elif state.paused_at is not None and _pauses_since(state, point):
        state.paused_at = moved(state.paused_at)
    elif state.left_fire_at is not None and _left_since(state, point):
        state.left_fire_at = moved(state.left_fire_at)
    else:
        place = next(at for at in range(len(state.calls) - 1, -1, -1) if state.calls[at].call is Call.LOOKED)
        looked = state.calls[place]
        state.calls[place] = replace(looked, happened=moved(looked.was))
    return point


def _pauses_since(state: State, point: UndoPoint) -> bool:
    return state.paused_at is not None and point.paused_at is None


def _left_since(state: State, point: UndoPoint) -> bool:
    return state.left_fire_at is not None and point.left_fire_at is None

"""A sitting's events folded into its state, one by one, whatever the plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from plans.measured import read_measured
from plans.phase import PhaseKind
from plans.sitting.calls import PASSING, PROMPTS, STATES, Call
from plans.sitting.events import Asked, Begun, Called, Cause, Doubt, Eased, Ended, Event, LeftFire, Said, WentOn, Word
from plans.sitting.state import Note, State
from plans.sitting.taking_back import move_back, redo, undo, undo_point
from plans.sitting.ticks import Ticked, read_tick
from plans.sitting.undo import Measurement, UndoPoint, WorkBefore, undoable
from plans.units import Units

_LEAVES_A_QUESTION = (Word.NOTE, Word.MEASURED, Word.TICK, Word.ACKNOWLEDGE, Word.REPEAT)
"""Words that say nothing of where the work is: a question stands through them."""


def folded(events: Iterable[Event]) -> State:
    """Where a sitting stands after these events, without plan and warm model."""
    state = State()
    for event in events:
        fold(state, event)
    return state


def fold(state: State, event: Event, remember: Callable[[], WorkBefore] | None = None) -> UndoPoint | None:
    """Fold one more event into a state.

    Args:
        state: where the sitting stands; it is changed
        event: what happened
        remember: tells how the work is in the warm model now, for undo to go back to; None without a warm model

    Returns:
        the point that an undo went back to; None for any other event, and for an undo that finds nothing
    """
    what = undoable(event)
    if what is not None:
        state.undo_points.append(undo_point(state, event.at, what, None if remember is None else remember()))
        state.redo_points.clear()
    state.at = max(state.at, event.at)
    dismissed = _is_dismissed_by(state, event)
    if isinstance(event, Begun) or (isinstance(event, Said) and event.word not in _LEAVES_A_QUESTION):
        state.question = None
    match event:
        case Said(word=Word.UNDO):
            return None if dismissed else undo(state, remember)
        case Said(word=Word.REDO):
            return redo(state)
        case Said(word=Word.EARLIER):
            return move_back(state, event)
        case Said():
            _take_word(state, event)
        case Asked():
            state.question = event
        case Begun():
            _begin(state, event)
        case Called():
            _call(state, event)
        case Eased(call=Call.LOOKED):
            _end_look(state, event.was)
        case Eased(call=call):
            state.alarms -= {call}
            if call is Call.FIRE_COLD:
                state.called -= {call}  # a fire wavers: it is called anew
        case Ended():
            _end_look(state, event.at)
            _move(state, event.at)
            state.ended_at = event.at
            state.alarms = frozenset()
        case LeftFire(at=at, happened=happened):
            _moved(state)
            state.left_fire_at = at if happened is None else happened
            _end_look(state, state.left_fire_at)
            state.alarms -= PROMPTS
        case WentOn():
            _go_on(state, event)
    return None


def _is_dismissed_by(state: State, event: Event) -> bool:
    """Whether an event takes back a word that was asked about and not taken: then nothing else is taken back."""
    asked = state.asks(event.at)
    takes_back = isinstance(event, Said) and event.word is Word.UNDO
    return takes_back and asked is not None and asked.doubt is not Doubt.WHERE


def _take_word(state: State, said: Said) -> None:
    match said.word:
        case Word.ACKNOWLEDGE:
            if state.acknowledged_at is None:
                state.acknowledged_at = said.at
        case Word.NOTE:
            # A note stands: taking back a word must not cost what was written down meanwhile.
            state.notes.append(Note(said.at, said.text, state.step, state.heat))
        case Word.MEASURED:
            measured = read_measured(said.text, Units.METRIC)
            found = Measurement(said.at, *state.worked_on(measured.step), measured)
            state.measurements = (*state.measurements, found)
        case Word.TICK:
            tick = read_tick(said.text)
            step = state.step if tick.step is None else tick.step
            others = tuple(one for one in state.ticked if (one.step, one.item) != (step, tick.item))
            state.ticked = (*others, Ticked(step, tick.item, said.at)) if tick.on else others
        case Word.PAUSE:
            _moved(state)
            _end_look(state, said.at)
            state.paused_at = said.at
            state.away_since_pause = False
        case Word.IN if state.may_have_lain_in_it(said.at):
            # It lay in the fire all along: its time went on.
            _moved(state)
            state.paused_at = None
        case Word.IN:
            # In the same heat no phase begins.
            _move(state, said.at)
        case Word.RESUME:
            _move(state, said.at)
        case Word.FLUX if state.out_for_a_look:
            _moved(state)
        case Word.REPEAT:
            state.extra[state.step] = (*state.extra.get(state.step, ()), state.heat)
        case _:
            pass


def _begin(state: State, begun: Begun) -> None:
    _end_look(state, begun.began)
    if state.left_fire_at is not None:
        state.looks.append((state.left_fire_at, begun.began))
    _move(state, begun.at)
    state.left_fire_at = None
    state.soak_by_word_only = _is_back_from_soak(state, begun)
    state.end_by_word_only = False
    state.begins.append(begun)
    state.seconds_paused_before.append(state.seconds_paused)
    state.alarms &= STATES
    state.called = frozenset()


def _is_back_from_soak(state: State, begun: Begun) -> bool:
    if not state.begins or begun.phase is not PhaseKind.FIRE or begun.cause is Cause.COLDER:
        return False
    before = state.begins[-1]
    return (before.step, before.heat, before.phase) == (begun.step, begun.heat, PhaseKind.SOAK)


def _call(state: State, called: Called) -> None:
    call = called.call
    if call is Call.LOOKED:
        _moved(state)
    if call in (Call.LOOKED, Call.AT_HEAT):
        # Who was there may have fluxed it; at heat it is too late to.
        state.alarms -= {Call.FLUX_NOW}
    state.calls.append(called)
    state.called |= {call}
    if call is Call.PROBE_BACK:
        state.alarms -= {Call.PROBE_LOST}
    if call not in PASSING:
        state.alarms |= {call}


def _go_on(state: State, went_on: WentOn) -> None:
    at, since = went_on.at, went_on.paused_since
    state.restarted_at = at
    state.away_since_pause = since is not None or state.paused
    state.question = None
    if since is not None:
        _end_look(state, since)
        state.redo_points.clear()
        # What was before a long break can't be taken back as if the break had not been.
        state.undo_points.clear()
        if state.paused_at is None:
            state.paused_at = since
    away = since if went_on.away_since is None else went_on.away_since
    if away is not None and away < at:
        state.breaks.append((away, at))


def _end_look(state: State, at: float) -> None:
    """The work is out for good, or back in the fire, at `at` [s]; what it spent out is no time of its phase."""
    since = state.looked_since
    if since is None:
        return
    state.alarms -= {Call.LOOKED}
    start = max(since, state.since)
    if at > start:
        state.looks.append((start, at))
        state.seconds_paused += at - start


def _move(state: State, at: float) -> None:
    """Something else goes on with the work from `at` [s]: a pause is over."""
    _moved(state)
    if state.paused_at is not None:
        state.past_pauses.append((state.paused_at, at))
        state.seconds_paused += at - state.paused_at
        state.paused_at = None


def _moved(state: State) -> None:
    if state.undo_points:
        state.undo_points[-1].moved = True

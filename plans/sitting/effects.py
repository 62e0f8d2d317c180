"""What each of the smith's words does, told from where the sitting stands: a row a word."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final

from plans.measured import read_measured, written_measured
from plans.phase import HELD_HOT, WARMING, PhaseKind
from plans.plan import Plan
from plans.record import record
from plans.sitting import course
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.events import Eased, Ended, LeftFire, Said, Word
from plans.sitting.measured_where import measured_of
from plans.sitting.state import State
from plans.sitting.taking_back import earliest
from plans.sitting.ticks import read_tick, written_tick
from plans.sitting.words import WordError, check_note, measured_text, tick_text
from plans.units import Units

Effect = Said | LeftFire | Eased | Ended | PlanPoint | Call
"""Something that a word brings about: an event as it stands, a point in the plan that is to begin, or a call."""


_JUST_BACK = 10.0
"""Who says `flux` so soon after the work was felt to be back in the fire means that it is [s]."""


@record
class _Heard:
    """A word, and where the sitting stands as it is said."""

    said: Said
    plan: Plan
    state: State
    below_heat: bool


def effects_of(said: Said, plan: Plan, state: State, below_heat: bool = False) -> tuple[Effect, ...]:
    """What a word brings about, in order: first the word itself, as it is to be logged.

    Args:
        said: the word
        plan: what is to be done
        state: where the sitting stands; it is not changed
        below_heat: whether the work is colder than its soak wants it, so that it must come to heat again

    Raises:
        WordError: the word means nothing just now.
    """
    if state.finished and not (said.word.has_text or said.word is Word.UNDO):
        raise WordError("the sitting is finished; undo takes that back")
    return _EFFECTS[said.word](_Heard(said, plan, state, below_heat))


def _next(heard: _Heard) -> tuple[Effect, ...]:
    if heard.state.is_lost and heard.state.asks(heard.said.at) is not None:
        # Whoever has but one word, as with a pedal, was asked first; out is where the model can't say too hot.
        return _out(_said(heard, Word.OUT))
    if heard.state.paused:
        return (Said(heard.said.at, Word.RESUME),)
    if heard.state.out_for_a_look:
        return _in(_said(heard, Word.IN))
    if Call.FLUX_NOW in heard.state.alarms:
        return _flux(_said(heard, Word.FLUX))
    return _going_on(heard.said, course.after(heard.plan, heard.state))


def _said(heard: _Heard, word: Word) -> _Heard:
    """The same, with the word that is meant."""
    return replace(heard, said=Said(heard.said.at, word))


def _in(heard: _Heard) -> tuple[Effect, ...]:
    """Where it went into the fire: after a pause and after a look into the same heat, else into one more."""
    said, plan, state = heard.said, heard.plan, heard.state
    if state.is_lost:
        return said, *course.to_heat_again(state, heard.below_heat)
    if state.out_for_a_look:
        return said, Eased(said.at, Call.LOOKED), *course.to_heat_again(state, heard.below_heat)
    if state.phase in WARMING and state.left_fire_at is None:
        raise WordError("it is in the fire already")
    if state.phase is PhaseKind.OVEN:
        raise WordError("it is in the oven already")
    point = course.in_the_oven(plan, state) or course.in_the_fire_again(plan, state)
    if point is None:
        raise WordError("this step has no fire to go into; next ends it")
    goes_on = state.phase is PhaseKind.AIR and point.heat == state.heat
    return (said, point, Call.GOES_ON) if goes_on else (said, point)


def _flux(heard: _Heard) -> tuple[Effect, ...]:
    state = heard.state
    if state.out_for_a_look:
        return _in(heard)
    if state.paused:
        raise WordError("paused: say first where the work is, in or out")
    if state.left_fire_at is not None or state.phase not in HELD_HOT:
        raise WordError("the work is not in the fire")
    if state.looks and heard.said.at - state.looks[-1][1] < _JUST_BACK:
        raise WordError("it is back in the fire already")
    return heard.said, Call.LOOKED


def _on(heard: _Heard) -> tuple[Effect, ...]:
    return _going_on(heard.said, course.step_after(heard.plan, heard.state))


def _out(heard: _Heard) -> tuple[Effect, ...]:
    if heard.state.is_lost:
        return heard.said, PlanPoint(heard.state.step, heard.state.heat, PhaseKind.READY)
    if heard.state.phase is PhaseKind.OVEN:
        return _going_on(heard.said, course.after(heard.plan, heard.state))
    point = course.out_of_fire(heard.plan, heard.state)
    if point is None or heard.state.left_fire_at is not None:
        raise WordError("the work is not in the fire")
    if point.phase is PhaseKind.QUENCH:
        return heard.said, LeftFire(heard.said.at)
    return heard.said, point


def _back(heard: _Heard) -> tuple[Effect, ...]:
    point = course.before(heard.plan, heard.state)
    if point is None:
        raise WordError("this is the beginning; there is nothing to go back to")
    return heard.said, point


def _repeat(heard: _Heard) -> tuple[Effect, ...]:
    return (heard.said,)


def _pause(heard: _Heard) -> tuple[Effect, ...]:
    if heard.state.paused:
        raise WordError("paused already")
    return (heard.said,)


def _resume(heard: _Heard) -> tuple[Effect, ...]:
    if not heard.state.paused:
        raise WordError("not paused")
    return _next(heard)


def _undo(heard: _Heard) -> tuple[Effect, ...]:
    asked = heard.state.asks(heard.said.at)
    if not heard.state.undo_points and (asked is None or heard.state.paused):
        raise WordError("there is no word to take back")
    return (heard.said,)


def _redo(heard: _Heard) -> tuple[Effect, ...]:
    if not heard.state.redo_points:
        raise WordError("nothing was taken back since the last word")
    return (heard.said,)


def _earlier(heard: _Heard) -> tuple[Effect, ...]:
    first = earliest(heard.state)
    if first is None:
        raise WordError("the last word said nothing that has a time; undo takes it back")
    if first >= heard.state.last_since():
        raise WordError("it can't have been earlier: something else was until then")
    return (heard.said,)


def _note(heard: _Heard) -> tuple[Effect, ...]:
    check_note(heard.said.text)
    return (heard.said,)


def _measured(heard: _Heard) -> tuple[Effect, ...]:
    measured = read_measured(measured_text(heard.said.text), Units.METRIC)
    if measured.step is not None:
        check_come_to(measured.step, heard.state)
    if measured.step is None:
        step, _ = measured_of(heard.plan, heard.state, measured)
        # The log is folded without its plan, which alone tells of which step a figure is.
        said_of, _ = heard.state.worked_on()
        measured = measured if step == said_of else replace(measured, step=step)
    return (replace(heard.said, text=written_measured(measured)),)


def check_come_to(step: int, state: State) -> None:
    """Refuse what is said of a step, from 0, that a sitting has not come to.

    Raises:
        WordError: it has not.
    """
    if step > state.step:
        raise WordError(f"step {step + 1} was not come to yet; this is step {state.step + 1}")


def _tick(heard: _Heard) -> tuple[Effect, ...]:
    tick, state = read_tick(tick_text(heard.said.text)), heard.state
    step = state.step if tick.step is None else tick.step
    check_come_to(step, state)
    items = len(heard.plan.steps[step].checklist)
    if tick.item >= items:
        last = f"its checklist ends with item {items}" if items else "it has no checklist"
        raise WordError(f"step {step + 1} has no item {tick.item + 1}: {last}")
    if (state.ticked_at(step, tick.item) is not None) is tick.on:
        now = "ticked already" if tick.on else "not ticked"
        raise WordError(f"item {tick.item + 1} of step {step + 1} is {now}")
    return (replace(heard.said, text=written_tick(replace(tick, step=step))),)


def _acknowledge(heard: _Heard) -> tuple[Effect, ...]:
    return (heard.said,)


def _finish(heard: _Heard) -> tuple[Effect, ...]:
    return heard.said, Ended(heard.said.at)


def _going_on(said: Said, point: PlanPoint | None) -> tuple[Effect, ...]:
    return said, (Ended(said.at) if point is None else point)


_EFFECTS: Final[Mapping[Word, Callable[[_Heard], tuple[Effect, ...]]]] = {
    Word.NEXT: _next,
    Word.IN: _in,
    Word.OUT: _out,
    Word.FLUX: _flux,
    Word.REPEAT: _repeat,
    Word.ON: _on,
    Word.BACK: _back,
    Word.UNDO: _undo,
    Word.REDO: _redo,
    Word.EARLIER: _earlier,
    Word.PAUSE: _pause,
    Word.RESUME: _resume,
    Word.FINISH: _finish,
    Word.NOTE: _note,
    Word.MEASURED: _measured,
    Word.TICK: _tick,
    Word.ACKNOWLEDGE: _acknowledge,
}

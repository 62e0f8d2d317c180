"""What each of the smith's words does, told from where the sitting stands: a row a word."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting import course
from plans.sitting.course import PlanPoint
from plans.sitting.events import Ended, LeftFire, Said, Word
from plans.sitting.state import State
from plans.sitting.words import WordError, check_note

Effect = Said | LeftFire | Ended | PlanPoint
"""Something that a word brings about: an event as it stands, or a point in the plan that is to begin."""


@dataclass(frozen=True, slots=True)
class _Heard:
    """A word, and where the sitting stands as it is said."""

    said: Said
    plan: Plan
    state: State


def effects_of(said: Said, plan: Plan, state: State) -> tuple[Effect, ...]:
    """What a word brings about, in order: first the word itself, as it is to be logged.

    Args:
        said: the word
        plan: what is to be done
        state: where the sitting stands; it is not changed

    Raises:
        WordError: the word means nothing just now.
    """
    if state.finished and said.word not in (Word.NOTE, Word.UNDO):
        raise WordError("the sitting is finished; undo takes that back")
    return _EFFECTS[said.word](_Heard(said, plan, state))


def _next(heard: _Heard) -> tuple[Effect, ...]:
    if heard.state.paused:
        return (Said(heard.said.at, Word.RESUME),)
    return _going_on(heard.said, course.after(heard.plan, heard.state))


def _on(heard: _Heard) -> tuple[Effect, ...]:
    return _going_on(heard.said, course.step_after(heard.plan, heard.state))


def _out(heard: _Heard) -> tuple[Effect, ...]:
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
    if heard.state.phase is heard.plan.steps[heard.state.step].phases[-1].kind:
        return heard.said, course.heat_after(heard.plan, heard.state)
    return (heard.said,)


def _pause(heard: _Heard) -> tuple[Effect, ...]:
    if heard.state.paused:
        raise WordError("paused already")
    return (heard.said,)


def _resume(heard: _Heard) -> tuple[Effect, ...]:
    if not heard.state.paused:
        raise WordError("not paused")
    return (heard.said,)


def _undo(heard: _Heard) -> tuple[Effect, ...]:
    if not heard.state.undo_points:
        raise WordError("there is no word to take back")
    return (heard.said,)


def _note(heard: _Heard) -> tuple[Effect, ...]:
    check_note(heard.said.text)
    return (heard.said,)


def _acknowledge(heard: _Heard) -> tuple[Effect, ...]:
    return (heard.said,)


def _finish(heard: _Heard) -> tuple[Effect, ...]:
    return heard.said, Ended(heard.said.at)


def _going_on(said: Said, point: PlanPoint | None) -> tuple[Effect, ...]:
    return said, (Ended(said.at) if point is None else point)


_EFFECTS: Final[Mapping[Word, Callable[[_Heard], tuple[Effect, ...]]]] = {
    Word.NEXT: _next,
    Word.OUT: _out,
    Word.REPEAT: _repeat,
    Word.ON: _on,
    Word.BACK: _back,
    Word.UNDO: _undo,
    Word.PAUSE: _pause,
    Word.RESUME: _resume,
    Word.FINISH: _finish,
    Word.NOTE: _note,
    Word.ACKNOWLEDGE: _acknowledge,
}

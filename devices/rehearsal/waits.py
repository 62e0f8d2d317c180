"""How the rehearsal's time goes on: by quarters of a second, and in long waits, in which nothing is felt, faster.

Two hours in the oven would else take minutes of watching. A moment of a long wait takes no longer to go by than any
other, but more of the rehearsal's time goes on in it.
"""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

from plans.phase import OUTSIDE, WARMING, PhaseKind
from plans.sitting import STATES

if TYPE_CHECKING:
    from plans.plan import Step
    from plans.sitting import Sitting
    from plans.warmth import Part

MOMENT = 0.25
"""Rehearsal time goes on by this much at once, since the simulated probe sends four lines a second [s]."""
_LONGEST = 30.0
"""And by no more than this in a long wait [s]."""
_GROWTH = 1.1
"""From one moment to the next: a probe that speaks ever less often is taken for a slow one, and not for lost."""
_SLOWS_OVER = 20
"""A moment is at most so small a part of what is left, so that the wait's end is not run past."""
_BLACK = 750.0
"""Work that has cooled to this shows no glow any more, and has transformed [K]."""
_COOL_BATH = 323.0
"""What goes into an etch is no hotter than the hand bears [K]."""
_STEADY = (15.0, 15.0)
"""How much at the beginning and at the end of a wait is shown at the pace that is set, where nothing changes but the
clock [s]."""
_CHANGES = (300.0, 60.0)
"""And where the work warms or cools: only very thick work takes so long, or a plan that wants it [s]."""
_ARRESTS = (850.0, 1050.0)
"""Between these steel transforms as it cools [K]."""
_OUT_OF_SIGHT = 900.0
"""What the warm model foresees no end of takes this at least [s]."""
_ASKED_AFTER = 30.0
"""A forecast is counted on for so long at least [s]."""


def cool_enough(step: Step) -> float:
    """The skin temperature that the work must have cooled to before the first phase of a step is begun [K]; no limit,
    `inf`, where that is not an oven or a bath."""
    first = step.phases[0]
    if first.kind is PhaseKind.DIP:
        return _COOL_BATH
    return first.at if first.kind is PhaseKind.OVEN and first.at is not None else inf


def black_at(sitting: Sitting) -> float | None:
    """The skin temperature that ends the air phase that goes on [K]: the plan's, or black where the smith's word ends
    it; None where only its time does."""
    phase = sitting.current_phase
    return _BLACK if phase.until is None and phase.seconds is None else phase.until


class Waits:
    """Tells how much of the rehearsal's time goes on at once."""

    def __init__(self) -> None:
        self._moment = MOMENT
        self._foreseen: tuple[object, float, float] | None = None
        """The phase that was asked about, when it likely has done its work, and when that is to be asked anew [s]."""

    def next_moment(self, at: float, sitting: Sitting) -> float:
        """How much time goes on next [s].

        Args:
            at: rehearsal time [s]
            sitting: as it stands then
        """
        fastest = min(_LONGEST, self._moment * _GROWTH, self._to_run_through(at, sitting) / _SLOWS_OVER)
        self._moment = max(MOMENT, fastest)
        return round(self._moment / MOMENT) * MOMENT

    def _to_run_through(self, at: float, sitting: Sitting) -> float:
        """How much of the phase that goes on is still to be run through [s]; 0 where it is shown as it goes."""
        state = sitting.state
        first, last = _CHANGES if _changes(sitting) else _STEADY
        gone = state.elapsed(at)
        is_awaited = state.paused or state.finished or state.alarms - STATES or state.asks(at) is not None
        if is_awaited or gone < first:
            return 0.0
        seconds = sitting.current_phase.seconds
        left = 0.0 if seconds is None else seconds - gone
        goal = _goal(sitting)
        if goal is not None:
            left = max(left, self._until(at, sitting, *goal))
        return left - last

    def _until(self, at: float, sitting: Sitting, part: Part, kelvin: float) -> float:
        """How long until a part of the work likely has come to a temperature [s]; asked now and then, as it costs."""
        key = (sitting.state.since, part, kelvin)
        if self._foreseen is None or self._foreseen[0] != key or at >= self._foreseen[2]:
            left = sitting.warm.likely_until(sitting.exposure, sitting.leading, part, kelvin)
            left = _OUT_OF_SIGHT if left is None else left
            self._foreseen = key, at + left, at + max(_ASKED_AFTER, left / 2)
        return self._foreseen[1] - at


def _changes(sitting: Sitting) -> bool:
    """Whether the work warms or cools so that it is worth watching: it does not once it is black in the air."""
    phase, skin = sitting.state.phase, sitting.skin
    return phase in WARMING or (phase in OUTSIDE and skin is not None and skin[0] > _BLACK)


def _goal(sitting: Sitting) -> tuple[Part, float] | None:
    """The part of the work, and the temperature of it, that the phase that goes on waits for; None where it waits for
    none, and where something is felt on the way that is not to be run past: an arrest, the time for flux."""
    from plans.warmth import Part

    step, state, skin = sitting.current_step, sitting.state, sitting.skin
    target = step.target(state.heat)
    if skin is None or state.out_for_a_look or state.left_fire_at is not None:
        return None
    match state.phase:
        case PhaseKind.FIRE if target is not None:
            fluxed = step.flux_at is None or skin[0] > step.flux_at
            return Part.SKIN, target.heat_to if fluxed or step.flux_at is None else step.flux_at
        case PhaseKind.SOAK if target is not None and sitting.current_phase.seconds is None:
            return Part.MIDDLE, target.heat_to - step.even_within
        case PhaseKind.AIR if not _ARRESTS[0] < skin[0] < _ARRESTS[1]:
            until = black_at(sitting)
            return None if until is None else (Part.SKIN, max(until, _ARRESTS[1] if skin[0] >= _ARRESTS[1] else 0.0))
        case PhaseKind.READY if skin[0] > cool_enough(step):
            return Part.SKIN, cool_enough(step)
        case _:
            return None

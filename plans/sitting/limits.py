"""The temperatures that count in a phase, and the work's skin held against those that call."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum

from plans.phase import WARMING, PhaseKind
from plans.plan import Step, Target
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.events import Basis
from plans.sitting.senses import HOLD, LimitWatch, Passed


class LimitName(StrEnum):
    """What a temperature of a step is, as scales and traces write it."""

    COLD = "cold"
    """The cold limit: stop striking below it."""
    BURN = "burn"
    """The burn limit: the steel is damaged above it."""
    HEAT_TO = "heat to"
    """What the skin must come up to in the fire."""
    COOL_TO = "cool to"
    """What an air phase waits for."""
    OVER = "over"
    """Above what a heat treatment may have in this heat."""
    OVEN = "oven"
    """The oven's own temperature."""


@record
class Limit:
    """A temperature that counts in a phase."""

    name: LimitName
    """What it is."""
    kelvin: float
    """Where it lies [K]."""
    call: Call | None = None
    """What is called when the skin passes it in this phase; None where nothing is."""


_OVER = 50.0
"""How far over its heat a heat treatment may go, however hot the plan has the fire: a temperature difference [K]. A
normalizing heat is 55 K below the one before (common practice, no source), so that more would be the heat before."""


def heat_ceiling(step: Step, target: Target | None, by_steel: float | None = None) -> float | None:
    """The hottest that the skin may come in a heat treatment [K]; None for a step whose work is struck.

    The plan's fire and what counts as even, but no more than `_OVER` above the heat; and what the steel's own card
    says, where the plan itself stays below that.

    Args:
        step: the step
        target: what its heat aims at; None where nothing is heated
        by_steel: the hottest that the card of the steel has for hardening [K]; None where it is not known
    """
    kinds = {phase.kind for phase in step.phases}
    if target is None or PhaseKind.STRIKE in kinds or not kinds & {PhaseKind.AIR, PhaseKind.QUENCH}:
        return None
    even = target.heat_to + step.even_within
    ceiling = max(even, min(target.fire + step.even_within, target.heat_to + _OVER))
    if by_steel is not None and PhaseKind.QUENCH in kinds:
        ceiling = min(ceiling, max(even, by_steel))
    return ceiling


def limits_of(step: Step, heat: int, phase: PhaseKind, by_steel: float | None = None) -> tuple[Limit, ...]:
    """The temperatures that count in a phase of a heat, the most important first.

    Args:
        step: the step
        heat: number of the heat, from 1
        phase: what is going on
        by_steel: the hottest that the card of the steel has for hardening [K]; None where it is not known
    """
    target = step.target(heat)
    struck, heated = phase is PhaseKind.STRIKE, phase in WARMING
    cold = _limit(LimitName.COLD, step.keep_above, Call.TOO_COLD if struck else None)
    burn = _limit(LimitName.BURN, step.burn_above, Call.TOO_HOT if heated else None)
    heat_to = _limit(LimitName.HEAT_TO, None if target is None else target.heat_to)
    over = _limit(LimitName.OVER, heat_ceiling(step, target, by_steel), Call.OVER_HEAT) if heated else ()
    if struck:
        return (*cold, *burn, *heat_to)
    if heated or phase is PhaseKind.READY:
        return (*heat_to, *over, *burn, *cold)
    now = next((part for part in step.phases if part.kind is phase), None)
    if now is None:
        return heat_to
    return (*_limit(LimitName.COOL_TO, now.until), *_limit(LimitName.OVEN, now.at)) or heat_to


def _limit(name: LimitName, kelvin: float | None, call: Call | None = None) -> tuple[Limit, ...]:
    return () if kelvin is None else (Limit(name, kelvin, call),)


_ABOVE = (LimitName.BURN, LimitName.OVER)


class Limits:
    """Holds the skin against the limits that call: too cold while it is struck, too hot while it is in the fire."""

    def __init__(self) -> None:
        self._watches: tuple[tuple[LimitWatch, Call], ...] = ()

    def set(
        self, step: Step, heat: int, phase: PhaseKind, alarms: frozenset[Call], by_steel: float | None = None
    ) -> None:
        """Begin to watch what counts in a phase; limits that are among `alarms` count as passed already."""
        self._watches = tuple(
            (LimitWatch(limit.kelvin, above=limit.name in _ABOVE, passed=limit.call in alarms), limit.call)
            for limit in limits_of(step, heat, phase, by_steel)
            if limit.call is not None
        )

    def see(self, at: float, kelvin: float, basis: Basis) -> Iterator[tuple[Call, Passed]]:
        """Take the skin in [K]; the limits that were crossed or are held again. A model has no noise to wait out."""
        hold = 0.0 if basis is Basis.MODELLED else HOLD
        for watch, call in self._watches:
            turn = watch.see(at, kelvin, hold)
            if turn is not None:
                yield call, turn

    def turn_at(self, kelvin: float) -> bool:
        """Whether a modelled skin would cross a limit, or ease it, at this temperature [K]; nothing changes."""
        return any(watch.turns_at(kelvin) for watch, _ in self._watches)

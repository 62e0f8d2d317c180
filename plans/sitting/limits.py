"""The temperatures that count in a phase, and the work's skin held against those that call."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from plans.phase import WARMING, PhaseKind
from plans.plan import Step
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
    OVEN = "oven"
    """The oven's own temperature."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A temperature that counts in a phase."""

    name: LimitName
    """What it is."""
    kelvin: float
    """Where it lies [K]."""
    call: Call | None = None
    """What is called when the skin passes it in this phase; None where nothing is."""


def limits_of(step: Step, heat: int, phase: PhaseKind) -> tuple[Limit, ...]:
    """The temperatures that count in a phase of a heat, the most important first.

    Args:
        step: the step
        heat: number of the heat, from 1
        phase: what is going on
    """
    target = step.target(heat)
    struck, heated = phase is PhaseKind.STRIKE, phase in WARMING
    cold = _limit(LimitName.COLD, step.keep_above, Call.TOO_COLD if struck else None)
    burn = _limit(LimitName.BURN, step.burn_above, Call.TOO_HOT if heated else None)
    heat_to = _limit(LimitName.HEAT_TO, None if target is None else target.heat_to)
    if struck:
        return (*cold, *burn, *heat_to)
    if heated or phase is PhaseKind.READY:
        return (*heat_to, *burn, *cold)
    now = next((part for part in step.phases if part.kind is phase), None)
    if now is None:
        return heat_to
    return (*_limit(LimitName.COOL_TO, now.until), *_limit(LimitName.OVEN, now.at)) or heat_to


def _limit(name: LimitName, kelvin: float | None, call: Call | None = None) -> tuple[Limit, ...]:
    return () if kelvin is None else (Limit(name, kelvin, call),)


class Limits:
    """Holds the skin against the limits that call: too cold while it is struck, too hot while it is in the fire."""

    def __init__(self) -> None:
        self._watches: tuple[tuple[LimitWatch, Call], ...] = ()

    def set(self, step: Step, heat: int, phase: PhaseKind, alarms: frozenset[Call]) -> None:
        """Begin to watch what counts in a phase; limits that are among `alarms` count as passed already."""
        self._watches = tuple(
            (LimitWatch(limit.kelvin, above=limit.name is LimitName.BURN, passed=limit.call in alarms), limit.call)
            for limit in limits_of(step, heat, phase)
            if limit.call is not None
        )

    def see(self, at: float, kelvin: float, basis: Basis) -> Iterator[tuple[Call, Passed]]:
        """Take the skin in [K]; the limits that were crossed or are held again. A model has no noise to wait out."""
        hold = 0.0 if basis is Basis.MODELLED else HOLD
        for watch, call in self._watches:
            turn = watch.see(at, kelvin, hold)
            if turn is not None:
                yield call, turn

"""The work's skin held against the limits of its step."""

from __future__ import annotations

from collections.abc import Iterator

from plans.plan import PhaseKind, Step
from plans.sitting.events import Basis, Call
from plans.sitting.senses import HOLD, LimitWatch, Passed


class Limits:
    """Too cold while the work is struck, too hot while it is in the fire."""

    def __init__(self) -> None:
        self._watches: tuple[tuple[LimitWatch, Call], ...] = ()

    def set(self, step: Step, phase: PhaseKind, alarms: frozenset[Call]) -> None:
        """Begin to watch what matters in a phase; of `alarms` it waits to be eased."""
        watches: list[tuple[LimitWatch, Call]] = []
        if phase is PhaseKind.STRIKE and step.keep_above is not None:
            watches.append((LimitWatch(step.keep_above, passed=Call.TOO_COLD in alarms), Call.TOO_COLD))
        if phase in (PhaseKind.FIRE, PhaseKind.SOAK) and step.burn_above is not None:
            watches.append((LimitWatch(step.burn_above, above=True, passed=Call.TOO_HOT in alarms), Call.TOO_HOT))
        self._watches = tuple(watches)

    def see(self, at: float, kelvin: float, basis: Basis) -> Iterator[tuple[Call, Passed]]:
        """Take the skin in [K]; the limits that were crossed or are held again. A model has no noise to wait out."""
        hold = 0.0 if basis is Basis.MODELLED else HOLD
        for watch, call in self._watches:
            turn = watch.see(at, kelvin, hold)
            if turn is not None:
                yield call, turn

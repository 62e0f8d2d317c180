"""What time brings: the phases that end by themselves, and the calls that fall due."""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.plan import PhaseKind
from plans.sitting.events import Basis, Call

if TYPE_CHECKING:
    from plans.sitting.engine import Sitting

_LEAST_OVERSOAK = 120.0
"""A soak is too long once it is past done by this, or by as long as it took, whichever is more [s]."""
_TIMED = frozenset({PhaseKind.QUENCH, PhaseKind.OVEN, PhaseKind.DIP})


def at_heat(sitting: Sitting) -> bool:
    """Whether the skin has come up to what the fire phase waits for."""
    state, skin = sitting.state, sitting.skin
    target = state.current_step.target(state.heat)
    return state.phase is PhaseKind.FIRE and target is not None and skin is not None and skin[0] >= target.heat_to


def calls_due(sitting: Sitting, at: float) -> list[Call]:
    """The calls that fall due at `at` [s], those already made in this phase left out."""
    state = sitting.state
    due: list[Call] = []
    if state.phase is PhaseKind.SOAK:
        if _soaked(sitting, at):
            due.append(Call.SOAK_DONE)
        if _soaked_too_long(sitting, at):
            due.append(Call.SOAKED_TOO_LONG)
    elif state.phase is PhaseKind.AIR:
        if _long_enough(sitting, at, else_=True) and _cool_enough(sitting):
            due.append(Call.TIME_UP)
    elif state.phase in _TIMED and _long_enough(sitting, at, else_=False):
        due.append(Call.TIME_UP)
    return [call for call in due if call not in state.called]


def _long_enough(sitting: Sitting, at: float, else_: bool) -> bool:
    seconds = sitting.phase.seconds
    return else_ if seconds is None else sitting.state.elapsed(at) >= seconds


def _soaked(sitting: Sitting, at: float) -> bool:
    if sitting.phase.seconds is not None:
        return sitting.state.elapsed(at) >= sitting.phase.seconds
    step, warm = sitting.state.current_step, sitting.warm
    target = step.target(sitting.state.heat)
    return target is not None and warm.known and warm.middle[-1] >= target.heat_to - step.even_within


def _soaked_too_long(sitting: Sitting, at: float) -> bool:
    state, at_most = sitting.state, sitting.phase.at_most
    if at_most is not None:
        return state.elapsed(at) >= at_most
    if Call.SOAK_DONE not in state.called:
        return False
    done_at = next(called.at for called in reversed(state.calls) if called.call is Call.SOAK_DONE)
    return at - done_at >= max(_LEAST_OVERSOAK, done_at - state.since)


def _cool_enough(sitting: Sitting) -> bool:
    until = sitting.phase.until
    if until is None:
        return sitting.phase.seconds is not None
    skin = sitting.skin
    if skin is None:
        return False
    # The middle is the last to cool; a probe knows the skin only.
    kelvin, basis = skin
    return (kelvin if basis is Basis.MEASURED else sitting.warm.middle[-1]) < until

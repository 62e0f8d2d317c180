"""What it makes of a sitting that a probe felt the work go into the fire or come out of it."""

from __future__ import annotations

from plans.phase import IDLE, OUTSIDE, PhaseKind
from plans.plan import Plan
from plans.sitting import course, due
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.events import Basis, Eased, LeftFire
from plans.sitting.facts import Facts
from plans.sitting.state import State
from plans.sitting.turning import Turn
from plans.units import ZERO_CELSIUS

Followed = LeftFire | Eased | PlanPoint | Call
"""Something that a turn brings about: an event as it stands, a point in the plan that is to begin, or a call."""

_BLACK = 550.0 + ZERO_CELSIUS
"""What cools in the air to below this has transformed, if it does at all [K]; from memory, no source."""
_LATE_OUT, _LATE_IN = 0.5, 0.8
"""By how much of its time constant the turn that a lagging probe shows is late, as found on simulated traces."""


def late_by(turn: Turn, lag: float) -> float:
    """How long before a turn that a lagging probe shows the work itself turned [s].

    Args:
        turn: the turn, as the probe shows it
        lag: time constant of the probe [s]
    """
    return lag * (_LATE_IN if turn.rose else _LATE_OUT)


def followed(
    turn: Turn, happened: float, facts: Facts, peak: tuple[float, Basis] | None, plan: Plan, state: State
) -> tuple[Followed, ...]:
    """What a turn of the work's temperature brings about, in order. Nothing skips a step without the smith.

    Args:
        turn: the turn
        happened: when the work went in or came out [s]
        facts: how the sitting stands as the turn is felt
        peak: the hottest that the skin was in this heat [K], and what that stands on; None where it is not known
        plan: what is to be done
        state: where the sitting stands; it is not changed
    """
    if turn.rose:
        return _went_in(turn, happened, facts, plan, state)
    return _came_out(happened, facts, peak, plan, state)


def _came_out(
    happened: float, facts: Facts, peak: tuple[float, Basis] | None, plan: Plan, state: State
) -> tuple[Followed, ...]:
    point = course.out_of_fire(plan, state)
    if point is None:
        return ()
    if point.phase is PhaseKind.QUENCH:
        return (LeftFire(facts.at, happened),) if state.left_fire_at is None else ()
    if point.step != state.step or state.out_for_a_look:
        return ()
    return (Call.LOOKED,) if due.is_only_a_look(facts, point.phase, peak) else (point,)


def _went_in(turn: Turn, happened: float, facts: Facts, plan: Plan, state: State) -> tuple[Followed, ...]:
    if state.out_for_a_look:
        back = Eased(facts.at, Call.LOOKED, happened)
        return (back, *course.to_heat_again(state, due.below_heat(facts)))
    point = course.in_the_fire_again(plan, state, turn.kelvin < _BLACK)
    if point is not None:
        goes_on = state.phase is PhaseKind.AIR and point.heat == state.heat
        return (point, Call.GOES_ON) if goes_on else (point,)
    waits = state.phase in OUTSIDE | IDLE and Call.AWAITS_WORD not in state.called
    return (Call.AWAITS_WORD,) if waits else ()

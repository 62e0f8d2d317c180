"""What a reading brings: a probe that is back or lost, a limit that is passed, the work that went in or came out."""

from __future__ import annotations

from plans.reading import ProbeOn, Reading
from plans.sitting.believed import tells_loss
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.events import Basis, Cause
from plans.sitting.facts import facts_of
from plans.sitting.following import followed, late_by
from plans.sitting.hands import HandsFree
from plans.sitting.telling import Telling
from plans.sitting.turning import Turn


def hear(telling: Telling, reading: Reading) -> None:
    """Take a reading in, and tell what comes of it.

    Args:
        telling: takes down what is decided
        reading: as it is logged; its time has come
    """
    standing, at = telling.standing, reading.at
    # Heard after the end too: the smith may take that back, and the probe was not lost meanwhile.
    is_believed = standing.hear(reading)
    telling.reading(reading)
    if standing.probe_on is None or standing.state.finished:
        return
    if tells_loss(reading):
        standing.ears.forget()
        telling.miss_probe(at)
    if not is_believed:
        return
    if Call.PROBE_LOST in standing.state.alarms:
        telling.call(at, Call.PROBE_BACK)
    if standing.is_measured and standing.probe.smooth is not None:
        telling.limits(at, standing.probe.smooth, Basis.MEASURED)
    arrest = standing.arrest_began(at)
    turn = standing.ears.turn(at, standing.probe, standing.probe_on, standing.state.last_begun, standing.plan)
    if standing.state.paused:
        return
    if arrest is not None:
        telling.call(at, Call.ARREST, standing.probe.kelvin, happened=max(arrest, standing.state.since))
    if turn is None or turn.at < standing.word_at:
        return
    if standing.probe_on is ProbeOn.FIRE:
        if not turn.rose:
            telling.call(at, Call.FIRE_FELL, standing.probe.kelvin, happened=turn.at)
    elif standing.hands.free is HandsFree.ALL:
        _follow(telling, at, turn)


def _follow(telling: Telling, at: float, turn: Turn) -> None:
    """The probe on the work felt it go into the fire or come out."""
    standing = telling.standing
    happened = round(max(turn.at - late_by(turn, standing.lag), standing.state.since, standing.word_at), 3)
    facts = facts_of(standing, at)
    for brought in followed(turn, happened, facts, standing.peak, standing.plan, standing.state):
        if isinstance(brought, PlanPoint):
            telling.begin(at, brought, Cause.PROBE, happened)
        elif isinstance(brought, Call):
            telling.call(at, brought, turn.kelvin, happened=happened)
        else:
            telling.event(brought)

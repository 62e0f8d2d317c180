"""What the smith must take in at one moment: a frozen snapshot, ready to be drawn or printed."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.plan import Step
from plans.reading import ProbeOn
from plans.record import record
from plans.shapes import Section
from plans.shown import counted
from plans.sitting import course
from plans.sitting.calls import ALARMS, PROMPTS, URGENCY, Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Asked, Basis, Doubt
from plans.sitting.main_figure import MainFigure, MainFigureKind, coldest_name, main_figure

TAKE_IT_OUT = "take it out"
"""What to do when the soak is done."""


@record
class Glance:
    """A sitting as it is seen at one moment."""

    at: float
    """The moment [s]."""
    phase: PhaseKind
    """What is going on."""
    word: str
    """What to do now, in one or two words."""
    figure: MainFigure
    """The one figure that matters now."""
    alarm: Call | None
    """The most urgent call that something is wrong; None where nothing is."""
    alarms: frozenset[Call]
    """Every call that holds."""
    paused: bool
    """Whether the smith pauses."""
    finished: bool
    """Whether the sitting is over."""
    step_number: int
    """Number of the step that is going on, from 1."""
    step_count: int
    """How many steps the plan has."""
    step: Step
    """The step that is going on, as the plan has it."""
    heat: int
    """Number of the heat in the step, from 1."""
    heats: int
    """How many heats the step has, those that were added to the plan counted in."""
    elapsed: float
    """How long the phase has run, pauses left out [s]."""
    fire: float | None
    """The fire: measured by a probe in it, else planned [K]; None where neither tells."""
    fire_basis: Basis
    """What the fire's temperature stands on."""
    heat_to: float | None
    """What the skin is to come up to in this heat [K]; None where nothing is heated."""
    skin: float | None
    """The work's skin, or its struck face while it is struck [K]; None where neither probe nor model knows it."""
    coldest: float | None
    """The coldest place of the work in the warm model [K]; None where no section is known yet."""
    coldest_name: str
    """What the coldest place of a section like this is called while it cools: "corner", "edge", "underside"."""
    middle: float | None
    """The work's middle in the warm model [K]; None where no section is known yet."""
    skin_basis: Basis
    """What the skin stands on; `PLANNED` where it is not known."""
    probe_age: float | None
    """How old what the probe says has become [s]; None where it is as new as can be, or is nothing."""
    reach: Section | None
    """The section that the step is to reach; None where the plan names none."""
    reach_length: float | None
    """The length that the step is to reach [m]; None where the plan names none."""
    next_word: str
    """What the word "next" means now: "out of the fire"; empty once the sitting is over."""
    then: str
    """What comes after this heat."""
    asked: Asked | None
    """The word that waits to be said once more, as it can hardly be meant; None where none does."""
    acknowledged: bool
    """Whether the smith said that he has read the cautions."""


def glance_at(sitting: Sitting, at: float, figure: MainFigure | None = None) -> Glance:
    """Look at a sitting.

    Args:
        sitting: to be looked at; it is not changed, so time must have been given to it with a tick before
        at: the time [s]
        figure: the figure that matters, where that is known already; forecasting it is most of what a look costs
    """
    state = sitting.state
    step = sitting.current_step
    target = step.target(state.heat)
    skin = sitting.skin
    warmth = sitting.warm.warmth if sitting.warm.known else None
    figure = main_figure(sitting, at) if figure is None else figure
    alarm = next((call for call in URGENCY if call in state.alarms), None)
    in_fire = sitting.probe_on is ProbeOn.FIRE and sitting.probe.kelvin is not None
    fire_now = sitting.probe.kelvin if in_fire else (target.fire if target else None)
    return Glance(
        at=at,
        phase=state.phase,
        word=_word(sitting, alarm, figure, at),
        figure=figure,
        alarm=alarm,
        alarms=state.alarms,
        paused=state.paused,
        finished=state.finished,
        step_number=state.step + 1,
        step_count=len(sitting.plan.steps),
        step=step,
        heat=state.heat,
        heats=sitting.heats_planned(state.step),
        elapsed=state.elapsed(at),
        fire=fire_now,
        fire_basis=Basis.MEASURED if in_fire else Basis.PLANNED,
        heat_to=target.heat_to if target else None,
        skin=skin[0] if skin else None,
        coldest=None if warmth is None else warmth.coldest,
        coldest_name=coldest_name(sitting),
        middle=sitting.warm.middle_now if sitting.warm.known else None,
        skin_basis=skin[1] if skin else Basis.PLANNED,
        probe_age=None if sitting.probe.kelvin is None else sitting.probe.age(at),
        reach=step.reach,
        reach_length=step.reach_length,
        next_word=_next_word(sitting),
        then=_then(sitting),
        asked=state.asks(at),
        acknowledged=state.acknowledged_at is not None,
    )


def _word(sitting: Sitting, alarm: Call | None, figure: MainFigure, at: float) -> str:
    state = sitting.state
    if state.finished:
        return "done"
    if (asked := state.asks(at)) is not None:
        return "in or out?" if asked.doubt is Doubt.WHERE else "sure?"
    if state.paused:
        return "paused"
    if state.left_fire_at is not None:
        return "quench now"
    if alarm in ALARMS:
        return alarm.value
    if state.out_for_a_look:
        return "back in"
    if Call.FIRE_COLD in state.alarms and sitting.probe.kelvin is not None:
        return "fire cold"
    if Call.FLUX_NOW in state.alarms:
        return Call.FLUX_NOW.value
    if Call.AT_HEAT in state.alarms:
        return "at heat"
    if Call.SOAK_DONE in state.alarms:
        return TAKE_IT_OUT
    if PROMPTS & state.alarms:
        place = course.after(sitting.plan, state)
        once_more = place is not None and place.step == state.step and place.heat > state.heat
        if once_more and state.phase is PhaseKind.AIR:
            return "back in"
        return "cold enough" if Call.COLD_ENOUGH in state.alarms else "time up"
    if figure.kind is MainFigureKind.THIN_COLD:
        # Seen from afar the figure has begun anew: what must not be struck any more has the word.
        return f"{figure.thin} cold"
    return state.phase.row.word


def _next_word(sitting: Sitting) -> str:
    state = sitting.state
    if state.finished:
        return ""
    if state.paused:
        return "it is out" if state.question is not None else "go on"
    if state.out_for_a_look:
        return "back in"
    if Call.FLUX_NOW in state.alarms:
        return "out to flux"
    return _act(sitting)


def _act(sitting: Sitting) -> str:
    state = sitting.state
    place = course.after(sitting.plan, state)
    if place is None:
        return "finish"
    if state.phase is PhaseKind.BENCH and place.step != state.step:
        return "done, next step"
    return place.phase.row.act


def _then(sitting: Sitting) -> str:
    """What comes after this heat, in the step's own counting."""
    state = sitting.state
    step = sitting.current_step
    more = sitting.heats_planned(state.step) - state.heat
    if more > 0:
        return f"the same, {counted(more, step.counts)} more"
    if state.step + 1 < len(sitting.plan.steps):
        return sitting.plan.steps[state.step + 1].title
    return "the end"

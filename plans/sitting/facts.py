"""What is known of a sitting at one moment, for whoever judges what is due, what can be meant, what a turn tells."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.plan import Phase, Step, Target
from plans.reading import ProbeOn
from plans.record import record
from plans.sitting.calls import PROMPTS, Call
from plans.sitting.events import Basis, Cause
from plans.sitting.hands import Hands
from plans.sitting.standing import Standing

_SOAK_DONE = frozenset({Call.SOAK_DONE})
_NEARLY = 100.0
"""Who was at the work when it was colder than its flux heat by no more than this fluxed it: a temperature difference
[K]; from memory, no source."""


@record
class Facts:
    """What is known of a sitting at one moment, as far as what time brings hangs on it."""

    at: float
    """The moment [s]."""
    step: Step
    """The step that is going on."""
    target: Target | None
    """What its heat aims at; None where nothing is heated."""
    phase: Phase
    """The plan's figures for the phase that is going on; none but its kind while the smith is awaited."""
    since: float
    """When the phase really began [s]."""
    elapsed: float
    """How long the phase has run, pauses left out [s]."""
    skin: float | None
    """The work's skin [K]; None where neither probe nor model knows it."""
    basis: Basis
    """What the skin stands on; `PLANNED` where it is not known."""
    middle: float | None
    """The work's middle in the warm model [K]; None where no section is known yet."""
    hands: Hands
    """What may begin or end by itself."""
    soak_by_word_only: bool
    """Whether only a word begins the soak."""
    end_by_word_only: bool
    """Whether only a word ends the phase."""
    left_fire_at: float | None
    """When the work left the fire for the quench, while it is on its way [s]; None else."""
    called: frozenset[Call]
    """Calls made in this phase."""
    soak_done_at: float | None
    """When the soak was called done in this phase [s]; None where it was not."""
    prompted_at: float | None
    """When the newest prompt that still holds, and that the clock may answer, was called [s]; None without one."""
    restarted_at: float
    """When the program was last started again in the middle of the sitting, or the work came back from a look [s]; 0
    where neither ever was."""
    quenched_at: float | None
    """When the work was quenched last [s]; None where it never was, and while no oven is waited for."""
    begun_by: Cause
    """What made the phase begin."""
    paused: bool
    """Whether the smith pauses."""
    is_lost: bool
    """Whether nobody knows where the work is, in the fire or out: a pause goes on that began while it lay in it."""
    looked: bool
    """Whether the work is out of the fire for a look or for flux."""
    fluxed: bool
    """Whether the work was out in this phase when it was about as hot as the plan fluxes it."""
    behind: float
    """By how much the probe on the work is behind it just now, as far as its lag makes it: a temperature difference
    [K]; below 0 while the work cools, 0 without a probe."""
    skin_at_first: float | None
    """The work's skin as the phase began [K]; None where it was not known."""
    fire: float | None
    """The fire, as a probe in it has it [K]; None without one."""


def facts_of(standing: Standing, at: float) -> Facts:
    """How a sitting stands at `at` [s]."""
    state, step = standing.state, standing.current_step
    skin, basis = standing.skin or (None, Basis.PLANNED)
    return Facts(
        at=at,
        step=step,
        target=step.target(state.heat),
        phase=standing.current_phase,
        since=state.since,
        elapsed=state.elapsed(at),
        skin=skin,
        basis=basis,
        middle=standing.warm.middle_now if standing.warm.known else None,
        hands=standing.hands,
        soak_by_word_only=state.soak_by_word_only,
        end_by_word_only=state.end_by_word_only,
        left_fire_at=state.left_fire_at,
        called=state.called,
        soak_done_at=state.called_at(_SOAK_DONE) if Call.SOAK_DONE in state.called else None,
        prompted_at=state.called_at((state.alarms & PROMPTS) - {Call.FLUX_NOW}) if state.alarms else None,
        restarted_at=max(state.restarted_at, state.looks[-1][1] if state.looks else 0.0),
        quenched_at=state.began_at(PhaseKind.QUENCH) if state.phase is PhaseKind.READY else None,
        begun_by=state.last_begun.cause,
        paused=state.paused,
        is_lost=state.is_lost,
        looked=state.out_for_a_look,
        fluxed=step.flux_at is not None and state.looked_above(step.flux_at - _NEARLY),
        behind=0.0,
        skin_at_first=standing.skin_at_first,
        fire=standing.probe.kelvin if standing.probe_on is ProbeOn.FIRE else None,
    )

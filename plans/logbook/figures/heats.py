"""The figures of a sitting worked out from its phases and its skin: steps with their heats, calls, notes."""

from __future__ import annotations

from collections.abc import Iterable

from plans.logbook.figures.of_a_sitting import HeatEnd, HeatFigures, SittingFigures, StepFigures
from plans.phase import HOLDING, IDLE, WARMING, PhaseKind
from plans.plan import Step
from plans.sitting import (
    Basis,
    Called,
    PhaseSpan,
    Sitting,
    Skin,
    event_from_record,
    event_to_record,
    phase_spans,
    spans_by_model,
    standstills,
)
from plans.trace import from_tenths, to_tenths

_MOSTLY = 0.8
"""A heat is measured when what is measured covers this share of it."""


def heat_figures(sitting: Sitting) -> SittingFigures:
    """The figures of a sitting, finished or not, without what it cost the steel and what it tells of the shop."""
    state, by_heat = sitting.state, _by_heat(sitting)
    skin = Skin(sitting.believed, sitting.warm, spans_by_model(state, sitting.now))
    pauses = standstills(state, sitting.now)
    heats: dict[int, list[HeatFigures]] = {}
    for (number, heat), parts in sorted(by_heat.items()):
        found = heats.setdefault(number, [])
        if any(part.phase not in IDLE for part in parts):
            end = _end(sitting, number, heat, parts)
            found.append(_heat(heat, parts, pauses, skin, sitting.plan.steps[number], end))
    steps = ((number, sitting.plan.steps[number], tuple(heats[number])) for number in sorted(heats))
    return SittingFigures(
        steps=tuple(StepFigures(number, step.title, step.kind, found) for number, step, found in steps),
        calls=tuple(map(_as_kept, state.calls)),
        notes=tuple(state.notes),
    )


def heats_done(sitting: Sitting) -> dict[int, int]:
    """How many heats of each step (from 0) were done so far; quick to ask, as nothing is looked up of the skin."""
    done: dict[int, int] = {}
    for (number, heat), parts in _by_heat(sitting).items():
        if any(part.phase not in IDLE for part in parts):
            done[number] = done.get(number, 0) + (_end(sitting, number, heat, parts) is HeatEnd.DONE)
    return done


def _by_heat(sitting: Sitting) -> dict[tuple[int, int], list[PhaseSpan]]:
    """The phases of each heat, by the number of its step and its own."""
    found: dict[tuple[int, int], list[PhaseSpan]] = {}
    for span in phase_spans(sitting.state, sitting.now):
        found.setdefault((span.step, span.heat), []).append(span)
    return found


def _as_kept(called: Called) -> Called:
    """A call with its times and temperatures rounded as the log keeps them."""
    kept = event_from_record(event_to_record(called))
    assert isinstance(kept, Called), "the event of a call is a call"
    return kept


def _end(sitting: Sitting, step: int, heat: int, parts: list[PhaseSpan]) -> HeatEnd:
    """How a heat ended, by the last of its phases in which a heat goes on."""
    last = [part.phase for part in parts if part.phase not in IDLE][-1]
    wants_more = any(phase.kind not in WARMING | IDLE for phase in sitting.plan.steps[step].phases)
    if last not in WARMING or not wants_more:
        return HeatEnd.DONE
    state = sitting.state
    goes_on = not state.finished and (state.step, state.heat, state.phase) == (step, heat, last)
    return HeatEnd.UNDER_WAY if goes_on else HeatEnd.CUT_OFF


def _heat(
    heat: int,
    parts: list[PhaseSpan],
    pauses: list[tuple[float, float]],
    skin: Skin,
    step: Step,
    end: HeatEnd,
) -> HeatFigures:
    peak: float | None = None
    leaving: float | None = None
    lowest: float | None = None
    struck_by_model = False
    too_cold = at_welding_heat = 0.0
    keep_above, welding_from = step.keep_above, step.welding_from(heat)
    covered = {Basis.MEASURED: 0.0, Basis.MODELLED: 0.0}
    for part, seconds, kelvin, basis in skin.in_heat(parts, pauses):
        covered[basis] += seconds
        if peak is None or kelvin > peak:
            peak = kelvin
        if welding_from is not None and kelvin >= welding_from:
            at_welding_heat += seconds
        if part.phase in WARMING:
            leaving = kelvin
        elif part.phase is PhaseKind.STRIKE:
            if lowest is None or kelvin < lowest:
                lowest, struck_by_model = kelvin, basis is Basis.MODELLED
            if keep_above is not None and kelvin < keep_above:
                too_cold += seconds
    total = covered[Basis.MEASURED] + covered[Basis.MODELLED]
    measured = total > 0 and covered[Basis.MEASURED] / total >= _MOSTLY
    return HeatFigures(
        heat=heat,
        in_fire=_seconds(parts, WARMING),
        soak=_seconds(parts, {PhaseKind.SOAK}),
        strike=_seconds(parts, {PhaseKind.STRIKE}),
        air=_seconds(parts, {PhaseKind.AIR}),
        hold=_seconds(parts, HOLDING),
        too_cold=round(too_cold, 2),
        peak=_to_a_tenth(peak),
        leaving=_to_a_tenth(leaving) if end is HeatEnd.DONE else None,
        lowest_struck=_to_a_tenth(lowest),
        basis=Basis.MEASURED if measured and not struck_by_model else Basis.MODELLED,
        end=end,
        at_welding_heat=None if welding_from is None else round(at_welding_heat, 2),
    )


def _seconds(parts: Iterable[PhaseSpan], kinds: set[PhaseKind] | frozenset[PhaseKind]) -> float:
    return round(sum((part.seconds for part in parts if part.phase in kinds), 0.0), 2)


def _to_a_tenth(kelvin: float | None) -> float | None:
    return None if kelvin is None else from_tenths(to_tenths(kelvin))

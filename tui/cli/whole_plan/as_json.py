"""What the plan commands print with --json: units stand in the names of the keys."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from plans.at_hand import group_of
from plans.errors import Fault, FaultKind, PlanError
from plans.reader import write_keys
from plans.units import Units, celsius

if TYPE_CHECKING:
    from plans.editing import Difference, KeyDifference, PartDifference
    from plans.maker import Concern
    from plans.plan import Bar, Phase, Plan, Step
    from plans.reader import BarKeys
    from plans.shapes import Section
    from plans.stock import PlanVolume, StepVolume
    from plans.times import HeatTimes, PlanTimes, StepTimes
    from plans.warmth import Span
    from tui.cli.whole_plan.look import Hammer, Made, PlanLook

Record = dict[str, Any]


def short_record(name: str, plan: Plan | None, error: PlanError | None, times: PlanTimes | None) -> Record:
    """A plan in short, as lists have it: what it is, what it takes, its steps by title; or what is wrong with it."""
    return {
        "name": name,
        "title": plan.title if plan else None,
        "about": plan.about if plan else None,
        "group": group_of({step.kind for step in plan.steps}).value if plan else None,
        "heats": times.heats if times else None,
        "fire_seconds": None if times is None or times.unknown else round(times.in_the_fire),
        "steps": [{"title": s.title, "kind": s.kind.value, "heats": s.heats} for s in plan.steps] if plan else None,
        "good": plan is not None,
        "faults": [fault_record(fault) for fault in (error.faults if error else ())],
    }


def check_record(notes: Iterable[Fault]) -> Record:
    """Warnings and notes on a plan that can be followed."""
    found = list(notes)
    return {
        name: [fault_record(note) for note in found if note.kind is kind]
        for name, kind in (("warnings", FaultKind.WARNING), ("notes", FaultKind.NOTE))
    }


def fault_record(fault: Fault) -> Record:
    """One thing that is wrong in a file."""
    return {"line": fault.line, "where": fault.where, "key": fault.key, "what": fault.what, "hint": fault.hint}


def concern_record(concern: Concern, units: Units) -> Record:
    """One thing that does not add up."""
    return {
        "answer": concern.answer,
        "what": units.text(concern.what),
        "mend": units.text(concern.mend),
        "serious": concern.serious,
    }


def look_record(look: PlanLook, units: Units) -> Record:
    """All that is told of a plan; texts that hold figures have them in the units that are set."""
    plan, times = look.plan, look.times
    return {
        "name": plan.name,
        "title": plan.title,
        "about": plan.about,
        "bars": [bar_record(bar) | {"mass_kg": _round(kg)} for bar, kg in zip(plan.bars, look.masses, strict=True)],
        "steps": [
            _step(step, times.steps[number], look.hammer[number]) | {"steel": _steel(look, look.volume_of(number))}
            for number, step in enumerate(plan.steps)
        ],
        "heats": times.heats,
        "fire_seconds": _round(times.in_the_fire),
        "fire_unknown_steps": [number + 1 for number in times.unknown],
        "air_seconds": _round(times.air),
        "quench_seconds": times.quench,
        "oven_seconds": times.oven,
        "dip_seconds": times.dip,
        "steel": None if look.volume is None else _volume(look.volume),
        **check_record(look.notes),
        "concerns": [concern_record(one, units) for one in look.concerns],
        "made_from": None if look.made is None else _made(look.made, units),
    }


def bar_record(bar: Bar | BarKeys) -> Record:
    """One bar."""
    return {"name": bar.name, "steel": bar.steel, **_section("section", bar.section), "length_mm": _mm(bar.length)}


def difference_record(difference: Difference, units: Units) -> Record:
    """What differs between two plans; values as they would be typed, in the units that are set."""
    return {
        "alike": difference.is_empty,
        "plan": [_key(one, units) for one in difference.head],
        "bars": [_part(one, units) for one in difference.bars],
        "steps": [_part(one, units) for one in difference.steps],
    }


def _part(part: PartDifference, units: Units) -> Record:
    return {
        "before": None if part.before is None else part.before + 1,
        "after": None if part.after is None else part.after + 1,
        "title": part.title,
        "moved": part.moved,
        "keys": [_key(one, units) for one in part.keys],
    }


def _key(one: KeyDifference, units: Units) -> Record:
    return {"key": one.key, "before": units.text(one.before) or None, "after": units.text(one.after) or None}


def _step(step: Step, times: StepTimes, hammer: Hammer) -> Record:
    return {
        "title": step.title,
        "kind": step.kind.value,
        "instruction": step.instruction,
        "heats": step.heats,
        **_section("section", step.section),
        "length_mm": _mm(step.length),
        **_section("reach", step.reach),
        "reach_length_mm": _mm(step.reach_length),
        "thin_name": None if step.thin is None else step.thin_name,
        **_section("thin", step.thin),
        "fire_celsius": [_degrees(target.fire) for target in step.targets],
        "heat_to_celsius": [_degrees(target.heat_to) for target in step.targets],
        "flux_at_celsius": _degrees(step.flux_at),
        "keep_above_celsius": _degrees(step.keep_above),
        "burn_above_celsius": _degrees(step.burn_above),
        "phases": [_phase(phase) for phase in step.phases],
        "first_heat": _heat(times.first, hammer.first),
        "last_heat": _heat(times.last, hammer.last),
        "fire_seconds": _round(times.in_the_fire),
        "checklist": list(step.checklist),
        "cautions": list(step.cautions),
    }


def _phase(phase: Phase) -> Record:
    found = {
        "kind": phase.kind.value,
        "seconds": phase.seconds,
        "at_most_seconds": phase.at_most,
        "until_celsius": _degrees(phase.until),
        "at_celsius": _degrees(phase.at),
        "within_seconds": phase.within,
        "medium": phase.medium or None,
        "cue": phase.cue or None,
    }
    return {name: value for name, value in found.items() if value is not None}


def _heat(heat: HeatTimes, hammer: Span | None) -> Record:
    return {
        "to_heat_seconds": _round(heat.to_heat),
        "soak_seconds": _round(heat.soak),
        "air_seconds": _round(heat.air),
        "hammer_seconds": None if hammer is None else _round(hammer.likely),
        "hammer_least_seconds": None if hammer is None else _round(hammer.least),
        "hammer_most_seconds": None if hammer is None else _round(hammer.most),
    }


def _volume(volume: PlanVolume) -> Record:
    return {
        "stock_cm3": _cm3(volume.stock),
        "scale_cm3": _cm3(sum(step.scale for step in volume.steps)),
        "trimmed_cm3": _cm3(sum(step.trimmed for step in volume.steps)),
        "beside_cm3": _cm3(volume.beside),
        "out_cm3": _cm3(volume.out),
        "missing_cm3": _cm3(volume.more),
    }


def _steel(look: PlanLook, volume: StepVolume | None) -> Record | None:
    """The steel of a step; what was set aside before it is below 0 where some of that is taken up again."""
    if volume is None:
        return None
    return {
        "set_aside_before_cm3": _cm3(look.aside_before(volume)),
        "begins_cm3": _cm3(volume.begins),
        "ends_cm3": _cm3(volume.ends),
        "scale_cm3": _cm3(volume.scale),
        "trimmed_cm3": _cm3(volume.trimmed),
        "welded_on_cm3": _cm3(volume.welded_on),
    }


def _made(made: Made, units: Units) -> Record:
    apart = made.apart
    return {
        "answers": None if made.answers is None else write_keys(made.answers, units),
        "refused": made.refused or None,
        "differs": None if apart is None else difference_record(apart.figures, units),
        "worded_otherwise": None if apart is None else apart.worded,
    }


def _section(name: str, section: Section | None) -> Record:
    """A section under its name: its form, and its sides in millimetres."""
    if section is None:
        return {name: None}
    sides = {"width_mm": section.width, "thickness_mm": section.thickness, "edge_mm": section.edge}
    return {name: {"form": section.form.value} | {key: _mm(side) for key, side in sides.items() if side is not None}}


def _mm(metres: float | None) -> float | None:
    return None if metres is None else round(metres * 1000, 3)


def _cm3(volume: float) -> float:
    return round(volume * 1e6, 4)


def _degrees(kelvin: float | None) -> float | None:
    return None if kelvin is None else round(celsius(kelvin), 2)


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 3)

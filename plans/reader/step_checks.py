"""What a step can't be, though each key of it is sound by itself: phases out of order, limits that disagree."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.blows import USUAL
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Target
from plans.reader.declaring import keys_of
from plans.reader.keys import StepKeys
from plans.reader.value_types import AUTO
from plans.shown import show_duration
from plans.toml import KeyPath, TomlTable
from plans.units import both, in_both, section_in_both

LEAST_BELOW_FIRE: Final = 5.0
"""The work comes up to the fire ever more slowly, and nearer than this takes too long: a temperature difference [K]."""

_HOT: Final = (PhaseKind.FIRE, PhaseKind.OVEN)


def phases_of(keys: StepKeys) -> tuple[PhaseKind, ...]:
    """The phases of a step: those that it names, or the usual ones of its kind."""
    return USUAL_PHASES[keys.kind] if keys.phases is None else keys.phases


def check_phases(keys: StepKeys, table: TomlTable) -> None:
    """Note phases that lack what they need or stand in an order without sense, and keys that no phase uses."""
    phases = phases_of(keys)
    for one in keys_of(StepKeys).values():
        if one.phase is None:
            continue
        written, used = one.name in table.values, one.phase in phases
        if written and not used:
            hint = f"take it out, or add {one.phase.value!r} to phases"
            table.value(one.name, f"has no use: the step has no {one.phase.value} phase", hint)
        if one.needed and used and not written:
            table.value(one.name, f"is missing: the {one.phase.value} phase needs it", one.needed)
    for name in table.values.get("cues", ()):
        if name not in phases:
            hint = f"take it out, or add {name!r} to phases"
            table.value(("cues", name), f"has no use: the step has no {name} phase", hint)
    for place, phase in enumerate(phases):
        before = phases[:place]
        if phase is PhaseKind.SOAK and before[-1:] != (PhaseKind.FIRE,):
            table.value("phases", "have a soak that does not follow a fire", 'put "fire" straight before "soak"')
        if phase is PhaseKind.STRIKE and before[-1:] not in ((PhaseKind.FIRE,), (PhaseKind.SOAK,)):
            table.value("phases", "have a strike without a heat", 'put "fire" or "soak" straight before "strike"')
        if phase in (PhaseKind.AIR, PhaseKind.QUENCH) and not any(hot in before for hot in _HOT):
            hint = f'put "fire" or "oven" somewhere before "{phase.value}"'
            table.value("phases", f"have {phase.value} before anything is hot", hint)


def check_limits(keys: StepKeys, table: TomlTable, targets: tuple[Target, ...]) -> None:
    """Note limits that lie in an order that can't be: cold limit, heat, burn limit, fire."""
    blamed: set[KeyPath] = set()
    for (path, heat_to), target in zip(_heats_to(keys, len(targets)), targets, strict=True):
        if heat_to > target.fire - LEAST_BELOW_FIRE and path not in blamed:
            blamed.add(path)
            what = "hotter than" if heat_to > target.fire else "too near"
            hint = f"keep it at least {both(lambda units: units.difference(LEAST_BELOW_FIRE))} below the fire"
            table.value(path, f"is {in_both(heat_to)}, {what} the fire, {in_both(target.fire)}", hint)
    if targets:
        _check_cold_and_burn(keys, table, targets)
        _check_flux(keys, table, targets)
    if keys.soak != AUTO and keys.soak_at_most is not None and keys.soak_at_most < keys.soak:
        what = f"is {show_duration(keys.soak_at_most)}, shorter than the soak ({show_duration(keys.soak)})"
        table.value("soak_at_most", what, "make it longer or the soak shorter")
    _check_air(keys, table, targets)
    _check_contact(keys, table)
    _check_thin(keys, table)


def _check_contact(keys: StepKeys, table: TomlTable) -> None:
    usual = USUAL[keys.struck_by]
    seconds, every = keys.contact or usual.seconds, keys.contact_every or usual.every
    if seconds > every:
        what = f"is {seconds:g} s, longer than from one touch to the next ({every:g} s)"
        key = "contact" if keys.contact else "contact_every"
        table.value(
            key,
            what if keys.contact else f"is {every:g} s, shorter than the touch ({seconds:g} s)",
            "make contact shorter or contact_every longer",
        )


def _check_thin(keys: StepKeys, table: TomlTable) -> None:
    if keys.thin_length is not None and keys.thin is None:
        table.value("thin_length", "has no use without thin", "write thin, the section at the tip, or take it out")
    if keys.thin is not None and keys.section is not None and keys.thin.area >= keys.section.area:
        thin, whole = section_in_both(keys.thin), section_in_both(keys.section)
        table.value(
            "thin", f"is {thin}, no thinner than the section, {whole}", "write the section of what goes cold first"
        )


def _check_cold_and_burn(keys: StepKeys, table: TomlTable, targets: tuple[Target, ...]) -> None:
    cold, burn = keys.keep_above, keys.burn_above
    coolest, hottest = min(targets, key=lambda one: one.heat_to), max(target.heat_to for target in targets)
    if cold is not None and cold >= coolest.fire:
        what = f"is {in_both(cold)}, hotter than the fire, {in_both(coolest.fire)}"
        table.value("keep_above", what, "lower it or raise the fire")
    elif cold is not None and cold >= coolest.heat_to:
        what = f"is {in_both(cold)}, not below the heat, {in_both(coolest.heat_to)}"
        table.value("keep_above", what, "lower it or raise heat_to")
    if burn is not None and burn <= hottest:
        what = f"is {in_both(burn)}, not above the heat, {in_both(hottest)}"
        table.value("burn_above", what, "raise it or lower heat_to")


def _check_flux(keys: StepKeys, table: TomlTable, targets: tuple[Target, ...]) -> None:
    coolest = min(target.heat_to for target in targets)
    if keys.flux_at is not None and keys.flux_at >= coolest:
        what = f"is {in_both(keys.flux_at)}, not below the heat, {in_both(coolest)}"
        table.value("flux_at", what, "lower it: the work is fluxed on its way up")


def _check_air(keys: StepKeys, table: TomlTable, targets: tuple[Target, ...]) -> None:
    air, phases = keys.air, phases_of(keys)
    if air is None or air.until is None:
        return
    hot = [phase for phase in phases[: phases.index(PhaseKind.AIR)] if phase in _HOT]
    from_oven = keys.oven if hot[-1] is PhaseKind.OVEN else None
    start = from_oven.at if from_oven else min(target.heat_to for target in targets)
    if air.until >= start:
        what = f"is {in_both(air.until)}, no cooler than the work, {in_both(start)}"
        table.value(("air", "until"), what, "lower it: the work cools down to it")


def _heats_to(keys: StepKeys, heats: int) -> Iterator[tuple[KeyPath, float]]:
    """For each heat where its `heat_to` stands and what it is; below every fire where the plan does not say."""
    if isinstance(keys.heat_to, tuple):
        yield from _each("heat_to", keys.heat_to)
    else:
        yield from ((("heat_to",), keys.heat_to or 0.0) for _ in range(heats))


def _each(key: str, value: float | tuple[float, ...] | None) -> Iterator[tuple[KeyPath, float]]:
    if isinstance(value, tuple):
        yield from (((key, index), number) for index, number in enumerate(value))
    elif value is not None:
        yield (key,), value

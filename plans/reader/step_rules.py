"""What a step can't be, though every key of it is well formed: ranges, phases out of order, limits that disagree."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from plans.plan import PhaseKind, Target
from plans.reader.fields import Table
from plans.reader.step_fields import StepFields
from plans.reader.toml_lines import Path
from plans.section import Section
from plans.shown import show_duration
from plans.units import Units, kelvin

FIRE: Final = (kelvin(100), kelvin(1700))
"""From a warming oven to more than any steel stands [K]."""
AIR: Final = (kelvin(40), kelvin(1700))
"""Cooler than a warm shop: waiting for it would never end [K]."""
OVEN: Final = (kelvin(30), kelvin(1300))
EVEN: Final = (1.0, 100.0)
"""A temperature difference [K]."""
TIME: Final = (0.5, 7 * 86400.0)
CADENCE: Final = (1.0, 60.0)
"""Faster can't be told, and slower is none [s]."""
LENGTH: Final = (0.001, 20.0)
SIDE: Final = (0.0005, 1.0)

LEAST_BELOW_FIRE: Final = 5.0
"""The work comes up to the fire ever more slowly, and nearer than this takes too long: a temperature difference [K]."""

KEY_NEEDS: Final[dict[str, PhaseKind]] = {
    "fire": PhaseKind.FIRE,
    "heat_to": PhaseKind.FIRE,
    "burn_above": PhaseKind.FIRE,
    "keep_above": PhaseKind.STRIKE,
    "turn_every": PhaseKind.STRIKE,
    "soak": PhaseKind.SOAK,
    "soak_at_most": PhaseKind.SOAK,
    "even_within": PhaseKind.SOAK,
    "air": PhaseKind.AIR,
    "quench": PhaseKind.QUENCH,
    "oven": PhaseKind.OVEN,
    "dip": PhaseKind.DIP,
}
"""Keys that only one phase uses: in a step without that phase they are a slip."""

PHASE_NEEDS: Final[dict[PhaseKind, tuple[str, str]]] = {
    PhaseKind.FIRE: ("fire", 'write the temperature of the fire, such as "1150 degC"'),
    PhaseKind.STRIKE: ("keep_above", "write the cold limit, below which striking must stop"),
    PhaseKind.QUENCH: ("quench", "write [step.quench] with medium and for"),
    PhaseKind.OVEN: ("oven", "write [step.oven] with at and for"),
    PhaseKind.DIP: ("dip", "write [step.dip] with medium and for"),
}

_HOT: Final = (PhaseKind.FIRE, PhaseKind.OVEN)


def check_ranges(fields: StepFields, table: Table) -> None:
    """Note every quantity that no smith can mean."""
    for path, number in _each("fire", fields.fire):
        _within(table, path, number, FIRE, Units.METRIC.temperature)
    for path, number in (*_each("heat_to", fields.heat_to), *_each("keep_above", fields.keep_above)):
        _within(table, path, number, FIRE, Units.METRIC.temperature)
    _within(table, ("burn_above",), fields.burn_above, FIRE, Units.METRIC.temperature)
    _within(table, ("even_within",), fields.even_within, EVEN, Units.METRIC.difference)
    _within(table, ("soak",), fields.soak, TIME, show_duration)
    _within(table, ("soak_at_most",), fields.soak_at_most, TIME, show_duration)
    _within(table, ("turn_every",), fields.turn_every, CADENCE, show_duration)
    for key, length in (("length", fields.length), ("reach_length", fields.reach_length)):
        check_length(table, key, length)
    for key, section in (("section", fields.section), ("reach", fields.reach)):
        check_section(table, key, section)
    for kind, part in fields.tables.items():
        _within(table, (kind.value, "until"), part.until, AIR, Units.METRIC.temperature)
        _within(table, (kind.value, "at"), part.at, OVEN, Units.METRIC.temperature)
        _within(table, (kind.value, "for"), part.seconds, TIME, show_duration)
        _within(table, (kind.value, "within"), part.within, TIME, show_duration)


def check_length(table: Table, key: str, length: float | None) -> None:
    """Note a length that no bar has."""
    _within(table, (key,), length, LENGTH, Units.METRIC.length)


def check_section(table: Table, key: str, section: Section | None) -> None:
    """Note a section with a side that no bar has."""
    if section is not None:
        side = section.thickness if section.thickness < SIDE[0] else section.width
        _within(table, (key,), side, SIDE, Units.METRIC.length, "has a side of")


def check_phases(fields: StepFields, table: Table) -> None:
    """Note phases that lack what they need or stand in an order without sense, and keys that no phase uses."""
    for key, phase in KEY_NEEDS.items():
        if key in table.values and phase not in fields.phases:
            hint = f"take it out, or add {phase.value!r} to phases"
            table.value(key, f"has no use: the step has no {phase.value} phase", hint)
    for phase, (key, hint) in PHASE_NEEDS.items():
        if phase in fields.phases and key not in table.values:
            table.value(key, f"is missing: the {phase.value} phase needs it", hint)
    for place, phase in enumerate(fields.phases):
        before = fields.phases[:place]
        if phase is PhaseKind.SOAK and before[-1:] != (PhaseKind.FIRE,):
            table.value("phases", "have a soak that does not follow a fire", 'put "fire" straight before "soak"')
        if phase is PhaseKind.STRIKE and before[-1:] not in ((PhaseKind.FIRE,), (PhaseKind.SOAK,)):
            table.value("phases", "have a strike without a heat", 'put "fire" or "soak" straight before "strike"')
        if phase in (PhaseKind.AIR, PhaseKind.QUENCH) and not any(hot in before for hot in _HOT):
            hint = f'put "fire" or "oven" somewhere before "{phase.value}"'
            table.value("phases", f"have {phase.value} before anything is hot", hint)


def check_limits(fields: StepFields, table: Table, targets: tuple[Target, ...]) -> None:
    """Note limits that lie in an order that can't be: cold limit, heat, burn limit, fire."""
    blamed: set[Path] = set()
    for (path, heat_to), target in zip(_heats_to(fields, len(targets)), targets, strict=True):
        if heat_to > target.fire - LEAST_BELOW_FIRE and path not in blamed:
            blamed.add(path)
            what = "hotter than" if heat_to > target.fire else "too near"
            hint = f"keep it at least {Units.METRIC.difference(LEAST_BELOW_FIRE)} below the fire"
            table.value(
                path,
                f"is {Units.METRIC.temperature(heat_to)}, {what} the fire ({Units.METRIC.temperature(target.fire)})",
                hint,
            )
    if targets:
        _check_cold_and_burn(fields, table, targets)
    if fields.soak is not None and fields.soak_at_most is not None and fields.soak_at_most < fields.soak:
        what = f"is {show_duration(fields.soak_at_most)}, shorter than the soak ({show_duration(fields.soak)})"
        table.value("soak_at_most", what, "make it longer or the soak shorter")
    _check_air(fields, table, targets)


def _check_cold_and_burn(fields: StepFields, table: Table, targets: tuple[Target, ...]) -> None:
    cold, burn = fields.keep_above, fields.burn_above
    coolest, hottest = min(targets, key=lambda one: one.heat_to), max(target.heat_to for target in targets)
    if cold is not None and cold >= coolest.fire:
        what = f"is {Units.METRIC.temperature(cold)}, hotter than the fire ({Units.METRIC.temperature(coolest.fire)})"
        table.value("keep_above", what, "lower it or raise the fire")
    elif cold is not None and cold >= coolest.heat_to:
        what = f"is {Units.METRIC.temperature(cold)}, not below the heat ({Units.METRIC.temperature(coolest.heat_to)})"
        table.value("keep_above", what, "lower it or raise heat_to")
    if burn is not None and burn <= hottest:
        what = f"is {Units.METRIC.temperature(burn)}, not above the heat ({Units.METRIC.temperature(hottest)})"
        table.value("burn_above", what, "raise it or lower heat_to")


def _check_air(fields: StepFields, table: Table, targets: tuple[Target, ...]) -> None:
    air = fields.tables.get(PhaseKind.AIR)
    if air is None or air.until is None:
        return
    hot = [phase for phase in fields.phases[: fields.phases.index(PhaseKind.AIR)] if phase in _HOT]
    from_oven = hot[-1] is PhaseKind.OVEN
    start = fields.tables[PhaseKind.OVEN].at if from_oven else min(target.heat_to for target in targets)
    if start is not None and air.until >= start:
        what = f"is {Units.METRIC.temperature(air.until)}, no cooler than the work ({Units.METRIC.temperature(start)})"
        table.value(("air", "until"), what, "lower it: the work cools down to it")


def _heats_to(fields: StepFields, heats: int) -> Iterator[tuple[Path, float]]:
    """For each heat where its `heat_to` stands and what it is; below every fire where the plan does not say."""
    if isinstance(fields.heat_to, tuple):
        yield from _each("heat_to", fields.heat_to)
    else:
        yield from ((("heat_to",), fields.heat_to or 0.0) for _ in range(heats))


def _each(key: str, value: float | tuple[float, ...] | None) -> Iterator[tuple[Path, float]]:
    if isinstance(value, tuple):
        yield from (((key, index), number) for index, number in enumerate(value))
    elif value is not None:
        yield (key,), value


def _within(
    table: Table,
    path: Path,
    number: float | None,
    limits: tuple[float, float],
    show: Callable[[float], str],
    verb: str = "is",
) -> None:
    if number is not None and not limits[0] <= number <= limits[1]:
        hint = f"write something from {show(limits[0])} to {show(limits[1])}"
        table.value(path, f"{verb} {show(number)}, beyond sense", hint)

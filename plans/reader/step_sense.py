"""From a step as written to a step that can be run: what it leaves out, and whether it makes sense."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, log
from typing import Final

from plans.plan import THIN_NAME, Phase, PhaseKind, Step, Target
from plans.reader.fields import Table
from plans.reader.step_fields import PhaseFields, StepFields, read_step
from plans.reader.step_rules import check_limits, check_phases, check_ranges
from plans.section import Section
from plans.units import Units

REDUCTION: Final = 0.20
"""Share of the area that a heat takes off by hand; common practice (15 to 25 %), no source."""
BELOW_FIRE: Final = 30.0
"""`heat_to` lies this far below the fire unless the plan says otherwise: a temperature difference [K]."""
EVEN_WITHIN: Final = 15.0
"""A temperature difference [K]."""


@dataclass(frozen=True, slots=True)
class Work:
    """The work as the step before left it."""

    section: Section | None = None
    length: float | None = None
    known: bool = True
    """False where a step before had faults of its own: then nothing follows from what is not there."""


def sensible_step(table: Table, work: Work) -> tuple[Step | None, Work]:
    """Read a step that is done to `work`: the step, if it can be run, and the work as it leaves it.

    Faults go to the table's source. The rules that set one key against another are asked only where each key is
    sound by itself, so that one slip gives one fault.
    """
    source = table.source
    before = len(source.faults)
    fields = read_step(table)
    if fields is None:
        return None, Work(known=False)
    check_ranges(fields, table)
    section, length = _work_in(fields, work)
    left = _work_out(fields, section, length, work.known)
    if len(source.faults) > before:
        return None, replace(left, known=False)
    check_phases(fields, table)
    if PhaseKind.FIRE in fields.phases and section is None and work.known:
        table.value("section", "is missing: the warm model needs it", 'write what goes into the fire: "25 x 10 mm"')
    if len(source.faults) > before:
        return None, replace(left, known=False)
    heats = _heats(fields, table, section, work.known)
    targets = _targets(fields, heats)
    if len(source.faults) == before:
        check_limits(fields, table, targets)
    if len(source.faults) > before:
        return None, left
    return _step(fields, heats, targets, section, length), left


def usual_heats(section: Section, reach: Section, reduction: float = REDUCTION) -> int:
    """Heats to draw a bar from one section down to another, taking off an even share of the area in each."""
    return max(1, ceil(log(reach.area / section.area) / log(1 - reduction) - 1e-9))


def _work_in(fields: StepFields, work: Work) -> tuple[Section | None, float | None]:
    # a section of its own means another piece or part of the work, whose length is not that of the step before
    return (fields.section, fields.length) if fields.section else (work.section, fields.length or work.length)


def _work_out(fields: StepFields, section: Section | None, length: float | None, known: bool) -> Work:
    if fields.reach is None:
        return Work(section, fields.reach_length or length, known or section is not None)
    return Work(fields.reach, fields.reach_length)


def _heats(fields: StepFields, table: Table, section: Section | None, known: bool) -> int:
    heats = fields.heats
    if fields.auto_heats:
        heats = _auto_heats(fields, table, section, known)
    lists = {key: len(value) for key in ("fire", "heat_to") if isinstance(value := getattr(fields, key), tuple)}
    if heats is None:
        heats = max(lists.values(), default=1)
    for key, count in lists.items():
        if count != heats:
            said = f"{heats} heat" if heats == 1 else f"{heats} heats"
            what = f"has {count} temperatures for {said}"
            table.value(key, what, "write one for each heat, or a single one for all")
    return heats


def _auto_heats(fields: StepFields, table: Table, section: Section | None, known: bool) -> int | None:
    if section is None or fields.reach is None:
        if known:
            hint = "write section and reach, or the number of heats"
            table.value("heats", "is auto, but it is not said from which section to which", hint)
        return None
    if fields.reach.area >= section.area:
        what = f"is {Units.METRIC.section(fields.reach)}, no smaller than the section ({Units.METRIC.section(section)})"
        table.value("reach", what, 'make it smaller, or write the number of heats instead of "auto"')
        return None
    return usual_heats(section, fields.reach)


def _targets(fields: StepFields, heats: int) -> tuple[Target, ...]:
    if fields.fire is None:
        return ()
    targets = []
    for heat in range(heats):
        fire = _of(fields.fire, heat)
        heat_to = fire - BELOW_FIRE if fields.heat_to is None else _of(fields.heat_to, heat)
        targets.append(Target(fire, heat_to))
    return tuple(targets)


def _of(value: float | tuple[float, ...], heat: int) -> float:
    return value[min(heat, len(value) - 1)] if isinstance(value, tuple) else value


def _step(
    fields: StepFields, heats: int, targets: tuple[Target, ...], section: Section | None, length: float | None
) -> Step:
    return Step(
        title=fields.title,
        kind=fields.kind,
        phases=tuple(_phase(kind, fields) for kind in fields.phases),
        instruction=fields.instruction,
        heats=heats,
        targets=targets,
        even_within=EVEN_WITHIN if fields.even_within is None else fields.even_within,
        keep_above=fields.keep_above,
        burn_above=fields.burn_above,
        section=section,
        length=length,
        reach=fields.reach,
        reach_length=fields.reach_length,
        thin=fields.thin,
        thin_name=fields.thin_name or THIN_NAME,
        layers=fields.layers,
        turn_every=fields.turn_every,
        checklist=fields.checklist,
        cautions=fields.cautions + _hot_fire(fields, targets),
    )


def _phase(kind: PhaseKind, fields: StepFields) -> Phase:
    if kind is PhaseKind.SOAK:
        return Phase(kind, seconds=fields.soak, at_most=fields.soak_at_most)
    part = fields.tables.get(kind, PhaseFields())
    return Phase(kind, part.seconds, part.until, part.at, part.within, part.medium)


def _hot_fire(fields: StepFields, targets: tuple[Target, ...]) -> tuple[str, ...]:
    """A fire hotter than the burn limit is how some forges are run, but then the work must not be forgotten in it."""
    hottest = max((target.fire for target in targets), default=0.0)
    if fields.burn_above is None or hottest <= fields.burn_above:
        return ()
    fire, burn = Units.METRIC.temperature(hottest), Units.METRIC.temperature(fields.burn_above)
    return (f"The fire ({fire}) is hotter than the burn limit ({burn}): steel left in it burns.",)

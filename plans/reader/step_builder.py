"""From a step as written to a step that can be run: what it leaves out, and whether it makes sense."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from plans.blows import USUAL, Blows
from plans.phase import PhaseKind
from plans.plan import Phase, Step, Target
from plans.press import usual_heats
from plans.prose import in_braces
from plans.reader.declaring import Nested, keys_of, read_keys
from plans.reader.keys import BELOW_FIRE, StepKeys
from plans.reader.step_checks import check_limits, check_phases, phases_of
from plans.reader.value_types import AUTO
from plans.record import record
from plans.shapes import Section
from plans.toml import TomlTable
from plans.units import section_in_both

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


@record
class Work:
    """The work as the step before left it."""

    section: Section | None = None
    """Cross-section of the work; None where nothing says it."""
    length: float | None = None
    """Length of the work [m]; None where nothing says it."""
    known: bool = True
    """False where a step before had faults of its own: then nothing follows from what is not there."""


def build_step(table: TomlTable, work: Work) -> tuple[Step | None, Work]:
    """Read a step that is done to `work`: the step, if it can be run, and the work as it leaves it.

    Faults go to the table's faults. The rules that set one key against another are asked only where each key is sound
    by itself, so that one slip gives one fault.
    """
    faults = table.faults.found
    before = len(faults)
    keys = read_keys(table, StepKeys)
    section, length = _work_in(keys, work)
    left = _work_out(keys, section, length, work.known)
    if len(faults) > before:
        return None, replace(left, known=False)
    check_phases(keys, table)
    if PhaseKind.FIRE in phases_of(keys) and section is None and work.known:
        table.value(
            "section",
            "is missing: the warm model needs it",
            'write what goes into the fire: "25 x 10 mm" or "1 x 3/8 in"',
        )
    if len(faults) > before:
        return None, replace(left, known=False)
    heats = _heats(keys, table, section, work.known)
    targets = _targets(keys, heats)
    if len(faults) == before:
        check_limits(keys, table, targets)
    if len(faults) > before:
        return None, left
    return _step(keys, heats, targets, section, length), left


def _work_in(keys: StepKeys, work: Work) -> tuple[Section | None, float | None]:
    # a section of its own means another piece or part of the work, whose length is not that of the step before
    return (keys.section, keys.length) if keys.section else (work.section, keys.length or work.length)


def _work_out(keys: StepKeys, section: Section | None, length: float | None, known: bool) -> Work:
    if keys.reach is None:
        return Work(section, keys.reach_length or length, known or section is not None)
    return Work(keys.reach, keys.reach_length)


def _heats(keys: StepKeys, table: TomlTable, section: Section | None, known: bool) -> int:
    heats = _auto_heats(keys, table, section, known) if keys.heats == AUTO else keys.heats
    lists = {key: len(value) for key in ("fire", "heat_to") if isinstance(value := getattr(keys, key), tuple)}
    if heats is None:
        heats = max(lists.values(), default=1)
    for key, count in lists.items():
        if count != heats:
            said = f"{heats} heat" if heats == 1 else f"{heats} heats"
            what = f"has {count} temperatures for {said}"
            table.value(key, what, "write one for each heat, or a single one for all")
    return heats


def _auto_heats(keys: StepKeys, table: TomlTable, section: Section | None, known: bool) -> int | None:
    if section is None or keys.reach is None:
        if known:
            hint = "write section and reach, or the number of heats"
            table.value("heats", "is auto, but it is not said from which section to which", hint)
        return None
    if keys.reach.area >= section.area:
        what = f"is {section_in_both(keys.reach)}, no smaller than the section, {section_in_both(section)}"
        table.value("reach", what, 'make it smaller, or write the number of heats instead of "auto"')
        return None
    return usual_heats(section, keys.reach)


def _targets(keys: StepKeys, heats: int) -> tuple[Target, ...]:
    if keys.fire is None:
        return ()
    targets = []
    for heat in range(heats):
        fire = _of(keys.fire, heat)
        heat_to = fire - BELOW_FIRE if keys.heat_to is None else _of(keys.heat_to, heat)
        targets.append(Target(fire, heat_to))
    return tuple(targets)


def _of(value: float | tuple[float, ...], heat: int) -> float:
    return value[min(heat, len(value) - 1)] if isinstance(value, tuple) else value


def _step(
    keys: StepKeys, heats: int, targets: tuple[Target, ...], section: Section | None, length: float | None
) -> Step:
    worked_out = {
        "phases": tuple(_phase(kind, keys) for kind in phases_of(keys)),
        "heats": heats,
        "targets": targets,
        "section": section,
        "length": length,
        "cautions": keys.cautions + _hot_fire(keys, targets),
        "blows": _blows(keys),
    }
    return Step(**{**_as_written(keys, Step), **worked_out})


def _blows(keys: StepKeys) -> Blows | None:
    if PhaseKind.STRIKE not in phases_of(keys):
        return None
    usual = USUAL[keys.struck_by]
    seconds, every = keys.contact or usual.seconds, keys.contact_every or usual.every
    return Blows(keys.struck_by, min(seconds, every), every)


def _phase(kind: PhaseKind, keys: StepKeys) -> Phase:
    cue = None if keys.cues is None else getattr(keys.cues, kind.value)
    return replace(_timed(kind, keys), cue=cue or "")


def _timed(kind: PhaseKind, keys: StepKeys) -> Phase:
    if kind is PhaseKind.SOAK:
        return Phase(kind, seconds=None if keys.soak == AUTO else keys.soak, at_most=keys.soak_at_most)
    own = keys_of(StepKeys).get(kind.value)
    if own is None or not isinstance(own.value, Nested) or getattr(keys, kind.value) is None:
        return Phase(kind)
    return Phase(kind, **_as_written(getattr(keys, kind.value), Phase))


def _as_written(keys: DataclassInstance, made: type[Step | Phase]) -> dict[str, Any]:
    """The keys that are handed on as they are: those that have an attribute of the same name in what is made."""
    return {name: getattr(keys, name) for name in keys_of(type(keys)) if name in made.__dataclass_fields__}


def _hot_fire(keys: StepKeys, targets: tuple[Target, ...]) -> tuple[str, ...]:
    """A fire hotter than the burn limit is how some forges are run, but then the work must not be forgotten in it."""
    hottest = max((target.fire for target in targets), default=0.0)
    if keys.burn_above is None or hottest <= keys.burn_above:
        return ()
    fire, burn = in_braces(hottest), in_braces(keys.burn_above)
    return (f"The fire ({fire}) is hotter than the burn limit ({burn}): steel left in it burns.",)

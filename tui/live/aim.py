"""What a phase is to reach, as it is read from three metres: a section, a temperature, a medium, a time."""

from __future__ import annotations

from plans.phase import FORGING, IDLE, WARMING, PhaseKind
from plans.plan import Phase
from plans.prose import in_units
from plans.record import record
from plans.shown import show_duration
from plans.sitting import Basis, Glance, Sitting
from plans.units import Units


@record
class Aim:
    """What is to be reached."""

    lead: str = ""
    """What the large text is, in a word or two before it: "reach", "oven at", "into"."""
    large: tuple[str, ...] = ()
    """What stands in large letters, in full and then ever shorter; empty where the plan says nothing."""
    rest: tuple[str, ...] = ()
    """What else there is to know, for a line of small letters."""

    @property
    def text(self) -> str:
        """All of it in one line: "reach 31 x 18 mm, 153 mm; fire 1300, heat to 1260 degC"."""
        large = " ".join(part for part in (self.lead, *self.large[:1]) if part)
        return "; ".join(part for part in (large, *self.rest) if part)


def aim_of(sitting: Sitting, seen: Glance, units: Units) -> Aim:
    """What this phase is to reach; while the smith is awaited, what the one to come is."""
    if seen.finished:
        return Aim()
    kinds = [phase.kind for phase in seen.step.phases]
    kind = kinds[0] if seen.phase is PhaseKind.READY else seen.phase
    if sitting.state.left_fire_at is not None and PhaseKind.QUENCH in kinds:
        kind = PhaseKind.QUENCH
    phase = next((phase for phase in seen.step.phases if phase.kind is kind), Phase(kind))
    time = "" if phase.seconds is None else show_duration(phase.seconds)
    match kind:
        case _ if kind in FORGING:
            return _forged(seen, kind, units)
        case PhaseKind.AIR if phase.until is not None:
            return Aim("cool to", (units.temperature(phase.until),))
        case PhaseKind.AIR:
            return Aim("in the air", _worded(time)) if time else Aim()
        case PhaseKind.OVEN:
            oven = "" if phase.at is None else units.temperature(phase.at)
            return Aim("oven at" if oven else "oven", _worded(oven, time), _within(phase, seen))
        case PhaseKind.QUENCH | PhaseKind.DIP:
            return _into(phase, time, seen, units)
        case PhaseKind.BENCH if PhaseKind.DIP in kinds:
            more = seen.heat < seen.heats
            after = f"then {seen.step.counts} {seen.heat + 1} of {seen.heats}" if more else "that was the last"
            return Aim("", ("rinse, brush, look", "rinse, brush"), (after,))
        case _:
            return _section(seen, units)


def _forged(seen: Glance, kind: PhaseKind, units: Units) -> Aim:
    """A heat: the section; where it changes none, the heat that the work is to come up to."""
    aim, rest = _section(seen, units), []
    if (seen.phase in IDLE or kind in WARMING) and seen.fire is not None:
        fire = f"fire{' measured' if seen.fire_basis is Basis.MEASURED else ''}"
        if seen.heat_to is not None and aim.large:
            rest.append(f"{fire} {units.degrees(seen.fire)}, heat to {units.temperature(seen.heat_to)}")
        else:
            rest.append(f"{fire} {units.temperature(seen.fire)}")
    quench = next((phase for phase in seen.step.phases if phase.kind is PhaseKind.QUENCH), None)
    if quench is not None:
        rest.append(" ".join(("then into", in_units(quench.medium, units) or "the quench", *_within(quench, seen))))
    if not aim.large and seen.heat_to is not None:
        aim = Aim("heat to", (units.temperature(seen.heat_to),))
    return Aim(aim.lead, aim.large, tuple(rest))


def _into(phase: Phase, time: str, seen: Glance, units: Units) -> Aim:
    """A bath: how it is mixed stands small where its name alone is large."""
    medium = in_units(phase.medium, units)
    name = medium.partition(",")[0]
    large = (*_worded(medium, time), *_worded(name, time))
    return Aim("into" if name else phase.kind.value, tuple(dict.fromkeys(large)), _within(phase, seen))


def _section(seen: Glance, units: Units) -> Aim:
    section = "" if seen.reach is None else units.section(seen.reach)
    length = "" if seen.reach_length is None else units.length(seen.reach_length)
    return Aim("reach", _worded(section, length)) if section or length else Aim()


def _worded(first: str, second: str = "") -> tuple[str, ...]:
    """Both, then the first alone."""
    parts = [part for part in (first, second) if part]
    return tuple(dict.fromkeys([", ".join(parts), *parts[:1]]) if parts else ())


def _within(phase: Phase, seen: Glance) -> tuple[str, ...]:
    """How soon the work must be in it; once it is, that is no news."""
    there = seen.phase is phase.kind
    return () if phase.within is None or there else (f"within {show_duration(phase.within)}",)

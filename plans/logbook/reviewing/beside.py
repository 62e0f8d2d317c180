"""What each step was planned to be, beside what was done: heats, soak, temperatures, section, length, time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from plans.logbook.figures import StepFigures
from plans.logbook.hardness_there import HardnessThere, hardness_there
from plans.logbook.lines import not_done
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.steel_there import SteelThere, steel_there
from plans.measured import Measured, shown_measured
from plans.phase import HOLDING, IDLE, PhaseKind
from plans.plan import Phase, Plan, Step
from plans.record import record
from plans.shapes import REGULAR, Section
from plans.shop import Shop
from plans.shown import show_clock
from plans.sitting import Measurement, measured_at_ends
from plans.steel import STEEL
from plans.times import StepTimes, step_times
from plans.units import UNKNOWN, Units, celsius

_EACH = 3
"""So many figures are told one by one; of more, the least and the greatest."""


@record
class Beside:
    """One step, planned beside done; what the plan does not say is None or empty, and has no row."""

    figures: StepFigures
    """What was done: its heats, those that were cut off too."""
    counts: str
    """What the step calls one run through its phases: heat, cycle, hold or dip."""
    heats: int
    """How many heats were planned."""
    in_fire: int
    """How many of them were planned to go into the fire."""
    soaks: bool
    """Whether the step has a soak."""
    soak: float | None
    """How long a soak was to last [s]; None where it goes by the warm model, until the middle is even."""
    heat_to: tuple[float, ...]
    """What the skin was to come up to in each planned heat [K]; empty for a step without a fire."""
    keep_above: float | None
    """Cold limit [K]."""
    oven: float | None
    """Temperature of the oven [K]; None for a step without one."""
    air: Phase | None
    """How its cooling in the air was to end; None for a step without one."""
    hold: float | None
    """How long a quench, an oven hold or a dip was to last [s]."""
    reach: Section | None
    """Section to stop at."""
    reach_length: float | None
    """Length to stop at [m]."""
    measured: Measured
    """What was measured by hand once its last heat was done, in the sitting or later; where nothing was, the plan's
    section and length stand for what was reached."""
    steel: SteelThere | None
    """How much steel is there by that, and by the plan; None where either is not known."""
    hardness: HardnessThere | None
    """The hardness that the tempers leave by then; None where that is not known, or no hardness was measured."""
    time_planned: float | None
    """All its heats together by the warm model, with a strike taken as long as its hammer time [s]; None where the
    plan says too little for that."""
    time: float
    """How long its heats took together, pauses left out [s]."""

    def rows(self, units: Units) -> list[tuple[str, str, str]]:
        """For each figure its name, what was planned, and what was done."""
        done = [heat for heat in self.figures.heats if heat.is_done]
        others = not_done(self.figures.heats)
        rows = [(f"{self.counts}s", str(self.heats), ", ".join([str(len(done)), *others]))]
        reheats = max(0, self.in_fire - 1)
        if reheats or self.figures.reheats:
            rows.append(("reheats", str(reheats), str(self.figures.reheats)))
        if self.soaks:
            planned = "until even" if self.soak is None else show_clock(self.soak)
            rows.append(("soak", planned, _times(heat.soak for heat in done)))
        if self.heat_to:
            left = [heat.leaving for heat in done if heat.leaving is not None]
            rows.append(("heat", _temperatures(self.heat_to, units), _temperatures(left, units)))
        if self.keep_above is not None:
            lows = [heat.lowest_struck for heat in done if heat.lowest_struck is not None]
            lowest = units.temperature(min(lows, default=None))
            rows.append(("lowest struck", f"above {units.temperature(self.keep_above)}", lowest))
        if self.oven is not None:
            peaks = [heat.peak for heat in done if heat.peak is not None]
            rows.append(("oven", units.temperature(self.oven), _temperatures(peaks, units)))
        if self.hold is not None:
            rows.append(("held", show_clock(self.hold), _times(heat.hold for heat in done)))
        if self.air is not None:
            rows.append(("air", _ends_of(self.air, units), _times(heat.air for heat in done)))
        sides, length = self._sides(units), self.measured.length
        if self.reach is not None or sides:
            planned = "" if self.reach is None else units.section(self.reach)
            rows.append(("section", planned, sides or _NOT_MEASURED))
        if self.reach_length is not None or length is not None:
            planned = "" if self.reach_length is None else units.length(self.reach_length)
            rows.append(("length", planned, _NOT_MEASURED if length is None else units.exact_length(length)))
        if (bevel := self.measured.bevel) is not None:
            planned = "" if self.bevel is None else units.length(self.bevel)
            rows.append(("bevel", planned, units.exact_length(bevel)))
        if (hrc := self.measured.hardness) is not None:
            temper = self.hardness
            planned = "" if temper is None else f"HRC {temper.said}, modelled"
            rows.append(("hardness", planned, f"HRC {hrc:g}"))
        if self.steel is not None:
            planned, there = (units.mass(volume * STEEL) for volume in (self.steel.planned, self.steel.measured))
            rows.append(("steel", planned, f"{there}, {self.steel.said}"))
        if self.time >= 0.5:
            planned = "" if self.time_planned is None else f"about {show_clock(self.time_planned)}, modelled"
            rows.append(("time", planned, show_clock(self.time)))
        return rows

    @property
    def section(self) -> Section | None:
        """The section that was measured, a side that was not as planned; None where none was."""
        return self.measured.section(self.reach)

    @property
    def bevel(self) -> float | None:
        """How wide each bevel is planned to be [m]; None where the plan has none."""
        reach = self.reach
        return None if reach is None or reach.edge is None else reach.bevel or reach.room_for_bevel

    def _sides(self, units: Units) -> str:
        """The sides that were measured, and no others; empty where none was."""
        section, measured = self.section, self.measured
        if section is not None and (section.form in REGULAR or None not in (measured.width, measured.thickness)):
            return units.section(section, exact=True)
        return shown_measured(Measured(measured.width, measured.thickness), units)

    def to_record(self) -> dict[str, Any]:
        """The planned side and what no heat has, as a JSON object; done heats stand with the figures of `steps`."""
        reach, hold, section, length, steel = self.reach, self.hold, self.section, self.measured.length, self.steel
        return {
            "step": self.figures.step + 1,
            "heats_planned": self.heats,
            "heats_done": self.figures.done,
            "reheats_planned": max(0, self.in_fire - 1),
            "reheats_done": self.figures.reheats,
            "soak_planned_seconds": self.soak,
            "heat_planned_celsius": [round(celsius(kelvin), 1) for kelvin in self.heat_to],
            "keep_above_celsius": _celsius(self.keep_above),
            "oven_planned_celsius": _celsius(self.oven),
            "air_planned_seconds": None if self.air is None else self.air.seconds,
            "air_planned_until_celsius": None if self.air is None else _celsius(self.air.until),
            "hold_planned_seconds": hold,
            "section_planned": None if reach is None else Units.METRIC.section(reach, exact=True),
            "length_planned_mm": _millimetres(self.reach_length),
            "section_measured": None if section is None else Units.METRIC.section(section, exact=True),
            "length_measured_mm": _millimetres(length),
            "section_and_length_measured": section is not None and length is not None,
            "bevel_planned_mm": _millimetres(self.bevel),
            "bevel_measured_mm": _millimetres(self.measured.bevel),
            "hardness_modelled_hrc": None if self.hardness is None else round(self.hardness.value, 1),
            "hardness_measured_hrc": self.measured.hardness,
            "steel_planned_cm3": None if steel is None else round(steel.planned * 1e6, 3),
            "steel_measured_cm3": None if steel is None else round(steel.measured * 1e6, 3),
            "steel_missing_fraction": None if steel is None else round(steel.missing, 4),
            "time_modelled_seconds": None if self.time_planned is None else round(self.time_planned, 1),
            "time_seconds": round(self.time, 2),
        }


def _celsius(kelvin: float | None) -> float | None:
    return None if kelvin is None else round(celsius(kelvin), 1)


def _millimetres(metres: float | None) -> float | None:
    return None if metres is None else round(metres * 1000, 3)


_NOT_MEASURED = "not measured, taken as planned"


def planned_beside_done(timeline: Timeline) -> tuple[Beside, ...]:
    """Each step in which anything was heated, held or struck, in order; none where its plan can't be read."""
    figures, plan = timeline.kept.figures, timeline.plan
    if figures is None or plan is None:
        return ()
    shop = timeline.kept.header.shop
    ends = measured_at_ends(timeline.measured)
    return tuple(_beside(timeline, shown, plan, shop, ends.get(shown.step)) for shown in figures.steps if shown.heats)


def _beside(timeline: Timeline, figures: StepFigures, plan: Plan, shop: Shop, ends: Measurement | None) -> Beside:
    step = plan.steps[figures.step]
    soak = next((phase for phase in step.phases if phase.kind is PhaseKind.SOAK), None)
    held = next((phase for phase in step.phases if phase.kind in HOLDING), None)
    oven = next((phase.at for phase in step.phases if phase.kind is PhaseKind.OVEN), None)
    air = next((phase for phase in step.phases if phase.kind is PhaseKind.AIR), None)
    measured = Measured() if ends is None else ends.measured
    # A step that changes no section ends with the one that it begins with; it is told where somebody measured.
    keeps = step.reach is None and (measured.width, measured.thickness, measured.bevel) != (None, None, None)
    took = (part.seconds for part in timeline.spans if part.step == figures.step and part.phase not in IDLE)
    return Beside(
        figures,
        step.counts,
        step.heats,
        step.heats_in_fire,
        soak is not None,
        None if soak is None else soak.seconds,
        tuple(target.heat_to for target in step.targets),
        step.keep_above,
        oven,
        air,
        None if held is None else held.seconds,
        step.section if keeps else step.reach,
        step.length if keeps and step.reach_length is None else step.reach_length,
        measured,
        None if ends is None else steel_there(ends, plan),
        None if ends is None or ends.measured.hardness is None else hardness_there(plan, figures.step, ends.heat),
        _planned(step, step_times(step, shop)),
        sum(took, 0.0),
    )


def _planned(step: Step, times: StepTimes) -> float | None:
    """All heats of a step together [s]; None where any of its phases is not known."""
    hammer = [one.first_cold for one in (times.first, times.last)]
    struck = None if None in hammer else step.heats * sum(one or 0.0 for one in hammer) / 2
    known = {
        PhaseKind.FIRE: times.in_the_fire,
        PhaseKind.SOAK: 0.0,
        PhaseKind.STRIKE: struck,
        PhaseKind.AIR: times.air,
        PhaseKind.QUENCH: times.quench,
        PhaseKind.OVEN: times.oven,
        PhaseKind.DIP: times.dip,
        PhaseKind.BENCH: 0.0,
    }
    parts = [known[phase.kind] for phase in step.phases]
    return None if None in parts else sum(part or 0.0 for part in parts)


def _times(seconds: Iterable[float]) -> str:
    return _some(list(seconds), show_clock) or UNKNOWN


def _ends_of(air: Phase, units: Units) -> str:
    """How a cooling in the air is to end: "until 480 degC", "for 10:00", or both; empty where the plan leaves it."""
    told = [] if air.until is None else [f"until {units.temperature(air.until)}"]
    return ", ".join(told if air.seconds is None else [*told, f"for {show_clock(air.seconds)}"])


def _temperatures(kelvins: Sequence[float], units: Units) -> str:
    text = _some(kelvins, units.degrees)
    return f"{text} {units.degree}" if text else UNKNOWN


def _some(values: Sequence[float], show: Callable[[float], str]) -> str:
    """A few figures one by one, of many the least and the greatest; once where all read the same."""
    if len({show(value) for value in values}) == 1:
        return show(values[0])
    if len(values) <= _EACH:
        return ", ".join(map(show, values))
    return f"{show(min(values))} to {show(max(values))}"

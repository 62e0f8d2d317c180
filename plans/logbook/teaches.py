"""What one sitting teaches of its shop; its line in the index keeps it, so that a thousand are looked at unopened."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any, Final

from plans.record import record
from plans.record_values import (
    MOST_HEATS,
    MOST_OF_ALL,
    Record,
    count_of,
    maybe_number,
    number_of,
    record_of,
    records_of,
    seconds_of,
    switch_of,
    text_of,
)
from plans.shop import LEAST_CONTACT, LEAST_FACTOR, MOST_CONTACT, MOST_FACTOR

if TYPE_CHECKING:  # a first screen lists sittings, and has no use for what those load
    from plans.blows import StruckBy
    from plans.logbook.figures import Factor, SittingFigures, StepFigures
    from plans.logbook.outcome import Outcome
    from plans.plan import Plan, Step, StepKind
    from plans.sitting import State

_LARGEST: Final = 1e6
"""No section is larger [mm2]."""
_LONGEST: Final = 200
"""No section takes more to write [characters]."""


@record
class FactorTaught:
    """A factor on what the warm model has by itself, as one sitting tells it."""

    value: float
    """The factor."""
    spread: float | None
    """Its standard error; None from a single stay."""
    stays: int
    """How many stays outside the fire it was fitted to."""


@record
class StepDrawn:
    """One step that made a bar thinner."""

    kind: StepKind
    """What kind of work it is: drawing or forging."""
    by: StruckBy
    """What it was struck with."""
    before: float
    """Area of its section when it began [m2]."""
    after: float
    """Area when it was done [m2], smaller."""
    heats: int
    """Heats that it took, 1 at least."""
    measured: bool
    """Whether the section when it was done was measured; else it is taken as the plan has it."""


@record
class WeldSoaked:
    """One weld of which it was said what came of it."""

    section: str
    """The section of its plan, in metric units: "40 x 14 mm"."""
    soak: float
    """The shortest that it soaked in a heat that was done [s]."""
    flawed: bool
    """Whether something was found wrong with it."""


@record
class Teaches:
    """What one sitting teaches of its shop; all empty where it teaches nothing."""

    cooling: FactorTaught | None = None
    """Factor on what the work gives to the air."""
    contact: FactorTaught | None = None
    """Factor on the contact conductance of an anvil under a hand hammer."""
    drawn: tuple[StepDrawn, ...] = ()
    """Each step that made a bar thinner."""
    welds: tuple[WeldSoaked, ...] = ()
    """Each weld that had a soak and an outcome."""

    def to_record(self) -> Record:
        """It as a JSON object, units in the key names; what it does not teach has no key."""
        record: Record = {}
        for name, factor in (("cooling_factor", self.cooling), ("contact_factor", self.contact)):
            if factor is not None:
                record[name] = {"value": factor.value, "standard_error": factor.spread, "stays": factor.stays}
        if self.drawn:
            record["drawn"] = [
                {
                    "kind": step.kind.value,
                    "struck_by": step.by.value,
                    "from_mm2": round(step.before * 1e6, 3),
                    "to_mm2": round(step.after * 1e6, 3),
                    "heats": step.heats,
                    "measured": step.measured,
                }
                for step in self.drawn
            ]
        if self.welds:
            record["welds"] = [
                {"section": weld.section, "soak_seconds": weld.soak, "flawed": weld.flawed} for weld in self.welds
            ]
        return record

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Teaches:
        """It from a JSON object that `to_record` made.

        Raises:
            ValueError, KeyError, TypeError: this is none.
        """
        return cls(
            _factor(record.get("cooling_factor"), LEAST_FACTOR, MOST_FACTOR),
            _factor(record.get("contact_factor"), LEAST_CONTACT, MOST_CONTACT),
            tuple(map(_drawn, records_of(record.get("drawn", [])))),
            tuple(map(_weld, records_of(record.get("welds", [])))),
        )


def teaches_of(plan: Plan | None, state: State, figures: SittingFigures | None, outcome: Outcome | None) -> Teaches:
    """What a sitting teaches; nothing where it can't be known: without a plan or figures.

    Args:
        plan: what it followed; None where this version can't read it
        state: where it stood in the end, with what was measured by hand
        figures: its figures; None where they have not been worked out
        outcome: what came of it; None where nothing was said
    """
    if plan is None or figures is None:
        return Teaches()
    learned = figures.learned
    # The first versions fitted one factor to air and anvil alike, which is neither.
    told_apart = learned is not None and learned.contact is not None
    return Teaches(
        _factor_of(learned.cooling, LEAST_FACTOR, MOST_FACTOR) if learned is not None and told_apart else None,
        _factor_of(learned.contact, LEAST_CONTACT, MOST_CONTACT) if learned is not None else None,
        tuple(steps_drawn(plan, state, figures)),
        tuple(_welds_soaked(plan, figures, outcome)),
    )


def steps_drawn(plan: Plan, state: State, figures: SittingFigures) -> Iterator[StepDrawn]:
    """Each step whose section before and after is known, with the heats it took: as measured, else as planned."""
    from plans.blows import Blows
    from plans.plan import StepKind
    from plans.sitting import plan_as_measured, sections_measured

    measured, plan = sections_measured(plan, state), plan_as_measured(plan, state)
    for shown in _known(plan, figures):
        step = plan.steps[shown.step]
        after = measured.get(shown.step, step.reach)
        if step.kind not in (StepKind.DRAW, StepKind.FORGE) or step.section is None or after is None:
            continue
        tool, areas = (step.blows or Blows()).by, (_kept(step.section.area), _kept(after.area))
        if shown.done and 0 < areas[1] < areas[0]:
            yield StepDrawn(step.kind, tool, *areas, shown.done, shown.step in measured)


def _welds_soaked(plan: Plan, figures: SittingFigures, outcome: Outcome | None) -> Iterator[WeldSoaked]:
    from plans.plan import StepKind
    from plans.units import Units

    for shown in _known(plan, figures) if outcome is not None else ():
        step, weld = plan.steps[shown.step], outcome.weld(shown.step) if outcome is not None else None
        soaks = [heat.soak for heat in shown.heats if heat.is_done]
        if step.kind is StepKind.WELD and weld is not None and step.section is not None and soaks and _soaks(step):
            yield WeldSoaked(Units.METRIC.section(step.section, exact=True), min(soaks), bool(weld.flaws))


def _kept(area: float) -> float:
    """An area as it is kept: to a thousandth of a square millimetre."""
    return round(area * 1e6, 3) / 1e6


def _known(plan: Plan, figures: SittingFigures) -> Iterator[StepFigures]:
    return (shown for shown in figures.steps if shown.step < len(plan.steps))


def _soaks(step: Step) -> bool:
    from plans.phase import PhaseKind

    return any(phase.kind is PhaseKind.SOAK for phase in step.phases)


def _factor_of(factor: Factor | None, least: float, most: float) -> FactorTaught | None:
    if factor is None or factor.value is None or not least <= factor.value <= most:
        return None
    return FactorTaught(factor.value, factor.spread, factor.stays)


def _factor(record: object, least: float, most: float) -> FactorTaught | None:
    if record is None:
        return None
    found = record_of(record)
    return FactorTaught(
        number_of(found["value"], least, most),
        maybe_number(found["standard_error"], 0.0, MOST_CONTACT),
        count_of(found["stays"], 1, MOST_OF_ALL),
    )


def _drawn(record: Record) -> StepDrawn:
    from plans.blows import StruckBy
    from plans.plan import StepKind

    before = number_of(record["from_mm2"], 0.0, _LARGEST) / 1e6
    after = number_of(record["to_mm2"], 0.0, _LARGEST) / 1e6
    if not 0 < after < before:
        raise ValueError("what was drawn is thinner than before")
    return StepDrawn(
        StepKind(record["kind"]),
        StruckBy(record["struck_by"]),
        before,
        after,
        count_of(record["heats"], 1, MOST_HEATS),
        switch_of(record["measured"]),
    )


def _weld(record: Record) -> WeldSoaked:
    section = text_of(record["section"])
    if not 0 < len(section) <= _LONGEST:
        raise ValueError("no section")
    return WeldSoaked(section, seconds_of(record["soak_seconds"]), switch_of(record["flawed"]))

"""What one sitting teaches of its shop; its line in the index keeps it, so that a thousand are looked at unopened."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, log
from typing import TYPE_CHECKING, Any, Final

from plans.record import record
from plans.record_values import (
    MOST_HEATS,
    MOST_OF_ALL,
    Record,
    count_of,
    list_of,
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
    from plans.plan import StepKind

VERSION: Final = 2
"""Counts up with what a sitting is asked: what was kept under another number is worked out anew."""
_LARGEST: Final = 1e6
"""No section is larger [mm2]."""
_HEAVIEST: Final = 1e12
"""No work has a larger volume [mm3]."""
_FAR: Final = 100.0
"""No work comes out further from its plan, as a share."""
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
class SteelLost:
    """Work that was measured before and after some heats, with nothing taken off but scale."""

    heats: int
    """Heats in between that were done in the fire, 1 at least."""
    before: float
    """Its volume before [m3]."""
    after: float
    """Its volume after [m3]."""

    @property
    def a_heat(self) -> float:
        """Share of the steel that each heat took, all alike; below 0 where more was measured after."""
        return 1 - exp(log(self.after / self.before) / self.heats)


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
    lost: tuple[SteelLost, ...] = ()
    """What heats took, from one measurement to the next."""
    wider: tuple[float, ...] = ()
    """Share by which drawn work came out wider than planned at its thickness, below 0 where narrower; by step."""

    def to_record(self) -> Record:
        """It as a JSON object, units in the key names; what it does not teach has no key."""
        record: Record = {"version": VERSION}
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
        if self.lost:
            record["lost"] = [
                {"heats": one.heats, "from_mm3": round(one.before * 1e9, 2), "to_mm3": round(one.after * 1e9, 2)}
                for one in self.lost
            ]
        if self.wider:
            record["wider_fractions"] = [round(one, 5) for one in self.wider]
        return record

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Teaches:
        """It from a JSON object that `to_record` made, under the `VERSION` that it has now.

        Raises:
            ValueError, KeyError, TypeError: this is none.
        """
        return cls(
            _factor(record.get("cooling_factor"), LEAST_FACTOR, MOST_FACTOR),
            _factor(record.get("contact_factor"), LEAST_CONTACT, MOST_CONTACT),
            tuple(map(_drawn, records_of(record.get("drawn", [])))),
            tuple(map(_weld, records_of(record.get("welds", [])))),
            tuple(map(_lost, records_of(record.get("lost", [])))),
            tuple(number_of(one, -_FAR, _FAR) for one in list_of(record.get("wider_fractions", []))),
        )


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


def _lost(record: Record) -> SteelLost:
    before, after = (number_of(record[name], 0.0, _HEAVIEST) / 1e9 for name in ("from_mm3", "to_mm3"))
    if not (before > 0 and after > 0):
        raise ValueError("what was measured has a volume")
    return SteelLost(count_of(record["heats"], 1, MOST_HEATS), before, after)

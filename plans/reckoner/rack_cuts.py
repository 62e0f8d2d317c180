"""What is cut from a rack for what is needed, and what the rack holds then, as facts of an answer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from plans.reckoner.figures import Fact
from plans.reckoner.kinds import LENGTH
from plans.stock import FromRack
from plans.units import Units


def rack_cuts(found: FromRack, names: Sequence[str]) -> list[Fact]:
    """What to cut from which bar, and what the rack holds then.

    Args:
        found: the cuts
        names: what each need is for, in their order
    """
    said = "each from the bar of which least is left; a saw cut counted"
    cuts = [
        {
            "for": names[one.need],
            "steel": one.bar.steel,
            "section": Units.METRIC.section(one.bar.section),
            "bar_mm": LENGTH.record(one.bar.length),
            "cut_mm": LENGTH.record(one.length),
            "left_mm": LENGTH.record(one.offcut),
        }
        for one in found.taken
    ]
    left = [
        {
            "steel": bar.steel,
            "section": Units.METRIC.section(bar.section),
            "length_mm": LENGTH.record(bar.length),
            "pieces": bar.pieces,
        }
        for bar in found.left
    ]

    def cut_text(units: Units) -> str:
        return (
            "; ".join(
                f"{units.length(one.length)} off the {units.section(one.bar.section)} {one.bar.steel} of "
                f"{units.length(one.bar.length)}, {units.length(one.offcut)} left"
                for one in found.taken
            )
            or "nothing"
        )

    def left_text(units: Units) -> str:
        return (
            "; ".join(
                f"{bar.pieces} of {units.length(bar.length)} {bar.steel} {units.section(bar.section)}"
                for bar in found.left
            )
            or "nothing"
        )

    facts = [
        Fact("rack_cuts", "cut from the rack", cuts, cut_text, "arithmetic", said, ""),
        Fact("rack_left", "left on the rack", left, left_text, "arithmetic", "", ""),
    ]
    if found.missing:
        missing: list[Any] = [names[number] for number in found.missing]
        facts.insert(1, Fact("rack_missing", "not on the rack", missing, ", ".join(missing), "arithmetic", "", ""))
    return facts

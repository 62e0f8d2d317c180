"""The reckoning of a plan's stock: where its steel goes."""

from __future__ import annotations

from collections.abc import Sequence

from plans.plan import Plan
from plans.reckoned import Reckoned
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, Given
from plans.reckoner.kinds import VOLUME
from plans.reckoner.rack_cuts import rack_cuts
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.stock import Allowances, Need, RackBar, cut_from, through


def reckon_plan_stock(plan: Plan, rack: Sequence[RackBar] | None = None) -> Reckoning:
    """Where the steel of a plan goes.

    Args:
        plan: the plan
        rack: the bars that one has, to cut its bars from; None where they are not asked

    Raises:
        ReckonError: the plan says too little of bars, sections and lengths.
    """
    volumes = through(plan)
    if volumes is None:
        raise ReckonError("plan-or-piece", "the plan names no bars, or no step with a section and a length")

    def exact(value: float, about: str) -> Reckoned:
        return Reckoned(value, "arithmetic", about, "constant volume, by the plan's own sections and lengths")

    scale = sum(step.scale for step in volumes.steps)
    trimmed = sum(step.trimmed for step in volumes.steps)
    found: list[Figure | Fact] = [
        Figure("stock_cm3", "bars", exact(volumes.stock, "all that the plan names"), VOLUME),
        Figure("out_cm3", "comes out", exact(volumes.out, "what is worked when the last step is done"), VOLUME),
        Figure("scale_cm3", "gone to scale", exact(scale, "up to 3 % a heat of what the steps lose"), VOLUME),
        Figure("trimmed_cm3", "trimmed", exact(trimmed, "what the steps lose besides"), VOLUME),
        Figure("beside_cm3", "cut off or set aside", exact(volumes.beside, "between the steps"), VOLUME),
        Figure("missing_cm3", "not there", exact(volumes.more, "what the steps need beyond the bars"), VOLUME),
    ]
    if rack is not None:
        needs = [_of_bar(bar.steel, bar.section, bar.length, bar.name) for bar in plan.bars]
        found += rack_cuts(cut_from(rack, needs), [bar.name for bar in plan.bars])
    return Reckoning("stock", (Given("plan", plan.name, plan.title),), tuple(found))


def _of_bar(steel: str, section: Section, length: float, name: str) -> Need:
    return Need(steel, lambda bar: length if bar == section else None, name, Allowances().kerf)

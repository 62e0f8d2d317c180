"""What a shop's own measurements teach: how much steel a heat takes as scale, and how far work spreads beside the plan.

Only what was measured before and after counts, by weight or by both sides and the length, and only where the plan has
nothing cut off, welded on or ground off in between: what is gone then went to scale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import exp, log, sqrt
from typing import Final

from plans.errors import PlansError
from plans.logbook.kept_plan import kept_plan
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.measured_later import with_later
from plans.logbook.steel_there import volume_of
from plans.measured import Measured
from plans.plan import Plan, StepKind
from plans.reckoned import Reckoned
from plans.record import record
from plans.shapes import REGULAR, Section
from plans.shown import counted
from plans.sitting import folded, measured_after, measured_at_ends, plan_as_measured
from plans.stock import through

LEAST_STEPS: Final = 3
"""Of fewer steps nothing is said: of two nobody knows how far one was from the other by chance."""
LEAST_SITTINGS: Final = 2
"""Nor of fewer sittings: one may have had a fire, or a caliper, of its own."""
_HOT: Final = (StepKind.DRAW, StepKind.FORGE, StepKind.WELD)
_SAME: Final = 0.01
"""Share by which a plan's volumes may differ through rounding and still be the same."""
_FAR_OFF: Final = (-0.03, 0.10)
"""A heat that takes a share beyond these was measured wrong, or something was cut off that the plan does not say;
common practice has 0.01 to 0.03."""


@record
class Lost:
    """Work that was measured before and after some heats, with nothing taken off but scale."""

    sitting: str
    """Id of the sitting."""
    heats: int
    """Heats in between that were done in the fire."""
    before: float
    """Its volume before [m3]."""
    after: float
    """Its volume after [m3]."""

    @property
    def a_heat(self) -> float:
        """Share of the steel that each heat took, all alike; below 0 where more was measured after."""
        return 1 - exp(log(self.after / self.before) / self.heats)


@record
class Spread:
    """Flat work that was drawn, as wide as it came out beside the plan."""

    sitting: str
    """Id of the sitting."""
    wider: float
    """Share by which it is wider than the plan has it at the thickness that was measured; below 0 where narrower."""


@record
class ShopLearned:
    """One figure that measuring by hand taught of a shop."""

    value: float
    """The figure, a share."""
    standard_error: float
    """Its standard error, by the jackknife: one step left out at a time."""
    least: float
    """The smallest of the steps that it rests on."""
    most: float
    """The largest."""
    steps: int
    """How many steps it rests on."""
    sittings: int
    """In how many sittings."""

    @property
    def about(self) -> str:
        """What it rests on: "from 6 steps in 3 sittings"."""
        return f"from {counted(self.steps, 'step')} in {counted(self.sittings, 'sitting')}"


def lost_in(kept: KeptSitting) -> Iterator[Lost]:
    """What was measured before and after some heats in a sitting, from one measurement to the next.

    Args:
        kept: the sitting, with figures
    """
    plan, figures = _plan_of(kept), kept.figures
    if plan is None or figures is None:
        return
    measured = measured_after(with_later(folded(kept.log.events), kept.measured_later))
    known = [
        (place, volume)
        for place, one in sorted(measured.items())
        if place[0] < len(plan.steps) and (volume := _volume(one, plan.steps[place[0]].section)) is not None
    ]
    done = [
        (step.step, heat.heat) for step in figures.steps for heat in step.heats if heat.is_done and heat.in_fire > 0
    ]
    for (start, before), (end, after) in pairwise(known):
        heats = sum(start < place <= end for place in done)
        # A step that was over when the first was measured is not gone through any more.
        first = start[0] if any(start < place <= end and place[0] == start[0] for place in done) else start[0] + 1
        weighed = measured[start].mass is not None and measured[end].mass is not None
        if heats and _only_scale(plan, range(first, end[0] + 1), weighed=weighed):
            yield Lost(kept.header.id, heats, before, after)


def spread_in(kept: KeptSitting) -> Iterator[Spread]:
    """How far flat work that was drawn in a sitting spread beside its plan, a figure for each step at its end."""
    plan = _plan_of(kept)
    if plan is None:
        return
    state = with_later(folded(kept.log.events), kept.measured_later)
    begun = plan_as_measured(plan, state)
    for number, one in sorted(measured_at_ends(state).items()):
        sides = one.measured.width, one.measured.thickness
        if number >= len(plan.steps) or None in sides:
            continue
        step, section = begun.steps[number], Section.flat(*(side or 0.0 for side in sides))
        if step.kind not in _HOT[:2] or step.section is None or step.reach is None:
            continue
        width = width_at(step.section, step.reach, section.thickness)
        if width is not None:
            yield Spread(kept.header.id, section.width / width - 1)


def width_at(begins: Section, reach: Section, thickness: float) -> float | None:
    """The width that a plan has for flat work at a thickness: as the one shrinks, the other goes evenly along.

    Args:
        begins: where the work began
        reach: where it is to end
        thickness: that it has now [m]

    Returns:
        the width [m]; None where the section is no flat one, is not drawn thinner, or was not drawn so far
    """
    if {begins.form, reach.form} & REGULAR or begins.edge is not None or reach.edge is not None:
        return None
    whole = log(begins.thickness / reach.thickness)
    gone = log(begins.thickness / thickness)
    if whole < 0.05 or not 0.5 * whole <= gone <= 1.5 * whole:
        return None
    return begins.width * exp(log(reach.width / begins.width) * gone / whole)


def loss_learned(found: Iterable[Lost]) -> ShopLearned | None:
    """Share of the steel that a heat takes as scale in this shop: each heat counts as much as another.

    Args:
        found: what was measured, of any number of sittings

    Returns:
        the share; None of fewer than `LEAST_STEPS` steps in `LEAST_SITTINGS` sittings, or where it comes to nothing

    References:
        The jackknife: Efron and Tibshirani, An Introduction to the Bootstrap, 1993, chapter 11.
    """
    some = [one for one in found if _FAR_OFF[0] <= one.a_heat <= _FAR_OFF[1]]

    def pooled(parts: Sequence[Lost]) -> float:
        return 1 - exp(sum(log(one.after / one.before) for one in parts) / sum(one.heats for one in parts))

    if not _enough([one.sitting for one in some]) or (value := pooled(some)) <= 0:
        return None
    each = [one.a_heat for one in some]
    without = [pooled(some[:place] + some[place + 1 :]) for place in range(len(some))]
    return ShopLearned(
        value, _jackknife(without), max(0.0, min(each)), max(each), len(some), len({one.sitting for one in some})
    )


def spread_learned(found: Iterable[Spread]) -> ShopLearned | None:
    """Share by which drawn work comes out wider here than planned at the same thickness, the mean of the steps.

    Returns:
        the share, below 0 where it comes out narrower; None of fewer than `LEAST_STEPS` steps in `LEAST_SITTINGS`
        sittings
    """
    some = list(found)
    if not _enough([one.sitting for one in some]):
        return None
    each = [one.wider for one in some]
    without = [(sum(each) - one) / (len(each) - 1) for one in each]
    mean, sittings = sum(each) / len(each), len({one.sitting for one in some})
    return ShopLearned(mean, _jackknife(without), min(each), max(each), len(each), sittings)


def as_reckoned(loss: ShopLearned) -> Reckoned:
    """What a heat takes as scale here, as a figure of a reckoning or of the maker."""
    said = f"of the steel a heat goes to scale in your shop, {loss.about}, as measured by hand"
    return Reckoned(loss.value, "modelled", said, "the logbook", loss.least, loss.most)


def _plan_of(kept: KeptSitting) -> Plan | None:
    try:
        return kept_plan(kept.header)
    except PlansError:
        return None  # of a later version


def _volume(measured: Measured, planned: Section | None) -> float | None:
    """What was measured, and nothing taken from the plan but the form [m3]."""
    regular = planned is not None and planned.form in REGULAR
    if measured.mass is None and not regular and None in (measured.width, measured.thickness):
        return None
    return volume_of(measured, planned)


def _only_scale(plan: Plan, steps: range, *, weighed: bool) -> bool:
    """Whether the plan has nothing but scale leave the work, and nothing come to it, through some steps."""
    found = through(plan)
    volumes = {its.step: its for its in found.steps} if found is not None else {}
    ends: float | None = None
    for number in steps:
        kind = plan.steps[number].kind
        # A stack's section is that of its air as well, until it is welded.
        if kind not in _HOT or (kind is StepKind.WELD and not weighed):
            return False
        its = volumes.get(number)
        if its is None:
            if plan.steps[number].section is not None and plan.steps[number].length is not None:
                continue
            if len(steps) > 1:
                return False  # nobody knows what became of it between the two
            continue
        if its.trimmed > _SAME * its.begins or its.welded_on > _SAME * its.begins:
            return False
        if ends is not None and abs(its.begins / ends - 1) > _SAME:
            return False
        ends = its.ends
    return True


def _enough(sittings: Sequence[str]) -> bool:
    return len(sittings) >= LEAST_STEPS and len(set(sittings)) >= LEAST_SITTINGS


def _jackknife(without: Sequence[float]) -> float:
    mean = sum(without) / len(without)
    return sqrt((len(without) - 1) / len(without) * sum((one - mean) ** 2 for one in without))

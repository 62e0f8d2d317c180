"""What the measurements of one sitting tell of its shop: how much steel its heats took, how far drawn work spread.

Only what was measured before and after counts, by weight or by both sides and the length, and only where the plan has
nothing cut off, welded on or ground off in between: what is gone then went to scale.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import exp, log
from typing import Final

from plans.logbook.figures import SittingFigures
from plans.logbook.steel_there import volume_of
from plans.logbook.teaching.teaches import SteelLost
from plans.measured import Measured
from plans.plan import Plan, StepKind
from plans.shapes import REGULAR, Section
from plans.sitting import State, measured_after, measured_at_ends, plan_as_measured
from plans.stock import through

_HOT: Final = (StepKind.DRAW, StepKind.FORGE, StepKind.WELD)
_WIDEST: Final = 0.5
"""No work spreads by a larger share beside its plan."""
_SAME: Final = 0.01
"""Share by which a plan's volumes may differ through rounding and still be the same."""


def steel_lost(plan: Plan, state: State, figures: SittingFigures) -> Iterator[SteelLost]:
    """What some heats took, from one measurement of a sitting to the next.

    Args:
        plan: what it followed
        state: where it stood in the end, with what was measured
        figures: its figures
    """
    measured = {place: one for place, one in sorted(measured_after(state).items()) if place[0] < len(plan.steps)}
    planned = {place: plan.steps[place[0]].section for place in measured}
    weighed = {place: volume_of(one, planned[place]) for place, one in measured.items() if one.mass is not None}
    calipered = {place: _calipered(one, planned[place]) for place, one in measured.items()}
    # A scale and a caliper differ by more than a heat takes: one of them goes through the whole sitting.
    by_weight = len(weighed) > 1
    known = [(place, one) for place, one in (weighed if by_weight else calipered).items() if one is not None]
    done = [
        (step.step, heat.heat) for step in figures.steps for heat in step.heats if heat.is_done and heat.in_fire > 0
    ]
    for (start, before), (end, after) in pairwise(known):
        heats = sum(start < place <= end for place in done)
        # A step that was over when the first was measured is not gone through any more.
        first = start[0] if any(start < place <= end and place[0] == start[0] for place in done) else start[0] + 1
        if heats and _only_scale(plan, range(first, end[0] + 1), weighed=by_weight):
            yield SteelLost(heats, before, after)


def spread_beside(plan: Plan, state: State) -> Iterator[float]:
    """Share by which flat work that was drawn is wider than planned at its thickness, a figure for each step's end.

    Args:
        plan: what the sitting followed
        state: where it stood in the end, with what was measured
    """
    begun = plan_as_measured(plan, state)
    for number, one in sorted(measured_at_ends(state).items()):
        sides = one.measured.width, one.measured.thickness
        if number >= len(plan.steps) or None in sides:
            continue
        step, section = begun.steps[number], Section.flat(*(side or 0.0 for side in sides))
        if step.kind not in _HOT[:2] or step.section is None or step.reach is None:
            continue
        width = width_at(step.section, step.reach, section.thickness)
        # Beyond that a figure was mistyped, or the work is another.
        if width is not None and abs(wider := section.width / width - 1) <= _WIDEST:
            yield wider


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


def _calipered(measured: Measured, planned: Section | None) -> float | None:
    """The volume by section and length [m3]; nothing is taken from the plan but the form. None where it isn't known."""
    regular = planned is not None and planned.form in REGULAR
    if not regular and None in (measured.width, measured.thickness):
        return None
    return volume_of(replace(measured, mass=None), planned)


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

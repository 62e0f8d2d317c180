"""The steel of a plan through its steps: what is worked, what lies beside, and what goes where. Volume is held.

A plan says sections and lengths step by step. Where a step begins with less than the one before it left, the rest lies
beside: another bar that is welded on later, or an end that was cut off. Where a step begins or ends with more, it comes
from there. What scale can't account for was trimmed.
"""

from __future__ import annotations

from plans.plan import Plan, Step
from plans.record import record
from plans.shapes import Section
from plans.stock.losses import USUAL_SCALE


@record
class StepVolume:
    """The steel of one step."""

    step: int
    """Number of the step, from 0."""
    begins: float
    """What the step begins to work with [m3]."""
    ends: float
    """What it ends with [m3]."""
    scale: float
    """What of it went to scale [m3]."""
    trimmed: float
    """What was cut off besides [m3]."""
    welded_on: float
    """What came to it from beside in the step [m3]."""


@record
class PlanVolume:
    """The steel of a plan: `stock` and `more` together are `out`, `beside` and what the steps lost."""

    stock: float
    """That of the bars [m3]."""
    steps: tuple[StepVolume, ...]
    """That of each step that says enough of itself, in order."""
    out: float
    """What the last of them ends with [m3]."""
    beside: float
    """What was cut off, ground off or set aside between the steps, and not welded on again [m3]."""
    more: float
    """What the steps need beyond the bars [m3]; above 0 only where a plan's figures don't add up."""


def through(plan: Plan) -> PlanVolume | None:
    """Follow the steel of a plan through its steps; None where it has no bars, or no step says enough of itself."""
    stock = sum(bar.section.area * bar.length for bar in plan.bars)
    steps: list[StepVolume] = []
    worked, beside, more = stock, 0.0, 0.0

    def brought_up(to: float) -> float:
        """Take from beside what a step has more than there was; returns it."""
        nonlocal worked, beside, more
        wanted = max(0.0, to - worked)
        taken = min(wanted, beside)
        beside, more, worked = beside - taken, more + wanted - taken, worked + wanted
        return wanted

    for number, step in enumerate(plan.steps):
        begins = _volume(step.section, step.length)
        if begins is None:
            continue
        brought_up(begins)
        beside, worked = beside + worked - begins, begins
        ends = _ends(step, begins)
        welded_on = brought_up(ends)
        gone = worked - ends
        scale = min(gone, (begins + welded_on) * (1 - USUAL_SCALE.left(step.heats)[1]))
        worked = ends
        steps.append(StepVolume(number, begins, ends, scale, gone - scale, welded_on))
    if not steps or stock == 0:
        return None
    return PlanVolume(stock, tuple(steps), worked, beside, more)


def _ends(step: Step, begins: float) -> float:
    """What a step ends with [m3]: what it says, or where it draws to a section of no said length, what its heats leave.

    A step that says no section to reach keeps what it has: the next step's own figures tell what it cost.
    """
    said = _volume(step.reach, step.reach_length)
    if said is not None:
        return said
    return begins * USUAL_SCALE.left(step.heats)[0] if step.reach is not None else begins


def _volume(section: Section | None, length: float | None) -> float | None:
    return None if section is None or length is None else section.area * length

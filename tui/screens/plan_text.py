"""What there is to read about a plan before it is begun."""

from __future__ import annotations

from textual.content import Content

from plans.plan import Bar, Plan, Step, StepKind
from plans.prose import in_units
from plans.reader import ShelfPlan
from plans.shown import counted
from plans.text import plain
from plans.units import Units
from tui.widgets import paragraphs


def plan_text(found: ShelfPlan, units: Units = Units.METRIC) -> Content:
    """A plan as text: what it is about, its bars and its steps; or what is wrong with it.

    Args:
        found: the plan, or why it can't be used
        units: those in which its figures are shown
    """
    plan = found.plan
    if plan is None:
        faults = "\n".join(plain(line) for line in str(found.error).splitlines())
        return Content.assemble((plain(str(found.path)), "bold"), "\n\n", faults)
    about = "\n\n".join(plain(in_units(part, units)) for part in paragraphs(plan.about))
    lines = [Content.assemble((plain(in_units(plan.title, units)), "bold"), "\n\n", about)]
    lines.append(Content.styled("\nBars", "bold $accent"))
    lines += [_bar(bar, units) for bar in plan.bars] or [Content("none named")]
    lines.append(Content.styled("\nSteps", "bold $accent"))
    lines += [_step(number, step, plan, units) for number, step in enumerate(plan.steps, 1)]
    return Content("\n").join(lines)


def _bar(bar: Bar, units: Units) -> Content:
    name = plain(in_units(bar.name, units))
    return Content(f"{name}: {plain(bar.steel)}, {units.section(bar.section)}, {units.length(bar.length)}")


def _step(number: int, step: Step, plan: Plan, units: Units) -> Content:
    digits = len(str(len(plan.steps)))
    parts = []
    if step.kind is not StepKind.BENCH:
        parts.append(counted(step.heats, step.counts))
    if step.targets:
        # How hot the work gets, not its fire: that is what tells one step from another.
        first, last = step.targets[0].heat_to, step.targets[-1].heat_to
        heats = units.temperature(last)
        parts.append(heats if first == last else f"{units.degrees(first)} to {heats}")
    title = plain(in_units(step.title, units))
    return Content.assemble(f"{number:>{digits}}  ", title, ("  " + ", ".join(parts), "$text-muted"))

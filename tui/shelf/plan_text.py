"""What there is to read about a plan, or a sitting that was left, before it is begun."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from textual.content import Content

from plans.at_hand import ListedPlan
from plans.logbook import Summary
from plans.plan import Bar, Plan, Step, StepKind
from plans.prose import in_units
from plans.reader import ShelfPlan
from plans.shown import counted, show_duration
from plans.text import paragraphs, plain
from plans.units import Units
from tui.screens import title, when

if TYPE_CHECKING:
    from plans.times import PlanTimes


def plan_text(found: ShelfPlan, units: Units = Units.METRIC, times: PlanTimes | None = None) -> Content:
    """A plan as text: what it takes, its bars, what it is about and its steps; or what is wrong with it.

    Args:
        found: the plan, or why it can't be used
        units: those in which its figures are shown
        times: what it takes; None while that is not worked out
    """
    plan = found.plan
    if plan is None:
        faults = "\n".join(plain(line) for line in str(found.error).splitlines())
        return Content.assemble((plain(str(found.path)), "bold"), "\n\n", faults)
    takes = [line for line in (_takes(plan, times), *(_bar(bar, units) for bar in plan.bars)) if line]
    steps = [_step(number, step, plan, units) for number, step in enumerate(plan.steps, 1)]
    return _laid_out(plan.title, takes, plan.about, steps, units)


def glance_text(listed: ListedPlan, units: Units) -> Content:
    """What a glance at a plan's file has found, as text; laid out as the whole plan will be.

    Args:
        listed: the plan
        units: those in which its figures are shown
    """
    digits = len(str(len(listed.steps)))
    steps = [
        Content(f"{number:>{digits}}  {plain(in_units(title, units))}") for number, title in enumerate(listed.steps, 1)
    ]
    return _laid_out(listed.title, (), _joined(listed.about), steps, units)


def _joined(about: str) -> str:
    """Paragraphs in one line each, as the reader of plans has them."""
    return "\n\n".join(" ".join(part.split()) for part in about.split("\n\n"))


def _laid_out(title: str, takes: Iterable[str], about: str, steps: Iterable[Content], units: Units) -> Content:
    lines = [Content.styled(plain(in_units(title, units)), "bold"), *map(Content, takes)]
    said = "\n\n".join(plain(in_units(part, units)) for part in paragraphs(about))
    if said:
        lines.append(Content(f"\n{said}"))
    lines.append(Content.styled("\nSteps", "bold $accent"))
    return Content("\n").join([*lines, *steps])


def left_text(summary: Summary, units: Units) -> Content:
    """A sitting that was left before its end, as text.

    Args:
        summary: the sitting
        units: those in which its figures are shown
    """
    heats = ""
    if summary.heats is not None:
        heats = f"{counted(summary.heats, 'heat')} done; heatbook called {counted(summary.calls or 0, 'time')}\n"
    return Content.assemble(
        (title(summary, units), "bold"),
        f"\n\nbegun {when(summary.started)}, left before its end\n{heats}\n",
        (summary.id, "$text-muted"),
    )


def _takes(plan: Plan, times: PlanTimes | None) -> str:
    """Heats and times on one line: "23 heats, about 58 min in the fire"."""
    return ", ".join(_taken(plan, times))


def _taken(plan: Plan, times: PlanTimes | None) -> Iterator[str]:
    if heats := plan.heats_in_fire:
        yield counted(heats, "heat")
    if times is None:
        return
    if times.in_the_fire:
        yield f"{'at least' if times.unknown else 'about'} {_minutes(times.in_the_fire)} in the fire"
    if times.oven:
        yield f"{_minutes(times.oven)} in the oven"
    if times.dip:
        yield f"{_minutes(times.dip)} in the bath"


def _minutes(seconds: float) -> str:
    """A time to the minute; one below a minute to the second."""
    return show_duration(seconds if seconds < 60 else 60 * round(seconds / 60))


def _bar(bar: Bar, units: Units) -> str:
    name = plain(in_units(bar.name, units))
    return f"from {name}: {plain(bar.steel)}, {units.section(bar.section)}, {units.length(bar.length)}"


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

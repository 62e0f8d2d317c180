"""Lessons and outcomes as lines to be read."""

from __future__ import annotations

from plans.logbook.afterwards import Lesson, Outcome, Recalled, WeldOutcome
from plans.plan import Plan
from plans.prose import in_units
from plans.shown import counted
from plans.units import Units

LESSONS_HEADING = "Lessons"
OUTCOME_HEADING = "Outcome"
NOT_SAID = "not said"
"""In place of what nobody has said yet."""


def lesson_line(lesson: Lesson, units: Units) -> str:
    """A lesson with what it belongs to: "flux sooner (every weld step)"."""
    retired = "" if lesson.retired is None else "; no longer said"
    put = f"; put into {', '.join(lesson.put_into)}" if lesson.put_into else ""
    return f"{lesson.text} ({in_units(lesson.tie.about, units)}{put}{retired})"


def recalled_line(one: Recalled) -> str:
    """A lesson where it comes back: "flux sooner (2026-11-25)"; of a step that has another title now, with that."""
    moved = f", of {one.lesson.tie.about}" if one.moved else ""
    return f"{one.lesson.text} ({one.lesson.written:%Y-%m-%d}{moved})"


def lessons_gone_with(lessons: int) -> str:
    """What goes with a sitting that is deleted, behind that: ", and 2 lessons with it, ..."; empty for none."""
    return f", and {counted(lessons, 'lesson')} with it, which an archived one keeps" if lessons else ""


def said_line(one: Recalled) -> str:
    """How often a lesson came back: "said in 3 sittings since"."""
    return f"said in {counted(one.said, 'sitting')} since" if one.said else "not said since"


def weld_line(weld: WeldOutcome | None) -> str:
    """What came of a weld, in words: "sound", "cold shut, burnt", "not said"."""
    if weld is None:
        return NOT_SAID
    return ", ".join(flaw.value for flaw in weld.flaws) or "sound"


def outcome_lines(outcome: Outcome | None, plan: Plan | None, units: Units) -> list[str]:
    """An outcome as lines, what was not said left out; none where nothing was said."""
    if outcome is None:
        return []
    lines = []
    for weld in outcome.welds:
        title = f" {in_units(plan.steps[weld.step].title, units)}" if plan and weld.step < len(plan.steps) else ""
        lines.append(f"weld of step {weld.step + 1}{title}: {weld_line(weld)}")
    return lines + [f"{name}: {text}" for name, text in outcome_parts(outcome, units) if text]


def outcome_parts(outcome: Outcome, units: Units) -> list[tuple[str, str]]:
    """All of an outcome but its welds: what each part is called, and what was said of it; empty where nothing was."""
    cracked, twist = outcome.cracked, outcome.twist_degrees
    return [
        ("warp", "" if outcome.warp is None else units.length(outcome.warp) if outcome.warp else "none"),
        ("twist", "" if twist is None else f"{twist:g} degrees" if twist else "none"),
        ("cracks", "" if cracked is None else "yes" if cracked else "none"),
        ("grain", "" if outcome.grain is None else outcome.grain.value),
        ("rating", "" if outcome.rating is None else f"{outcome.rating} of 5"),
    ]

"""`heatbook plan check`: what is wrong with a plan file."""

from __future__ import annotations

import argparse
import json
import sys

from plans.errors import Fault, FaultKind, PlanError
from plans.maker import Concern, doubts_on, proposal_of
from plans.plan import Step, StepKind
from plans.prose import in_units
from plans.reader import notes_on, plan_path, read_plan_file
from plans.shown import counted
from plans.times import plan_times
from plans.toml import shown_path
from plans.units import Units
from tui.cli.sitting_text import table
from tui.config import shop_set, units_set, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Say what is wrong with a plan file, or what is planned where nothing is.

    Returns:
        0; 1 where it can't be followed, or something in it can't be right
    """
    path = plan_path(chosen.plan, user_folders().plans)
    try:
        plan = read_plan_file(path)
    except PlanError as error:
        if chosen.json:
            from tui.cli.whole_plan import short_record

            print(json.dumps(short_record(path.stem, None, error, None), indent=2))
        else:
            # One fault a line and nothing before it: an editor that knows file:line jumps there.
            print(error, file=sys.stderr)
        return 1
    times, units = plan_times(plan, shop_set()), units_set()
    doubts = doubts_on(plan, times, proposal_of(plan, units))
    notes = (*notes_on(plan, shown_path(path)), *(_note(one, shown_path(path), units) for one in doubts))
    warned = any(note.kind is FaultKind.WARNING for note in notes)
    if chosen.json:
        from tui.cli.whole_plan import check_record, short_record

        record = short_record(plan.name, plan, None, times) | check_record(notes)
        print(json.dumps(record, indent=2))
        return int(warned)
    for note in notes:
        print(note, file=sys.stderr)
    rows = [(str(number), step.kind.value, _planned(step)) for number, step in enumerate(plan.steps, 1)]
    lines = table(("step", "kind", "planned"), rows)
    verdict = "it can be followed, but something in it is not right" if warned else "good"
    print(f"{in_units(plan.title, units)}: {verdict}")
    for line, title in zip(lines, ("", *(in_units(step.title, units) for step in plan.steps)), strict=True):
        print(f"{line}  {title}".rstrip())
    return int(warned)


def _note(one: Concern, file: str, units: Units) -> Fault:
    """What does not add up as a note on a file; what would make the work fail is a warning."""
    kind = FaultKind.WARNING if one.serious else FaultKind.NOTE
    where = f"made_from.{one.answer}" if one.answer else ""
    return Fault(file, None, where, "", units.text(one.what).rstrip("."), units.text(one.mend), kind)


def _planned(step: Step) -> str:
    if step.kind is StepKind.BENCH:
        return ""
    return counted(step.heats, step.counts)

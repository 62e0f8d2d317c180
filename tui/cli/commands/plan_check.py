"""`heatbook plan check`: what is wrong with a plan file."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from plans.errors import FaultKind, PlanError
from plans.plan import Step, StepKind
from plans.prose import in_units
from plans.reader import notes_on, read_plan_file
from plans.shown import counted
from plans.toml import shown_path
from tui.cli.sitting_text import table
from tui.config import shop_set, units_set


def run(chosen: argparse.Namespace) -> int:
    """Say what is wrong with a plan file, or what is planned where nothing is.

    Returns:
        0; 1 where it can't be followed, or something in it can't be right
    """
    path = Path(chosen.file)
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
    notes = notes_on(plan, shown_path(path))
    warned = any(note.kind is FaultKind.WARNING for note in notes)
    if chosen.json:
        from plans.times import plan_times
        from tui.cli.whole_plan import check_record, short_record

        record = short_record(plan.name, plan, None, plan_times(plan, shop_set())) | check_record(notes)
        print(json.dumps(record, indent=2))
        return int(warned)
    for note in notes:
        print(note, file=sys.stderr)
    rows = [(str(number), step.kind.value, _planned(step)) for number, step in enumerate(plan.steps, 1)]
    lines = table(("step", "kind", "planned"), rows)
    units = units_set()
    verdict = "it can be followed, but something in it is not right" if warned else "good"
    print(f"{in_units(plan.title, units)}: {verdict}")
    for line, title in zip(lines, ("", *(in_units(step.title, units) for step in plan.steps)), strict=True):
        print(f"{line}  {title}".rstrip())
    return int(warned)


def _planned(step: Step) -> str:
    if step.kind is StepKind.BENCH:
        return ""
    return counted(step.heats, step.counts)

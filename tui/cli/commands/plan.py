"""`heatbook plan`: list, check and copy plans."""

from __future__ import annotations

import argparse
import json
import sys
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import Any

from plans.at_hand import ListedPlan, group_of, in_order, list_plans
from plans.errors import Fault, FaultKind, PlanError
from plans.plan import Plan, Step, StepKind
from plans.prose import in_units
from plans.reader import find_plan, notes_on, piece_text, read_plan_file
from plans.shown import counted
from plans.text import printable
from plans.toml import shown_path
from plans.units import Units
from tui.cli.new_file import write_new
from tui.cli.sitting_text import table
from tui.config import UsageError, shop_set, units_set, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Answer `plan list`, `plan check` or `plan copy`."""
    if chosen.action == "list":
        return _list(" ".join(chosen.find), chosen.json)
    if chosen.action == "check":
        return _check(Path(chosen.file), chosen.json)
    return _copy(chosen.plan, Path(chosen.file))


def _list(wanted: str, as_json: bool) -> int:
    units = units_set()
    listed = in_order(plan.read() for plan in list_plans(user_folders().plans))
    found = [plan for plan in listed if plan.has_words(wanted, units)]
    if as_json:
        print(json.dumps([_listed_record(plan) for plan in found], indent=2))
        return 0
    if not found:
        print(printable(f"no plan has {wanted}; heatbook plan list shows all"), file=sys.stderr)
        return 1
    for group, plans in groupby(found, attrgetter("group")):
        print(group.heading)
        for plan in plans:
            print(printable(f"  {plan.name:<18} {_title(plan, units)}{' (own)' if plan.file.own else ''}"))
    return 0


def _title(plan: ListedPlan, units: Units) -> str:
    if not plan.is_usable:
        return f"see: heatbook plan check {plan.file.path}"
    return in_units(plan.title, units)


def _listed_record(plan: ListedPlan) -> dict[str, Any]:
    assert plan.found is not None
    record = _record(plan.name, plan.found.plan, plan.found.error)
    return record | {"path": str(plan.file.path), "own": plan.file.own}


def _check(path: Path, as_json: bool) -> int:
    try:
        plan = read_plan_file(path)
    except PlanError as error:
        if as_json:
            print(json.dumps(_record(path.stem, None, error), indent=2))
        else:
            # One fault a line and nothing before it: an editor that knows file:line jumps there.
            print(error, file=sys.stderr)
        return 1
    notes = notes_on(plan, shown_path(path))
    warned = any(note.kind is FaultKind.WARNING for note in notes)
    if as_json:
        print(json.dumps(_record(plan.name, plan, None) | _beside(notes), indent=2))
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


def _record(name: str, plan: Plan | None, error: PlanError | None) -> dict[str, Any]:
    return {
        "name": name,
        "title": plan.title if plan else None,
        "about": plan.about if plan else None,
        **_taken(plan),
        "steps": [{"title": s.title, "kind": s.kind.value, "heats": s.heats} for s in plan.steps] if plan else None,
        "good": plan is not None,
        "faults": [_fault(fault) for fault in (error.faults if error else ())],
    }


def _taken(plan: Plan | None) -> dict[str, Any]:
    """What a plan is for, and what it takes in this shop by the warm model."""
    if plan is None:
        return {"group": None, "heats": None, "fire_seconds": None}
    from plans.times import plan_times

    times = plan_times(plan, shop_set())
    return {
        "group": group_of({step.kind for step in plan.steps}).value,
        "heats": times.heats,
        "fire_seconds": None if times.unknown else round(times.in_the_fire),
    }


def _beside(notes: tuple[Fault, ...]) -> dict[str, Any]:
    """Warnings and notes on a plan that can be followed."""
    return {
        name: [_fault(note) for note in notes if note.kind is kind]
        for name, kind in (("warnings", FaultKind.WARNING), ("notes", FaultKind.NOTE))
    }


def _fault(fault: Fault) -> dict[str, Any]:
    return {"line": fault.line, "where": fault.where, "key": fault.key, "what": fault.what, "hint": fault.hint}


def _copy(name: str, to: Path) -> int:
    if (piece := piece_text(name)) is not None:
        write_new(to, piece)
        print(printable(f"{to}: now your own; heatbook reckon stock {to} reckons with it"))
        return 0
    plan = find_plan(name, user_folders().plans)
    if to.suffix != ".toml":
        raise UsageError(f"{to}: a plan's file ends in .toml, so that it is found by its name")
    own = user_folders().plans
    if to.parent == own:
        from plans.writing import make_folder

        make_folder(own)
    write_new(to, plan.source)
    there = "" if to.parent.resolve() == own.resolve() else f"; in {own} the shelf would show it"
    print(printable(f"{to}: now your own{there}"))
    return 0

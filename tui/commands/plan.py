"""`heatbook plan`: list, check and copy plans."""

from __future__ import annotations

import argparse
import json
import os
from pathlib import Path
from typing import Any

from plans.errors import PlanError
from plans.plan import Plan, Step, StepKind
from plans.reader import find_plan, read_plan_file, shelf_plans
from tui.failing import UsageError
from tui.folders import folders
from tui.sitting_text import table


def run(chosen: argparse.Namespace) -> int:
    """Answer `plan list`, `plan check` or `plan copy`."""
    if chosen.action == "list":
        return _list(chosen.json)
    if chosen.action == "check":
        return _check(Path(chosen.file), chosen.json)
    return _copy(chosen.plan, Path(chosen.file))


def _list(as_json: bool) -> int:
    found = shelf_plans(folders().plans)
    if as_json:
        print(json.dumps([_record(p.name, p.plan, p.error) | {"path": str(p.path), "own": p.own} for p in found]))
        return 0
    rows = [
        (p.name, p.plan.title if p.plan else "can't be used, see: heatbook plan check", "own" if p.own else "")
        for p in found
    ]
    print("\n".join(f"{name:<18} {title}{' (own)' if own else ''}" for name, title, own in rows))
    return 0


def _check(path: Path, as_json: bool) -> int:
    try:
        plan = read_plan_file(path)
    except PlanError as error:
        if not as_json:
            raise
        print(json.dumps(_record(path.stem, None, error)))
        return 1
    if as_json:
        print(json.dumps(_record(plan.name, plan, None)))
        return 0
    rows = [(str(number), step.kind.value, _planned(step)) for number, step in enumerate(plan.steps, 1)]
    lines = table(("step", "kind", "planned"), rows)
    print(f"{plan.title}: good")
    for line, title in zip(lines, ("", *(step.title for step in plan.steps)), strict=True):
        print(f"{line}  {title}".rstrip())
    return 0


def _planned(step: Step) -> str:
    if step.kind is StepKind.BENCH:
        return ""
    return f"{step.heats} {step.counts}{'s' if step.heats > 1 else ''}"


def _record(name: str, plan: Plan | None, error: PlanError | None) -> dict[str, Any]:
    faults = [
        {"line": fault.line, "where": fault.where, "key": fault.key, "what": fault.what, "hint": fault.hint}
        for fault in (error.faults if error else ())
    ]
    return {
        "name": name,
        "title": plan.title if plan else None,
        "about": plan.about if plan else None,
        "steps": [{"title": s.title, "kind": s.kind.value, "heats": s.heats} for s in plan.steps] if plan else None,
        "good": plan is not None,
        "faults": faults,
    }


def _copy(name: str, to: Path) -> int:
    plan = find_plan(name, folders().plans)
    if to.suffix != ".toml":
        raise UsageError(f"{to}: a plan's file ends in .toml, so that it is found by its name")
    try:
        descriptor = os.open(to, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    except FileExistsError:
        raise UsageError(f"{to}: there is a file already; name another") from None
    with os.fdopen(descriptor, "w", encoding="utf-8") as file:
        file.write(plan.source)
    print(f"{to}: now your own; in {folders().plans} the shelf shows it")
    return 0

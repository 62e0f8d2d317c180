"""`heatbook plan list`: the plans at hand, in groups."""

from __future__ import annotations

import argparse
import json
import sys
from itertools import groupby
from operator import attrgetter
from typing import Any

from plans.at_hand import ListedPlan, in_order, list_plans
from plans.prose import in_units
from plans.text import printable
from plans.units import Units
from tui.config import shop_set, units_set, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print the plans at hand, or those of them that have the words.

    Returns:
        0; 1 where none has them
    """
    units, wanted = units_set(), " ".join(chosen.find)
    listed = in_order(plan.read() for plan in list_plans(user_folders().plans))
    found = [plan for plan in listed if plan.has_words(wanted, units)]
    if chosen.json:
        print(json.dumps([_record(plan) for plan in found], indent=2))
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


def _record(listed: ListedPlan) -> dict[str, Any]:
    from plans.times import plan_times
    from tui.cli.whole_plan import short_record

    found = listed.found
    assert found is not None, "all of them have been read"
    times = None if found.plan is None else plan_times(found.plan, shop_set())
    record = short_record(listed.name, found.plan, found.error, times)
    return record | {"path": str(listed.file.path), "own": listed.file.own}

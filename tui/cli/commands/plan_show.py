"""`heatbook plan show`: a whole plan, to read before the fire."""

from __future__ import annotations

import argparse
import json

from plans.errors import PlanError
from plans.stock import RackBar
from plans.text import printable
from tui.cli.own_files import shop_in, units_in
from tui.cli.plan_files import plan_named
from tui.cli.whole_plan import look_at, look_lines, look_record
from tui.config import reduction_learned, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print a plan with all that is worked out of it; what in it does not add up is said, and fails nothing."""
    places = user_folders()
    plan, units = plan_named(chosen.plan), units_in(places)
    learned = next((reduction_learned(step.blows.by) for step in plan.steps if step.blows is not None), None)
    look = look_at(plan, shop_in(places), _racks(), learned)
    if chosen.json:
        print(json.dumps(look_record(look, units), indent=2))
    else:
        print("\n".join(printable(line) for line in look_lines(look, units)))
    return 0


def _racks() -> list[tuple[RackBar, ...]]:
    """The bars that a plan may have been made from: common sizes, or those of the rack where there is one."""
    from plans.reader import read_rack

    try:
        return [(), read_rack(user_folders().rack)]
    except PlanError:
        return [()]

"""`heatbook plan diff`: what differs between two plans."""

from __future__ import annotations

import argparse
import json

from plans.editing import difference
from plans.errors import PlansError
from plans.text import printable
from tui.cli.own_files import units_in
from tui.cli.plan_files import plan_named
from tui.cli.whole_plan import difference_record
from tui.config import UsageError, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print what differs.

    Returns:
        0 where they are alike, 1 where they differ

    Raises:
        UsageError: one of them can't be read: no more can be said then, and 1 would say that they differ.
    """
    try:
        before, after = plan_named(chosen.before), plan_named(chosen.after)
        found = difference(before.source, after.source, (chosen.before, chosen.after))
    except PlansError as error:
        raise UsageError(str(error)) from None
    units = units_in(user_folders())
    if chosen.json:
        print(json.dumps(difference_record(found, units), indent=2))
    else:
        for line in found.lines(units):
            print(printable(line))
    return int(not found.is_empty)

"""`heatbook plan card`: a card of a plan, to print and hang by the anvil, with last time's lessons."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from plans.text import printable
from tui.cli.new_file import write_new
from tui.cli.opened import opened
from tui.cli.own_files import shop_in, units_in
from tui.cli.plan_files import plan_named
from tui.cli.whole_plan import card_page, look_at
from tui.config import reduction_learned, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Write the card of a plan, or print it."""

    places = user_folders()
    plan, units = plan_named(chosen.plan), units_in(places)
    with opened(places) as logbook:
        recalled = logbook.recall()
    learned = next((reduction_learned(step.blows.by) for step in plan.steps if step.blows is not None), None)
    page = card_page(look_at(plan, shop_in(places), reduction=learned), recalled, units)
    if chosen.out is None:
        # In bytes: the page says that it is UTF-8, whatever the terminal's own encoding.
        sys.stdout.buffer.write(page.encode("utf-8"))
        return 0
    write_new(Path(chosen.out), page)
    print(f"written to {printable(chosen.out)}: open it in a browser, and print it on A5")
    return 0

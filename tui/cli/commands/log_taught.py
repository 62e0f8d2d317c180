"""`heatbook log taught` and `forget`: what the sittings of a shop teach, and what of it counts no more."""

from __future__ import annotations

import argparse
import json
from datetime import datetime

from plans.logbook import Logbook, LogbookError
from plans.logbook.taught import Looked, Row, evidence_of, taught
from plans.text import printable
from tui.cli.own_files import say_wrong, shop_in, units_in
from tui.cli.sitting_text import table
from tui.config import forget, read_forgotten, recall, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print the rows, or forget one."""
    places = user_folders()
    logbook = Logbook(places.logbook)
    try:
        summaries = logbook.teaching()
        every = evidence_of(summaries, archived=getattr(chosen, "archived", False))
        forgotten = read_forgotten(places.shop)
        rows = taught(Looked(every, shop_in(places), forgotten, evidence_of(summaries)))
        if chosen.action == "taught":
            if chosen.json:
                print(json.dumps([row.to_record() for row in rows], indent=2))
                return 0
            lines = [
                ("row", "what", "taught", "rests on", "goes by"),
                *((row.id, row.called(units_in(places)), row.text, row.rests, row.in_use) for row in rows),
            ]
            nothing = "No sitting teaches anything yet: a probe on the work, a drawn bar or a weld's outcome does."
            print("\n".join(map(printable, table(lines[0], lines[1:], left=5) if rows else [nothing])))
            return 0
        if chosen.back:
            if chosen.row not in forgotten:
                raise LogbookError(f"{chosen.row} was not forgotten; forgotten are: {', '.join(forgotten) or 'none'}")
            recall(places.shop, chosen.row)
            print(printable(f"{chosen.row}: all its sittings count again"))
            return 0
        row = _named(rows, chosen.row)
        forget(places.shop, row.id, row.key, datetime.now().astimezone())
        print(printable(f"{row.id}: forgotten; it was {row.text}, {row.rests}; heatbook went by {row.in_use}"))
        print(printable(f"have these sittings count again: heatbook log forget {row.id} --back"))
        return 0
    finally:
        say_wrong(logbook.messages)
        logbook.close()


def _named(rows: list[Row], name: str) -> Row:
    found = next((row for row in rows if row.id == name), None)
    if found is None:
        there = ", ".join(row.id for row in rows) or "none yet"
        raise LogbookError(f"there is no row {name}; `heatbook log taught` has these: {there}")
    return found

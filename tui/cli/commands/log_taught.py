"""`heatbook log taught` and `forget`: what the sittings of a shop teach, and what of it counts no more."""

from __future__ import annotations

import argparse
import json
from datetime import datetime
from textwrap import wrap

from plans.logbook import LogbookError
from plans.logbook.taught import ALL_FORGOTTEN, NOTHING, Looked, Row, evidence_of, forgotten_line, row_lines, taught
from plans.text import printable
from tui.cli.compared_text import WIDTH
from tui.cli.opened import opened
from tui.cli.own_files import shop_in, units_in
from tui.config import forget, read_forgotten, recall, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print the rows, or forget one."""
    places = user_folders()
    with opened(places) as logbook:
        summaries = logbook.teaching()
        every = evidence_of(summaries, archived=getattr(chosen, "archived", False))
        forgotten = read_forgotten(places.shop)
        units = units_in(places)
        rows = taught(Looked(every, shop_in(places), forgotten, evidence_of(summaries)))
        if chosen.action == "taught":
            if chosen.json:
                print(json.dumps([row.to_record() for row in rows], indent=2))
                return 0
            for row in rows:
                print("\n".join(map(printable, [row.id, *(f"  {one}" for one in row_lines(row, WIDTH - 2, units))])))
            if not rows:
                print("\n".join(wrap(ALL_FORGOTTEN if forgotten else NOTHING, WIDTH)))
            for name, until in forgotten.items():
                said = f"{forgotten_line(name, until)}; again: heatbook log forget {name} --back"
                print("\n".join(map(printable, wrap(said, WIDTH, subsequent_indent="  ", break_on_hyphens=False))))
            return 0
        if chosen.back:
            if chosen.row not in forgotten:
                raise LogbookError(f"{chosen.row} was not forgotten; forgotten are: {', '.join(forgotten) or 'none'}")
            recall(places.shop, chosen.row)
            print(printable(f"{chosen.row}: all its sittings count again"))
            return 0
        row = _named(rows, chosen.row)
        by_hand = forget(places.shop, row.id, row.key, datetime.now().astimezone())
        print(printable(f"{row.id}: forgotten; it was {row.text}, {row.rests}; heatbook went by {row.in_use}"))
        if by_hand:
            print(printable(f"{by_hand} was set by hand in {places.shop}, and stays there"))
        print(printable(f"have these sittings count again: heatbook log forget {row.id} --back"))
        return 0


def _named(rows: list[Row], name: str) -> Row:
    found = next((row for row in rows if row.id == name), None)
    if found is None:
        there = ", ".join(row.id for row in rows) or "none yet"
        raise LogbookError(f"there is no row {name}; `heatbook log taught` has these: {there}")
    return found

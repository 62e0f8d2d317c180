"""`heatbook log taught` and `forget`: what the sittings of a shop teach, and what of it counts no more."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from textwrap import wrap

from plans.logbook import LogbookError
from plans.logbook.taught import (
    ALL_FORGOTTEN,
    NOTHING,
    Forgotten,
    Looked,
    Row,
    evidence_of,
    forgotten_line,
    row_lines,
    taught,
)
from plans.text import printable
from plans.units import Units
from tui.cli.compared_text import WIDTH
from tui.cli.opened import opened
from tui.cli.own_files import shop_in, units_in
from tui.config import forget, read_forgotten, recall, user_folders


def run(chosen: argparse.Namespace) -> int:
    """Print the rows, or forget one, or have it count again."""
    places = user_folders()
    with opened(places) as logbook:
        summaries = logbook.teaching()
        every = evidence_of(summaries, archived=getattr(chosen, "archived", False))
        forgotten = read_forgotten(places.shop)
        rows = taught(Looked(every, shop_in(places), forgotten, evidence_of(summaries)))
        if chosen.action == "forget":
            shop, row = places.shop, chosen.row
            said = _recall(shop, row, forgotten) if chosen.back else _forget(shop, row, rows)
        elif chosen.json:
            said = [json.dumps([row.to_record() for row in rows], indent=2)]
        else:
            said = [*_listed(rows, forgotten, units_in(places))]
        print("\n".join(said))
        return 0


def _listed(rows: list[Row], forgotten: Forgotten, units: Units) -> Iterator[str]:
    for row in rows:
        yield from map(printable, [row.id, *(f"  {one}" for one in row_lines(row, WIDTH - 2, units))])
    if not rows:
        yield from wrap(ALL_FORGOTTEN if forgotten else NOTHING, WIDTH)
    for name, until in forgotten.items():
        said = f"{forgotten_line(name, until)}; again: heatbook log forget {name} --back"
        yield from map(printable, wrap(said, WIDTH, subsequent_indent="  ", break_on_hyphens=False))


def _recall(shop: Path, row: str, forgotten: Forgotten) -> list[str]:
    if row not in forgotten:
        raise LogbookError(f"{row} was not forgotten; forgotten are: {', '.join(forgotten) or 'none'}")
    recall(shop, row)
    return [printable(f"{row}: all its sittings count again")]


def _forget(shop: Path, name: str, rows: list[Row]) -> list[str]:
    row = _named(rows, name)
    by_hand = forget(shop, row.id, row.key, datetime.now().astimezone())
    said = [f"{row.id}: forgotten; it was {row.text}, {row.rests}; heatbook went by {row.in_use}"]
    if by_hand:
        said.append(f"{by_hand} was set by hand in {shop}, and stays there")
    said.append(f"have these sittings count again: heatbook log forget {row.id} --back")
    return [*map(printable, said)]


def _named(rows: list[Row], name: str) -> Row:
    found = next((row for row in rows if row.id == name), None)
    if found is None:
        there = ", ".join(row.id for row in rows) or "none yet"
        raise LogbookError(f"there is no row {name}; `heatbook log taught` has these: {there}")
    return found

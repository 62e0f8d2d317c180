"""`heatbook log photo`: the photographs of a sitting's work, shown, added and taken back when the sitting is over."""

from __future__ import annotations

import argparse
import json
from datetime import datetime
from typing import TYPE_CHECKING

from plans.text import printable
from tui.cli.damage import tell_damage
from tui.cli.opened import opened
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from pathlib import Path

    from plans.logbook import KeptSitting, Logbook


def run(chosen: argparse.Namespace) -> int:
    """Keep a photograph, or take one back, and print what is known."""

    if chosen.file is not None and chosen.take_back is not None:
        raise UsageError("either add a photograph or take one back: leave one of them out")
    for option, given in (("--step", chosen.step), ("--note", chosen.note), ("--copy", chosen.copy or None)):
        if given is not None and chosen.file is None:
            raise UsageError(f"{option}: name the photograph's file there as well")
    places = user_folders()
    with opened(places, chosen.rehearsals) as logbook:
        kept = _changed(logbook, chosen)
        folder = logbook.photographs(kept.header.id)
        print(_json(kept, folder) if chosen.json else "\n".join(map(printable, _lines(kept, folder, chosen.take_back))))
        tell_damage(logbook, kept)
        return 0


def _changed(logbook: Logbook, chosen: argparse.Namespace) -> KeptSitting:
    """The sitting as it is kept now."""
    from plans.logbook import photograph_taken_back

    now = datetime.now().astimezone().replace(microsecond=0)
    if chosen.take_back is not None:
        return logbook.amend(chosen.id, photograph_taken_back(chosen.take_back, now))
    if chosen.file is None:
        return logbook.load(chosen.id)
    step = None if chosen.step is None else chosen.step - 1
    note = chosen.note or ""
    return logbook.add_photograph(chosen.id, chosen.file, step=step, note=note, copied=chosen.copy, now=now)


def _lines(kept: KeptSitting, folder: Path, back: int | None) -> list[str]:
    from plans.logbook.lines import photograph_lines

    found = photograph_lines(kept.photographs, folder)
    lines = [f"{line.one.number:>3}  {line.when:>10}  {line.text}: {line.path}" for line in found]
    every = () if kept.photographs is None else kept.photographs.kept
    lines += [
        f"its copy stays until you remove it: {folder / one.copy}"
        for one in every
        if one.number == back and one.copy is not None
    ]
    return lines or ["there are no photographs"]


def _json(kept: KeptSitting, folder: Path) -> str:
    from plans.logbook import photographs_record

    photographs = None if kept.photographs is None else photographs_record(kept.photographs)
    return json.dumps({"id": kept.header.id, "folder": str(folder), "photographs": photographs}, indent=2)

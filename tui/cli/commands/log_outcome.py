"""`heatbook log outcome`: what came of a sitting, said and shown."""

from __future__ import annotations

import argparse
import json
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING

from plans.text import printable
from tui.cli.damage import tell_damage
from tui.cli.opened import opened
from tui.cli.own_files import units_in
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting

_PARTS = ("warp", "twist", "cracks", "grain", "rating")


def run(chosen: argparse.Namespace) -> int:
    """Take down what is said of a sitting, and print what is known."""
    from plans.logbook import outcome_record, plan_if_known
    from plans.logbook.lines import outcome_lines

    places = user_folders()
    units = units_in(places)
    with opened(places, chosen.rehearsals) as logbook:
        said = bool(chosen.weld) or any(getattr(chosen, part) is not None for part in _PARTS)
        kept = logbook.amend(chosen.id, lambda kept: _said(kept, chosen)) if said else logbook.load(chosen.id)
        if chosen.json:
            record = None if kept.outcome is None else outcome_record(kept.outcome)
            print(json.dumps({"id": kept.header.id, "outcome": record}, indent=2))
        else:
            lines = outcome_lines(kept.outcome, plan_if_known(kept.header), units)
            print("\n".join(map(printable, lines or ["nothing was said of how it came out"])))
        tell_damage(logbook, kept)
        return 0


def _said(kept: KeptSitting, chosen: argparse.Namespace) -> KeptSitting:
    from plans.logbook import Outcome, plan_if_known, with_said, with_weld_said

    outcome = kept.outcome or Outcome()
    for weld in chosen.weld:
        number, _, what = weld.partition("=")
        if not number.isdecimal() or not what:
            raise UsageError(f"--weld {weld}: write the number of the step and what its weld is, as in 3=sound")
        outcome = with_weld_said(outcome, plan_if_known(kept.header), int(number) - 1, what)
    for part in _PARTS:
        if (text := getattr(chosen, part)) is not None:
            outcome = with_said(outcome, part, text)
    return replace(kept, outcome=replace(outcome, changed=datetime.now().astimezone()))

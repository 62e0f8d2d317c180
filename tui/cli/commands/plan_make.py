"""`heatbook plan make`: a plan from what shall be made, on the screen or from a file of answers."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from plans.text import printable
from tui.cli.new_file import write_new
from tui.config import reduction_learned, units_set, user_folders

if TYPE_CHECKING:
    from plans.maker import Concern, Proposal
    from plans.stock import RackBar
    from plans.units import Units


def run(chosen: argparse.Namespace) -> int:
    """Write a plan from answers, or open the maker where none are named.

    Returns:
        0; 1 where something in the plan does not add up, so that the work would fail
    """
    if chosen.answers is None:
        from tui.cli.on_screen import show
        from tui.running import Maker

        return show(Maker())
    from plans.maker import MakeError, propose, text_of
    from plans.reader import read_answers

    units = units_set()
    answers = read_answers(Path(chosen.answers))
    try:
        proposal = propose(answers, units, _rack() if chosen.rack else (), reduction_learned(answers.struck_by))
    except MakeError as error:
        print(printable(f"heatbook: {chosen.answers}: {error}"), file=sys.stderr)
        return 1
    if chosen.out is not None:
        write_new(Path(chosen.out), text_of(proposal, units))
    if chosen.json:
        print(json.dumps(_record(proposal, units), indent=2))
    else:
        for concern in proposal.concerns:
            print(printable(f"{chosen.answers}: {_said(concern, units)}"), file=sys.stderr)
        said = text_of(proposal, units) if chosen.out is None else f"{chosen.out}: written; heatbook run {chosen.out}\n"
        print(said, end="")
    return int(any(concern.serious for concern in proposal.concerns))


def _rack() -> tuple[RackBar, ...]:
    from plans.reader import read_rack

    return read_rack(user_folders().rack)


def _said(concern: Concern, units: Units) -> str:
    from plans.maker import sentence

    where = f"{concern.answer}: " if concern.answer else ""
    weight = "" if concern.serious else "a doubt: "
    return f"{weight}{where}{sentence(concern.what, units)} {sentence(concern.mend, units)}"


def _record(proposal: Proposal, units: Units) -> dict[str, Any]:
    """A proposal as JSON has it: units in the names of its figures."""
    mm = 1000
    return {
        "title": proposal.title,
        "about": proposal.about,
        "bars": [
            {"name": bar.name, "steel": bar.steel, "section": units.section(bar.section), "length_mm": bar.length * mm}
            for bar in proposal.bars
        ],
        "steps": [
            {
                "part": step.part.value,
                "title": step.keys.title,
                "heats": step.keys.heats,
                "why": {
                    name: {"basis": why.basis, "said": units.text(why.said), "source": units.text(why.source)}
                    for name, why in step.why.items()
                },
            }
            for step in proposal.steps
        ],
        "stock_cm3": proposal.stock * 1e6,
        "finished_cm3": None if proposal.finished is None else proposal.finished.volume * 1e6,
        "losses_cm3": {loss.kind.value: loss.volume * 1e6 for loss in proposal.losses},
        "concerns": [
            {
                "answer": concern.answer,
                "what": units.text(concern.what),
                "mend": units.text(concern.mend),
                "serious": concern.serious,
            }
            for concern in proposal.concerns
        ],
    }

"""`heatbook plan make`: a plan from what shall be made, on the screen or from a file of answers."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from plans.errors import FaultKind, PlanError
from plans.text import printable
from tui.cli.own_files import shop_in, units_in
from tui.cli.plan_files import check_plan_file, write_plan
from tui.config import UsageError, reduction_learned, scale_learned, user_folders

if TYPE_CHECKING:
    from plans.maker import Concern, Proposal
    from plans.reader import AnswerFile
    from plans.stock import RackBar
    from plans.units import Units


def run(chosen: argparse.Namespace) -> int:
    """Write a plan from answers, or open the maker where none are named.

    Returns:
        0; 1 where something in the plan does not add up, so that the work would fail
    """
    if chosen.answers is None:
        return _on_screen(chosen)
    from plans.maker import MakeError, propose, text_of
    from plans.reader import AnswerKeys, read_answer_file

    places = user_folders()
    units = units_in(places)
    if chosen.out is not None:
        check_plan_file(Path(chosen.out))
    answers = read_answer_file(Path(chosen.answers))
    if answers.keys == AnswerKeys():
        nothing = answers.fault("", "nothing is asked for here", "it is the usual blade then", FaultKind.NOTE)
        print(printable(str(nothing)), file=sys.stderr)
    rack = _rack(places.rack) if chosen.rack else ()
    try:
        proposal = propose(answers.keys, units, rack, reduction_learned(answers.keys.struck_by), scale_learned())
    except MakeError as error:
        raise PlanError([answers.fault(error.answer, error.why, "")]) from None
    text = text_of(proposal, units)
    concerns = _doubts(proposal, text)
    beside = "" if chosen.out is None else write_plan(Path(chosen.out), text)
    if chosen.json:
        print(json.dumps(_record(proposal, concerns, units), indent=2))
    else:
        for concern in concerns:
            print(printable(_told(concern, answers, units)), file=sys.stderr)
        if chosen.out is None:
            print(text, end="")
        else:
            print(printable(f"{chosen.out}: written; heatbook run {chosen.out}") + beside)
    return int(any(concern.serious for concern in concerns))


def _on_screen(chosen: argparse.Namespace) -> int:
    if chosen.out is not None or chosen.json or chosen.rack:
        raise UsageError("--out, --rack and --json go with --from ANSWERS.toml; without that, it is the screen")
    from tui.cli.on_screen import show
    from tui.running import Maker

    return show(Maker(), "heatbook plan make --from ANSWERS.toml")


def _rack(path: Path) -> tuple[RackBar, ...]:
    from plans.reader import read_rack

    if not path.exists():
        raise UsageError(f"{path}: there is no such file; write down there what bars you have, or leave --rack out")
    return read_rack(path)


def _doubts(proposal: Proposal, text: str) -> tuple[Concern, ...]:
    """What does not add up in a proposal, whose plan has this text."""
    from plans.maker import doubts_on
    from plans.reader import read_plan
    from plans.times import plan_times

    plan = read_plan(text, "", "plan")
    return doubts_on(plan, plan_times(plan, shop_in(user_folders())), proposal)


def _told(concern: Concern, answers: AnswerFile, units: Units) -> str:
    """What does not add up, with the line of the answer that would mend it."""
    kind = FaultKind.WARNING if concern.serious else FaultKind.NOTE
    what = units.text(concern.what).rstrip(".")
    return str(answers.fault(concern.answer, what, units.text(concern.mend), kind))


def _record(proposal: Proposal, concerns: tuple[Concern, ...], units: Units) -> dict[str, Any]:
    """A proposal as JSON has it: units in the names of its figures, and in its texts those that are set."""
    from tui.cli.whole_plan import bar_record, concern_record

    return {
        "title": proposal.title,
        "about": proposal.about,
        "bars": [bar_record(bar) for bar in proposal.bars],
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
        "concerns": [concern_record(one, units) for one in concerns],
    }

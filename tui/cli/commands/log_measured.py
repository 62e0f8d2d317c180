"""`heatbook log measured`: what was measured by hand of a sitting's work, shown, and added when the sitting is over."""

from __future__ import annotations

import argparse
import json
import sys
from datetime import datetime
from typing import TYPE_CHECKING

from plans.text import printable
from tui.cli.damage import tell_damage
from tui.cli.opened import opened
from tui.cli.own_files import units_in
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Logbook
    from plans.logbook.lines import MeasuredLine
    from plans.units import Units


_NOTHING = "nothing was measured by hand"


def run(chosen: argparse.Namespace) -> int:
    """Take down what was measured or taken back, and print what is known."""

    if chosen.figures is not None and chosen.take_back is not None:
        raise UsageError("either measure something or take something back: leave one of them out")
    if chosen.step is not None and chosen.figures is None:
        raise UsageError(f'--step {chosen.step}: write what was measured there as well, as in "w 31.5 t 18"')
    places = user_folders()
    units = units_in(places)
    with opened(places, chosen.rehearsals) as logbook:
        kept = _changed(logbook, chosen, units)
        lines = _measured(kept, units)
        print(_json(kept) if chosen.json else "\n".join(map(printable, map(_text, lines))) or _NOTHING)
        if chosen.figures is not None and lines[-1].doubt:
            kept_apart = " --rehearsals" if chosen.rehearsals else ""
            back = f"heatbook log measured {kept.header.id} --take-back {lines[-1].number}{kept_apart}"
            print(printable(f"{lines[-1].doubt}? where that was mistyped: {back}"), file=sys.stderr)
        tell_damage(logbook, kept)
        return 0


def _changed(logbook: Logbook, chosen: argparse.Namespace, units: Units) -> KeptSitting:
    """The sitting as it is kept now."""
    from plans.logbook import measured_at, measured_taken_back
    from plans.measured import MeasuredError, read_measured

    now = datetime.now().astimezone().replace(microsecond=0)
    if chosen.take_back is not None:
        return logbook.amend(chosen.id, lambda kept: measured_taken_back(kept, chosen.take_back, now))
    if chosen.figures is None:
        return logbook.load(chosen.id)
    step = None if chosen.step is None else chosen.step - 1
    try:
        said = read_measured(chosen.figures, units).step
    except MeasuredError as error:
        raise UsageError(str(error)) from None
    if None not in (step, said) and step != said:
        raise UsageError(f'--step {chosen.step}: "{chosen.figures}" says another step; leave one of them out')
    return logbook.amend(chosen.id, lambda kept: measured_at(kept, step, chosen.figures, units, now))


def _measured(kept: KeptSitting, units: Units) -> list[MeasuredLine]:
    from plans.logbook import plan_if_known
    from plans.logbook.lines import measured_lines
    from plans.sitting import folded

    return measured_lines(folded(kept.log.events), plan_if_known(kept.header), units, kept.measured_later, kept.cost)


def _text(one: MeasuredLine) -> str:
    return f"{'' if one.number is None else one.number:>3}  {one.when:>10}  {one.text}"


def _json(kept: KeptSitting) -> str:
    from plans.logbook import later_record

    later = None if kept.measured_later is None else later_record(kept.measured_later)
    record = {"id": kept.header.id, "measured": kept.outline().get("measured", []), "measured_later": later}
    return json.dumps(record, indent=2)

"""`heatbook log compare`: sittings beside one another."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from plans.text import plain, printable
from tui.cli.new_file import write_new
from tui.cli.opened import opened
from tui.cli.own_files import units_in
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Logbook
    from plans.logbook.comparing import Laid, Part, Row
    from plans.units import Units


def run(chosen: argparse.Namespace) -> int:
    """Print the figures of sittings beside one another, and with `--from` the traces of one heat of each."""
    from plans.logbook import LogbookError, Timeline
    from plans.logbook.comparing import Moment, lay_over, side_by_side
    from tui.cli.compared_text import compared_text, laid_text

    if chosen.title is not None and chosen.html is None:
        raise UsageError("--title is of a page: say with --html where that is to be written")
    if chosen.html is not None and chosen.json:
        raise UsageError("--html writes a page, --json prints a value: one of the two")
    if chosen.html is None and chosen.moment is None and (chosen.step is not None or chosen.heat is not None):
        raise UsageError("--step and --heat say of which heat the traces are: say from when on with --from as well")
    places = user_folders()
    units = units_in(places)
    with opened(places, chosen.rehearsals) as logbook:
        sittings = _sittings(logbook, chosen.ids)
        if chosen.html is not None:
            return _write_page(sittings, chosen, units)
        parts = side_by_side(sittings)
        laid: list[Laid | None] = []
        if chosen.moment is not None:
            step = None if chosen.step is None else chosen.step - 1
            laid = lay_over([Timeline.of(kept) for kept in sittings], Moment(chosen.moment), step, chosen.heat)
            if laid[0] is None:
                raise LogbookError(
                    f"sitting {sittings[0].header.id} has no heat like that to lay others over; `heatbook log show "
                    f"{sittings[0].header.id}` lists what it has"
                )
        if chosen.json:
            print(json.dumps(_record(sittings, parts, laid, chosen.moment), indent=2))
            return 0
        print(compared_text(sittings, parts, units))
        if laid:
            print()
            print(laid_text(sittings[0], laid, Moment(chosen.moment), units))
        return 0


def _write_page(sittings: list[KeptSitting], chosen: argparse.Namespace, units: Units) -> int:
    from plans.logbook.comparing import Moment
    from plans.logbook.exports import to_beside_page

    page = to_beside_page(
        sittings,
        units,
        title=plain(chosen.title or "").strip(),
        moment=None if chosen.moment is None else Moment(chosen.moment),
        step=None if chosen.step is None else chosen.step - 1,
        heat=chosen.heat,
    )
    write_new(Path(chosen.html), page)
    print(f"written to {printable(chosen.html)}")
    return 0


def _sittings(logbook: Logbook, names: list[str]) -> list[KeptSitting]:
    from plans.logbook import work_out
    from plans.logbook.comparing import LETTERS

    if not 2 <= len(names) <= len(LETTERS):
        raise UsageError(f"two to {len(LETTERS)} sittings stand beside one another, not {len(names)}")
    found = [logbook.load(name, work_out) for name in names]
    if len({kept.header.id for kept in found}) < len(found):
        raise UsageError("one sitting is named twice")
    return found


def _record(
    sittings: list[KeptSitting], parts: list[Part], laid: list[Laid | None], moment: str | None
) -> dict[str, Any]:
    record: dict[str, Any] = {
        "sittings": [kept.summary.to_shown_record() for kept in sittings],
        "parts": [
            {
                "title": part.title,
                "titles": [
                    None if step is None else title for step, title in zip(part.steps, part.titles, strict=False)
                ],
                "kind": None if part.kind is None else part.kind.value,
                "figures": [_figure(row) for row in part.rows],
            }
            for part in parts
        ],
    }
    if moment is not None:
        record |= {"from": moment, "traces": [None if one is None else _trace(one) for one in laid]}
    return record


def _figure(row: Row) -> dict[str, Any]:
    from plans.logbook.lines import What
    from plans.units import celsius

    def thousandfold(value: float) -> float:
        return value * 1000

    written: dict[What, tuple[str, int, Callable[[float], float] | None]] = {
        What.COUNT: ("count", 0, None),
        What.TEMPERATURE: ("celsius", 2, celsius),
        What.MASS: ("kg", 4, None),
        What.GAS: ("m3", 4, None),
        What.MONEY: (row.currency, 2, None),
        What.LENGTH: ("mm", 3, thousandfold),
        What.DEPTH: ("mm", 3, thousandfold),
        What.WEIGHT: ("g", 3, thousandfold),
        What.HARDNESS: ("HRC", 1, None),
        What.WORD: ("word", 0, None),
    }
    unit, decimals, change = written.get(row.what, ("seconds", 2, None))
    values = [
        value
        if value is None or isinstance(value, str)
        else round(value if change is None else change(value), decimals)
        for value in row.values
    ]
    return {"name": row.name, "unit": unit, "values": values, "differs": list(row.differs)}


def _trace(laid: Laid) -> dict[str, Any]:
    from plans.units import celsius

    found = [(second, laid.at(float(second))) for second in range(int(laid.seconds) + 1)]
    points = [
        {"seconds": second, "celsius": round(celsius(skin[0]), 1), "basis": skin[1].value}
        for second, skin in found
        if skin is not None
    ]
    return {"step": laid.step + 1, "heat": laid.heat, "length_seconds": round(laid.seconds, 3), "skin": points}

"""`heatbook log`: what was done."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from plans.prose import in_units
from plans.shop import KEYS
from plans.shown import counted, show_duration
from plans.text import clean, plain, printable
from tui.cli.new_file import write_new
from tui.cli.opened import opened
from tui.cli.own_files import shop_in, units_in
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plans.logbook import Logbook, Summary
    from plans.units import Units


def run(chosen: argparse.Namespace) -> int:
    """Answer `log`, `log list`, `log show`, `log learn` or `log export`; what changes a sitting is `log_keep`'s."""
    if chosen.action is None:
        from tui.cli.on_screen import show
        from tui.running import LogList

        return show(LogList(chosen.rehearsals))

    places = user_folders()
    units = units_in(places)
    with opened(places, chosen.rehearsals) as logbook:
        if chosen.action == "list":
            return _list(logbook, chosen, units)
        if chosen.action == "show":
            return _show(logbook, chosen.id, chosen.json, units)
        if chosen.action == "learn":
            return _learn(logbook, chosen.id, chosen.keep, chosen.json)
        return _export(logbook, chosen, units)


_LEAST_TITLE = 12
"""So much of a title is shown at least [characters]."""
_NO_SITTINGS = "No sittings yet. Begin one: heatbook run drawknife, or rehearse: heatbook demo"


def _list(logbook: Logbook, chosen: argparse.Namespace, units: Units) -> int:
    from plans.logbook import read_search

    # Words that a shell has parted are one expression as well: --where steel: 1084
    wanted = " ".join([*chosen.where, *(["is: archived"] if chosen.archived else [])])
    if chosen.deleted:
        # Those are few, and asked for to be brought back: archived or not.
        found = [one for one in logbook.deleted() if not wanted or read_search(wanted).found([one], units)]
    else:
        search = read_search(wanted)
        found = search.found(logbook.searchable() if wanted else logbook.summaries(), units)
    if chosen.json:
        print(json.dumps([summary.to_shown_record() for summary in found], indent=2))
        return 0
    if not found:
        print(_nothing(chosen, bool(logbook.summaries())))
        if chosen.where and (hint := read_search(wanted).hint):
            print(printable(hint))
    for summary in found:
        print(_line(summary, units))
    return 0


def _line(summary: Summary, units: Units) -> str:
    """A sitting on one line; on a terminal that is too narrow for it without its calls, and with its title cut."""
    about, title = list(_about(summary)), in_units(summary.called, units)
    if sys.stdout.isatty():
        columns = shutil.get_terminal_size().columns - len(summary.id) - len("    ()")
        if len(", ".join(about)) + min(_LEAST_TITLE, len(title)) > columns:
            about = [part for part in about if not part.endswith((" call", " calls"))]
        title = clean(title, max(_LEAST_TITLE, columns - len(", ".join(about))))
    return printable(f"{summary.id}  {title}  ({', '.join(about)})")


def _nothing(chosen: argparse.Namespace, any_kept: bool) -> str:
    if chosen.deleted:
        return "Nothing is deleted that could be brought back."
    if any_kept:
        return "No sitting is like that." if chosen.where or chosen.archived else "All are archived: --archived"
    return "No rehearsals yet: heatbook demo" if chosen.rehearsals else _NO_SITTINGS


def _about(summary: Summary) -> Iterator[str]:
    """What a line says of a sitting beside its title."""
    from plans.logbook import Progress

    if summary.damaged:
        yield "damaged"
    # Of one whose outcome was said it is plain that it is finished.
    if not summary.outcome_word or summary.state is not Progress.FINISHED:
        yield summary.state.value
    if summary.outcome_word:
        yield summary.outcome_word
    if summary.seconds is not None:
        yield show_duration(summary.seconds)
    if summary.heats is not None:
        yield counted(summary.heats, "heat")
        yield counted(summary.calls or 0, "call")
    if summary.rehearsal:
        yield "rehearsal"
    if summary.label.mark:
        yield f"marked {summary.label.mark}"
    if summary.label.archived:
        yield "archived"


def _show(logbook: Logbook, name: str, as_json: bool, units: Units) -> int:
    from plans.logbook import outline, work_out
    from tui.cli.sitting_text import sitting_text

    kept = logbook.load(name, work_out)
    if as_json:
        print(json.dumps(outline(kept), indent=2))
    else:
        print(sitting_text(kept, units, shop_in(user_folders()), logbook.photographs(kept.header.id)))
    return 0


def _learn(logbook: Logbook, name: str, keeping: bool, as_json: bool) -> int:
    """What a sitting tells of the shop, and with `keeping` into the shop file with it."""
    from plans.logbook import LogbookError, learned_record, work_out
    from plans.logbook.lines import factor_lines, stay_lines
    from tui.config import keep, learned_of, to_keep

    kept = logbook.load(name, work_out)
    learned = learned_of(kept)
    path, before = user_folders().shop, shop_in(user_folders())
    lines = [line for _, line in stay_lines(learned)]
    try:
        found = to_keep(kept, learned)
    except LogbookError as error:
        if keeping:
            raise
        lines.append(str(error))
    else:
        lines += factor_lines(found, before)
        lines.append(keep(kept, found, path) if keeping else f"keep it: heatbook log learn {kept.header.id} --keep")
    if as_json:
        now = shop_in(user_folders())
        figures = {f"shop_file_{name}": getattr(now, key.attribute) for name, key in KEYS.items()}
        shop = {"shop_file": str(path)} | figures | {"kept": keeping}
        record = None if learned is None else learned_record(learned)
        print(json.dumps({"id": kept.header.id} | shop | {"learned": record}, indent=2))
    else:
        print("\n".join(map(printable, lines)))
    return 0


def _export(logbook: Logbook, chosen: argparse.Namespace, units: Units) -> int:
    from plans.logbook import work_out
    from plans.logbook.exports import export

    out = chosen.out
    if chosen.title is not None and chosen.to != "html":
        raise UsageError(f"--title: a page has one, csv and json do not; leave it out, or --to html (not {chosen.to})")
    kept = logbook.load(chosen.id, work_out)
    title = plain(chosen.title or "").strip()
    text = export(kept, chosen.to, units, title, logbook.photographs(kept.header.id))
    if out is None:
        # In bytes: the page says that it is UTF-8, whatever the terminal's own encoding.
        sys.stdout.buffer.write(text.encode("utf-8"))
        return 0
    write_new(Path(out), text)
    print(f"written to {printable(out)}")
    return 0

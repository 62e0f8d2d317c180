"""`heatbook log pack`, `unpack` and `import`: the logbook out of one machine, and into another."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from plans.prose import in_units
from plans.shown import counted, show_duration
from plans.text import clean, printable
from tui.cli.asking import wanted
from tui.cli.new_file import saying_why_not
from tui.cli.opened import opened
from tui.cli.own_files import say_wrong, units_in
from tui.cli.plan_files import write_plan
from tui.config import Folders, UsageError, read_shop, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Logbook
    from plans.units import Units

_LONGEST = 200
"""So much of a title is shown [characters]."""


def run(chosen: argparse.Namespace) -> int:
    """Answer `log pack`, `log unpack` or `log import`."""
    places = user_folders()
    if chosen.action == "import":
        return _import(Path(chosen.file), chosen.yes, places)

    with opened(places, chosen.rehearsals) as logbook:
        answer = _pack if chosen.action == "pack" else _unpack
        return answer(logbook, Path(chosen.file), places)


def _pack(logbook: Logbook, to: Path, places: Folders) -> int:
    from plans.logbook import work_out

    if to.suffix != ".zip":
        raise UsageError(f"{to}: a packed logbook's file ends in .zip, so that any system opens it")
    logbook.recover(work_out)  # what was cut off is put away first
    with saying_why_not(to):
        packed = logbook.pack(places.plans, places.shop, to)
    say_wrong((*packed.left_out, *packed.unread))
    shop = ", and the shop file" if packed.shop else ""
    pictures = f", {counted(packed.photographs, 'photograph')}" if packed.photographs else ""
    what = f"{counted(packed.sittings, 'sitting')}{pictures}, {counted(packed.plans, 'plan')} of your own{shop}"
    but = f", but for {counted(len(packed.unread), 'sitting')} that can't be read" if packed.unread else ""
    print(printable(f"{to}: {what}; read back, and the same{but}"))
    return 1 if packed.left_out or packed.unread else 0


def _unpack(logbook: Logbook, path: Path, places: Folders) -> int:
    found = logbook.unpack(places.plans, places.shop, path, lambda shop: read_shop(shop)[1])
    say_wrong(found.doubts)
    say_wrong(found.refused)
    print(
        f"{counted(len(found.new), 'file')} taken in, {len(found.same)} there already and the same, "
        f"{len(found.refused)} refused"
    )
    return 1 if found.refused else 0


def _import(path: Path, yes: bool, places: Folders) -> int:
    """Show what a file holds, and take it in where that is wanted; nothing in it is run."""
    if path.suffix == ".toml":
        return _import_plan(path, yes, places)
    if path.suffix == ".zip":
        raise UsageError(f"{path}: a packed logbook is taken in by `heatbook log unpack`")
    if path.suffix != ".json":
        raise UsageError(f"{path}: take in a plan (.toml), or a sitting (.json): its file, or its export")
    from plans.logbook.exports import read_exported

    kept, data = read_exported(path)
    print("\n".join(map(printable, _told(kept, units_in(places)))))
    if not wanted("Take this sitting in", yes, "nothing is taken in"):
        return 1
    with opened(places, kept.header.rehearsal) as logbook:
        new = logbook.take_in(kept.header.id, data)
    print(f"sitting {kept.header.id} is {'in the logbook now' if new else 'there already, the same'}")
    return 0


def _told(kept: KeptSitting, units: Units) -> Iterator[str]:
    from plans.logbook import plan_if_known

    summary = kept.summary
    rehearsal = ", a rehearsal" if summary.rehearsal else ""
    yield f"sitting {summary.id}: {clean(in_units(summary.called, units), _LONGEST)}{rehearsal}"
    took = "" if summary.seconds is None else f", {show_duration(summary.seconds)}"
    heats = "" if summary.heats is None else f", {counted(summary.heats, 'heat')}"
    yield f"{summary.started:%Y-%m-%d %H:%M}, {summary.state.value}{took}{heats}"
    if summary.outcome:
        yield f"what came of it: {summary.outcome}"
    if kept.lessons is not None and kept.lessons.written:
        yield f"with {counted(len(kept.lessons.written), 'lesson')}, said from now on where they belong"
    if copies := [one.name for one in kept.photographs.standing if one.copy] if kept.photographs else []:
        yield f"without {counted(len(copies), 'photograph')} that only a packed logbook brings: {', '.join(copies)}"
    unread = "" if plan_if_known(kept.header) else "its plan is none that this version reads"
    for wrong in (kept.misfit, kept.damage, unread):
        if wrong:
            yield f"not all of it can be read, and that part is left out: {wrong}"


def _import_plan(path: Path, yes: bool, places: Folders) -> int:
    from plans.logbook import is_plan_file
    from plans.reader import notes_on, read_plan_file

    if not is_plan_file(path.name):
        raise UsageError(
            f"{path}: that name is not one that every system can have; call it anew first, of letters, figures, "
            "blanks and .,()+-"
        )
    plan, units = read_plan_file(path), units_in(places)
    to = places.plans / path.name
    print(printable(f"plan {plan.name}: {in_units(plan.title, units)}, {counted(len(plan.steps), 'step')}"))
    for number, step in enumerate(plan.steps, start=1):
        print(printable(f"  {number} {in_units(step.title, units)}"))
    say_wrong(str(note) for note in notes_on(plan, str(path)))
    if to.is_file() and to.read_bytes() == plan.source.encode("utf-8"):
        print(f"plan {plan.name} is there already, the same")
        return 0
    if not wanted("Take this plan in", yes, "nothing is taken in"):
        return 1
    write_plan(to, plan.source)
    print(printable(f"{to}: on your shelf now"))
    return 0

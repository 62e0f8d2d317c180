"""`heatbook log rename`, `mark`, `archive`, `delete`, `restore`: what is done to a sitting that was kept."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from plans.logbook import Logbook, LogbookError
from plans.logbook.lines import lessons_gone_with
from plans.text import printable
from tui.cli.opened import opened
from tui.config import user_folders


def run(chosen: argparse.Namespace) -> int:
    """Do it to each sitting that is named, and say so a line each; at the first that it can't be done to, it ends."""
    places = user_folders()
    with opened(places, chosen.rehearsals) as logbook:
        for line in _done(logbook, chosen):
            print(printable(line))
    return 0


def _done(logbook: Logbook, chosen: argparse.Namespace) -> Iterator[str]:
    there = " --rehearsals" if chosen.rehearsals else ""
    match chosen.action:
        case "rename":
            renamed = logbook.relabel(chosen.id, lambda label: label.titled(chosen.title or ""), "renamed")
            yield f"{renamed.id} is called: {renamed.called}"
        case "mark":
            marked = logbook.relabel(chosen.id, lambda label: label.marked(chosen.word or ""), "marked")
            mark = marked.label.mark
            yield (
                f"{marked.id} is marked {mark}; find it: heatbook log list{there} --where 'mark: {mark}'"
                if mark
                else (f"{marked.id} has no mark")
            )
        case "archive":
            for name in _named(logbook, chosen.ids):
                logbook.relabel(name, lambda label: label.put_by(not chosen.back), "archived")
                yield f"{name} is listed again" if chosen.back else f"{name} is listed by --archived alone from now on"
        case "delete":
            for name in _named(logbook, chosen.ids):
                them = lessons_gone_with(logbook.lessons_said_of(name))
                logbook.delete(name)
                back = f"heatbook log restore{there} {name}"
                yield f"{name} is deleted{them}: for good once heatbook was opened and left; till then: {back}"
        case _:
            for name in chosen.ids:
                yield f"{logbook.restore(name).id} is back"


def _named(logbook: Logbook, names: list[str]) -> list[str]:
    """The ids that are meant, told before anything is changed: `last` is another sitting once that is deleted.

    Raises:
        LogbookError: one is none, or stands there twice.
    """
    found = [logbook.resolve(name) for name in names]
    if twice := sorted({name for name in found if found.count(name) > 1}):
        raise LogbookError(f"sitting {twice[0]} is named twice; name it once")
    return found

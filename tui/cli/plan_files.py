"""Where a plan that is named on the command line comes from, and where a new one goes."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from plans.plan import Plan
from plans.reader import find_plan, read_plan
from plans.text import printable
from tui.cli.new_file import write_new
from tui.cli.opened import opened
from tui.config import UsageError, user_folders

_LOG: Final = "log:"
"""What the plan of a sitting is called begins so; then comes the sitting's id."""


def plan_named(name: str) -> Plan:
    """A plan, however it is named: on the shelf, by the path of its file, or `log:ID`, as a sitting was run by it.

    Raises:
        PlansError: there is none, or it can't be used.
    """
    if not name.startswith(_LOG):
        return find_plan(name, user_folders().plans)

    with opened(user_folders()) as logbook:
        header = logbook.load(name.removeprefix(_LOG)).header
    return read_plan(header.source, header.plan, f"{_LOG}{header.id}")


def write_plan(to: Path, text: str) -> str:
    """Write the file of a new plan, and make the smith's own folder where that is meant.

    Args:
        to: where to
        text: of the plan

    Returns:
        what is to be said of where it lies; empty where the shelf shows it

    Raises:
        UsageError: the name is none of a plan's file, there is something of this name, or no folder for it.
        OSError: it can't be written; what was written of it is gone again.
    """
    check_plan_file(to)
    own = user_folders().plans
    if to.parent == own:
        from plans.writing import make_folder

        make_folder(own)
    write_new(to, text)
    return "" if to.parent.resolve() == own.resolve() else printable(f"; in {own} the shelf would show it")


def check_plan_file(to: Path) -> None:
    """Check that a name is one of a plan's file.

    Raises:
        UsageError: it is not.
    """
    if to.suffix != ".toml":
        raise UsageError(f"{to}: a plan's file ends in .toml, so that it is found by its name")

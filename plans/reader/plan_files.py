"""Where plans lie: the shelf that ships, the smith's own folder, and files anywhere."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Final

from plans.errors import Fault, FaultKind, PlanError
from plans.plan import Plan
from plans.record import record
from plans.text import printable
from plans.toml import NoTomlFileError, TomlError, nearest, read_text, shown_path

SHELF: Final = Path(__file__).parent.parent / "shelf"
"""The plans that ship."""
MOST_BYTES: Final = 1_000_000
"""A larger file is no plan, and is not read to its end."""


@record
class PlanFile:
    """A plan's file, which nobody has read yet."""

    name: str
    """File name without its ending: what the plan is called on the command line."""
    path: Path
    """Where it lies."""
    own: bool
    """Whether it lies in the smith's own folder; it then stands in for one of the same name that ships."""


@record
class ShelfPlan:
    """One plan at hand: the plan, or what is wrong with its file."""

    name: str
    """File name without its ending: what the plan is called on the command line."""
    path: Path
    """The plan's file."""
    own: bool
    """Whether it lies in the smith's own folder; it then stands in for one of the same name that ships."""
    plan: Plan | None
    """The plan; None where its file can't be used."""
    error: PlanError | None
    """What is wrong with its file; None where it can be used."""


def read_plan_file(path: Path) -> Plan:
    """Read a plan from a file; its name is the file's without `.toml`.

    Raises:
        PlanError: the file can't be read or the plan can't be used.
    """
    from plans.reader.plan_text import read_plan  # what lists plans by a glance reads none

    try:
        text = read_text(path, MOST_BYTES)
    except NoTomlFileError as error:
        hint = "see what there is with: heatbook plan list"
        raise PlanError([replace(error.fault, hint=hint)]) from None
    except TomlError as error:
        raise PlanError([error.fault]) from None
    return read_plan(text, path.name.removesuffix(".toml"), shown_path(path))


def find_plan(name: str, own_folder: Path | None) -> Plan:
    """The plan of that name, from the smith's own folder or else from the shelf; or the one at that path.

    Args:
        name: a plan's name, or a path: what ends in `.toml` or has a slash in it
        own_folder: the smith's own plans; it need not be there

    Raises:
        PlanError: there is none, or it can't be used.
    """
    return read_plan_file(plan_path(name, own_folder))


def plan_path(name: str, own_folder: Path | None) -> Path:
    """Where the file is of the plan that `find_plan` reads; arguments as there.

    Raises:
        PlanError: there is no plan of this name.
    """
    if name.endswith(".toml") or any(mark in name for mark in "/\\\0"):
        return Path(name)
    paths = {file.name: file.path for file in files_at_hand(own_folder)}
    if name not in paths:
        near = nearest(name, paths)
        hint = f"perhaps {near}" if near else f"there are {', '.join(sorted(paths))}, or give a path to a .toml file"
        raise _refusal(printable(name[:60]), "there is no plan of this name", hint)
    return paths[name]


def files_at_hand(own_folder: Path | None) -> list[PlanFile]:
    """The files of all plans at hand, by name.

    Args:
        own_folder: the smith's own plans; it need not be there
    """
    files = (PlanFile(path.name.removesuffix(".toml"), path, own) for path, own in _paths(own_folder))
    found = {file.name: file for file in files}
    return [found[name] for name in sorted(found)]


def read_entry(file: PlanFile) -> ShelfPlan:
    """Read one of the plans at hand; one that can't be used comes with its error."""
    try:
        return ShelfPlan(file.name, file.path, file.own, read_plan_file(file.path), None)
    except PlanError as error:
        return ShelfPlan(file.name, file.path, file.own, None, error)


def _paths(own_folder: Path | None) -> Iterator[tuple[Path, bool]]:
    """Each plan file, and whether it is the smith's own; those come last, to replace others of the same name."""
    for folder, own in ((SHELF, False), (own_folder, True)):
        if folder is None:
            continue
        try:
            yield from ((path, own) for path in sorted(folder.glob("*.toml")))
        except OSError:
            continue


def _refusal(file: str, what: str, hint: str) -> PlanError:
    return PlanError([Fault(file, None, "", "", what, hint, FaultKind.FILE)])

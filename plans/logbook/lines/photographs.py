"""The photographs of a sitting, a line each: which step, the file's name, what was said of it, whether it is there."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from plans.logbook.afterwards import Photograph, Photographs
from plans.record import record

PHOTOGRAPHS_HEADING: Final = "Photographs"
"""What stands above the lines."""


@record
class PhotographLine:
    """A line of a photograph."""

    one: Photograph
    """The photograph."""
    when: str
    """The day on which it was added: "2026-12-03"."""
    text: str
    """The line: "step 2: blade.jpg, the edge after the quench; copied"."""
    path: str
    """Where the picture lies: its copy, and where it has none the file that was named."""


def photograph_lines(photographs: Photographs | None, folder: Path) -> list[PhotographLine]:
    """The photographs that were not taken back, in the order in which they were added.

    Args:
        photographs: of the sitting; None where there are none
        folder: where the copies are; looked into for each
    """
    lines = []
    for one in () if photographs is None else photographs.standing:
        path = Path(one.path) if one.copy is None else folder / one.copy
        lines.append(PhotographLine(one, f"{one.added:%Y-%m-%d}", _text(one, path), str(path)))
    return lines


def photograph_place(one: Photograph) -> str:
    """The step that it shows: "step 2"; empty where it is of the sitting as a whole."""
    return "" if one.step is None else f"step {one.step + 1}"


def _text(one: Photograph, path: Path) -> str:
    place = photograph_place(one)
    said = ", ".join([one.name, *([one.note] if one.note else [])])
    kept = "by name" if one.copy is None else "copied"
    # Not Path.is_file, which raises where a folder above may not be looked into, or a name is too long for the system.
    gone = "" if os.path.isfile(path) else ", but it is not there now"  # noqa: PTH113
    return f"{place}: {said}; {kept}{gone}" if place else f"{said}; {kept}{gone}"

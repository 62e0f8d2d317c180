"""Rows for lists: columns that line up."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from plans.logbook import Progress, Summary
from plans.prose import in_units
from plans.shown import counted
from plans.text import plain
from plans.units import Units
from tui.widgets import fill


def heading(text: str) -> Option:
    """A line in a list that can't be chosen."""
    return Option(Content.styled(plain(text), "bold $accent"), disabled=True)


def gap() -> Option:
    """An empty line in a list."""
    return Option("", disabled=True)


def title(summary: Summary, units: Units) -> str:
    """What a sitting that was kept is called: by a title of its own, or that of its plan."""
    return plain(in_units(summary.called, units))


def sitting_row(summary: Summary, width: int, units: Units, letter: str = "") -> Content:
    """A sitting on one line: when, what, how far, how much.

    Args:
        summary: the sitting
        width: of the line [cells]
        units: those that are set, for figures in its title
        letter: what stands for it among those that are compared, or a blank beside them; empty where none are
    """
    # Of one whose outcome was said it is plain that it is finished.
    plain_state = bool(summary.outcome_word) and summary.state is Progress.FINISHED
    calls = counted(summary.calls, "call") if summary.calls else ""
    heats = "" if summary.heats is None else counted(summary.heats, "heat")
    state = "" if plain_state else _STATES[summary.state]
    parts = ["damaged" if summary.damaged else "", state, summary.outcome_word, heats, calls]
    parts += ["rehearsal" if summary.rehearsal else "", "archived" if summary.label.archived else ""]
    chosen = f"{letter} " if letter else ""
    left = f"{when(summary.started)}  {title(summary, units)}"
    mark = f"{plain(summary.label.mark)}  " if summary.label.mark else ""

    def beside() -> int:
        return width - cell_len(mark) - len(chosen) - len(", ".join(filter(None, parts))) - 1

    # On a narrow terminal the title is worth more than what the review tells anyway.
    for less in (calls, heats, state if summary.outcome_word else ""):
        if less and beside() < min(_LEAST, cell_len(left)):
            parts.remove(less)
    right, room = ", ".join(filter(None, parts)), max(20, beside())
    return Content.assemble(
        (chosen, "bold reverse" if letter.strip() else ""),
        fill(left, room),
        " ",
        (mark, "bold $accent"),
        (right, "$text-muted"),
    )


def when(moment: datetime) -> str:
    """A date as a list shows it."""
    return f"{moment:%Y-%m-%d %H:%M}"


def row(cells: Sequence[str], widths: Sequence[int]) -> str:
    """A line of cells, the first set to the left and the others to the right.

    Args:
        cells: their texts
        widths: their widths, as many as there are cells [terminal cells]
    """
    first, *rest = zip(cells, widths, strict=True)
    return fill(first[0], first[1]) + "".join(f"{cell:>{width}}" for cell, width in rest)


_LEAST = 30
"""A row has so much of when and what it is at least, before it says how much [cells]."""
_STATES = {Progress.RUNNING: "running now", Progress.UNFINISHED: "unfinished", Progress.FINISHED: "finished"}

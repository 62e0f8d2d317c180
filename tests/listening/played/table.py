"""The table: a row a cell, and what was aimed at beside what came out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tests.listening.played.judging import Score
from tests.markdown import table

if TYPE_CHECKING:
    from tests.listening.played.cells import Cell

_HEADINGS = ("scene", "mm", "sd", "Hz", "effect", "what", "found", "late s", "dated s off", "false", "in h")
_WIDTHS = (9, 4, 3, 3, 14, 8, 7, 12, 11, 5, 4)


def rows(cell: Cell, scores: dict[str, Score]) -> Iterable[tuple[str, ...]]:
    """A row for each kind of event that a cell had, or had falsely."""
    for what, score in scores.items():
        quiet = cell.scene in ("held", "lying") and what not in ("in", "out")
        if quiet or not (score.true or score.false or score.hours > 1):
            continue
        median, longest = score.delay
        off = max(score.dating, key=abs, default=0.0)
        yield (
            cell.scene,
            f"{cell.thickness:g}",
            f"{cell.faults.noise:g}",
            f"{cell.faults.hertz:g}",
            cell.effect,
            what,
            f"{score.found}/{score.true}",
            f"{median:.1f} to {longest:.1f}" if score.delays else "",
            f"{off:+.1f}" if score.dating else "",
            str(score.false),
            f"{score.hours:.1f}",
        )


def written(lines: Iterable[tuple[str, ...]]) -> Iterator[str]:
    """Lines of Markdown, each as soon as there is something to write in it."""
    return table(_HEADINGS, _WIDTHS, lines)

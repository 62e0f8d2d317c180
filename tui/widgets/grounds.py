"""Grounds: what lies round word and figure, so that the state is told from further off than a letter is read."""

from __future__ import annotations

from enum import Enum

from tui.widgets.marks import Mark
from tui.widgets.painting import Picture, cells_of


class Ground(Enum):
    """How the field round word and figure is filled. Each is told from the others without any colour."""

    EMPTY = "empty"
    """Dark, the mark faint at both sides: nothing goes on, or the smith has said pause."""
    SIDES = "sides"
    """Dark, at both sides the mark on the colour of the work's glow: something goes on by itself."""
    LEVEL = "level"
    """As `SIDES`, with level bars up to word and figure: it is to be left where it lies."""
    STRIPES = "stripes"
    """As `SIDES`, with slanting stripes up to word and figure: it is time to do something else."""
    FULL = "full"
    """The whole field in the colour of the glow, ink and mark dark on it: strike."""
    ALARM = "alarm"
    """As `FULL`, in the colour of an alarm, and turned over as it blinks."""


_STEP = 6
"""Dots across one stripe, and across the gap after it."""


def side_cells(ground: Ground, mark: Mark, width: int, height: int) -> Picture:
    """What is inked at one side of word and figure: `height` rows of `width` cells, in half blocks.

    The mark is drawn once, as large as the side is; level bars and stripes fill it.
    """
    dots = range(2 * height)
    match ground:
        case Ground.LEVEL:
            # Bars and gaps are a row and a half high, the lowest dots inked whatever the height.
            inked = [[(len(dots) - 1 - y) // 3 % 2 == 0] * width for y in dots]
        case Ground.STRIPES:
            inked = [[(x + y) // _STEP % 2 == 0 for x in range(width)] for y in dots]
        case _:
            return _mark_once(mark, width, height)
    return cells_of(inked)


def _mark_once(mark: Mark, width: int, height: int) -> Picture:
    """The pattern of a mark without the gap after it, its steps made slopes, a cell and half a row free round it."""
    pattern = mark.blocks.rstrip()
    across, down = width - 2, 2 * height - 2
    if across < _LEAST or down < _LEAST:
        return (" " * width,) * height
    columns = [_inked_at(pattern, (x + 0.5) / across * len(pattern)) for x in range(across)]
    free = [False] * width
    rows = [[False, *(top <= (y + 0.5) / down <= foot for top, foot in columns), False] for y in range(down)]
    return cells_of([free, *rows, free])


_LEAST = 3
"""Dots that a mark needs each way."""
_INKED = {"▀": (0.0, 0.5), "▄": (0.5, 1.0), "█": (0.0, 1.0)}
"""From where to where a cell of a pattern is inked, of its height from the top."""
_POINTED = {"▀": (0.0, 0.0), "▄": (1.0, 1.0)}
"""The same at its outer edge for a half cell that ends the pattern beside a full one: together they are a point."""


def _inked_at(pattern: str, place: float) -> tuple[float, float]:
    """What is inked at a place in a pattern; beside an empty cell no slope leads to it."""
    run = int(place)
    if pattern[run] == " ":
        return 1.0, 0.0
    first = pattern.rfind(" ", 0, run) + 1
    after = pattern.find(" ", run)
    cells = pattern[first:after] if after >= 0 else pattern[first:]
    points = [(first + at + 0.5, _INKED[cell]) for at, cell in enumerate(cells)]
    if len(cells) > 1 and cells[0] in _POINTED and cells[1] == "█":
        points[0] = (float(first), _POINTED[cells[0]])
    if len(cells) > 1 and cells[-1] in _POINTED and cells[-2] == "█":
        points[-1] = (float(first + len(cells)), _POINTED[cells[-1]])
    before = max((point for point in points if point[0] <= place), default=points[0])
    behind = min((point for point in points if point[0] >= place), default=points[-1])
    share = (place - before[0]) / (behind[0] - before[0]) if behind[0] > before[0] else 0.0
    (top, foot), (next_top, next_foot) = before[1], behind[1]
    return top + share * (next_top - top), foot + share * (next_foot - foot)

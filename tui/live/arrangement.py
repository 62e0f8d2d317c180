"""How the live screen divides the terminal, by its size alone."""

from __future__ import annotations

from dataclasses import dataclass

_SMALL = (40, 18)
"""Below this width or height only word, figure and the meaning of space are shown."""
_SIDE_FROM = 110
_SCALE_FROM = 70
_LEAST_FIGURE = 10
_READ_FIGURE = 5
"""Of the figure while there is time for reading, as at the bench."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Rows and columns of each part; 0 leaves it out."""

    small: bool
    """Whether the terminal is so small that only word, figure and the meaning of space are shown."""
    head: int = 0
    """Rows of the line with step, tally and clock."""
    marks: int = 0
    """Rows of each of the two rows of marks."""
    word: int = 1
    """Rows of the word."""
    figure: int = 1
    """Rows of the figure."""
    scale: int = 0
    """Columns of the upright scale beside the figure."""
    lines: int = 0
    """Lines of text below the figure."""
    below: int = 0
    """Rows of the trace, or of the instruction."""
    side: int = 0
    """Columns at the side: instruction, checklist, cautions, steps."""
    foot: int = 1
    """Rows of the keys at the foot, or of the tally in the view from far away."""


def arrange(width: int, height: int, reading: bool = False) -> Arrangement:
    """Divide a terminal of `width` x `height` cells; where there is no side, `reading` gives the text the room."""
    if width < _SMALL[0] or height < _SMALL[1]:
        return _small(height)
    side = min(64, max(36, round(width * 0.31))) if width >= _SIDE_FROM else 0
    scale = (18 if width - side < 100 else 22) if width - side >= _SCALE_FROM else 0
    rest = height - 7  # head, two rows of marks, three lines of text, foot
    word = max(3, round(rest * 0.15))
    below = max(4, round(rest * 0.36))
    if reading and not side:
        below = rest - word - _READ_FIGURE
    elif rest - word - below < _LEAST_FIGURE:
        below = max(0, rest - word - _LEAST_FIGURE)
        below = below if below >= 3 else 0
    return Arrangement(
        small=False,
        head=1,
        marks=1,
        word=word,
        figure=rest - word - below,
        scale=scale,
        lines=3,
        below=below,
        side=side,
    )


def _small(height: int) -> Arrangement:
    foot = 1 if height >= 3 else 0
    head = 1 if height >= 9 else 0
    marks = 1 if height >= 8 else 0
    word = 3 if height >= 12 else 1 if height >= 2 else 0
    figure = max(1, height - foot - head - 2 * marks - word)
    return Arrangement(small=True, head=head, marks=marks, word=word, figure=figure, foot=foot)


def far(height: int) -> Arrangement:
    """Divide it for the view from far away: word, figure, tally, and marks that are large enough to be told apart."""
    tally = 3 if height >= 14 else 1 if height >= 6 else 0
    marks = height // 20 + 1 if height >= 10 else 0
    rest = height - tally - 2 * marks
    word = max(1, round(rest * 0.3)) if height >= 2 else 0
    return Arrangement(small=True, marks=marks, word=word, figure=max(1, rest - word), lines=0, foot=tally)

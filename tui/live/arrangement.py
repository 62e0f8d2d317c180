"""How the live screen divides the terminal, by its size and by what is wanted of it alone."""

from __future__ import annotations

from enum import Enum

from plans.record import record

_SMALL = (40, 18)
"""Below this width or height only word, figure and the meaning of space are shown."""
_SIDE_FROM = 110
_SCALE_FROM = 70
_LEAST_FIGURE = 8
_READ_FIGURE = 5
"""Of the figure while there is time for reading."""
_LARGE = 3
"""Rows of a line in large letters."""
_LINES = 3
"""Lines of small text below the figure."""


class Wanted(Enum):
    """What the room is wanted for, where it does not suffice for all."""

    WORK = "work"
    """Figure, step, heat and what to reach: the smith looks up from the work."""
    READINESS = "readiness"
    """The same, and the instruction: the next phase is waited for."""
    READING = "reading"
    """The instruction first: the smith stands at the bench, beside the screen."""


@record
class Arrangement:
    """Rows and columns of each part; 0 leaves it out."""

    small: bool
    """Whether the terminal is so small that only word, figure and the meaning of space are shown."""
    head: int = 0
    """Rows of the line with the step."""
    marks: int = 0
    """Rows of each of the two rows of marks."""
    word: int = 1
    """Rows of the word."""
    figure: int = 1
    """Rows of the figure."""
    scale: int = 0
    """Columns of the upright scale beside the figure."""
    reach: int = 0
    """Rows of the line with what is to be reached."""
    cue: int = 0
    """Rows of the line with how to work."""
    lines: int = 0
    """The other lines of small text below the figure."""
    below: int = 0
    """Rows of the trace, or of the instruction."""
    side: int = 0
    """Columns at the side: instruction, checklist, cautions, steps."""
    foot: int = 1
    """Rows of the keys at the foot, or of the tally in the view from far away."""

    @property
    def heat_at_head(self) -> bool:
        """Whether the heat stands beside the step rather than beside what is to be reached: there is room, or none."""
        return self.side > 0 or not self.reach


def arrange(width: int, height: int, wanted: Wanted = Wanted.WORK) -> Arrangement:
    """Divide a terminal of `width` x `height` cells."""
    if width < _SMALL[0] or height < _SMALL[1]:
        return _small(height)
    side = min(64, max(36, round(width * 0.31))) if width >= _SIDE_FROM else 0
    scale = (18 if width - side < 100 else 22) if width - side >= _SCALE_FROM else 0
    marks, foot = 1, 2 if width < _SIDE_FROM and height >= 22 else 1
    reads = wanted is not Wanted.WORK and not side
    least = _READ_FIGURE if reads else _LEAST_FIGURE
    rest = height - 2 * marks - _LINES - foot
    # A line in large letters takes two rows more than a small one; the one with what is to be reached goes first.
    spare = rest - 2 - 3 - least if wanted is not Wanted.READING or side else 0
    reach = _LARGE if spare >= 2 else 1
    head = _LARGE if spare >= 4 else 1
    cue = _LARGE if side and height >= 45 else 1
    rest -= head + reach + cue - 1
    word = max(3, round(rest * 0.16))
    below = rest - word - _READ_FIGURE if reads else max(4, round(rest * 0.26))
    if not reads and rest - word - below < least + 3:
        below = max(0, rest - word - least)
        below = below if below >= 3 else 0
    return Arrangement(
        small=False,
        head=head,
        marks=marks,
        word=word,
        figure=rest - word - below,
        scale=scale,
        reach=reach,
        cue=cue,
        lines=_LINES - 1,
        below=below,
        side=side,
        foot=foot,
    )


def _small(height: int) -> Arrangement:
    foot = 1 if height >= 3 else 0
    head = 1 if height >= 9 else 0
    marks = 1 if height >= 8 else 0
    word = 3 if height >= 12 else 1 if height >= 2 else 0
    figure = max(1, height - foot - head - 2 * marks - word)
    return Arrangement(small=True, head=head, marks=marks, word=word, figure=figure, foot=foot)


def far(height: int) -> Arrangement:
    """Divide it for the view from far away: word, figure, step, heat, what to reach, and marks that are large."""
    large = max(_LARGE, height // 10) if height >= _SMALL[1] else 0
    tally = (3 if height >= 30 else 0) if large else 3 if height >= 14 else 1 if height >= 6 else 0
    cue = large if height >= 30 else 1 if large else 0
    marks = height // 25 + 1 if height >= 10 else 0
    rest = height - tally - 2 * marks - 2 * large - cue
    word = max(1, round(rest * 0.28)) if height >= 2 else 0
    return Arrangement(
        small=True,
        head=large,
        marks=marks,
        word=word,
        figure=max(1, rest - word),
        reach=large,
        cue=cue,
        foot=tally,
    )

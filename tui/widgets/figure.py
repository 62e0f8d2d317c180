"""The one figure, and the one word, that are read from across the smithy: how they are drawn in the room there is."""

from __future__ import annotations

from rich.cells import cell_len

from plans.record import record
from plans.text import plain
from tui.widgets.painting import Picture, big_line, big_words
from tui.widgets.plain import clip, fill

_SPAN = 3
"""Fewest rows of the range beside a figure."""
_SPAN_FROM = 6
"""A figure of fewer rows stands alone, and its range in the line below."""
_GAP = "   "
_ROOMY = 13
"""From this many rows on, a row above and a row below stay free."""


@record
class Drawn:
    """A picture, and a small text beside its last row."""

    picture: Picture
    """What is painted."""
    foot: str = ""
    """The small text beside its last row; empty for none."""

    @property
    def width(self) -> int:
        """Cells that both take side by side."""
        return cell_len(self.picture[0]) + cell_len(self.foot)

    def rows(self, width: int, height: int, *, low: bool = False) -> list[str]:
        """Both in the middle of `width` x `height` cells; an odd row is free below them, or above where `low`."""
        left = " " * ((width - self.width) // 2)
        blank, last = " " * cell_len(self.foot), len(self.picture) - 1
        rows = [f"{left}{row}{self.foot if at == last else blank}" for at, row in enumerate(self.picture)]
        above = (height - len(rows) + low) // 2
        below = height - above - len(rows)
        return [fill(row, width) for row in [*[""] * above, *rows, *[""] * below]]


def drawn_figure(figure: str, unit: str, span: str, width: int, height: int) -> Drawn:
    """A figure such as `42`, `4:10` or `--`, no larger than `width` x `height` cells.

    Args:
        figure: digits and `: . - + , / °`, a few letters if need be
        unit: written small; left out where it would take the figure's room
        span: its range, in lower digits; small, or left out, where it would take the figure's room
        width: cells across
        height: rows
    """
    text, foot = plain(figure), f" {unit}" if (unit := plain(unit)) else ""
    rows = height - 2 if height >= _ROOMY else height
    room = width - 2
    if span and rows >= _SPAN_FROM:
        low = big_line(plain(span), (room - len(_GAP)) * 3 // 5, max(_SPAN, rows // 4))
        if low is not None and len(low) >= _SPAN:
            alone = big_line(text, room - cell_len(low[0]) - len(_GAP) - cell_len(foot), rows)
            if alone is not None and len(alone) == rows:
                above = (" " * cell_len(low[0]),) * (len(alone) - len(low))
                return Drawn(tuple(row + _GAP + part for row, part in zip(alone, above + low, strict=True)), foot)
    with_span = f"{foot} {span}" if (span := plain(span)) else foot
    for beside in dict.fromkeys((with_span, foot, "")):
        if (alone := big_line(text, room - cell_len(beside), rows)) is not None:
            return Drawn(alone, beside)
    return Drawn((clip(text + foot, width),))


def drawn_word(word: str, width: int, height: int) -> Drawn:
    """A word or two such as `STRIKE` or `TOO COLD`, on as many lines as make it largest in `width` x `height` cells."""
    text = plain(word)
    # With a margin, and without one where the word would not fit otherwise.
    return Drawn(
        big_words(text, width - 2, height - 2 if height >= _ROOMY else height)
        or big_words(text, width, height)
        or (clip(text.upper(), width),)
    )

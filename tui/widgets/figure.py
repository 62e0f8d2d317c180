"""The one figure, and the one word, that are read from across the smithy."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Literal

from rich.cells import cell_len
from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.reactive import reactive
from textual.strip import Strip

from plans.text import plain
from tui.widgets.cached_drawing import CachedDrawing
from tui.widgets.contrast import RGB, glow_shown, ink_on, rgb_of
from tui.widgets.painting import Picture, big_line, big_words
from tui.widgets.plain import clip

Align = Literal["left", "center", "right"]

_SPAN = 3
"""Fewest rows of the range beside a figure."""
_SPAN_FROM = 6
"""A figure of fewer rows stands alone, and its range in the line below."""
_GAP = "   "
_ROOMY = 13
"""From this many rows on, a row above and a row below stay free."""


def painted(
    picture: Picture, foot: str, width: int, height: int, field: RGB, ink: RGB, align: Align = "center"
) -> list[Strip]:
    """A picture with a small text beside its last row, as strips that fill `width` x `height` cells."""
    inks, fields = Color.from_rgb(*ink), Color.from_rgb(*field)
    ground = Style(color=inks, bgcolor=fields, bold=True)
    # A full block is ink on ink: no seams where the font leaves gaps, and it shows even where there is no colour.
    solid = Style(color=inks, bgcolor=inks)
    foot_width = cell_len(foot)
    broad = cell_len(picture[0]) + foot_width
    left = {"left": 0, "center": (width - broad) // 2, "right": width - broad}[align]
    strips = []
    for place, row in enumerate(picture, start=1):
        segments = [Segment(" " * left, ground)]
        segments += [Segment("".join(run), solid if is_ink else ground) for is_ink, run in groupby(row, "█".__eq__)]
        segments.append(Segment(foot if place == len(picture) else " " * foot_width, ground))
        segments.append(Segment(" " * (width - left - broad), ground))
        strips.append(Strip([segment for segment in segments if segment.text], width))
    blank = Strip.blank(width, ground)
    top = (height - len(picture)) // 2
    return [blank] * top + strips + [blank] * (height - top - len(picture))


class _Big(CachedDrawing):
    """Text in big letters on a field of its own colour; an alarm swaps field and ink."""

    text: reactive[str] = reactive("")
    glow: reactive[RGB | None] = reactive(None)
    """Colour of the field; None leaves the theme's."""
    alarm: reactive[bool] = reactive(False)

    def __init__(
        self,
        text: str = "",
        *,
        align: Align = "center",
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(name=name, id=id, classes=classes)
        self._align = align
        self.set_reactive(_Big.text, text)

    def colours(self) -> tuple[RGB, RGB]:
        """Field and ink."""
        field = glow_shown(self.glow, self.app) or rgb_of(self.rich_style.bgcolor)
        ink = ink_on(field)
        return (ink, field) if self.alarm else (field, ink)

    def picture(self, width: int, height: int) -> tuple[Picture, str]:
        """What to paint, no larger than `width` x `height` cells, and the small text beside it."""
        raise NotImplementedError

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        picture, foot = self.picture(width, height)
        field, ink = self.colours()
        return painted(picture, foot, width, height, field, ink, self._align)


class BigFigure(_Big):
    """A figure such as `42`, `4:10` or `--`, as tall as the widget; its range in lower digits, its unit small."""

    DEFAULT_CSS = "BigFigure { width: 1fr; height: 1fr; }"

    unit: reactive[str] = reactive("")
    span: reactive[str] = reactive("")
    """Between what the figure may lie, such as `29-46`; empty where nobody knows."""

    def show(self, text: str, unit: str = "", *, span: str = "", glow: RGB | None = None, alarm: bool = False) -> None:
        """Show a figure.

        Args:
            text: digits and `: . - + , / °`, a few letters if need be
            unit: written small; left out where it would take the figure's room
            span: its range, in lower digits; left out where it would take the figure's room
            glow: colour of the field
            alarm: swap field and ink
        """
        self.text, self.unit, self.span, self.glow, self.alarm = text, unit, span, glow, alarm

    def picture(self, width: int, height: int) -> tuple[Picture, str]:
        text, foot = plain(self.text), f" {unit}" if (unit := plain(self.unit)) else ""
        rows = height - 2 if height >= _ROOMY else height
        alone = big_line(text, width - 2, rows)
        if alone is not None and self.span and rows >= _SPAN_FROM:
            room = width - 2 - cell_len(alone[0]) - len(_GAP) - cell_len(foot)
            low = big_line(plain(self.span), room, max(_SPAN, rows // 4))
            if low is not None and len(low) >= _SPAN:
                above = (" " * cell_len(low[0]),) * (len(alone) - len(low))
                return tuple(row + _GAP + part for row, part in zip(alone, above + low, strict=True)), foot
        with_span = f"{foot} {span}" if (span := plain(self.span)) else foot
        for beside in dict.fromkeys((with_span, foot, "")):
            if (drawn := big_line(text, width - 2 - cell_len(beside), rows)) is not None:
                return drawn, beside
        return (clip(text + foot, width),), ""


class BigWord(_Big):
    """A word or two such as `STRIKE`, `BACK IN` or `TOO COLD`, on as many lines as make it largest."""

    DEFAULT_CSS = "BigWord { width: 1fr; height: 3; }"

    def show(self, text: str, *, glow: RGB | None = None, alarm: bool = False) -> None:
        """Show a word; `glow` is the colour of the field, `alarm` swaps field and ink."""
        self.text, self.glow, self.alarm = text, glow, alarm

    def picture(self, width: int, height: int) -> tuple[Picture, str]:
        text = plain(self.text)
        # With a margin, and without one where the word would not fit otherwise.
        return (
            big_words(text, width - 2, height - 2 if height >= _ROOMY else height)
            or big_words(text, width, height)
            or (clip(text.upper(), width),)
        ), ""

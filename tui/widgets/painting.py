"""Big text as rows of cells: glyphs stretched to the room there is, two dots to a cell, one above the other.

A dot is one cell wide and half a cell high, so it is about square. Cells come as one of four characters: a space, an
upper half block, a lower half block, a full block. A line of text that is to be fine has two dots across to a cell as
well, and quarter blocks.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate

from tui.widgets.glyphs import Glyph, glyph

Picture = tuple[str, ...]
"""Rows of cells, all of the same length."""

_QUARTERS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""By which dots are inked: upper left counts one, upper right two, lower left four, lower right eight."""
_CELLS = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
_CORNER = 1.29
"""Where two strokes meet at a corner only, the corner is filled beyond this share of the way across, which leaves a
slanting stroke about as thick as the straight ones: 2 - 1/sqrt(2)."""
_SHORTEST = 5
_NARROWEST = 4
"""Dots that a glyph needs each way; `_STURDY` ones need five across, and others get by with three."""
_STURDY = "MNVWXYZ"
_SLIM = "EFLT"
_WIDEST = 0.72
"""A tall glyph is no wider than this share of its height."""
_PAIR_APART = 3
"""Cells between two texts on a line, at least."""
_BROAD = 7
"""A low one may be as wide as this: with uprights of two dots it carries further."""


def _shares(pattern: str, total: int, stroke: int) -> list[int]:
    """Dots for each row or column of a mask: `stroke` for strokes if there is room, the rest evenly over the fill."""
    strokes = [index for index, kind in enumerate(pattern) if kind == "s"]
    fills = [index for index, kind in enumerate(pattern) if kind != "s"]
    if not fills:
        return _evenly(len(pattern), total)
    shares = [0] * len(pattern)
    if strokes:
        # Counters stay open: between two strokes there is at least two thirds of one.
        pen = max(1, min(stroke, int(total / (len(strokes) + 0.67 * (len(strokes) - 1)))))
        for index in strokes:
            shares[index] = pen
    each, over = divmod(max(0, total - sum(shares)), len(fills))
    middle = (len(pattern) - 1) / 2
    by_nearness = sorted(fills, key=lambda index: (each == 0 and pattern[index] == "d", abs(index - middle), -index))
    if over % 2 == 0 and by_nearness[0] == middle and (each or "d" not in pattern):
        by_nearness.append(by_nearness.pop(0))
    for index in fills:
        shares[index] = each
    for index in by_nearness[:over]:
        shares[index] += 1
    return shares


def _evenly(count: int, total: int) -> list[int]:
    """`total` dots over `count` columns, the same from both sides; what is over goes outside first."""
    each, over = divmod(total, count)
    shares = [each] * count
    if over % 2:
        shares[count // 2] += 1
    for place in range(over // 2):
        shares[place] += 1
        shares[-1 - place] += 1
    return shares


def _inked(mask: Glyph, row: int, column: int) -> bool:
    return 0 <= row < len(mask.rows) and 0 <= column < len(mask.columns) and mask.rows[row][column] == "#"


@lru_cache(maxsize=256)
def _letter(character: str, width: int, height: int, across: int, down: int) -> list[list[bool]]:
    """The dots of a letter, to be read only: a running figure has the same ten again and again."""
    return _stretched(glyph(character), width, height, across, down)


def _stretched(mask: Glyph, width: int, height: int, across: int, down: int) -> list[list[bool]]:
    """The glyph in `width` x `height` dots, its pen `across` dots wide in uprights and `down` in bars."""
    widths = _shares(mask.columns, width, across)
    heights = _shares(mask.bars, height, down)
    lefts = [0, *accumulate(widths)]
    tops = [0, *accumulate(heights)]
    dots = [[False] * width for _ in range(height)]
    for row in range(len(heights)):
        for column in range(len(widths)):
            block_width, block_height = widths[column], heights[row]
            inked = _inked(mask, row, column)
            corners = () if inked else _corners(mask, row, column)
            for y in range(block_height):
                for x in range(block_width):
                    if inked or any(
                        abs(right - (x + 0.5) / block_width) + abs(bottom - (y + 0.5) / block_height) < 2 - _CORNER
                        for bottom, right in corners
                    ):
                        dots[tops[row] + y][lefts[column] + x] = True
    return dots


def _corners(mask: Glyph, row: int, column: int) -> tuple[tuple[int, int], ...]:
    """The corners (bottom, right) of an empty block where its two neighbours touch each other at that point only."""
    return tuple(
        (down, right)
        for down in (0, 1)
        for right in (0, 1)
        if _inked(mask, row + 2 * down - 1, column)
        and _inked(mask, row, column + 2 * right - 1)
        and not _inked(mask, row + 2 * down - 1, column + 2 * right - 1)
    )


def _width_of(character: str, width: int, across: int, gap: int) -> int:
    """Dots that a character takes where one of five columns takes `width`."""
    if character in ":.!'":
        # A dot is as high as a bar: with a thin pen a wide one would make a colon look like an equals sign.
        return across + 1 if across > 2 else 1
    if character == " ":
        return max(2, width - 2 * gap)
    if character == "I":
        return across
    columns = len(glyph(character).columns)
    if width == _NARROWEST and character in _SLIM + _STURDY:
        return 3 if character in _SLIM else 5
    if character in "MW":
        return width + 2 * (width // 8)
    return width if columns == 5 else max(columns, round(width * columns / 5))


def _pens(width: int, height: int) -> tuple[int, int]:
    """Pen in uprights and in bars: about a quarter of the width and a seventh of the height."""
    across = max(1, round(width * 0.29))
    return across, max(1, min(round(height / 6.5), across))


def _spacing(width: int, across: int) -> int:
    return max(1, min(across, round(width * 0.2)))


def _line_width(text: str, width: int, height: int) -> int:
    across, _ = _pens(width, height)
    gap = _spacing(width, across)
    return sum(_width_of(character, width, across, gap) for character in text) + gap * (len(text) - 1)


def _widest(text: str, room: int, height: int) -> int | None:
    """Width of a five-column glyph so that `text` fits into `room` dots; None where even the smallest does not."""
    for width in range(max(_BROAD, int(height * _WIDEST)), _NARROWEST - 1, -1):
        if _line_width(text, width, height) <= room:
            return width
    return None


def _line(text: str, width: int, height: int) -> list[list[bool]]:
    across, down = _pens(width, height)
    gap = _spacing(width, across)
    rows: list[list[bool]] = [[] for _ in range(height)]
    for place, character in enumerate(text):
        taken = _width_of(character, width, across, gap)
        stretched = _letter(character, taken, height, taken if taken < 2 else across, down)
        for row, dots in zip(rows, stretched, strict=True):
            row.extend([False] * gap if place else [])
            row.extend(dots)
    return rows


def cells_of(dots: list[list[bool]]) -> Picture:
    """Rows of inked dots as cells, two of them, one above the other, to a cell."""
    if len(dots) % 2:
        dots = [*dots, [False] * len(dots[0])]
    return tuple(
        "".join(_CELLS[pair] for pair in zip(upper, lower, strict=True))
        for upper, lower in zip(dots[::2], dots[1::2], strict=True)
    )


def _drawn(text: str, width: int, dots_high: int) -> list[list[bool]] | None:
    """One line of text in no more than `width` x `dots_high` dots; None where it can't be drawn."""
    text = text.upper()
    if not text or dots_high < _SHORTEST:
        return None
    glyph_width = _widest(text, width, dots_high)
    if glyph_width is None:
        return None
    # Never a tower: what is narrow stays within four times its width. Six dots are one too few for seven rows.
    dots_high = min(dots_high, 4 * glyph_width)
    return _line(text, glyph_width, 5 if dots_high == 6 else dots_high)


@lru_cache(maxsize=64)
def fine_pair(left: str, right: str, width: int, height: int, *, quarters: bool) -> Picture | None:
    """Two texts on one line, one at each end, as large as fits into `width` x `height` cells; None where they don't.

    Args:
        left: what begins the line
        right: what ends it; empty for nothing
        width: cells across, which the picture fills
        height: rows that it has at most
        quarters: whether a cell may be a quarter block, so that twice as many letters fit
    """
    across, texts = (2 if quarters else 1), [text.upper() for text in (left, right) if text]
    dots_high = 5 if height == 3 else 2 * height
    if dots_high < _SHORTEST or not texts:
        return None
    room = across * (width - _PAIR_APART * (len(texts) - 1))
    for glyph_width in range(max(_BROAD, int(dots_high * _WIDEST * across)), _NARROWEST - 1, -1):
        if sum(_line_width(text, glyph_width, dots_high) for text in texts) <= room:
            break
    else:
        return None
    high = min(dots_high, 4 * glyph_width)
    parts = [_line(text, glyph_width, 5 if high == 6 else high) for text in texts]
    between = across * width - sum(len(part[0]) for part in parts)
    joined = [[*rows[0], *[False] * between, *(rows[1] if len(rows) > 1 else ())] for rows in zip(*parts, strict=True)]
    return _fine_cells(joined) if quarters else cells_of(joined)


def _fine_cells(dots: list[list[bool]]) -> Picture:
    """Four dots to a cell; their number across is even."""
    if len(dots) % 2:
        dots = [*dots, [False] * len(dots[0])]
    return tuple(
        "".join(
            _QUARTERS[upper[x] + 2 * upper[x + 1] + 4 * lower[x] + 8 * lower[x + 1]] for x in range(0, len(upper), 2)
        )
        for upper, lower in zip(dots[::2], dots[1::2], strict=True)
    )


@lru_cache(maxsize=64)
def big_line(text: str, width: int, height: int) -> Picture | None:
    """One line of text as large as fits into `width` x `height` cells, top to bottom; None where it can't be drawn.

    Digits keep their width, so that a running figure does not jump.
    """
    dots = _drawn(text, width, 2 * height)
    return None if dots is None else cells_of(dots)


@lru_cache(maxsize=64)
def big_words(text: str, width: int, height: int) -> Picture | None:
    """Words as large as fit into `width` x `height` cells, on as many lines as make them largest; None if none fits."""
    words = text.split()
    best: tuple[float, list[Picture]] | None = None
    for count in range(1, len(words) + 1):
        lines = _balanced(words, count)
        # Half a row between two lines.
        dots_high = 2 * (height // count) - (count > 1)
        drawn = [cells_of(dots) for line in lines if (dots := _drawn(line, width, dots_high)) is not None]
        if len(drawn) < count:
            continue
        size = min(len(picture) * len(picture[0]) / len(line) for picture, line in zip(drawn, lines, strict=True))
        if best is None or size > best[0]:
            best = (size, drawn)
    if best is None:
        return None
    broad = max(len(picture[0]) for picture in best[1])
    return tuple(row.center(broad) for picture in best[1] for row in picture)


def _balanced(words: list[str], count: int) -> list[str]:
    """`words` on `count` lines, filled greedily at the shortest width that does."""
    for limit in range(max(map(len, words)), len(" ".join(words)) + 1):
        lines: list[str] = []
        for word in words:
            if lines and len(lines[-1]) + 1 + len(word) <= limit:
                lines[-1] += " " + word
            else:
                lines.append(word)
        if len(lines) <= count:
            return lines
    return [" ".join(words)]

"""Text from plans, probes and the log, made safe to put on a terminal: no control characters, no markup, one line."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from rich.cells import cell_len, set_cell_size

_DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
"""Controls (with escape and C1), format characters (with the ones that turn the direction of text), halves of surrogate
pairs (which can't be encoded), private use and unassigned."""
_BREAKS = frozenset("\t\n\v\f\r\x85\u2028\u2029")


@lru_cache(maxsize=4096)
def _plain_character(character: str) -> str:
    if character in _BREAKS:
        return " "
    # Variation selectors make one terminal draw two cells where another draws one.
    if "\ufe00" <= character <= "\ufe0f" or unicodedata.category(character) in _DROPPED:
        return ""
    return character


def plain(text: str) -> str:
    """`text` without anything that a terminal would obey; tabs and line ends become spaces.

    An escape sequence loses its escape, so that what is left of it can be seen.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_plain_character, text))


def clip(text: str, width: int) -> str:
    """`text` cut to at most `width` cells, with an ellipsis where something was cut off."""
    if width <= 0:
        return ""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, width - 1).rstrip() + "…"


def fill(text: str, width: int) -> str:
    """`text` clipped or padded with spaces to exactly `width` cells."""
    clipped = clip(text, width)
    return clipped + " " * (width - cell_len(clipped))


def paragraphs(text: str) -> list[str]:
    """A text of several lines as its paragraphs, which an empty line parts."""
    return [part for part in (" ".join(block.split()) for block in text.split("\n\n")) if part]

"""Text from plans, probes, shells and the log, made safe to show: no character that a terminal might obey, one line.

Such characters are controls (with escape and C1), those that turn the direction of writing or have no width, halves of
surrogate pairs, private use and unassigned ones. Markup is not their business: whoever shows text shows it as text.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_BREAKS = frozenset("\t\n\v\f\r\x85")
"""Controls that stand between words: left out, they would run the words together."""


def printable(text: str) -> str:
    """The text on one line, each character that a terminal might obey replaced by "?".

    For messages and plain output, where what was wrong with a name or a line should be seen.
    """
    return text if text.isprintable() else "".join(char if char.isprintable() else "?" for char in text)


def clean(text: str, longest: int = 60) -> str:
    """The text as `printable` has it, cut to `longest` characters, the last three of them "..." where it was longer.

    For what comes down a wire or out of a file by the thousand. What could not be decoded (U+FFFD) is a "?" too.
    """
    shown = printable(text[: longest + 1]).replace("\ufffd", "?")
    return shown if len(shown) <= longest else shown[: longest - 3] + "..."


def paragraphs(text: str) -> list[str]:
    """The paragraphs of a text of several lines, each on one line; an empty line parts them."""
    return [part for part in (" ".join(block.split()) for block in re.split(r"\n\s*\n", text)) if part]


def plain(text: str) -> str:
    """The text on one line, without the characters that a terminal might obey; every kind of blank is a plain space.

    For titles and notes, which are to be read. Tabs and line ends are blanks. An escape sequence loses its escape, so
    that what is left of it can be seen. What comes out is printable, and the same if it is put in again.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_plain_character, text))


@lru_cache(maxsize=4096)
def _plain_character(character: str) -> str:
    category = unicodedata.category(character)
    if character in _BREAKS or category[0] == "Z":
        return " "
    # Variation selectors make one terminal draw two cells where another draws one.
    return "" if category[0] == "C" or "\ufe00" <= character <= "\ufe0f" else character

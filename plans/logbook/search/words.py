"""What is typed to find sittings, taken apart: words, texts in quotes, and signs of comparing."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from operator import ge, gt, le, lt
from typing import Final

from plans.record import record


@record
class Word:
    """A word, a text in quotes, or a sign of comparing."""

    text: str
    """The word itself, without quotes or a comma behind it."""
    quoted: bool = False
    """Whether it stood in quotes: then it is neither a name nor a sign."""
    last: bool = False
    """Whether a comma stands behind it, so that nothing that follows belongs to it."""

    @property
    def is_sign(self) -> bool:
        """Whether it compares a figure with a quantity."""
        return not self.quoted and self.text in SIGNS

    @property
    def names(self) -> str | None:
        """What it names, where a colon stands in it or behind it: `steel:`, `steel:1084`; else None."""
        found = None if self.quoted else _NAMED.match(self.text)
        return found[1].casefold() if found else None


_WORD: Final = re.compile(r'(?:(?<=\s)|^)"([^"]*)(?:"|$)|([<>]=?|[=≤≥])|([^\s<>=≤≥]+)')
_NAMED: Final = re.compile(r"([A-Za-z]+):")
SIGNS: Final[Mapping[str, Callable[[float, float], bool]]] = {
    ">": gt,
    "<": lt,
    ">=": ge,
    "<=": le,
    "≥": ge,
    "≤": le,
    "=": lambda one, other: abs(one - other) < 1e-9,
}
"""The signs of comparing, and what each means for a figure and what it is held against."""


def words_in(text: str) -> list[Word]:
    """The words of what was typed, in order. A text in quotes that have not been closed yet goes on to the end."""
    found = []
    # A quote that begins a value stands behind a colon: `note:"cold shut"`.
    for match in _WORD.finditer(re.sub(r'([A-Za-z]:)"', r'\1 "', text)):
        quoted, sign, word = match.groups()
        if quoted is not None:
            found.append(Word(quoted, True))
        elif sign:
            found.append(Word(sign))
        elif word.rstrip(","):
            found.append(Word(word.rstrip(","), last=word.endswith(",")))
    return [word for word in found if word.text]

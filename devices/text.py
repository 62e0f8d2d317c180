"""What comes down a wire or out of a file, made fit to be shown, and numbers read out of it."""

from __future__ import annotations

import re
from math import isfinite

_NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:[.][0-9]*)?|[.][0-9]+)(?:[eE][-+]?[0-9]+)?")


def clean(text: str, longest: int = 60) -> str:
    """The text with every character that a terminal might obey replaced by "?", cut to `longest` characters.

    Control characters, escape, C1, and those that turn the direction of writing or have no width are all meant.
    """
    shown = "".join(char if char.isprintable() and char != "\ufffd" else "?" for char in text[: longest + 1])
    return shown if len(shown) <= longest else shown[: longest - 3] + "..."


def to_text(line: bytes) -> str:
    """The bytes as UTF-8, or as Latin-1 where they are not: a degree sign is sent in both."""
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError:
        return line.decode("latin-1")


def to_number(text: str) -> float | None:
    """The finite number that the whole text is, with a decimal point; None for anything else.

    Unlike `float` it takes no "nan", "inf", "1_000" or digits of other scripts.
    """
    if not _NUMBER.fullmatch(text):
        return None
    number = float(text)
    return number if isfinite(number) else None

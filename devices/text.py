"""Bytes that come down a wire as text, and the number that a text is."""

from __future__ import annotations

import re
from math import isfinite

_NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:[.][0-9]*)?|[.][0-9]+)(?:[eE][-+]?[0-9]+)?")


def to_text(line: bytes) -> str:
    """A line read as UTF-8, or as Latin-1 where it is none: probes send a degree sign in either. It never fails."""
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError:
        return line.decode("latin-1")


def to_number(text: str) -> float | None:
    """The finite number that the whole text stands for, with a decimal point; None where it is anything else.

    Unlike `float` it takes no "nan", "inf", "1_000" or digits of other scripts.
    """
    if not _NUMBER.fullmatch(text):
        return None
    number = float(text)
    return number if isfinite(number) else None

"""The warning that the log can't be written: it has its rows before all else on the screen has."""

from __future__ import annotations

from textual.content import Content

from plans.text import plain
from tui.widgets import clip

_WHAT = "NOT ON THE DISK"
_MOST = 3
"""Rows that it takes at most."""
_SHARE = 6
"""It takes one row in so many, or what it needs to say that it is so."""
_SHORTEST = 16
"""So much of a path is left, mostly of its end [cells]."""


def warning_rows(why: str | None, width: int, height: int, *, far: bool = False) -> tuple[str, ...]:
    """The warning, in as many rows as it takes of a screen of `width` x `height` cells; none where nothing is wrong.

    Args:
        why: why the log can't be written; None where it can
        width: of the screen [cells]
        height: of the screen [rows]; one is left to the rest of it
        far: whether it is the view from far away, where one row suffices
    """
    if why is None:
        return ()
    least = len(Content(_WHAT).wrap(width))
    rows = min(max(least, 1 if far else min(_MOST, height // _SHARE)), height - 1)
    text = f"{_WHAT}: {plain(why)}"
    lines = _wrapped(text, width)
    if len(lines) > rows:
        # What is to be done about it stands behind the path.
        lines = _wrapped(_longest_word_shortened(text, rows * width), width)
    if len(lines) <= rows or rows < 1:
        return tuple(lines[:rows]) if rows > 0 else ()
    return (*lines[: rows - 1], clip(" ".join(lines[rows - 1 :]), width))


def _wrapped(text: str, width: int) -> list[str]:
    return [line.plain.rstrip() for line in Content(text).wrap(width)]


def _longest_word_shortened(text: str, room: int) -> str:
    """The text with its longest word, a path, cut in the middle, so that all of it has room or little of that is left.

    Args:
        text: one that is longer
        room: for the whole text [cells]
    """
    word = max(text.split(" "), key=len)
    left = max(_SHORTEST, len(word) - (len(text) - room)) - 1
    if left >= len(word) - 1:
        return text
    return text.replace(word, f"{word[: left // 3]}…{word[len(word) - (left - left // 3) :]}", 1)

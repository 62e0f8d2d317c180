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
    lines = [line.plain.rstrip() for line in Content(f"{_WHAT}: {plain(why)}").wrap(width)]
    if len(lines) <= rows or rows < 1:
        return tuple(lines[:rows]) if rows > 0 else ()
    return (*lines[: rows - 1], clip(" ".join(lines[rows - 1 :]), width))

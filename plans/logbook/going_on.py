"""When a sitting was gone on with, in words: the same for the log's text, the review and the page."""

from __future__ import annotations

from plans.logbook.header import Header
from plans.logbook.journal import SAME
from plans.shown import show_duration
from plans.sitting import State


def went_on_lines(header: Header, state: State) -> list[tuple[float, str]]:
    """Each time that a sitting was gone on with: the sitting's own clock then [s], and a line about it.

    Args:
        header: of the sitting
        state: where the sitting stands
    """
    lines = []
    for at, moment in header.went_on:
        left = next((left for left, gone_on in state.breaks if abs(gone_on - at) <= SAME), None)
        after = "" if left is None else f" after {show_duration((moment - header.wall_time(left)).total_seconds())}"
        lines.append((state.clock(at), f"gone on with{after}, on {moment:%Y-%m-%d} at {moment:%H:%M}"))
    return lines

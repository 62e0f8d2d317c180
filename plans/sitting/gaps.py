"""A time in which nothing comes in: found out in few steps how long nothing comes about in it either."""

from __future__ import annotations

from collections.abc import Callable


def last_before(comes_about: Callable[[int], bool], now: int, last: int) -> int:
    """The last grid point before one at which something comes about; `last` where nothing does up to there.

    Looked for with steps that double, then by halves: what has once become due, in surroundings that stay, must stay
    due until it is seen to.

    Args:
        comes_about: whether anything comes about at a grid point, if nothing does before it
        now: the grid point that is now
        last: how far is looked
    """
    before, step = now, 1
    while before < last:
        there = min(last, before + step)
        if comes_about(there):
            while there - before > 1:
                halfway = (before + there) // 2
                if comes_about(halfway):
                    there = halfway
                else:
                    before = halfway
            return before
        before, step = there, step * 2
    return last

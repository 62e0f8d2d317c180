"""What is added to a sitting when it is over, each with a number; what is taken back stays, and counts no more.

What is damaged of it costs none of the rest, and is written again as it stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Protocol, TypeVar

from plans.logbook.errors import LogbookError
from plans.record_values import MOST_OF_ALL, Record, list_of, record_of


class Numbered(Protocol):
    """One of them; a frozen record."""

    @property
    def number(self) -> int:
        """Counted from 1 in its sitting; never given to another."""

    @property
    def taken_back(self) -> datetime | None:
        """Since when it counts no longer; None where it does."""


_One = TypeVar("_One", bound=Numbered)


def standing(every: Iterable[_One]) -> tuple[_One, ...]:
    """Those that were not taken back."""
    return tuple(one for one in every if one.taken_back is None)


def next_number(every: Iterable[Numbered], damaged: Iterable[object]) -> int:
    """One more than any number that was given, from 1 on, so that none is given again.

    Args:
        every: those that could be read
        damaged: those that could not; their numbers count too, as far as they can be told
    """
    theirs = (item.get("number") for item in damaged if isinstance(item, Mapping))
    given = [number for number in theirs if type(number) is int and number < MOST_OF_ALL]
    return max((*given, *(one.number for one in every)), default=0) + 1


def with_taken_back(every: tuple[_One, ...], number: int, now: datetime, nothing: str) -> tuple[_One, ...]:
    """All that was added to a sitting, of which one is taken back.

    Args:
        every: all of them
        number: of the one
        now: wall time with its offset
        nothing: how an error begins, where none has that number: "no photograph"

    Raises:
        LogbookError: none has that number, or it was taken back before.
    """
    there = standing(every)
    one = next((one for one in there if one.number == number), None)
    if one is None:
        numbers = ", ".join(str(one.number) for one in there) or "none"
        raise LogbookError(f"{nothing} has the number {number}; there is: {numbers}")
    return tuple(replace(each, taken_back=now) if each is one else each for each in every)  # type: ignore[type-var]


def as_before(before: tuple[_One, ...], after: tuple[_One, ...], now: datetime) -> tuple[_One, ...]:
    """All that was added to a sitting as it counted before: what came since is taken back, and keeps its number.

    Args:
        before: all of them before
        after: all of them now
        now: wall time with its offset
    """
    were = {one.number: one for one in before}
    return tuple(
        were.get(one.number, one if one.taken_back is not None else replace(one, taken_back=now))  # type: ignore[type-var]
        for one in after
    )


def read_numbered(items: object, read: Callable[[Record], _One]) -> tuple[tuple[_One, ...], tuple[object, ...]]:
    """Read such a list: what is good of it, and what is damaged as it stands; of two with a number the second is.

    Args:
        items: the list of a JSON object
        read: reads one; it raises ValueError, KeyError or TypeError where it is none

    Raises:
        TypeError: it is no list.
    """
    found: dict[int, _One] = {}
    damaged: list[object] = []
    for item in list_of(items):
        try:
            one = read(record_of(item))
            if one.number in found:
                raise ValueError("two have the same number")
            found[one.number] = one
        except (ValueError, KeyError, TypeError):
            damaged.append(item)
    return tuple(found.values()), tuple(damaged)

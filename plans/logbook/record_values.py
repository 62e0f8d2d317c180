"""Values of a JSON object that the logbook reads: each is what it should be, or refused."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite
from typing import Any

Record = dict[str, Any]
"""A JSON object, units in the key names."""


def list_of(value: object) -> Iterable[Any]:
    """A list.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(value, list):
        raise TypeError("a list was expected")
    return value


def text_of(value: object) -> str:
    """A text.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(value, str):
        raise TypeError("a text was expected")
    return value


def number_of(value: object) -> float:
    """A finite number.

    Raises:
        TypeError, ValueError: it is none.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError("a number was expected")
    if not isfinite(value):
        raise ValueError("a finite number was expected")
    return float(value)


def maybe_number(value: object) -> float | None:
    """A finite number, or None for null.

    Raises:
        TypeError, ValueError: it is neither.
    """
    return None if value is None else number_of(value)


def count_of(value: object, least: int = 1) -> int:
    """A whole number from `least` on.

    Raises:
        TypeError, ValueError: it is none.
    """
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError("a whole number was expected")
    if value < least:
        raise ValueError(f"a number from {least} on was expected")
    return value


def step_of(value: object) -> int:
    """The number of a step, from 0: JSON counts from 1.

    Raises:
        TypeError, ValueError: it is none.
    """
    return count_of(value) - 1

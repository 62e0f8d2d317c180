"""Values of a JSON object that is read: each is of its type and in its range, or refused.

Nothing beyond these ranges gets from a file into the program, so that nothing in it can take for ever or overflow.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any, Final

Record = dict[str, Any]
"""A JSON object, units in the key names."""

LATEST: Final = 1e9
"""No moment of a sitting is later, whatever breaks it had: thirty years after it began [s]."""
HOTTEST: Final = 1e6
"""No temperature that is kept is further from zero: a probe may say nonsense, but not any nonsense [degC]."""
MOST_STEPS: Final = 1000
"""No plan has so many steps."""
MOST_HEATS: Final = 10_000
"""No step has so many heats, however often one more is asked for."""
MOST_OF_ALL: Final = 10_000_000
"""No sitting has so many of anything: readings, heats, calls."""
_EARLIEST_DAY = datetime(1970, 1, 1, tzinfo=UTC)
_LATEST_DAY = datetime(3000, 1, 1, tzinfo=UTC)


def list_of(value: object) -> list[Any]:
    """A list.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(value, list):
        raise TypeError("a list was expected")
    return value


def records_of(value: object) -> list[Record]:
    """A list of objects.

    Raises:
        TypeError: it is none.
    """
    return [record_of(item) for item in list_of(value)]


def record_of(value: object) -> Record:
    """An object.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(value, dict):
        raise TypeError("an object was expected")
    return value


def text_of(value: object) -> str:
    """A text.

    Raises:
        TypeError: it is none.
    """
    if not isinstance(value, str):
        raise TypeError("a text was expected")
    return value


def switch_of(value: object) -> bool:
    """True or false.

    Raises:
        TypeError: it is neither.
    """
    if not isinstance(value, bool):
        raise TypeError("true or false was expected")
    return value


def number_of(value: object, least: float, most: float) -> float:
    """A number from `least` to `most`, both of them in.

    Raises:
        TypeError, ValueError: it is none.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError("a number was expected")
    if not least <= value <= most:  # no NaN is
        raise ValueError(f"a number from {least:g} to {most:g} was expected")
    return float(value)


def maybe_number(value: object, least: float, most: float) -> float | None:
    """A number from `least` to `most`, or None for null.

    Raises:
        TypeError, ValueError: it is neither.
    """
    return None if value is None else number_of(value, least, most)


def seconds_of(value: object) -> float:
    """A moment or a time [s], from 0 to `LATEST`.

    Raises:
        TypeError, ValueError: it is none.
    """
    return number_of(value, 0.0, LATEST)


def maybe_seconds(value: object) -> float | None:
    """A moment or a time [s], from 0 to `LATEST`, or None for null.

    Raises:
        TypeError, ValueError: it is neither.
    """
    return None if value is None else seconds_of(value)


def maybe_celsius(value: object) -> float | None:
    """A temperature [degC], or None for null.

    Raises:
        TypeError, ValueError: it is neither.
    """
    return None if value is None else number_of(value, -HOTTEST, HOTTEST)


def count_of(value: object, least: int, most: int) -> int:
    """A whole number from `least` to `most`, both of them in.

    Raises:
        TypeError, ValueError: it is none.
    """
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError("a whole number was expected")
    if not least <= value <= most:
        raise ValueError(f"a whole number from {least} to {most} was expected")
    return value


def step_of(value: object) -> int:
    """The number of a step, from 0: JSON counts from 1.

    Raises:
        TypeError, ValueError: it is none.
    """
    return count_of(value, 1, MOST_STEPS) - 1


def heat_of(value: object) -> int:
    """The number of a heat, from 1.

    Raises:
        TypeError, ValueError: it is none.
    """
    return count_of(value, 1, MOST_HEATS)


def moment_of(value: object) -> datetime:
    """A wall time with its offset, from ISO 8601, whatever the year: see `check_year`.

    Raises:
        TypeError, ValueError: it is none.
    """
    moment = datetime.fromisoformat(text_of(value))
    if moment.tzinfo is None:
        raise ValueError("a time without its offset")
    return moment


def maybe_moment(value: object) -> datetime | None:
    """A wall time between the years 1970 and 3000, or none.

    Raises:
        TypeError, ValueError: it is neither.
    """
    return None if value is None else check_year(moment_of(value))


def maybe_stamp(moment: datetime | None) -> str | None:
    """A wall time as files have it, to the second, or none."""
    return None if moment is None else moment.isoformat(timespec="seconds")


def check_year(moment: datetime) -> datetime:
    """Hand a wall time back that lies between the years 1970 and 3000.

    Raises:
        ValueError: it does not.
    """
    if not _EARLIEST_DAY <= moment < _LATEST_DAY:
        raise ValueError("a time between the years 1970 and 3000 was expected")
    return moment

"""Files of the logbook: what is damaged is set aside, what goes is gone for good, and JSON is strict."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any, Final, NoReturn

from plans.writing import sync_folder

UNREADABLE: Final = (ValueError, TypeError, AttributeError, KeyError, IndexError, OverflowError, RecursionError)
"""What reading a corrupt file raises, here and in TinyDB; decoding errors of JSON and UTF-8 are ValueErrors."""


def _refuse(constant: str) -> NoReturn:
    raise ValueError(f"{constant} is no JSON number")


strict_json: Final = json.JSONDecoder(parse_constant=_refuse)
"""Reads JSON as the standard has it: no NaN, no Infinity."""


def numbered(path: Path) -> Iterator[Path]:
    """Names for a file that must not take the place of another: `x.bad`, `x.2.bad`, `x.3.bad` ..."""
    yield path
    for number in count(2):
        yield path.with_name(f"{path.stem}.{number}{path.suffix}")


def remove(path: Path) -> None:
    """Remove a file for good; one that is gone already is no error.

    Raises:
        OSError: it could not be removed.
    """
    path.unlink(missing_ok=True)
    sync_folder(path.parent)


def set_aside(path: Path) -> Path:
    """Rename a file that can't be read to `.bad`, `.2.bad` ... so that nothing is lost and nothing is in the way.

    Raises:
        OSError: it could not be renamed.
    """
    aside = next(free for free in numbered(path.with_name(f"{path.name}.bad")) if not os.path.lexists(free))
    path.rename(aside)
    sync_folder(path.parent)
    return aside


def to_json(value: Any) -> bytes:
    """Compact JSON on one line, in ASCII, so that any text survives, halves of characters included.

    Raises:
        ValueError, TypeError: a NaN, an infinity, or something that JSON does not have.
    """
    return json.dumps(value, allow_nan=False, separators=(",", ":")).encode("ascii")

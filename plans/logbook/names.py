"""What sittings are called: `20261125-091502-drawknife`, the local time and the plan."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from datetime import datetime
from typing import Final

from plans.logbook.errors import LogbookError, shown

LAST: Final = "last"
"""What may be typed in place of the id of the newest sitting."""
_ID: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,99}")
_STARTED: Final = re.compile(r"\d{8}-\d{6}-")
_LIST: Final = "`heatbook log list` shows them"


def is_id(text: str) -> bool:
    """Whether a text can be the id of a sitting; one that can is safe as the name of a file."""
    return _ID.fullmatch(text) is not None


def second_copy_of(name: str) -> str:
    """The id that a file's name begins with, where more stands between that and its ending: `ID (conflict).json`,
    `ID.sync-conflict-20260314.json`; empty where nothing more does."""
    found = _ID.match(name)
    return "" if found is None or is_id(name.rpartition(".")[0]) else found[0]


def longer_ids(ids: Collection[str]) -> Iterator[tuple[str, str]]:
    """The ids that begin with another of them and go on with more than a number, which tells two of one second
    apart: `ID-LAPTOP`. Each with that other."""
    begins: list[str] = []
    for name in sorted(ids):  # all that begin with an id stand behind it, before any other
        while begins and not name.startswith(begins[-1]):
            begins.pop()
        for one in begins:
            more = name[len(one) :]
            if more.startswith("-") and not more[1:].isdecimal():
                yield name, one
        begins.append(name)


def new_id(plan: str, started: datetime, taken: Collection[str]) -> str:
    """An id for a sitting of the plan with this name, different from all that are taken."""
    base = f"{started:%Y%m%d-%H%M%S}-{_slug(plan)}"
    name, number = base, 2
    while name in taken:
        name, number = f"{base}-{number}", number + 1
    return name


def plan_in(name: str) -> str:
    """What the id of a sitting has of the name of its plan: small letters of ASCII, digits and hyphens."""
    return _STARTED.sub("", name)


def _slug(plan: str) -> str:
    plain = unicodedata.normalize("NFKD", plan).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].rstrip("-") or "plan"


def pick(text: str, ids: Iterable[str], listed: str = _LIST) -> str:
    """The id that a person means: the whole of it, a beginning that only one has, or `last`.

    Args:
        text: what was typed.
        ids: all ids, the newest first.
        listed: what shows them, for the error.

    Raises:
        LogbookError: none is meant, or more than one.
    """
    known = list(ids)
    if not known:
        raise LogbookError("the logbook has no sittings yet; `heatbook run PLAN` begins one")
    if text == LAST:
        return known[0]
    if text in known:
        return text
    if not is_id(text):
        raise LogbookError(f"{shown(text)!r} is no id of a sitting; {listed}")
    meant = [name for name in known if name.startswith(text)]
    if not meant:
        raise LogbookError(f"there is no sitting {text!r}; {listed}")
    if len(meant) > 1:
        some = ", ".join(meant[:3]) + (" ..." if len(meant) > 3 else "")
        raise LogbookError(f"{text!r} can mean {len(meant)} sittings ({some}); type more of it")
    return meant[0]

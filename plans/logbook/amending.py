"""What is said of a sitting when it is over, however much later: written into its file, and its log stays as it is."""

from __future__ import annotations

from collections.abc import Callable

from plans.logbook.errors import LogbookError, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.store import Store


def amend(store: Store, name: str, change: Callable[[KeptSitting], KeptSitting]) -> KeptSitting:
    """Change what is said of a sitting that has been put away.

    Args:
        store: the files of the logbook
        name: the sitting's id
        change: makes the sitting as it is to be of the one that is kept; it may refuse by a `LogbookError`

    Returns:
        the sitting as it is kept now

    Raises:
        LogbookError: it is running or was cut off, can't be read or written, or another heatbook writes.
    """
    with store.writing():
        if store.path(name, JOURNAL).exists():
            raise LogbookError(f"sitting {name} is not over: it runs, or was cut off and is not put away yet")
        kept = store.read(name)
        if kept.unread:
            where = shown(store.path(name, SITTING))
            raise LogbookError(
                f"what was said of sitting {name} can't be read ({kept.unread}), and is not written over; "
                f"mend it in {where}, or put a copy of yours in its place"
            )
        kept = change(kept)
        store.write(kept)
    return kept

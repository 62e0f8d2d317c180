"""Whether the file of a sitting can be read whole, and if not, why: for whoever hands it on, not shows it."""

from __future__ import annotations

from enum import Enum, auto
from pathlib import Path

from plans.logbook.disk import UNREADABLE
from plans.logbook.header import NewerFormat
from plans.logbook.sitting_files import read_sitting


class Unread(Enum):
    """Why the file of a sitting can't be read."""

    DAMAGED = auto()
    """It is not what was written."""
    NEWER = auto()
    """A newer heatbook wrote it."""


def why_unread(path: Path) -> Unread | None:
    """Read the file of a sitting whole, as whoever opens it does.

    Returns:
        why it can't be read; None where it can

    Raises:
        OSError: it can't be opened, or is no ordinary file.
    """
    try:
        read_sitting(path)
    except NewerFormat:
        return Unread.NEWER
    except UNREADABLE:
        return Unread.DAMAGED
    return None

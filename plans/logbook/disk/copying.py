"""Telling a file that is damaged from one that is still being copied, as by a synchronizer: it is cut short so far."""

from __future__ import annotations

import re
import time
from contextlib import suppress
from pathlib import Path
from typing import Final

from plans.logbook.errors import CopyingError, shown
from plans.regular import open_regular

_JUST_NOW: Final = 90.0
"""A file that nobody has written for so long is not being copied any more [s]."""
_HEAD: Final = 65536
"""Bytes in which a file says which sitting's it is: only the text of a plan may be longer, and stands behind that."""
_STRING: Final = re.compile(rb'"(?:[^"\\]|\\.)*"', re.DOTALL)


def check_copied(path: Path) -> None:
    """Refuse a file of JSON that can't be read since it is still being copied.

    The clock decides together with what is in the file: what is whole and wrong is damaged, and so is what is cut short
    and has been so for a while.

    Args:
        path: of the file

    Raises:
        CopyingError: it is cut short and was written just now; nobody may move it or write it.
    """
    try:
        written = path.stat().st_mtime
        if abs(time.time() - written) > _JUST_NOW:
            return
        with open_regular(path) as file:
            data = file.read()
    except OSError:
        return  # whoever reads it says what is wrong
    if is_cut_short(data):
        raise CopyingError(
            f"{shown(path)} is still being copied: it is cut short, and was written just now; it is left alone, and "
            "read again next time"
        )


def is_copy_of(path: Path, name: str) -> bool:
    """Whether a file, that of a sitting or its journal, is by what stands in it that of another.

    Args:
        path: of the file
        name: the id of the other
    """
    with suppress(OSError), open_regular(path) as file:
        return f'"id":"{name}"'.encode("ascii") in file.read(_HEAD)
    return False


def is_cut_short(data: bytes) -> bool:
    """Whether JSON ends before it is whole: in a text, or with brackets that are open. Nothing at all does as well.

    Args:
        data: the text; zeros at its end, as of a file that is made as long as it will be, count as not there
    """
    bare = _STRING.sub(b"", data.rstrip(b"\0"))
    if not bare.strip():
        return True
    opened = bare.count(b"{") + bare.count(b"[")
    return b'"' in bare or opened > bare.count(b"}") + bare.count(b"]")

"""Lines of standard input, however long and in whatever pieces, in little memory."""

from __future__ import annotations

import os
from collections.abc import Iterator

from plans.record import record

_KEPT = 8192
"""So much of a line is kept, more than the longest note has [bytes]."""
_CONTINUING = bytes(range(0x80, 0xC0))
"""The bytes of UTF-8 that begin no character."""


@record
class Line:
    """A line as it was typed, without its end and the blanks around it."""

    text: str
    """Its beginning, which is all of it where `more` is 0; what is no UTF-8 is U+FFFD."""
    more: int = 0
    """How many characters it goes on for, which were not kept."""


def lines_in() -> Iterator[Line]:
    """The lines of standard input up to its end, each as soon as it has ended; empty ones are left out."""
    # Read from the descriptor: a thread that waits in sys.stdin makes the interpreter complain when it ends.
    kept, more = b"", 0
    while data := _read():
        *ended, begun = data.split(b"\n")
        for part in ended:
            kept, more = _longer(kept, more, part)
            yield from _line(kept, more)
            kept, more = b"", 0
        kept, more = _longer(kept, more, begun)
    yield from _line(kept, more)


def _longer(kept: bytes, more: int, part: bytes) -> tuple[bytes, int]:
    room = _KEPT - len(kept)
    return kept + part[:room], more + len(part[room:].translate(None, _CONTINUING))


def _line(kept: bytes, more: int) -> Iterator[Line]:
    if text := kept.decode("utf-8", "replace").strip():
        yield Line(text, more)


def _read() -> bytes:
    try:
        return os.read(0, 65_536)
    except OSError:
        return b""

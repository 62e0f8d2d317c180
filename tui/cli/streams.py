"""The standard streams: there whatever the shell did with them."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import BufferedWriter, RawIOBase, TextIOWrapper
from typing import Any, TextIO

OUTPUT = "standard output"
"""What a failed write to it names as its file."""


class _Output(RawIOBase):
    """Standard output below its buffer; what goes wrong there is told from what goes wrong with a file."""

    def __init__(self, raw: Any) -> None:
        self._raw = raw

    def writable(self) -> bool:
        return True

    def fileno(self) -> int:
        return int(self._raw.fileno())

    def isatty(self) -> bool:
        return bool(self._raw.isatty())

    def write(self, data: Any) -> int | None:
        try:
            written: int | None = self._raw.write(data)
        except OSError as error:
            error.filename = OUTPUT
            raise
        return written


def ready() -> None:
    """Make the standard streams fit to use: closed ones lead nowhere, no character is too much for output."""
    for number, name in enumerate(("stdin", "stdout", "stderr")):
        if getattr(sys, name) is None:
            setattr(sys, name, _nowhere(number))
    if isinstance(sys.stdout, TextIOWrapper) and sys.stdout is sys.__stdout__:
        # With a buffer, also where Python was told to have none: of what a disk takes only half of, half would be lost.
        by_line = sys.stdout.line_buffering or sys.stdout.write_through
        buffer = BufferedWriter(_Output(below_buffer(sys.stdout)))
        sys.stdout = TextIOWrapper(buffer, sys.stdout.encoding, line_buffering=by_line)
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def below_buffer(stream: TextIO) -> Any:
    """What is below Python's own buffer: a write that blocks there would keep that buffer locked to the end."""
    buffer: Any = stream.buffer
    return getattr(buffer, "raw", buffer)


def silence() -> None:
    """Lead standard output nowhere: whoever read it has gone, and Python is not to complain about it when it ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _nowhere(number: int) -> TextIOWrapper:
    """Nothing to read, and where nothing that is written goes; with the number of the stream, where that is free.

    Else the next file to be opened has it, and is read for the smith's words or written over.
    """
    nowhere = os.open(os.devnull, os.O_RDWR)
    try:
        os.fstat(number)
    except OSError:
        nowhere = os.dup2(nowhere, number)
    return open(nowhere, "w" if number else "r", encoding="utf-8")  # noqa: PTH123 - as long as the program runs

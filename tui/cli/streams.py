"""Standard output and error: there whatever the shell did with them."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import TextIOWrapper


def ready() -> None:
    """Make the standard streams fit to use: closed ones lead nowhere, no character is too much for output."""
    for number, name in enumerate(("stdin", "stdout", "stderr")):
        if getattr(sys, name) is None:
            setattr(sys, name, _nowhere(number))
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


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

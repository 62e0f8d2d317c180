"""Standard output and error: there whatever the shell did with them."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import TextIOWrapper


def ready() -> None:
    """Make standard output and error fit to write to: closed ones lead nowhere, no character is too much for them."""
    if sys.stdout is None:
        sys.stdout = _nowhere()
    if sys.stderr is None:
        sys.stderr = _nowhere()
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def silence() -> None:
    """Lead standard output nowhere: whoever read it has gone, and Python is not to complain about it when it ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _nowhere() -> TextIOWrapper:
    return open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123 - open for as long as the program runs

"""Where the program begins: the command that was asked for is imported, and nothing else, and answers."""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from typing import NoReturn

_YOUNG = 50_000
"""So many objects more are made before garbage is looked for. Python's own 700 has it look sixty times at what a start
loads, all of which stays: a tenth of the time until the screen can be used."""


def start() -> NoReturn:
    """Run heatbook as the program that it is, to the end of its process."""
    # Nothing is begun until all is loaded that says so in a line: till then, to be interrupted is to end.
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
    status = main()
    with suppress(OSError, ValueError):
        sys.stderr.flush()
    # All is put away and said. To take the interpreter apart as well takes ten times as long as leaving a screen.
    os._exit(status)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run heatbook.

    Args:
        arguments: the words after the program's name; None for those that it was started with

    Returns:
        the exit status: 0 done, 1 failed with a message on standard error, 2 wrong usage
    """
    gc.set_threshold(_YOUNG)
    from tui.cli.guard import guarded

    return guarded(lambda: _answer(sys.argv[1:] if arguments is None else arguments))


def _answer(words: Sequence[str]) -> int:
    if signal.getsignal(signal.SIGINT) is signal.SIG_DFL:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    from tui.cli.guard import interrupted_at_once

    with interrupted_at_once():
        from tui.cli.parser import build_parser

        chosen = build_parser(words).parse_args(words)
        command = import_module(f"tui.cli.commands.{chosen.module}")
    return int(command.run(chosen))

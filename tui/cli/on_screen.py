"""The door from the command line to the screen."""

from __future__ import annotations

import gc
import os
import sys

from tui.cli.guard import interrupted_at_once
from tui.config import user_folders
from tui.running import First
from tui.terminal import end_within

_GRACE = 1.5
"""A terminal may stop reading just when this is said to it; the log has been put away, and it is not waited for [s]."""
_UNHEARD = 0.5
"""One that did not read before gets less [s]."""
_FRAMES = "200"
"""At most so many frames a second, none without a change: of the 60 that Textual makes of itself, a key that comes just
after one waits for the next, a twentieth of the time until the first screen can be used."""


def show(first: First, otherwise: str = "heatbook run PLAN --no-screen") -> int:
    """Run the screen; what is to be said about it comes when the terminal is restored.

    Args:
        first: what it opens
        otherwise: the command that does as much without a terminal

    Returns:
        the exit status: 0 done, 1 failed or no terminal
    """
    where = {"standard input": sys.stdin, "standard error": sys.stderr}
    if missing := [name for name, stream in where.items() if not stream.isatty()]:
        needs = f"the screen needs a terminal, and {' and '.join(missing)} {'are' if len(missing) > 1 else 'is'} none"
        print(f"heatbook: {needs}; without a screen: {otherwise}", file=sys.stderr)
        return 1
    # What is loaded and made until the screen stands there stays: no garbage is looked for among it, then or later.
    gc.disable()
    os.environ.setdefault("TEXTUAL_FPS", _FRAMES)
    # As soon as it listens to its terminal, the app hears of interruptions itself.
    with interrupted_at_once():
        from tui.app import HeatbookApp

        app = HeatbookApp(user_folders(), first, opened=_tidy_from_now_on)
        app.run()
    end_within(_UNHEARD if app.unheard else _GRACE, app.outcome.status)
    for line in app.outcome.said:
        print(line)
    for line in app.outcome.errors:
        print(f"heatbook: {line}", file=sys.stderr)
    return app.outcome.status


def _tidy_from_now_on() -> None:
    gc.freeze()
    gc.enable()

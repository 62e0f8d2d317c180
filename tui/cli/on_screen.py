"""The door from the command line to the screen."""

from __future__ import annotations

import sys

from tui.app import HeatbookApp
from tui.config import user_folders
from tui.running import First, end_within

_GRACE = 0.5
"""A terminal that does not read keeps what is said to it from being written; longer than this it is not tried [s]."""


def show(first: First) -> int:
    """Run the screen; what is to be said about it comes when the terminal is restored.

    Args:
        first: what it opens

    Returns:
        the exit status: 0 done, 1 failed or no terminal
    """
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        print("heatbook: the screen needs a terminal; without one: heatbook run PLAN --no-screen", file=sys.stderr)
        return 1
    app = HeatbookApp(user_folders(), first)
    app.run()
    if app.unheard:
        end_within(_GRACE, app.outcome.status)
    for line in app.outcome.said:
        print(line)
    for line in app.outcome.errors:
        print(f"heatbook: {line}", file=sys.stderr)
    return app.outcome.status

"""`heatbook demo`: the main job on a simulated forge."""

from __future__ import annotations

import argparse
import json
from contextlib import closing
from datetime import datetime

from tui.config import UsageError, user_folders
from tui.running import plan_called, rehearsal_of

_ON_SCREEN = 10.0
"""Rehearsal seconds in one second, where nothing else is said."""


def run(chosen: argparse.Namespace) -> int:
    """Rehearse a plan, on the screen or unattended.

    Returns:
        the exit status: 0 done, 1 where an unattended rehearsal was ended before its plan was

    Raises:
        UsageError: options that don't go together.
        PlansError, DeviceError, OSError: it can't be rehearsed.
    """
    if chosen.json and not chosen.unattended:
        raise UsageError("--json goes with --unattended")
    return _unattended(chosen) if chosen.unattended else _on_screen(chosen)


def _unattended(chosen: argparse.Namespace) -> int:
    from plans.logbook import outline, shown
    from tui.cli.lines_in import Line
    from tui.cli.sitting_text import sitting_text
    from tui.cli.without_screen import Leave, WordsFrom, follow
    from tui.config import read_settings
    from tui.running import Inbox, begin_sitting, open_logbook
    from tui.terminal import told_to_end

    places = user_folders()
    logbook = open_logbook(places.rehearsals).logbook
    inbox: Inbox[Line | Leave] = Inbox()
    request = rehearsal_of(lambda: plan_called(chosen.plan), chosen.seed, chosen.speed, attended=False)
    settings, _ = read_settings(places.configuration)
    with closing(logbook):
        running = begin_sitting(request, logbook, settings, places.shop, inbox.put, lambda: datetime.now().astimezone())
        with told_to_end(lambda: inbox.put_first(Leave())):
            try:
                follow(running, inbox, None, WordsFrom.SOURCE)
            finally:
                running.put_away()
        kept = logbook.load(running.id)
    if chosen.json:
        print(json.dumps(outline(kept), indent=2))
    else:
        print(sitting_text(kept, settings.units))
        print(f"\nA rehearsal, kept apart from your log in {shown(places.rehearsals)}: heatbook log --rehearsals")
    return 0 if running.sitting.state.finished else 1


def _on_screen(chosen: argparse.Namespace) -> int:
    from tui.cli.on_screen import show

    return show(rehearsal_of(lambda: plan_called(chosen.plan), chosen.seed, chosen.speed or _ON_SCREEN))

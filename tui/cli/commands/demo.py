"""`heatbook demo`: the main job on a simulated forge."""

from __future__ import annotations

import argparse
import json
from contextlib import closing
from datetime import datetime
from queue import SimpleQueue

from tui.config.errors import UsageError
from tui.config.folders import folders

_ON_SCREEN = 10.0
"""Rehearsal seconds in one second, where nothing else is said."""


def run(chosen: argparse.Namespace) -> int:
    """Rehearse."""
    if chosen.json and not chosen.unattended:
        raise UsageError("--json goes with --unattended")
    return _unattended(chosen) if chosen.unattended else _on_screen(chosen)


def _unattended(chosen: argparse.Namespace) -> int:
    from plans.logbook.book import Logbook
    from plans.logbook.logged_sitting import LoggedSitting, work_out
    from plans.reader import find_plan
    from plans.reading import ProbeOn
    from tui.cli.set_units import set_units
    from tui.cli.sitting_text import sitting_text
    from tui.cli.without_screen import Inbox, follow
    from tui.running.sources import RehearsalSource

    places = folders()
    plan = find_plan(chosen.plan, places.plans)
    logbook = Logbook(places.logbook)
    logbook.recover(work_out)
    source = RehearsalSource(plan, chosen.seed, chosen.speed)
    inbox: Inbox = SimpleQueue()
    source.start(inbox.put)
    with closing(source), closing(logbook):
        running = LoggedSitting.begin(
            logbook,
            plan,
            datetime.now().astimezone(),
            ProbeOn.WORK,
            profile=source.profile.name,
            port=source.rehearsal.port,
            seed=chosen.seed,
        )
        try:
            follow(running, source, inbox, report=None, listen=False)
        finally:
            running.put_away()
        kept = logbook.load(running.id)
    print(json.dumps(kept.outline(), indent=2) if chosen.json else sitting_text(kept, set_units()))
    return 0 if running.sitting.state.finished else 1


def _on_screen(chosen: argparse.Namespace) -> int:
    from tui.cli.on_screen import rehearse

    return rehearse(chosen.plan, chosen.seed, chosen.speed or _ON_SCREEN)

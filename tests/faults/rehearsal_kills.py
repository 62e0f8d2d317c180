"""The whole program on the simulated forge, killed with no warning at any moment and brought back."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting, work_out
from tests.faults.told import Told, from_first_word, kept_in, told_in

TELLING = """
import sys
from datetime import datetime
from pathlib import Path
from tui.cli.report import Report
from tui.cli.without_screen import WordsFrom, follow
from tui.config.settings import Settings
from tui.running.begin import begin_sitting
from tui.running.inbox import Inbox
from tui.running.loading import open_logbook
from tui.running.requests import plan_called, rehearsal_of

logbook, inbox = open_logbook(Path(sys.argv[1])).logbook, Inbox()
request = rehearsal_of(lambda: plan_called("drawknife"), 5, None)
now, shop = lambda: datetime.now().astimezone(), Path(sys.argv[1]) / "shop.toml"
running = begin_sitting(request, logbook, Settings(), shop, inbox.put, now)
report = Report(as_json=True)
for event in running.logged.begun_with:
    report.event(event, running.sitting)
follow(running, inbox, report, WordsFrom.SOURCE)
running.source.close()
"""
"""A rehearsal that says each event as soon as it is logged."""


def killed_while_rehearsing(folder: Path, kills: int, seed: int = 0) -> Iterator[str | None]:
    """Kill a rehearsal when it has told a random number of events, each time in a logbook of its own.

    Stronger than what is promised: not a second is lost of what was said, let alone of what is older.

    Args:
        folder: an empty one
        kills: how often
        seed: of the moments

    Yields:
        For each kill what was wrong afterwards, or None.
    """
    chance = Random(seed)
    for kill in range(kills):
        logbook = folder / f"logbook{kill}"
        process = subprocess.Popen([sys.executable, "-c", TELLING, str(logbook)], stdout=subprocess.PIPE, text=True)
        assert process.stdout
        lines = [process.stdout.readline() for _ in range(chance.randrange(20, 90))]
        process.kill()
        lines += process.communicate()[0].splitlines(keepends=True)
        wrong = _wrong(logbook, told_in(lines))
        yield f"kill {kill} of seed {seed}: {'; '.join(wrong)}" if wrong else None


def _wrong(folder: Path, told: Told) -> list[str]:
    """Hold a logbook against what was told before the kill."""
    logbook = Logbook(folder)
    found = logbook.recover(work_out)
    if (len(found), found[0].damage, logbook.messages) != (1, (), []):
        return [f"brought back {len(found)} sittings, damage {found[0].damage}, {logbook.messages}"]
    kept = logbook.load("last")
    back = kept_in(kept.log)
    events, kept_events = from_first_word(told), from_first_word(back)
    wrong = []
    if kept_events[: len(events)] != events:
        wrong.append("other events than were told")
    if len(kept_events) - len(events) > 3:
        wrong.append(f"{len(kept_events) - len(events)} events more than what was logged and not yet told")
    if found[0].summary.state.value == "unfinished":
        running = LoggedSitting.go_on(logbook, kept.header.id, kept.header.wall_time(kept.log.last_at))
        if running.sitting.state.last_begun.at > kept.log.last_at:
            wrong.append("gone on with, it is later than its log")
        if len(running.sitting.state.calls) != sum(event["event"] == "call" for event in back):
            wrong.append("gone on with, it has other calls")
    logbook.close()
    return wrong

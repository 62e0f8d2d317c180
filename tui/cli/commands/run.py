"""`heatbook run`: follow a plan, with or without a screen, a probe, or a recording."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from datetime import datetime
from itertools import chain
from pathlib import Path
from queue import SimpleQueue
from typing import TYPE_CHECKING

from plans.reading import ProbeOn, Reading
from plans.sitting.hands import Hands, HandsFree
from plans.text import printable
from tui.config.errors import UsageError
from tui.config.folders import Folders, folders
from tui.config.shop_file import shop_of

if TYPE_CHECKING:
    from devices.recording import Entry
    from plans.logbook.book import Logbook
    from plans.logbook.logged_sitting import LoggedSitting
    from tui.cli.report import Report
    from tui.config.settings import Settings
    from tui.running.sound import Aloud

PROFILE = "bare-celsius"


def run(chosen: argparse.Namespace) -> int:
    """Follow a plan."""
    _check(chosen)
    return _without_screen(chosen) if chosen.no_screen or chosen.readings else _on_screen(chosen)


def _check(chosen: argparse.Namespace) -> None:
    """Refuse options that don't go together.

    Raises:
        UsageError: they don't.
    """
    if bool(chosen.plan) == bool(chosen.go_on):
        raise UsageError("name a plan, or a sitting to go on with: heatbook run PLAN, or heatbook run --go-on ID")
    if chosen.port and chosen.readings:
        raise UsageError("--port and --readings: the readings come from a probe or from a recording, not from both")
    if chosen.readings and chosen.go_on:
        raise UsageError("--readings and --go-on: a recording is a sitting of its own; name a plan")
    if not (chosen.port or chosen.readings) and (chosen.probe or chosen.probe_on):
        raise UsageError("--probe and --probe-on need --port, which says where the probe is plugged in")
    if chosen.probe and chosen.readings:
        raise UsageError("--probe and --readings: a recording needs no profile")
    if chosen.aloud and (chosen.readings or not chosen.no_screen):
        raise UsageError("--aloud goes with --no-screen; on the screen, calls are spoken as the settings have it")
    if chosen.json and not (chosen.no_screen or chosen.readings):
        raise UsageError("--json goes with --no-screen or --readings")


def _without_screen(chosen: argparse.Namespace) -> int:
    from plans.logbook.book import Logbook
    from plans.logbook.logged_sitting import work_out
    from tui.cli.report import Report

    places = folders()
    settings = _settings(places)
    report = Report(chosen.json, settings.units)
    logbook = Logbook(places.logbook)
    try:
        for found in logbook.recover(work_out):
            report.recovered(found.summary)
        for message in logbook.messages:
            report.trouble(0.0, message)
        if chosen.readings:
            _play(chosen, logbook, places, settings, report)
        else:
            _follow(chosen, logbook, places, settings, report)
    finally:
        logbook.close()
    return 0


def _play(chosen: argparse.Namespace, logbook: Logbook, places: Folders, settings: Settings, report: Report) -> None:
    from devices.recording import read_recording
    from plans.logbook.logged_sitting import LoggedSitting
    from plans.reader import find_plan
    from tui.cli.without_screen import play

    plan = find_plan(chosen.plan, places.plans)
    path = Path(chosen.readings)
    for _ in read_recording(path):
        pass  # a row that is wrong is found out before there is a sitting
    has_probe, entries = _look_ahead(read_recording(path))
    probe_on = ProbeOn(chosen.probe_on or "work") if has_probe else None
    hands, shop = _hands(chosen, settings), shop_of(places.shop)
    running = LoggedSitting.begin(logbook, plan, _now(), probe_on, hands, shop, port=chosen.readings)
    with _put_away(running, report):
        play(running, entries, report)


def _look_ahead(entries: Iterator[Entry]) -> tuple[bool, Iterator[Entry]]:
    """Whether a recording has readings; one that has only words is of a sitting without a probe.

    Returns:
        with that the whole recording again; no more of it was read than up to the first reading
    """
    ahead: list[Entry] = []
    for entry in entries:
        ahead.append(entry)
        if isinstance(entry, Reading):
            return True, chain(ahead, entries)
    return False, iter(ahead)


def _follow(chosen: argparse.Namespace, logbook: Logbook, places: Folders, settings: Settings, report: Report) -> None:
    from devices.clock import through_sleep
    from devices.profile_reader import find_profile
    from plans.logbook.logged_sitting import LoggedSitting
    from plans.reader import find_plan
    from tui.cli.without_screen import Inbox, follow
    from tui.running.pedal import stand
    from tui.running.sources import ClockSource, ProbeSource

    plan = find_plan(chosen.plan, places.plans) if chosen.plan else None
    profile = find_profile(chosen.probe or PROFILE, places.probes) if chosen.port else None
    clock = through_sleep()
    source = ProbeSource(clock, chosen.port, profile) if profile else ClockSource(clock)
    inbox: Inbox = SimpleQueue()
    hands = _hands(chosen, settings)
    probe_on = ProbeOn(chosen.probe_on or "work") if profile else None
    aloud = _voice(settings) if chosen.aloud else None
    with ExitStack() as stack:
        stack.callback(source.close)
        stack.callback(stand(settings.pedal, source, inbox.put))
        if aloud is not None:
            stack.callback(aloud.close)
        if plan:
            # A port that can't be opened is found out before there is a sitting.
            source.start(inbox.put)
            name = profile.name if profile else ""
            running = LoggedSitting.begin(
                logbook, plan, _now(), probe_on, hands, shop_of(places.shop), profile=name, port=chosen.port or ""
            )
            source.set_time(running.sitting.now)
            with _put_away(running, report):
                follow(running, source, inbox, report, listen=True, alone=bool(profile), aloud=aloud)
            return
        running = LoggedSitting.go_on(logbook, chosen.go_on, _now(), probe_on, hands)
        with _put_away(running, report):
            # The clock first: to a link that is open already, the break would be a silence.
            source.set_time(running.sitting.now)
            source.start(inbox.put)
            follow(running, source, inbox, report, listen=True, alone=bool(profile), aloud=aloud)


@contextmanager
def _put_away(running: LoggedSitting, report: Report) -> Iterator[None]:
    """Whatever happens within, the sitting ends up in the logbook."""
    report.opening(running.sitting, running.id)
    try:
        yield
    finally:
        summary = running.put_away()
        report.closing(running.sitting.now, summary.id, summary.state.value)


def _settings(places: Folders) -> Settings:
    from tui.config.settings_reader import read_settings

    settings, wrong = read_settings(places.configuration)
    for line in wrong:
        print(f"heatbook: {printable(line)}", file=sys.stderr)
    return settings


def _hands(chosen: argparse.Namespace, settings: Settings) -> Hands:
    """The setting, or what the command line says instead."""
    hands = settings.hands
    return replace(hands, free=HandsFree(chosen.hands_free)) if chosen.hands_free else hands


def _voice(settings: Settings) -> Aloud:
    """Without a screen there is no bell: only the voice.

    Raises:
        DeviceError: there is no speech command.
    """
    from devices.errors import DeviceError
    from devices.voice import Voice, find_command
    from plans.sitting.spoken.saying import Volume
    from tui.running.sound import Aloud

    command = find_command(settings.speech)
    if not command:
        do = 'Install one, such as espeak-ng, or name yours in the settings: speech = "...".'
        raise DeviceError("--aloud", "no speech command was found on this machine", do)
    return Aloud(None, Voice(command), settings.talk or Volume.NORMAL, settings.units)


def _now() -> datetime:
    return datetime.now().astimezone()


def _on_screen(chosen: argparse.Namespace) -> int:
    from tui.cli.on_screen import follow_plan

    return follow_plan(
        plan=chosen.plan,
        go_on=chosen.go_on,
        port=chosen.port,
        profile=chosen.probe or PROFILE,
        probe_on=ProbeOn(chosen.probe_on or "work") if chosen.port else None,
        hands_free=chosen.hands_free,
    )

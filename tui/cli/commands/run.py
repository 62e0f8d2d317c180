"""`heatbook run`: follow a plan, with or without a screen, a probe, or a recording."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from plans.reading import ProbeOn
from plans.sitting import HandsFree
from tui.config import PROFILE, ProbeSetting, UsageError, user_folders
from tui.running import RunRequest, going_on, plan_called, recording_of, sitting_of

if TYPE_CHECKING:
    from tui.cli.outlet import Outlet
    from tui.cli.report import Report
    from tui.running import RunningSitting


def run(chosen: argparse.Namespace) -> int:
    """Follow a plan, or go on with a sitting.

    Returns:
        the exit status

    Raises:
        UsageError: options that don't go together.
        PlansError, DeviceError, OSError: it can't begin, or the log could not be put away.
    """
    _check(chosen)
    if chosen.no_screen or chosen.readings:
        return _without_screen(chosen)
    from tui.cli.on_screen import show

    return show(_request(chosen))


def _check(chosen: argparse.Namespace) -> None:
    """Refuse options that don't go together.

    Raises:
        UsageError: they don't.
    """
    if chosen.plan and chosen.go_on:
        raise UsageError(
            f"{chosen.plan} and --go-on {chosen.go_on}: a sitting that is gone on with has its plan already; "
            "leave out one of the two"
        )
    if not (chosen.plan or chosen.go_on):
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


def _request(chosen: argparse.Namespace) -> RunRequest:
    """A sitting with the probe that the options name, or only the clock."""
    probe = None
    if chosen.port:
        probe = ProbeSetting(chosen.port, chosen.probe or PROFILE, _probe_on(chosen))
    if chosen.go_on:
        return going_on(chosen.go_on, probe, _hands_free(chosen))
    return sitting_of(lambda: plan_called(chosen.plan), probe, _hands_free(chosen))


def _probe_on(chosen: argparse.Namespace) -> ProbeOn:
    return ProbeOn(chosen.probe_on or "work")


def _hands_free(chosen: argparse.Namespace) -> HandsFree | None:
    return HandsFree(chosen.hands_free) if chosen.hands_free else None


def _without_screen(chosen: argparse.Namespace) -> int:
    from tui.cli.lines_in import Line
    from tui.cli.outlet import Outlet
    from tui.cli.own_files import settings_in, shop_in
    from tui.cli.report import Report
    from tui.cli.without_screen import Leave, WordsFrom, follow, play
    from tui.running import Inbox, RecordingSource, begin_sitting, left_of, news_of, open_logbook, voice_alone
    from tui.terminal import interrupt

    places = user_folders()
    settings = settings_in(places)
    shop_in(places)  # it is read again, without a word, where the sitting begins
    outlet = Outlet(patient=bool(chosen.readings))
    report = Report(chosen.json, settings.units, outlet.line)
    opened = open_logbook(places.logbook, chosen.go_on)
    inbox: Inbox[Line | Leave] = Inbox()
    with ExitStack() as stack:
        logbook = stack.enter_context(closing(opened.logbook))
        stack.enter_context(outlet)
        for summary in opened.cut_off:
            report.recovered(summary)
        for message in opened.messages:
            report.trouble(0.0, message)
        aloud = stack.enter_context(closing(voice_alone(settings))) if chosen.aloud else None
        recording = RecordingSource(Path(chosen.readings)) if chosen.readings else None
        if recording is None:
            request = _request(chosen)
            left = left_of(logbook, request.plan().name) if request.plan else None
            if left is not None and all(one.id != left.id for one in opened.cut_off):
                report.left(left)
        else:
            plan = plan_called(chosen.plan)
            request = recording_of(lambda: plan, recording, _probe_on(chosen), _hands_free(chosen))
        running = begin_sitting(request, logbook, settings, places.shop, inbox.put, lambda: datetime.now().astimezone())
        leave = interrupt if recording else (lambda: inbox.put_first(Leave()))
        with _put_away(running, report, outlet, leave):
            if recording is None:
                follow(running, inbox, report, WordsFrom.LINES_OR_PROBE if chosen.port else WordsFrom.LINES, aloud)
            else:
                play(running, recording.entries(), report)
                if recording.unread:
                    report.trouble(running.sitting.now, recording.unread)
        for message in news_of(logbook):
            report.trouble(running.sitting.now, message)
    return int(outlet.failed)


@contextmanager
def _put_away(running: RunningSitting, report: Report, outlet: Outlet, leave: Callable[[], None]) -> Iterator[None]:
    """Whatever happens within, the sitting ends up in the logbook, heard of or not; told to end, `leave` is called."""
    from tui.terminal import told_to_end

    with told_to_end(leave) as nothing_to_leave:
        try:
            report.opening(running.sitting, running.id, running.logged.lessons)
            yield
        finally:
            nothing_to_leave()
            outlet.patient = False
            summary = running.put_away()
            report.closing(running.sitting.now, summary)

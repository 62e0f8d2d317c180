"""What is read in a thread once the screen has shown itself. The imports that take long are all behind this module."""

from __future__ import annotations

import os
from contextlib import ExitStack
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from devices.errors import DeviceError
from devices.voice import find_command
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.kept_sitting import Summary
from plans.logbook.logged_sitting import LoggedSitting, work_out
from plans.reader import ShelfPlan, shelf_plans
from plans.shop import Shop
from plans.sitting.hands import Hands, HandsFree
from tui.config.folders import Folders
from tui.config.settings import PedalSetting, Settings
from tui.config.settings_reader import read_settings
from tui.config.shop_file import read_shop
from tui.running.attending import Attending
from tui.running.pedal import stand
from tui.running.requests import RunRequest
from tui.running.sources import Deliver


@dataclass(frozen=True, slots=True)
class Loaded:
    """What every screen needs."""

    settings: Settings
    logbook: Logbook
    speech: tuple[str, ...]
    """The command that speaks; empty where there is none."""
    cut_off: tuple[Summary, ...]
    """Sittings that a crash cut off, the oldest first."""
    messages: tuple[str, ...]
    """What is wrong with the settings, the shop file or the logbook, and what was brought back after a crash."""


def load(folders: Folders, look: bool = True) -> Loaded:
    """Settings and logbook; sittings that a crash cut off are put away on the way.

    Args:
        folders: where things are kept
        look: whether a speech command is looked for where none is set
    """
    settings, messages = read_settings(folders.configuration)
    if os.environ.get("TERM") == "linux":
        settings = settings.in_blocks()
    messages += read_shop(folders.shop)[1]
    logbook = Logbook(folders.logbook)
    cut_off = tuple(found.summary for found in logbook.recover(work_out))
    messages += [f"brought back after it was cut off: {one.title} ({one.id})" for one in cut_off]
    messages += logbook.messages
    logbook.messages.clear()
    speech: tuple[str, ...] = ()
    try:
        if settings.speech or look:
            speech = find_command(settings.speech)
    except DeviceError as error:
        messages.append(f"{folders.configuration}: {error}")
    return Loaded(settings, logbook, speech, cut_off, tuple(messages))


@dataclass(frozen=True, slots=True)
class OnShelf:
    """What the shelf shows."""

    plans: list[ShelfPlan]
    summaries: list[Summary]
    messages: list[str]
    """What is wrong with the logbook."""


def read_shelf(folders: Folders, logbook: Logbook) -> OnShelf:
    """Plans at hand and sittings kept."""
    return OnShelf(shelf_plans(folders.plans), *read_log(logbook))


def warm_up_reckoner() -> None:
    """Ask every question once, so that what it takes to answer has been read before somebody types."""
    from tui.reckoner.questions import QUESTIONS

    for question in QUESTIONS.values():
        question.ask(question.example())


def read_log(logbook: Logbook) -> tuple[list[Summary], list[str]]:
    """The sittings that were kept, the newest first, and what is wrong with the logbook."""
    try:
        summaries, messages = logbook.summaries(), []
    except LogbookError as error:
        summaries, messages = [], [str(error)]
    messages += logbook.messages
    logbook.messages.clear()
    return summaries, messages


def begin(
    request: RunRequest, logbook: Logbook, settings: Settings, shop_file: Path, deliver: Deliver, now: datetime
) -> Attending:
    """Read the plan, open what feeds the sitting, and begin it or go on with it.

    Args:
        request: what is asked for
        logbook: where it is kept
        settings: what may end a phase by itself, where the request does not say it; and the pedal
        shop_file: the smith's own figures, read anew for each sitting; a rehearsal's forge has none
        deliver: where readings go, and what the foot says
        now: wall time with its offset

    Raises:
        PlansError, DeviceError, OSError: it can't begin; nothing was logged.
    """
    hands = settings.hands
    if request.hands_free is not None:
        hands = replace(hands, free=HandsFree(request.hands_free))
    if request.go_on is not None:
        return _go_on(request, logbook, hands, settings.pedal, deliver, now)
    assert request.plan is not None, "a request has a plan or a sitting to go on with"
    plan = request.plan()
    source = request.source(plan)
    with ExitStack() as undone:
        lift = stand(settings.pedal, source, deliver)
        undone.callback(lift)
        # A port that can't be opened is found out before there is a sitting.
        source.start(deliver)
        undone.callback(source.close)
        running = LoggedSitting.begin(
            logbook,
            plan,
            now,
            request.probe_on,
            hands,
            read_shop(shop_file)[0] if request.seed is None else Shop(),
            profile=request.profile,
            port=request.port,
            seed=request.seed,
        )
        undone.pop_all()
    source.set_time(running.sitting.now)
    return Attending(running, source, lift)


def _go_on(
    request: RunRequest, logbook: Logbook, hands: Hands, pedal: PedalSetting | None, deliver: Deliver, now: datetime
) -> Attending:
    assert request.go_on is not None
    running = LoggedSitting.go_on(logbook, request.go_on, now, request.probe_on, hands)
    with ExitStack() as undone:
        undone.callback(running.put_away)
        source = request.source(running.sitting.plan)
        lift = stand(pedal, source, deliver)
        undone.callback(lift)
        # The clock first: to a link that is open already, the break would be a silence.
        source.set_time(running.sitting.now)
        source.start(deliver)
        undone.pop_all()
    return Attending(running, source, lift)

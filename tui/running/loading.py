"""Reading what the program begins with: settings, logbook, and what a crash left; for the screen, shelf and log too.

The screen calls this in a thread once it has shown itself: the imports that take long are all behind this module.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from devices import DeviceError, find_command
from plans.logbook import Logbook, LogbookError, Summary
from plans.prose import in_units
from plans.reader import ShelfPlan, shelf_plans
from tui.config import Folders, Settings, read_settings, read_shop

if TYPE_CHECKING:
    from plans.logbook.header import Header
    from plans.logbook.kept_sitting import WorkedOut
    from plans.logbook.log import Log


@dataclass(frozen=True, slots=True)
class OpenLogbook:
    """A logbook that has been opened, with what a crash left put away."""

    logbook: Logbook
    """The logbook; to be closed by whoever opened it."""
    cut_off: tuple[Summary, ...]
    """Sittings that a crash cut off, which are in the logbook now; the oldest first."""
    messages: tuple[str, ...]
    """What is wrong with the logbook, a line each."""


def open_logbook(folder: Path) -> OpenLogbook:
    """Open the logbook and put away every sitting that a crash cut off.

    Args:
        folder: where the logbook is kept; it need not be there
    """
    logbook = Logbook(folder)
    cut_off = tuple(found.summary for found in logbook.recover(_work_out))
    return OpenLogbook(logbook, cut_off, _messages(logbook))


def _work_out(header: Header, log: Log) -> WorkedOut:
    # The engine takes a while to import, and mostly nothing was cut off.
    from plans.logbook import work_out

    return work_out(header, log)


def _messages(logbook: Logbook) -> tuple[str, ...]:
    """What the logbook has to say, once."""
    messages = tuple(logbook.messages)
    logbook.messages.clear()
    return messages


def recover_rehearsals(rehearsals: Logbook) -> None:
    """Put away the rehearsals that a crash cut off; nobody need hear of it."""
    rehearsals.recover(_work_out)
    rehearsals.messages.clear()


@dataclass(frozen=True, slots=True)
class Loaded:
    """What every screen needs."""

    settings: Settings
    """What the smith has set."""
    logbook: Logbook
    """The logbook; to be closed when the program ends."""
    rehearsals: Logbook
    """The logbook of the rehearsals, which nothing has touched yet; to be closed when the program ends."""
    speech: tuple[str, ...]
    """The command that speaks; empty where there is none."""
    cut_off: tuple[Summary, ...]
    """Sittings that a crash cut off, the oldest first."""
    messages: tuple[str, ...]
    """What is wrong with the settings, the shop file or the logbook, and what was brought back after a crash."""


def load(folders: Folders, look: bool = True, apart: bool = False) -> Loaded:
    """Read the settings, open the logbook, and put away sittings that a crash cut off.

    Args:
        folders: where things are kept
        look: whether a speech command is looked for where none is set
        apart: whether the logbook is left alone, as by a rehearsal, which may run beside a sitting
    """
    settings, messages = read_settings(folders.configuration)
    if os.environ.get("TERM") == "linux":
        settings = settings.in_blocks()
    messages += read_shop(folders.shop)[1]
    opened = OpenLogbook(Logbook(folders.logbook), (), ()) if apart else open_logbook(folders.logbook)
    titles = [(in_units(one.title, settings.units), one.id) for one in opened.cut_off]
    messages += [f"brought back after it was cut off: {title} ({name})" for title, name in titles]
    messages += opened.messages
    speech: tuple[str, ...] = ()
    try:
        if settings.speech or look:
            speech = find_command(settings.speech)
    except DeviceError as error:
        messages.append(f"{folders.configuration}: {error}")
    return Loaded(settings, opened.logbook, Logbook(folders.rehearsals), speech, opened.cut_off, tuple(messages))


@dataclass(frozen=True, slots=True)
class OnShelf:
    """What the shelf shows."""

    plans: list[ShelfPlan]
    """The plans at hand, those too that can't be used."""
    summaries: list[Summary]
    """The sittings that were kept, the newest first."""
    messages: list[str]
    """What is wrong with the logbook, a line each."""


def read_shelf(folders: Folders, logbook: Logbook) -> OnShelf:
    """Read the plans at hand and the list of the sittings that were kept."""
    return OnShelf(shelf_plans(folders.plans), *read_log(logbook))


def read_log(logbook: Logbook) -> tuple[list[Summary], list[str]]:
    """Read the list of the sittings that were kept.

    Returns:
        the sittings, the newest first; and what is wrong with the logbook, a line each
    """
    try:
        summaries, messages = logbook.summaries(), []
    except LogbookError as error:
        summaries, messages = [], [str(error)]
    messages += _messages(logbook)
    return summaries, messages

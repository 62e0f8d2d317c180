"""Reading what the program begins with: settings, logbook, and what a crash left; for the screen, shelf and log too.

The screen calls this in a thread once it has shown itself: the imports that take long are all behind this module.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Thread
from time import monotonic
from typing import TYPE_CHECKING

from devices import DeviceError, find_command
from plans.at_hand import ListedPlan, list_plans
from plans.logbook import Logbook, LogbookError, Progress, StoppedError, Summary
from plans.prose import in_units
from plans.record import record
from tui.config import Folders, Settings
from tui.running.own_settings import read_own

if TYPE_CHECKING:
    from plans.logbook import Header, Log, WorkedOut, WorkOut

_PATIENCE = 1.0
"""How long the putting away of what a crash left is waited for; the rest goes on in the background [s]."""
_LONGEST = 60.0
"""A sitting whose figures take longer to work out is put away without them [s]."""


@record
class OpenLogbook:
    """A logbook that has been opened, with what a crash left put away, or being put away in the background."""

    logbook: Logbook
    """The logbook; to be closed by whoever opened it."""
    cut_off: tuple[Summary, ...]
    """Sittings that a crash cut off, the oldest first; those that are still being put away have no end yet."""
    messages: tuple[str, ...]
    """What is wrong with the logbook, a line each."""


def open_logbook(folder: Path, going_on: str | None = None) -> OpenLogbook:
    """Open the logbook and put away every sitting that a crash cut off.

    That is waited for a second. What takes longer goes on in a thread, for which nobody waits when the program ends:
    what it has not put away by then is put away at the next start.

    Args:
        folder: where the logbook is kept; it need not be there
        going_on: the sitting that will be gone on with, as it is asked for: its log is replayed for that alone
    """
    logbook = Logbook(folder)
    taken_up = None
    if going_on is not None:
        with suppress(LogbookError):  # to be said where it is gone on with
            taken_up = logbook.resolve(going_on)
    put_away, at_work = _recover(logbook, taken_up)
    known = {taken_up, *(one.id for one in put_away)}
    left = [one for one in logbook.cut_off() if one.id not in known]
    if at_work:
        put_away = sorted((*put_away, *left), key=lambda one: one.id)
    messages = news_of(logbook)
    # Those that can't be put away can't be gone on with either; mostly it has been said why.
    unnamed = [] if at_work else [one.id for one in left if not any(one.id in message for message in messages)]
    return OpenLogbook(logbook, tuple(put_away), (*messages, *(f"sitting {name} was cut off" for name in unnamed)))


def recover_rehearsals(rehearsals: Logbook) -> None:
    """Put away the rehearsals that a crash cut off, as `open_logbook` does; nobody need hear of it, now or later."""
    _recover(rehearsals, silent=True)


def news_of(logbook: Logbook) -> tuple[str, ...]:
    """What the logbook has to say, once."""
    messages = tuple(logbook.messages)
    del logbook.messages[: len(messages)]
    return messages


def _recover(logbook: Logbook, but: str | None = None, silent: bool = False) -> tuple[list[Summary], bool]:
    """Put away in a thread what a crash left, but for one.

    Returns:
        the sittings that were put away within a second; and whether that goes on
    """
    put_away: list[Summary] = []
    work_out = _no_longer_than(_LONGEST, logbook.wants)
    recovery = logbook.recovery(work_out, lambda found: put_away.append(found.summary), but, silent=silent)
    thread = Thread(target=recovery.run, name="recovery", daemon=True)
    thread.start()
    thread.join(_PATIENCE)
    return list(put_away), thread.is_alive()


def _no_longer_than(seconds: float, is_wanted: Callable[[str], bool]) -> WorkOut:
    """Works a sitting out, by its id, but for no longer than so, and only as long as it is wanted."""

    def worked_out(header: Header, log: Log) -> WorkedOut:
        # The engine takes a while to import, and mostly nothing was cut off.
        from plans.logbook import work_out

        until = monotonic() + seconds

        def go_ahead() -> None:
            if not is_wanted(header.id):
                raise StoppedError
            if monotonic() > until:
                raise LogbookError(f"that takes longer than {seconds:.0f} s")

        return work_out(header, log, go_ahead)

    return worked_out


@record
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


def load(folders: Folders, look: bool = True, apart: bool = False, going_on: str | None = None) -> Loaded:
    """Read the settings, open the logbook, and put away sittings that a crash cut off.

    Args:
        folders: where things are kept
        look: whether a speech command is looked for where none is set
        apart: whether the logbook is left alone, as by a rehearsal, which may run beside a sitting
        going_on: the sitting that will be gone on with, as it is asked for
    """
    settings, messages = read_own(folders)
    opened = OpenLogbook(Logbook(folders.logbook), (), ()) if apart else open_logbook(folders.logbook, going_on)
    for one in opened.cut_off:
        became = "cut off, and still being put away" if one.ended is None else "brought back after it was cut off"
        messages.append(f"{became}: {in_units(one.title, settings.units)} ({one.id})")
    messages += opened.messages
    speech: tuple[str, ...] = ()
    try:
        if settings.speech or look:
            speech = find_command(settings.speech)
    except DeviceError as error:
        messages.append(f"{folders.configuration}: {error}")
    return Loaded(settings, opened.logbook, Logbook(folders.rehearsals), speech, opened.cut_off, tuple(messages))


def left_of(logbook: Logbook, plan: str) -> Summary | None:
    """The last sitting of a plan, where it can be gone on with, however it was left; else None.

    One that was left before that is not asked about for ever: whoever began the plan anew has answered that.

    Args:
        logbook: where it is looked for; what is wrong with it is not told here
        plan: the name of the plan
    """
    try:
        sittings = logbook.summaries()
    except LogbookError:
        return None
    last = next((one for one in sittings if one.plan == plan and not one.rehearsal), None)
    return last if last is not None and last.state is Progress.UNFINISHED else None


@record
class OnShelf:
    """What the shelf shows."""

    plans: list[ListedPlan]
    """The plans at hand, those too that can't be used; most of them only glanced at."""
    summaries: list[Summary]
    """The sittings that were kept, the newest first."""
    messages: list[str]
    """What is wrong with the logbook, a line each."""


def read_shelf(folders: Folders, logbook: Logbook) -> OnShelf:
    """Glance at the plans at hand, and read the list of the sittings that were kept."""
    return OnShelf(list_plans(folders.plans), *read_log(logbook))


def read_log(logbook: Logbook) -> tuple[list[Summary], list[str]]:
    """Read the list of the sittings that were kept.

    Returns:
        the sittings, the newest first; and what is wrong with the logbook, a line each
    """
    try:
        summaries, messages = logbook.summaries(), []
    except LogbookError as error:
        summaries, messages = [], [str(error)]
    messages += news_of(logbook)
    return summaries, messages

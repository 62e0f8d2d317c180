"""A sitting that was cut off: what its journal and its file of an earlier putting away hold together.

A journal begins with the whole log of the sitting, also where that is gone on with; so the two hold the same as far as
the file goes, and neither is believed before the other is looked at:

- The journal goes on where the file ends, or they hold the same: it is the sitting.
- The file goes on where the journal ends: the sitting was put away from memory while the journal could not be written,
  and cut off before that was removed. The file is the sitting.
- The journal is damaged: the file stands for what it holds, and what the journal has behind that follows.
- They differ, and nothing is damaged: they are two sittings. So they are where the journal came to lie under the name
  of another one. Each is put away under a name of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain, count, dropwhile
from pathlib import Path

from plans.logbook.errors import DamagedError, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.header import Header
from plans.logbook.journal import check_log, read_journal, signature, stamp_of, stamped
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.log import Log
from plans.logbook.names import is_id
from plans.logbook.store import Store
from plans.logbook.summary import Progress
from plans.record import record
from plans.sitting import Entry


@record
class CutOff:
    """A sitting that was cut off, as far as it can be known."""

    name: str
    """The id under which it is to be put away: mostly that of its journal."""
    header: Header
    """What was known of it when it began, and of each time that it was gone on with."""
    log: Log
    """Every event and reading that could be read, of both files."""
    damage: tuple[str, ...]
    """What is wrong with its journal, in plain words; a journal with damage is never removed."""
    kept: KeptSitting | None
    """The file, where it holds the whole log already."""
    file: tuple[int, ...]
    """Which file the journal was when it was read."""
    spoiled: bool = False
    """Whether a file lies under its id that can't be read: the journal stands for it, and it is set aside."""

    @property
    def holds_all(self) -> bool:
        """Whether the file holds all of it, its figures too: nothing need be worked out or written."""
        return self.kept is not None and not self.kept.misfit

    @property
    def state(self) -> Progress:
        """How far it had come."""
        return Progress.FINISHED if self.log.ended else Progress.UNFINISHED

    @property
    def told(self) -> str:
        """The damage in a sentence, to follow the name of the journal."""
        return f"is damaged: {'; '.join(self.damage)}; all the rest of it is kept"

    def is_still(self, path: Path) -> bool:
        """Whether its journal lies there as it was when it was read."""
        try:
            return signature(path.stat()) == self.file
        except FileNotFoundError:
            return False


def piece_together(store: Store, name: str) -> CutOff:
    """Read a journal and, where there is one, the file of the same sitting.

    Args:
        store: the files of the logbook
        name: by which the journal goes

    Raises:
        DamagedError: the journal has no header that can be read, and no file stands for it; or what can be read of it
            makes no log: put away, it could not be read back.
        LogbookError: one of them can't be read, or was written by a newer heatbook.
    """
    cut = _together(store, name)
    if cut.kept is None:
        try:
            check_log(cut.log, plan_if_known(cut.header))
        except ValueError as error:
            text = f"{shown(store.path(name, JOURNAL))} can't be read: it makes no log ({error})"
            raise DamagedError("; ".join((text, *cut.damage))) from None
    return cut


def _together(store: Store, name: str) -> CutOff:
    kept = _kept(store, name)
    found = read_journal(store.path(name, JOURNAL), None if kept is None else kept.header)
    for target in _names(store, found.header, name):
        kept = _kept(store, target)
        if kept is None:
            spoiled = store.path(target, SITTING).exists()
            return CutOff(target, replace(found.header, id=target), found.log, found.damage, None, found.file, spoiled)
        if not _is_the_same(found.header, kept.header):
            continue
        known = replace(kept.header, went_on=found.header.went_on)
        damage = found.damage
        if known != replace(found.header, id=target):
            damage = (*damage, "line 1 is not as it was put away before, which stands for it")
        if (joined := _joined(kept, found.log, bool(damage))) is not None:
            log, whole = joined
            whole &= known == kept.header
            return CutOff(target, kept.header if whole else known, log, damage, kept if whole else None, found.file)
    raise AssertionError("there is always one name more")


def _names(store: Store, header: Header, name: str) -> Iterator[str]:
    """Under which ids a journal may be put away, the likeliest first; the last ones are nobody's yet."""
    own = name
    stamp = stamp_of(name)
    # It says so, or it began when the name says, or the name is one that somebody gave it by hand.
    if header.id == name or stamp is None or stamp == stamped(header.started):
        yield name
    elif is_id(header.id):
        own = header.id
        if not store.path(own, JOURNAL).exists():
            yield own
    for number in count(2):
        free = f"{own}-{number}"
        if not any(store.path(free, ending).exists() for ending in (JOURNAL, SITTING)):
            yield free


def _kept(store: Store, name: str) -> KeptSitting | None:
    """The sitting as far as it was put away before; None where it was not, or that can't be read."""
    if not store.path(name, SITTING).exists():
        return None
    try:
        return store.read(name)
    except DamagedError:
        return None


def _is_the_same(journal: Header, file: Header) -> bool:
    """Whether a journal is that of the sitting in a file: ids may have been changed by hand, and a plan be damaged."""
    alike = journal.id == file.id or journal.source == file.source
    return alike and stamped(journal.started) == stamped(file.started)


def _joined(kept: KeptSitting, journal: Log, damaged: bool) -> tuple[Log, bool] | None:
    """The log of a file and of a journal of the same sitting, and whether the file holds all of it.

    None where they differ though nothing is damaged: they are two sittings.
    """
    if all(one == other for one, other in zip(kept.log, journal, strict=False)):
        longer = len(kept.log) > len(journal)
        return (kept.log, True) if longer else (journal, False)
    if not damaged:
        return None
    put_away = set(kept.log)
    behind: list[Entry] = []
    for entry in journal:
        if entry in put_away:
            behind.clear()
        else:
            behind.append(entry)
    # What is not in the file, though it was written before that, is no more what it was.
    left = kept.log.last_at
    behind = list(dropwhile(lambda entry: entry.at < left, behind))
    return (Log(chain(kept.log, behind)), False) if behind else (kept.log, True)

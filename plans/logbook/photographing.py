"""Adding a photograph to a sitting that is over, and taking one back: a change of what is said of it, as `amend` makes.

The copy is made before the sitting's file names it: killed in between, a picture lies there that nobody misses, and is
found when the same one is added again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import LONGEST_NOTE, Photograph, Photographs
from plans.logbook.amending import amend
from plans.logbook.disk import UNREADABLE
from plans.logbook.errors import LogbookError
from plans.logbook.files import SITTING
from plans.logbook.header import NewerFormat
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.measuring_later import check_come_to
from plans.logbook.photo_files import Picture, copy_into, take_away
from plans.logbook.sitting_files import read_head
from plans.logbook.store import Store
from plans.sitting import folded
from plans.text import plain


def add_photograph(
    store: Store, name: str, picture: Picture, *, step: int | None, note: str, copied: bool, now: datetime
) -> KeptSitting:
    """Add a photograph to a sitting that has been put away, and its copy to the sitting's folder where that is wanted.

    Added once more, what was not said of it before is: its step, another note, that it be copied.

    Args:
        store: the files of the logbook
        name: the sitting's id
        picture: what the smith named
        step: the step that it shows, from 0; None for the sitting as a whole
        note: what is to be said of it; empty for nothing
        copied: whether it is copied beside the sitting
        now: wall time with its offset

    Raises:
        LogbookError: the sitting or the copy can't be written, the sitting did not come to that step, or the picture
            is there already with all of this; nothing is changed then.
    """
    folder, made = store.photographs(name), False

    def change(kept: KeptSitting) -> KeptSitting:
        nonlocal made
        changed = with_photograph(kept, picture, step=step, note=note, copied=copied, now=now)
        if copied:
            made = copy_into(folder, picture)
        return changed

    try:
        return amend(store, name, change)
    except BaseException:
        if made and not _is_named(store, name, picture.copy_name):
            take_away(folder, picture.copy_name)
        raise


def _is_named(store: Store, name: str, copy: str) -> bool:
    """Whether a sitting's file names a copy, as where only the index could not be written; a damaged one may."""
    try:
        photographs = read_head(store.path(name, SITTING)).photographs
    except (OSError, NewerFormat, *UNREADABLE):
        return True
    return photographs is not None and any(one.copy == copy for one in photographs.kept)


def with_photograph(
    kept: KeptSitting, picture: Picture, *, step: int | None, note: str, copied: bool, now: datetime
) -> KeptSitting:
    """Make a sitting with a photograph more; see `add_photograph`. No file is touched."""
    note = plain(note).strip()
    if len(note) > LONGEST_NOTE:
        raise LogbookError(f"a note is one line of at most {LONGEST_NOTE} characters; this one has {len(note)}")
    if step is not None:
        check_come_to(folded(kept.log.events), step)
    photographs = kept.photographs or Photographs()
    copy = picture.copy_name if copied else None
    one = Photograph(0, str(picture.path), copy, step, note, now, len(picture.data), picture.sha256)
    before = next((one for one in photographs.standing if one.sha256 == picture.sha256), None)
    if before is not None:
        one = replace(
            one,
            step=before.step if step is None else step,
            note=note or before.note,
            copy=copy or before.copy,
        )
        if (one.path, one.step, one.note, one.copy) == (before.path, before.step, before.note, before.copy):
            raise LogbookError(f"this picture is there already: it is photograph {before.number}")
        photographs = photographs.without(before.number, now)
    return replace(kept, photographs=photographs.added(one))


def photograph_taken_back(number: int, now: datetime) -> Callable[[KeptSitting], KeptSitting]:
    """The change by which a photograph counts no longer; it is kept, and so is its copy.

    The change raises LogbookError where none has that number.
    """

    def change(kept: KeptSitting) -> KeptSitting:
        return replace(kept, photographs=(kept.photographs or Photographs()).without(number, now))

    return change

"""Packing a logbook: its sittings and their photographs, the smith's own plans and the shop file, into one archive."""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Final

from plans.logbook.archive.file import PHOTOGRAPHS, PLANS, SHOP, SITTINGS, is_member, write_archive
from plans.logbook.archive.unread import Unread, why_unread
from plans.logbook.disk import check_copied
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.photo_files import copies_in, is_whole, read_photo
from plans.logbook.store import Store
from plans.record import record

_PACKED_AS_IT_IS: Final = {
    Unread.DAMAGED: "is damaged, and packed as it is: if you have a copy, put that in its place and pack again",
    Unread.NEWER: "was written by a newer heatbook, and packed as it is: unpack it with that one",
}


@record
class Packed:
    """What went into an archive."""

    sittings: int
    """How many sittings."""
    plans: int
    """How many plans of the smith's own."""
    shop: bool
    """Whether the shop file."""
    photographs: int
    """How many copies of photographs."""
    left_out: tuple[str, ...]
    """What did not, and why, in plain words."""
    unread: tuple[str, ...]
    """The sittings that went in as they are and can't be read, and what to do about each, in plain words."""


def pack(store: Store, plans: Path, shop: Path, path: Path) -> Packed:
    """Write a logbook, the smith's own plans and the shop file into a new archive, and read that back.

    A sitting that is damaged goes in as it is, since a part of it is better than none, and is told of.

    Raises:
        LogbookError: another heatbook writes, or the archive can't be read back.
        OSError: a file can't be read, or the archive can't be written.
    """
    left_out: list[str] = []
    unread: list[str] = []
    files: dict[str, Path] = {}
    why_unread_of: dict[Path, Unread | str | None] = {}
    looked_at = [store.path(name, SITTING) for name in sorted(store.ids(SITTING))]
    for done, file in enumerate(looked_at):  # before the turn to write is taken, which a sitting may want meanwhile
        store.progressing("reading what is packed", done, len(looked_at))
        why_unread_of[file] = _why_unread(file)
    with store.turn.borrow():
        for name, file in _files(store, plans, shop):
            if file.is_symlink():
                left_out.append(f"{shown(file)} is a link, and left out: put the file itself there")
            elif not is_member(name):
                left_out.append(f"{shown(file)} has a name that not every system can have, and is left out: rename it")
            elif name.startswith(PHOTOGRAPHS) and (wrong := _wrong_with_copy(file)):
                left_out.append(wrong)
            else:
                why = None
                if name.startswith(SITTINGS):
                    # One that was put away since is looked at now.
                    why = why_unread_of[file] if file in why_unread_of else _why_unread(file)
                if isinstance(why, str):
                    left_out.append(why)
                    continue
                files[name] = file
                if why is not None:
                    unread.append(f"{shown(file)} {_PACKED_AS_IT_IS[why]}")
        for name in sorted(store.ids(JOURNAL)):
            left_out.append(f"sitting {name} runs, or was cut off and can't be put away, and is left out")
        write_archive(path, files, partial(store.progressing, "packing"))
    kinds = [sum(name.startswith(kind) for name in files) for kind in (SITTINGS, PLANS, PHOTOGRAPHS)]
    return Packed(kinds[0], kinds[1], SHOP in files, kinds[2], tuple(left_out), tuple(unread))


def _why_unread(file: Path) -> Unread | str | None:
    """Why the file of a sitting can't be read, in words where it is left out for that; None where it can."""
    if file.is_symlink():
        return None
    try:
        why = why_unread(file)
        if why is Unread.DAMAGED:
            check_copied(file)
    except OSError as error:
        return f"{shown(file)} can't be read, and is left out: {reason(error)}"
    except LogbookError as error:
        return str(error)
    return why


def _wrong_with_copy(file: Path) -> str:
    """Why the copy of a photograph can't go into an archive; empty where it can."""
    try:
        return "" if is_whole(file.name, read_photo(file)) else f"{shown(file)} is damaged, and left out"
    except LogbookError as error:
        return str(error)


def _files(store: Store, plans: Path, shop: Path) -> Iterator[tuple[str, Path]]:
    """Each file that may go into an archive, by its name in there."""
    for name in sorted(store.ids(SITTING)):
        yield f"{SITTINGS}{name}{SITTING}", store.path(name, SITTING)
        for path in copies_in(store.photographs(name)):
            yield f"{PHOTOGRAPHS}{name}/{path.name}", path
    for path in sorted(plans.glob("*.toml")):
        yield f"{PLANS}{path.name}", path
    if os.path.lexists(shop):
        yield SHOP, shop

"""Taking files into a logbook that were another's: each is read and checked first, and none takes another's place."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from plans.errors import PlanError
from plans.logbook.archive.file import PHOTOGRAPHS, SHOP, SITTINGS, open_archive, read_whole_file
from plans.logbook.archive.unread import Unread, why_unread
from plans.logbook.disk import UNREADABLE, check_copied, set_aside, strict_json
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.names import is_id
from plans.logbook.photo_files import is_whole
from plans.logbook.store import Store
from plans.reader import read_plan_file
from plans.record import record
from plans.text import clean
from plans.writing import make_folder, write_beside

CheckShop = Callable[[Path], list[str]]
"""What is wrong with a shop file, a line each; nothing where it is well."""
_NOT_TAKEN: Final = {
    Unread.DAMAGED: "was damaged before it was put into the archive, and is not taken",
    Unread.NEWER: "was written by a newer heatbook; take it in with that one",
}


@record
class Unpacked:
    """What came out of an archive."""

    new: tuple[str, ...]
    """The files that were written, by their names in the archive."""
    same: tuple[str, ...]
    """Those that were there already, the same."""
    refused: tuple[str, ...]
    """What was not taken, and why, in plain words."""
    doubts: tuple[str, ...]
    """What is wrong with plans and shop file that were taken all the same: they are the smith's own, done or not."""


def unpack(store: Store, plans: Path, shop: Path, path: Path, check_shop: CheckShop) -> Unpacked:
    """Take what an archive holds into a logbook, beside what is there.

    A file that is there already and the same is passed over; where another stands, that stays. Broken off and begun
    again, it goes on where it was.

    Raises:
        LogbookError: the archive can't be read, or holds what none of heatbook's does, and nothing was written; or
            another heatbook writes, or a file can't be written.
    """
    new: list[str] = []
    same: list[str] = []
    refused: list[str] = []
    doubts: list[str] = []
    with open_archive(path) as archive, store.writing():
        # A photograph goes where its sitting went, so that comes first.
        names = sorted(archive.listed, key=lambda name: name.startswith(PHOTOGRAPHS))
        for done, name in enumerate(names):
            store.progressing("taking in", done, len(names))
            try:
                data = archive.read(name)
                _check_belongs(name, {*new, *same})
                to = _place(store, plans, shop, name)
                if is_there(store, to, data):
                    same.append(name)
                    continue
                wrong = _wrong_with(name, data, check_shop)
                _put(store, to, data)
                new.append(name)
                doubts += wrong
            except LogbookError as error:
                refused.append(str(error))
        store.summaries()  # the index is mended by what came
    return Unpacked(tuple(new), tuple(same), tuple(refused), tuple(doubts))


def _check_belongs(name: str, taken: set[str]) -> None:
    """Refuse a photograph of a sitting that the archive does not have, or that was refused.

    Raises:
        LogbookError: it is one.
    """
    if name.startswith(PHOTOGRAPHS):
        sitting = name.split("/")[1]
        if f"{SITTINGS}{sitting}{SITTING}" not in taken:
            raise LogbookError(f"{name} is not taken, as its sitting is not")


def _place(store: Store, plans: Path, shop: Path, name: str) -> Path:
    if name == SHOP:
        return shop
    if name.startswith(PHOTOGRAPHS):
        return store.photographs(name.split("/")[1]) / name.rpartition("/")[2]
    folder = store.sittings if name.startswith(SITTINGS) else plans
    return folder / name.rpartition("/")[2]


def _wrong_with(name: str, data: bytes, check_shop: CheckShop) -> list[str]:
    """What is wrong with a plan or a shop file of an archive, to be said; a sitting that can't be read is refused, and
    so is a photograph that is none.

    Raises:
        LogbookError: it is such a sitting or photograph.
    """
    if name.startswith(PHOTOGRAPHS):
        if not is_whole(name.rpartition("/")[2], data):
            raise LogbookError(f"{name} is not the picture that it is named by, and is not taken")
        return []
    with TemporaryDirectory() as folder:
        path = Path(folder) / name.rpartition("/")[2]
        path.write_bytes(data)
        if name.startswith(SITTINGS):
            if wrong := why_unread(path):
                raise LogbookError(f"{name} {_NOT_TAKEN[wrong]}")
        elif name == SHOP:
            return [line.replace(str(path), name) for line in check_shop(path)]
        else:
            try:
                read_plan_file(path)
            except PlanError as error:
                return [str(error).replace(str(path), name)]
    return []


def is_there(store: Store, to: Path, data: bytes) -> bool:
    """Whether the same file is there already; a sitting that is damaged counts as not there.

    Raises:
        LogbookError: another is there, and stays as it is.
        OSError: it can't be read.
    """
    if to.parent == store.sittings and store.path(to.stem, JOURNAL).exists():
        raise LogbookError(f"sitting {to.stem} runs here, or was cut off; it is left as it is")
    if not os.path.lexists(to):
        return False
    if to.is_symlink() or not to.is_file() or not _alike(read_whole_file(to), data):
        if _is_damaged(store, to):
            return False
        raise LogbookError(f"{shown(to)} is there already and is another; it is left as it is")
    return True


def _is_damaged(store: Store, to: Path) -> bool:
    """Whether the file of a sitting is damaged; one that is being copied is refused by a LogbookError."""
    if to.parent != store.sittings or to.is_symlink() or not to.is_file() or why_unread(to) is not Unread.DAMAGED:
        return False
    check_copied(to)
    return True


def _put(store: Store, to: Path, data: bytes) -> None:
    """Write a file where none is, or none but a damaged one, which is set aside, and read it back; the lock of the
    logbook is held.

    Raises:
        LogbookError: it can't be written, or not be read back.
    """
    try:
        make_folder(to.parent)
        if os.path.lexists(to):
            aside = set_aside(to)
            store.say(f"{shown(to)} was damaged, and a good copy takes its place; it is kept as {shown(aside.name)}")
        write_beside(to, [data])
        back = read_whole_file(to)
    except OSError as error:
        raise LogbookError(f"{shown(to)} can't be written: {reason(error)}") from None
    if back != data:
        raise LogbookError(f"{shown(to)} is not what was written: the disk fails")


_SITTING_BEGINS: Final = b'{"'


def _alike(one: bytes, other: bytes) -> bool:
    """Whether two files say the same: byte by byte, or as JSON, of which the order of the keys is no part."""
    if one == other:
        return True
    if not (one.startswith(_SITTING_BEGINS) and other.startswith(_SITTING_BEGINS)):
        return False
    try:
        return bool(strict_json.decode(one.decode("utf-8")) == strict_json.decode(other.decode("utf-8")))
    except UNREADABLE:
        return False


def take_in(store: Store, name: str, data: bytes) -> bool:
    """Take the file of one sitting into a logbook; whoever asks has read it.

    Args:
        store: the files of the logbook
        name: the sitting's id
        data: what its file is to hold

    Returns:
        whether it is new; False where the same is there already

    Raises:
        LogbookError: another of this id is there, another heatbook writes, or it can't be written.
    """
    if not is_id(name):
        raise LogbookError(f"{clean(name)} is no id of a sitting; nothing is taken")
    with store.writing():
        to = store.path(name, SITTING)
        if is_there(store, to, data):
            return False
        _put(store, to, data)
        store.summaries()  # the index is mended by what came
    return True

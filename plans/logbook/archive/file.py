"""The archive of a logbook: a ZIP file that holds the files as they are, and a list of them with sizes and hashes.

| in it | what it is |
| --- | --- |
| `heatbook.json` | `heatbook_archive`: 1, and `files`: for each of the others its `bytes` and its `sha256` |
| `sittings/ID.json` | the sittings that were put away |
| `plans/NAME.toml` | the smith's own plans |
| `photographs/ID/NAME` | the copies of a sitting's photographs, not squeezed: pictures are already |
| `shop.toml` | the shop file |

An archive may come from anybody: nothing of it is believed, no name in it becomes a path that was not expected, and
none of it is read beyond its limits. The same files make the same archive, to the last byte.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryFile
from typing import Any, Final

from plans.logbook.afterwards import LARGEST_PHOTO, is_copy_name
from plans.logbook.disk import UNREADABLE, strict_json
from plans.logbook.errors import LogbookError, shown
from plans.logbook.names import is_id
from plans.record_values import count_of, record_of, text_of
from plans.regular import open_regular
from plans.text import clean
from plans.writing import write_new

SITTINGS: Final = "sittings/"
PLANS: Final = "plans/"
PHOTOGRAPHS: Final = "photographs/"
SHOP: Final = "shop.toml"
LARGEST: Final = 64 << 20
"""No file of a logbook is larger: a day's sitting with four readings a second is a tenth of it [bytes]."""
_LIST: Final = "heatbook.json"
_FORMAT: Final = 1
_MOST: Final = 50_000
"""So many files are in an archive at most."""
_LARGEST_OF_ALL: Final = 4 << 30
"""So large are they together at most, but for photographs: what is not squeezed can't grow as it is read [bytes]."""
_CHUNK: Final = 1 << 20
_LEVEL: Final = 3
"""Of squeezing: takes half of the time that the usual 6 does, for files that are a tenth larger."""
_PLAN: Final = re.compile(r"[^\W_][\w .,()+-]{0,99}(?<! )\.toml")
"""Names of plans that are names on every system, and lead nowhere else."""
_BROKEN: Final = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, *UNREADABLE)
"""What reading a corrupt archive raises; RuntimeError where it is encrypted."""


class DamagedMemberError(LogbookError):
    """One file in an archive is not what the archive's list says; the others may be whole."""


def is_member(name: str) -> bool:
    """Whether an archive may hold a file of this name: one that is safe as a name below a folder."""
    if name.startswith(SITTINGS):
        return name.endswith(".json") and is_id(name.removeprefix(SITTINGS).removesuffix(".json"))
    if name.startswith(PLANS):
        return is_plan_file(name.removeprefix(PLANS))
    if name.startswith(PHOTOGRAPHS):
        sitting, _, copy = name.removeprefix(PHOTOGRAPHS).partition("/")
        return is_id(sitting) and is_copy_name(copy)
    return name == SHOP


def is_plan_file(name: str) -> bool:
    """Whether a file of a plan may be called that: a name on every system, that leads nowhere else."""
    return _PLAN.fullmatch(name) is not None


def read_whole_file(path: Path) -> bytes:
    """The bytes of an ordinary file.

    Raises:
        LogbookError: it is larger than any of a logbook.
        OSError: it can't be read, or is no ordinary file.
    """
    with open_regular(path) as file:
        data = file.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise LogbookError(f"{shown(path)} is larger than any file of a logbook ({LARGEST >> 20} MB)")
    return data


def write_archive(path: Path, files: Mapping[str, Path], tell: Callable[[int, int], None] = lambda *_: None) -> None:
    """Write a new archive, read it back, and compare: each file in it is what was read.

    Args:
        path: where to; nothing may be there yet
        files: what goes in, by the names that they have in it
        tell: is told before each file how many are in it, and how many there are

    Raises:
        FileExistsError: something is there already; it stays as it is.
        LogbookError: what was written can't be read back, and has been removed; or a file is too large.
        OSError: a file can't be read, or the archive can't be written; nothing is left of it.
    """
    listed: dict[str, dict[str, Any]] = {}
    with TemporaryFile() as made:
        with zipfile.ZipFile(made, "w") as archive:
            for done, (name, file) in enumerate(sorted(files.items())):
                tell(done, len(files))
                data = read_whole_file(file)
                listed[name] = {"bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
                archive.writestr(_entry(name), data, compresslevel=_LEVEL)
            contents = {"heatbook_archive": _FORMAT, "files": listed}
            archive.writestr(_entry(_LIST), json.dumps(contents, indent=1) + "\n")
        made.seek(0)
        write_new(path, iter(lambda: made.read(_CHUNK), b""))
    try:
        with open_archive(path) as written:
            if written.listed != listed:
                raise LogbookError("its list is not what was written")
            for name in listed:
                written.read(name)
    except LogbookError as error:
        path.unlink(missing_ok=True)
        raise LogbookError(f"{shown(path)} was written and can't be read back ({error}); it is removed") from None


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name)
    entry.compress_type = zipfile.ZIP_STORED if name.startswith(PHOTOGRAPHS) else zipfile.ZIP_DEFLATED
    entry.external_attr = 0o600 << 16
    return entry


class Archive:
    """An archive that is open to be read; its names have been looked at, and what they hold is when it is read."""

    def __init__(self, archive: zipfile.ZipFile, listed: dict[str, dict[str, Any]]) -> None:
        self._archive = archive
        self.listed = listed
        """Each file's `bytes` and `sha256`, by name, as the archive's list has them."""

    def read(self, name: str) -> bytes:
        """The bytes of one file, as they were when the archive was written.

        Raises:
            DamagedMemberError: they are not.
        """
        try:
            with self._archive.open(name) as member:
                data = member.read(self.listed[name]["bytes"] + 1)
        except (*_BROKEN, OSError):
            data = b""
        if hashlib.sha256(data).hexdigest() != self.listed[name]["sha256"]:
            raise DamagedMemberError(f"{name} is damaged in this archive: take it from another copy")
        return data


@contextmanager
def open_archive(path: Path) -> Iterator[Archive]:
    """An archive to be read, within this context.

    Raises:
        LogbookError: it can't be read, is none of heatbook's, or holds what none of heatbook's does.
    """
    try:
        file = open_regular(path)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise LogbookError(f"{shown(path)} can't be read: {why}") from None
    with file:
        try:
            archive = zipfile.ZipFile(file)
            listed = _listed(archive)
        except LogbookError as error:
            raise LogbookError(f"{shown(path)}: {error}; nothing of it is taken") from None
        except (*_BROKEN, OSError):
            raise LogbookError(
                f"{shown(path)} is no archive that `heatbook log pack` wrote, or is not copied whole; copy it again"
            ) from None
        yield Archive(archive, listed)


def _is_stored(entry: zipfile.ZipInfo) -> bool:
    """Whether a photograph lies in an archive as it is, and is no larger than one may be."""
    sizes = (entry.file_size, entry.compress_size)
    return entry.compress_type == zipfile.ZIP_STORED and sizes[0] == sizes[1] <= LARGEST_PHOTO


def _listed(archive: zipfile.ZipFile) -> dict[str, dict[str, Any]]:
    """What the archive's list has, once each name in list and archive has been looked at."""
    entries = archive.infolist()
    names = [entry.filename for entry in entries]
    squeezed = [entry for entry in entries if not entry.filename.startswith(PHOTOGRAPHS)]
    if len(names) > _MOST or sum(entry.file_size for entry in squeezed) > _LARGEST_OF_ALL:
        raise LogbookError("it holds more than a logbook does")
    if len(set(names)) != len(names):
        raise LogbookError("it holds two files of one name")
    for entry in entries:
        if entry.filename != _LIST and not is_member(entry.filename):
            raise LogbookError(f"it holds {clean(entry.filename)}, which no archive of heatbook's does")
        if entry.file_size > LARGEST:
            raise LogbookError(f"{entry.filename} in it is larger than any file of a logbook ({LARGEST >> 20} MB)")
        if entry.filename.startswith(PHOTOGRAPHS) and not _is_stored(entry):
            raise LogbookError(f"{entry.filename} in it is squeezed, or larger than a photograph may be")
    with archive.open(_LIST) as file:
        contents = record_of(strict_json.decode(file.read(LARGEST).decode("utf-8")))
    version = count_of(contents["heatbook_archive"], 1, 10**9)
    if version > _FORMAT:
        raise LogbookError("it was written by a newer heatbook; unpack it with that one")
    listed = record_of(contents["files"])
    if {*listed, _LIST} != {*names}:
        raise LogbookError("what it holds is not what its list says")
    return {
        name: {"bytes": count_of(record_of(one)["bytes"], 0, LARGEST), "sha256": text_of(record_of(one)["sha256"])}
        for name, one in listed.items()
    }

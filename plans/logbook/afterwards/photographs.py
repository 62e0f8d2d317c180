"""The photographs of a sitting's work: kept in its file by name, each with its step, its note, and when it was added.

The pictures are files: the smith's own, or a copy beside the sitting's file, see `photo_files`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from pathlib import PurePath
from typing import Any, Final

from plans.logbook.afterwards.lessons import check_schema
from plans.logbook.afterwards.numbered import next_number, read_numbered, standing, with_taken_back
from plans.record import record
from plans.record_values import (
    MOST_OF_ALL,
    Record,
    check_year,
    count_of,
    maybe_moment,
    maybe_stamp,
    moment_of,
    step_of,
    text_of,
)
from plans.text import plain

LARGEST_PHOTO: Final = 25 << 20
"""No photograph is larger [bytes]."""
LONGEST_NOTE: Final = 200
"""A note on a photograph has so many characters at most."""
_LONGEST_PATH: Final = 4096
_SCHEMA: Final = 1
_SHA256: Final = re.compile(r"[0-9a-f]{64}")
_NAMED_BY: Final = 16
"""So many digits of a picture's hash make the name of its copy."""
_COPY: Final = re.compile(rf"[0-9a-f]{{{_NAMED_BY}}}\.(?:jpg|png|webp|heic|gif)")


def copy_name(sha256: str, kind: str) -> str:
    """What the copy of a picture is called: by what is in it, so that one picture has one copy, and no name leads
    elsewhere.

    Args:
        sha256: the hash of its bytes, in hexadecimal digits
        kind: "jpg", "png", "webp", "heic" or "gif"
    """
    return f"{sha256[:_NAMED_BY]}.{kind}"


def is_copy_name(name: str) -> bool:
    """Whether the copy of a photograph may be called that."""
    return _COPY.fullmatch(name) is not None


@record
class Photograph:
    """A photograph of a sitting's work."""

    number: int
    """Counted from 1 in its sitting; never given to another."""
    path: str
    """The file that the smith named, in full; it need not be there any more."""
    copy: str | None
    """The name of its copy in the sitting's folder; None where only its name is kept."""
    step: int | None
    """The step that it shows, from 0; None where it is of the sitting as a whole."""
    note: str
    """What the smith says of it: `plain`, at most `LONGEST_NOTE` characters, empty where nothing."""
    added: datetime
    """When it was added: wall time with its offset."""
    size: int
    """How large the file was then [bytes]."""
    sha256: str
    """The hash of its bytes then, in hexadecimal digits."""
    taken_back: datetime | None = None
    """Since when it counts no longer; None where it does."""

    @property
    def name(self) -> str:
        """The file's own name, without where it lies."""
        return PurePath(self.path).name


@record
class Photographs:
    """All photographs of one sitting, in the order in which they were added."""

    kept: tuple[Photograph, ...] = ()
    """Each, those that were taken back among them."""
    damaged: tuple[object, ...] = ()
    """What can't be read of them, as it stands in the file: it is written there again as it is."""

    @property
    def standing(self) -> tuple[Photograph, ...]:
        """Those that were not taken back."""
        return standing(self.kept)

    def added(self, one: Photograph) -> Photographs:
        """Make photographs of these and one more, which gets the next number."""
        number = next_number(self.kept, self.damaged)
        return replace(self, kept=(*self.kept, replace(one, number=number)))

    def without(self, number: int, now: datetime) -> Photographs:
        """Make photographs of these in which one is taken back.

        Raises:
            LogbookError: none has that number, or it was taken back before.
        """
        return replace(self, kept=with_taken_back(self.kept, number, now, "no photograph"))


def photographs_record(photographs: Photographs) -> Record:
    """The photographs as a JSON object; steps are counted from 1."""
    return {"schema": _SCHEMA, "kept": [*map(_record, photographs.kept), *photographs.damaged]}


def photographs_from_record(record: Mapping[str, Any]) -> Photographs:
    """The photographs from a JSON object that `photographs_record` made; one that is damaged costs none of the rest.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError: it is none.
    """
    check_schema(record, _SCHEMA)
    return Photographs(*read_numbered(record["kept"], _one))


def _record(one: Photograph) -> Record:
    return {
        "number": one.number,
        "path": one.path,
        "copy": one.copy,
        "step": None if one.step is None else one.step + 1,
        "note": one.note,
        "added": maybe_stamp(one.added),
        "size_bytes": one.size,
        "sha256": one.sha256,
        "taken_back": maybe_stamp(one.taken_back),
    }


def _one(item: Record) -> Photograph:
    path, copy, note, sha256 = text_of(item["path"]), item["copy"], text_of(item["note"]), text_of(item["sha256"])
    if not 0 < len(path) <= _LONGEST_PATH or "\0" in path or not PurePath(path).name:
        raise ValueError("the name of a file was expected")
    if _SHA256.fullmatch(sha256) is None:
        raise ValueError("a hash of 64 hexadecimal digits was expected")
    if copy is not None and not (is_copy_name(text_of(copy)) and copy.startswith(sha256[:_NAMED_BY])):
        raise ValueError("the name of its copy was expected")
    if len(note) > LONGEST_NOTE or plain(note).strip() != note:
        raise ValueError("a note of one line was expected")
    return Photograph(
        count_of(item["number"], 1, MOST_OF_ALL),
        path,
        copy,
        None if item["step"] is None else step_of(item["step"]),
        note,
        check_year(moment_of(item["added"])),
        count_of(item["size_bytes"], 1, LARGEST_PHOTO),
        sha256,
        maybe_moment(item["taken_back"]),
    )

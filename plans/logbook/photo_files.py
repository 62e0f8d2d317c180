"""The files of photographs: read and checked where the smith has them, and their copies in a folder beside a sitting.

A copy is called by what is in it. So it never takes the place of another, the same picture is not copied twice, and
whether it is whole can be told from it alone. The folder of the sitting `ID.json` is called `ID`.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Final

from plans.logbook.afterwards import LARGEST_PHOTO, copy_name, is_copy_name
from plans.logbook.errors import LogbookError, reason, shown
from plans.record import record
from plans.regular import NoOrdinaryFileError, open_regular
from plans.writing import BESIDE, make_folder, sync_folder, write_beside

ENDINGS: Final = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".gif")
"""What the name of a photograph may end in, in small or capital letters."""
_HEIC: Final = (b"ftypheic", b"ftypheix", b"ftypheim", b"ftypheis", b"ftyphevc", b"ftypmif1", b"ftypmsf1")
"""How such a file goes on behind its first four bytes (ISO/IEC 23008-12, its brands)."""


@record
class Picture:
    """A picture that was read from a file."""

    path: Path
    """Where it lies, in full."""
    data: bytes
    """All of it, as it lies there."""
    kind: str
    """What it is by its first bytes, as its copy's name ends: "jpg", "png", "webp", "heic" or "gif"."""
    sha256: str
    """The hash of its bytes, in hexadecimal digits."""

    @property
    def copy_name(self) -> str:
        """What its copy is called."""
        return copy_name(self.sha256, self.kind)


def kind_of(data: bytes) -> str | None:
    """What picture some bytes are by how they begin: "jpg", "png", "webp", "heic" or "gif"; None for no such."""
    if data.startswith(b"\xff\xd8\xff"):
        return "jpg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if data.startswith((b"GIF87a", b"GIF89a")):
        return "gif"
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return "webp"
    return "heic" if data[4:12] in _HEIC else None


def read_picture(given: str) -> Picture:
    """Read a photograph from the file that a smith has named.

    Args:
        given: the name as it was typed; `~` is the smith's own folder, and one that is not in full is of the folder
            that the program runs in

    Raises:
        LogbookError: it is not there, can't be read, is no picture or too large; the text says what would be right.
    """
    try:
        path = Path(os.path.abspath(Path(given).expanduser()))  # noqa: PTH100 - a link stays the name that was given
    except RuntimeError:
        raise LogbookError(f"{shown(given)}: there is no such user; write the folder in full") from None
    if path.suffix.lower() not in ENDINGS:
        raise LogbookError(f"{shown(path)}: a photograph's name ends in {', '.join(ENDINGS[:-1])} or {ENDINGS[-1]}")
    data = read_photo(path)
    kind = kind_of(data)
    if kind is None:
        what = "is empty" if not data else "holds no picture that is known here"
        raise LogbookError(f"{shown(path)} {what}: a photograph is JPEG, PNG, WebP, HEIC or GIF")
    return Picture(path, data, kind, hashlib.sha256(data).hexdigest())


def read_photo(path: Path) -> bytes:
    """The bytes of a photograph's file, whatever they are.

    Raises:
        LogbookError: it is not there, can't be read, or is too large for a photograph.
    """
    try:
        with open_regular(path) as file:
            data = file.read(LARGEST_PHOTO + 1)
    except FileNotFoundError:
        raise LogbookError(f"{shown(path)} is not there; look at how its name is written") from None
    except PermissionError:
        raise LogbookError(f"{shown(path)} can't be read: no permission; let yourself read it first") from None
    except (NoOrdinaryFileError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise LogbookError(f"{shown(path)} can't be read: {why}; name a picture") from None
    except OSError as error:
        raise LogbookError(f"{shown(path)} can't be read: {reason(error)}") from None
    if len(data) > LARGEST_PHOTO:
        raise LogbookError(
            f"{shown(path)} is larger than {LARGEST_PHOTO >> 20} MB; make a smaller picture of it, and name that"
        )
    return data


def is_whole(name: str, data: bytes) -> bool:
    """Whether bytes are the picture that a copy of this name was made of."""
    return is_copy_name(name) and copy_name(hashlib.sha256(data).hexdigest(), name.rpartition(".")[2]) == name


def copy_into(folder: Path, picture: Picture) -> bool:
    """Copy a picture into a sitting's folder, whole or not at all; the lock of the logbook is held.

    Returns:
        whether it was not there before

    Raises:
        LogbookError: it can't be written, and nothing is left of it; or something else stands in its place, and stays.
    """
    to = folder / picture.copy_name
    try:
        if os.path.lexists(to):
            if to.is_symlink() or read_photo(to) != picture.data:
                raise LogbookError(f"{shown(to)} is there already and is another file; move it away, and try again")
            return False
        make_folder(folder)
        write_beside(to, [picture.data])
    except OSError as error:
        with suppress(OSError):
            folder.rmdir()  # where it was made for this alone
        raise LogbookError(f"{shown(to)} can't be written: {reason(error)}; nothing was kept") from None
    return True


def take_away(folder: Path, name: str) -> None:
    """Remove a copy that was made just now, and the folder where it was made for that; what can't go stays."""
    with suppress(OSError):
        (folder / name).unlink(missing_ok=True)
        folder.rmdir()


def copies_in(folder: Path) -> Iterator[Path]:
    """The copies in a sitting's folder, by name; none where there is no folder. Other files are nobody's business."""
    with suppress(FileNotFoundError, NotADirectoryError):
        yield from sorted(path for path in folder.iterdir() if is_copy_name(path.name))


def move_copies(source: Path, target: Path) -> None:
    """Move a sitting's folder, and where there is one already what that lacks; nothing where there is none to move.

    Raises:
        OSError: not all could be moved; what was not lies where it lay.
    """
    if not source.is_dir():
        return
    if not os.path.lexists(target):
        make_folder(target.parent)
        source.rename(target)
    else:
        for path in copies_in(source):
            if os.path.lexists(target / path.name):
                path.unlink()  # by its name the same picture
            else:
                path.rename(target / path.name)
        with suppress(OSError):
            source.rmdir()
        sync_folder(target)
    for folder in (source.parent, target.parent):
        sync_folder(folder)


def remove_copies(folder: Path) -> None:
    """Remove the copies in a sitting's folder for good, and the folder where nothing else lies in it.

    Raises:
        OSError: one could not be removed.
    """
    if not folder.is_dir() or folder.is_symlink():
        return
    sweep_copies(folder)
    for path in copies_in(folder):
        path.unlink()
    with suppress(OSError):
        folder.rmdir()
    sync_folder(folder.parent)


def sweep_copies(folder: Path) -> None:
    """Remove what was being copied when the program was killed: it was never finished.

    Raises:
        OSError: it could not be removed.
    """
    for path in list(folder.iterdir()):
        if path.name.endswith(BESIDE) and is_copy_name(path.name.removesuffix(BESIDE)):
            path.unlink()

"""A TOML file of the smith's own: read whole or not at all, and changed so that all else in it stays."""

from __future__ import annotations

from collections.abc import Callable
from errno import EACCES
from pathlib import Path
from stat import S_IWUSR
from typing import Final

from plans.record import record
from plans.toml import NoTomlFileError, TomlError, TomlText, read_toml, shown_path
from tui.config.errors import UsageError

MOST_BYTES: Final = 100_000
"""A larger file is none that a smith has written."""


@record
class OwnFile:
    """A file of the smith's own as it was read."""

    path: Path
    """Where it is, or would be."""
    toml: TomlText
    """What it holds; nothing, where it is not there or can't be read."""
    trouble: str = ""
    """Why it can't be read: it can't be opened, or is no TOML. Empty where it can, and where there is no such file."""


def read_own_file(path: Path) -> OwnFile:
    """Read such a file; it need not be there."""
    nothing = TomlText(shown_path(path), "", {})
    try:
        return OwnFile(path, read_toml(path, MOST_BYTES))
    except NoTomlFileError:
        return OwnFile(path, nothing)
    except TomlError as error:
        fault = error.fault
        place = fault.file if fault.line is None else f"{fault.file}:{fault.line}"
        return OwnFile(path, nothing, f"{place}: {fault.what}")


def change_own_file(file: OwnFile, change: Callable[[TomlText], str], instead: str) -> None:
    """Change such a file: it is then the new one or the old one, whole.

    Args:
        file: as it was read, without trouble
        change: makes the new text; it raises TomlChangeError where it can't
        instead: what the smith would write himself, for when it can't be done for him

    Raises:
        UsageError: the file holds something else in its place.
        OSError: it can't be written; the file is as it was.
    """
    from plans.toml import TomlChangeError

    try:
        text = change(file.toml)
    except TomlChangeError as error:
        raise UsageError(f"{error}; write {instead} yourself") from None
    write_own_file(file.path, text.encode())


def write_own_file(path: Path, data: bytes) -> None:
    """Write such a file: it is then the new one or the old one, whole.

    Raises:
        OSError: it can't be written, or whoever owns it has made it read-only; it is as it was.
    """
    from plans.writing import make_folder, write_beside

    try:
        # Another file takes its place, which the system allows whatever the old one's permissions say.
        if path.exists() and not path.stat().st_mode & S_IWUSR:
            raise PermissionError(EACCES, "it is read-only")
        make_folder(path.parent)
        write_beside(path, [data])
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error

"""A TOML file of the smith's own: read whole or not at all, and changed so that all else in it stays."""

from __future__ import annotations

import os
from collections.abc import Callable
from errno import EACCES
from pathlib import Path
from stat import S_IWUSR
from typing import Final

from plans.record import record
from plans.toml import NoTomlFileError, TomlError, TomlText, read_toml, shown_path
from tui.config.alone import alone_in
from tui.config.errors import UsageError

MOST_BYTES: Final = 100_000
"""A larger file is none that a smith has written."""
_TRIES: Final = 3
"""So often it is begun anew where another program has written the file meanwhile."""


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


def change_own_file(path: Path, change: Callable[[TomlText], str], instead: str, then: str = "try again") -> TomlText:
    """Change such a file as it stands there: it is then the new one or the old one, whole.

    Where something else writes it meanwhile, it is read and changed again, so that nothing written is lost.

    Args:
        path: of the file; it need not be there, nor its folder
        change: makes the new text; it raises TomlChangeError where it can't
        instead: what the smith would write himself, for when it can't be done for him
        then: what the smith does once a file that can't be read is mended

    Returns:
        what it held before

    Raises:
        UsageError: it is no TOML, something else has the place in it, or another program goes on writing it.
        OSError: it can't be written; the file is as it was.
    """
    from plans.toml import TomlChangeError

    for _ in range(_TRIES):
        with alone_in(_lies_in(path)):
            file = read_own_file(path)
            if file.trouble:
                raise UsageError(f"{file.trouble}; mend it, or move it away, then {then}")
            try:
                text = change(file.toml)
            except TomlChangeError as error:
                raise UsageError(f"{error}; write {instead} yourself") from None
            try:
                write_own_file(path, text.encode(), file)
            except _ChangedError:
                continue
            return file.toml
    raise UsageError(f"{path} is being changed by another program, and left to that; close it, then {then}")


class _ChangedError(Exception):
    """The file is no longer as it was read."""


def write_own_file(path: Path, data: bytes, before: OwnFile | None = None) -> None:
    """Write such a file: it is then the new one or the old one, whole.

    Args:
        path: of the file
        data: what it is to hold
        before: as it was read; None where it is written whatever stands there

    Raises:
        OSError: it can't be written, or whoever owns it has made it read-only; it is as it was.
    """
    from plans.writing import BESIDE, make_folder, write_beside

    def check() -> None:
        if before is not None and read_own_file(path) != before:
            raise _ChangedError

    try:
        # Another file takes its place, which the system allows whatever the old one's permissions say.
        if path.exists() and not path.stat().st_mode & S_IWUSR:
            raise PermissionError(EACCES, "it is read-only")
        make_folder(path.parent)
        with alone_in(_lies_in(path)) as alone:
            write_beside(path, [data], BESIDE if alone else f".{os.getpid()}{BESIDE}", check)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def _lies_in(path: Path) -> Path:
    """The folder in which a file lies itself, where the path may lead to it by links."""
    return Path(os.path.realpath(path)).parent

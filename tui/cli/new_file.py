"""A file that the smith asks for: a new one, or none."""

from __future__ import annotations

from pathlib import Path

from tui.config import UsageError


def write_new(path: Path, text: str) -> None:
    """Write a new file in UTF-8, newlines as they are; one that is there already stays as it is.

    Raises:
        UsageError: there is something of this name, or no folder for it.
        OSError: it can't be written; what was written of it is gone again.
    """
    try:
        file = path.open("xb")
    except FileExistsError:
        raise UsageError(f"{path}: stands there already and is left as it is; name another file") from None
    except (FileNotFoundError, NotADirectoryError):
        raise UsageError(f"{path}: there is no folder {path.parent}; make it first, or name another") from None
    try:
        with file:
            file.write(text.encode("utf-8", "backslashreplace"))
    except OSError as error:
        path.unlink(missing_ok=True)
        raise OSError(error.errno, error.strerror, str(path)) from error

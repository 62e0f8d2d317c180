"""A file that the smith asks for: a new one, or none."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tui.config import UsageError


@contextmanager
def saying_why_not(path: Path) -> Iterator[None]:
    """Say of what writes a new file why it can't, in the words of a person who asked for it.

    Args:
        path: of the file

    Raises:
        UsageError: there is something of this name, or no folder for it.
        OSError: it can't be written for another reason; it names the file.
    """
    try:
        yield
    except FileExistsError:
        raise UsageError(f"{path}: stands there already and is left as it is; name another file") from None
    except (FileNotFoundError, NotADirectoryError):
        raise UsageError(f"{path}: there is no folder {path.parent}; make it first, or name another") from None
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def write_new(path: Path, text: str) -> None:
    """Write a new file in UTF-8, for its owner alone, newlines as they are; one that is there stays as it is.

    Raises:
        UsageError: there is something of this name, or no folder for it.
        OSError: it can't be written; what was written of it is gone again.
    """
    from plans.writing import write_new as write_private

    with saying_why_not(path):
        write_private(path, [text.encode("utf-8", "backslashreplace")])

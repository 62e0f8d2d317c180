"""A TOML file of the smith's own: read whole or not at all, and whatever is wrong in it is said with its line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from tui.config.errors import UsageError

MOST_BYTES: Final = 100_000


@dataclass(slots=True)
class OwnFile:
    """What the file holds; nothing, where it is not there or can't be read."""

    path: Path
    text: str = ""
    table: Mapping[str, Any] = field(default_factory=dict)
    trouble: str = ""
    """Why it can't be read: it can't be opened, or is no TOML. Empty where it can, and where there is no such file."""

    @property
    def lines(self) -> Mapping[tuple[str | int, ...], int]:
        """In which line each key stands, from 1."""
        from plans.reader.toml_lines import key_lines

        return key_lines(self.text)

    def said(self, where: tuple[str, ...], what: str, right: str) -> str:
        """What is wrong with a key, where, and what would be right."""
        line = self.lines.get(where)
        place = f"{self.path}:{line}" if line else str(self.path)
        return f"{place}: {what}; {right}"


def read_own_file(path: Path) -> OwnFile:
    """Read such a file; it need not be there."""
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        return OwnFile(path)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return OwnFile(path, trouble=f"{path}: can't be read ({why})")
    import tomllib

    try:
        if len(content) > MOST_BYTES:
            raise ValueError("it is far too large")
        text = content.decode("utf-8-sig").replace("\r\n", "\n")
        return OwnFile(path, text, tomllib.loads(text))
    except (ValueError, RecursionError) as error:
        return OwnFile(path, trouble=f"{path}: {error}")


def write_own_file(file: OwnFile, lines: Sequence[str], table: Mapping[str, Any], instead: str) -> None:
    """Write such a file anew: whole, or not at all.

    Args:
        file: as it was read
        lines: what it is to hold
        table: what that has to mean, or the lines are not written
        instead: what the smith would write himself, for when it can't be done for him

    Raises:
        UsageError: the lines mean something else: the key is written in a way that this can't handle.
        OSError: it can't be written; the file is as it was.
    """
    import tomllib

    from plans.logbook.whole_files import write_beside

    text = "\n".join(lines) + "\n"
    try:
        sound = tomllib.loads(text) == table
    except ValueError:
        sound = False
    if not sound:
        raise UsageError(f"{file.path}: this is written so that it can't be replaced; write {instead} yourself")
    file.path.parent.mkdir(parents=True, exist_ok=True)
    try:
        write_beside(file.path, [text.encode()])
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(file.path)) from error

"""A TOML file of the smith's own: read whole or not at all, and whatever is wrong in it is said with its line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

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

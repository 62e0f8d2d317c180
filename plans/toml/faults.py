"""What is wrong in one TOML text, each fault with the line of its key."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from plans.errors import Fault, FaultKind
from plans.text import printable
from plans.toml.file import TomlText
from plans.toml.key_lines import KeyPath, key_lines


class TomlFaults:
    """The faults that were found so far in one TOML text."""

    def __init__(self, read: TomlText, parts: Collection[str] = (), *, short_keys: bool = False) -> None:
        """Begin with none.

        Args:
            read: the text that is looked through
            parts: arrays of tables whose items are called by a number, `step 6`, and by their name in `names`
            short_keys: call a key by its last part alone, `line`, and not by its whole path, `pedal.line`
        """
        self.found: list[Fault] = []
        """The faults, in the order in which they were noted."""
        self.names: dict[KeyPath, str] = {}
        """What an error calls an item of an array of tables, by its path, e.g. `step 6 "Draw out the blade"`."""
        self._read, self._parts = read, parts
        self._short_keys = short_keys
        self._lines: Mapping[KeyPath, int] | None = None

    def note(self, path: KeyPath, what: str, hint: str, kind: FaultKind) -> None:
        """Note what is wrong with a key, which need not be there: then the line is that of the table it belongs in."""
        part = path[:2] if path[0] in self._parts and len(path) > 1 and isinstance(path[1], int) else ()
        where = self.names.get(part, f"{part[0]} {int(part[1]) + 1}" if part else "")
        key = key_text(path[-1:] if self._short_keys else path[len(part) :])
        self.found.append(Fault(self._read.file, self.line(path), where, key, what, hint, kind))

    def say(self, path: KeyPath, what: str, hint: str) -> None:
        """Note a fault at a key in a sentence that names the key itself."""
        self.found.append(Fault(self._read.file, self.line(path), "", "", what, hint, FaultKind.VALUE))

    def line(self, path: KeyPath) -> int:
        """The line of a key, or of the innermost table around it that stands in the text, from 1."""
        if self._lines is None:
            try:
                self._lines = key_lines(self._read.text)
            except RecursionError:  # lists hundreds deep, which tomllib has just managed
                self._lines = {}
        while path and path not in self._lines:
            path = path[:-1]
        return self._lines.get(path, 1)


def key_text(path: KeyPath) -> str:
    """A key as it is written in an error, fit for a terminal: `air.until`, `fire[2]`; indices are shown from 1."""
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            name = printable(part[:40]) or '""'
            text += f".{name}" if text else name
    return text


Meant = Mapping[str, tuple[str, ...]]
"""What other words mean: each in lower case with spaces between its parts, with the known words for it, the likelier
first."""


def nearest(word: str, known: Collection[str], meant: Meant | None = None) -> str:
    """The known word that is most likely meant by another one; empty where none is like it.

    Args:
        word: what was written
        known: what may be written
        meant: words of the same meaning, which go before those that only look alike
    """
    plain = " ".join(word.lower().replace("_", " ").replace("-", " ").split())
    for one in (meant or {}).get(plain, ()):
        if one in known:
            return str(one)
    from difflib import get_close_matches

    return next(iter(get_close_matches(word, known, n=1)), "")


def near_or_all(word: str, known: Collection[str], there: str = "there are", meant: Meant | None = None) -> str:
    """What might have been meant by an unknown word: the nearest of the known ones, or else all of them."""
    near = nearest(word, known, meant)
    return f"perhaps {near}" if near else f"{there} {', '.join(known)}"

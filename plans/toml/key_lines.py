"""In which line each key of a TOML text stands, which tomllib does not tell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

KeyPath = tuple[str | int, ...]
"""Where a value stands: keys and, in arrays, indices from 0, e.g. ("step", 2, "air", "until") or ("fire", 1)."""

DEEPEST: Final = 16
"""Most parts of a path; keys deeper inside each other are not told apart, since paths of thousands of parts would fill
the memory."""

_BLANK: Final = re.compile(r"[ \t]*")
_BLANK_LINES: Final = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_COMMENT: Final = re.compile("#[^\n]*")
_STRING: Final = re.compile(
    r'"""(?:[^\\"]|\\[\s\S]|"{1,2}(?!"))*"{3,5}'
    r"|'''(?:[^']|'{1,2}(?!'))*'{3,5}"
    r'|"(?:[^\\"\n]|\\.)*"'
    r"|'[^'\n]*'"
)
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_SCALAR: Final = re.compile(r"[^,\]}#\r\n]+")


def key_lines(text: str) -> dict[KeyPath, int]:
    """The line, from 1, of every key, table header and array item of a TOML text.

    A table has the line of its header (or of the first key that makes it), an item of an array its own line, so that
    a fault in the third of five fire temperatures is found even where the array runs over several lines.

    Args:
        text: what `tomllib.loads` has read without an error; anything else gives lines of no meaning.
    """
    return _Scan(text).lines


def table_headers(text: str) -> list[tuple[int, KeyPath]]:
    """Each header of a table, in the order of the text: its line, from 1, and the path of its table.

    Args:
        text: what `tomllib.loads` has read without an error; anything else gives lines of no meaning.
    """
    return _Scan(text).headers


def comments_in(text: str) -> list[str]:
    """Every comment of a TOML text from its "#" on, in the order of the text.

    Args:
        text: what `tomllib.loads` has read without an error; anything else gives texts of no meaning.
    """
    return _Scan(text).comments


class _Scan:
    """One walk through the text. The grammar need not be checked, only followed."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.counted = 0
        self.lines: dict[KeyPath, int] = {}
        self.tables: dict[KeyPath, int] = {}
        """How many elements each array of tables has so far."""
        self.headers: list[tuple[int, KeyPath]] = []
        self.comments: list[str] = []
        self._document()

    def _document(self) -> None:
        here: KeyPath = ()
        self._skip(_BLANK_LINES)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                here = self._header()
            else:
                self._pair(here)
            self._skip(_BLANK_LINES)

    def _header(self) -> KeyPath:
        many = self.text.startswith("[[", self.at)
        line = self._line()
        self.at += 2 if many else 1
        names = list(self._dotted())[:DEEPEST]
        self.at += 2 if many else 1
        path: KeyPath = ()
        for name in names[:-1]:
            path = self._inside((*path, name), line)
        path = (*path, names[-1])
        if many:
            count = self.tables[path] = self.tables.get(path, 0) + 1
            self.lines.setdefault(path, line)
            path = (*path, count - 1)
        # a table may be opened by [a.b] and get its own header later: its own one counts
        self.lines[path] = line
        self.headers.append((line, path))
        return path

    def _inside(self, path: KeyPath, line: int) -> KeyPath:
        self.lines.setdefault(path, line)
        return (*path, self.tables[path] - 1) if path in self.tables else path

    def _pair(self, here: KeyPath) -> None:
        line = self._line()
        path = here
        for name in self._dotted():
            path = (*path, name)[:DEEPEST]
            self.lines.setdefault(path, line)
        self.at += 1  # the equals sign
        self._skip(_BLANK)
        self._value(path)

    def _dotted(self) -> Iterator[str]:
        while True:
            self._skip(_BLANK)
            quoted = _STRING.match(self.text, self.at)
            found = quoted or _BARE_KEY.match(self.text, self.at)
            if found is None:
                raise ValueError(f"no key at line {self._line()}")
            self.at = found.end()
            yield _unquoted(found.group()) if quoted else found.group()
            self._skip(_BLANK)
            if not self.text.startswith(".", self.at):
                return
            self.at += 1

    def _value(self, path: KeyPath) -> None:
        opener = self.text[self.at]
        if opener == "[":
            self._array(path)
        elif opener == "{":
            self._inline(path)
        elif opener in "\"'":
            self._skip(_STRING)
        else:
            self._skip(_SCALAR)

    def _array(self, path: KeyPath) -> None:
        self.at += 1
        self._skip(_BLANK_LINES)
        index = 0
        while self.text[self.at] != "]":
            self.lines[(*path, index)[:DEEPEST]] = self._line()
            self._value((*path, index)[:DEEPEST])
            index += 1
            self._skip(_BLANK_LINES)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_BLANK_LINES)
        self.at += 1

    def _inline(self, path: KeyPath) -> None:
        self.at += 1
        self._skip(_BLANK_LINES)
        while self.text[self.at] != "}":
            self._pair(path)
            self._skip(_BLANK_LINES)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_BLANK_LINES)
        self.at += 1

    def _skip(self, pattern: re.Pattern[str]) -> None:
        found = pattern.match(self.text, self.at)
        if found is not None:
            self.at = found.end()
            if pattern is _BLANK_LINES and "#" in found.group():
                self.comments += [line.rstrip() for line in _COMMENT.findall(found.group())]

    def _line(self) -> int:
        self.line += self.text.count("\n", self.counted, self.at)
        self.counted = self.at
        return self.line


def _unquoted(string: str) -> str:
    import tomllib

    return str(tomllib.loads(f"key = {string}")["key"])

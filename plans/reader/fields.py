"""A plan's TOML while it is read: typed access to its tables, and a list of everything that is wrong with them."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from difflib import get_close_matches
from enum import StrEnum
from typing import Any, Final, TypeVar

from plans.errors import Fault, FaultKind
from plans.quantities import Dimension, QuantityError, parse, parse_section
from plans.quantity_grammar import EXAMPLES
from plans.reader.toml_lines import Path
from plans.section import Section

Choice = TypeVar("Choice", bound=StrEnum)

UNSAFE: Final = "\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069"
"""Control characters and marks that turn the direction of writing, as the inside of a character class."""
ONE_LINE: Final = f"^[^\t\n{UNSAFE}]*[^\t\n {UNSAFE}][^\t\n{UNSAFE}]*$"
PARAGRAPHS: Final = f"^[^{UNSAFE}]*$"

KINDS_OF_VALUE: Final[dict[type, str]] = {
    bool: "true or false",
    int: "a bare number",
    float: "a bare number",
    str: "text",
    list: "a list",
    dict: "a table",
}


class Source:
    """The text of one plan: where each key stands, and what was found wrong."""

    def __init__(self, file: str, lines: dict[Path, int]) -> None:
        self.file = file
        self.lines = lines
        self.faults: list[Fault] = []
        self.titles: dict[Path, str] = {}
        """What a step or a bar is called in an error."""

    def blame(self, path: Path, what: str, hint: str, kind: FaultKind) -> None:
        """Note a fault at a key, which need not be there: then the line is that of the table it is missing from."""
        place = path
        while place and place not in self.lines:
            place = place[:-1]
        line = self.lines.get(place, 1)
        part = path[:2] if len(path) > 1 and isinstance(path[1], int) else ()
        where = self.titles.get(part, f"{part[0]} {int(part[1]) + 1}" if part else "")
        self.faults.append(Fault(self.file, line, where, _key(path[len(part) :]), what, hint, kind))


def _key(path: Path) -> str:
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            name = "".join(mark if mark.isprintable() else "?" for mark in part[:40]) or '""'
            text += f".{name}" if text else name
    return text


class Table:
    """One table of a plan. Every method that reads a key gives None where the key is absent or at fault."""

    def __init__(self, source: Source, path: Path, values: dict[str, Any]) -> None:
        self.source = source
        self.path = path
        self.values = values

    def shape(self, key: str | Path, what: str, hint: str) -> None:
        """Note a fault that the JSON Schema finds too."""
        self.source.blame(self._at(key), what, hint, FaultKind.SHAPE)

    def value(self, key: str | Path, what: str, hint: str) -> None:
        """Note a fault that only the sense of the plan shows."""
        self.source.blame(self._at(key), what, hint, FaultKind.VALUE)

    def _at(self, key: str | Path) -> Path:
        return (*self.path, key) if isinstance(key, str) else (*self.path, *key)

    def check_keys(self, known: Collection[str], required: Collection[str]) -> None:
        """Note every key that is not known and every one that is missing."""
        for key in self.values:
            if key not in known:
                near = get_close_matches(key, known, n=1)
                hint = f"perhaps {near[0]}" if near else f"known are {', '.join(known)}"
                self.shape(key, "is no key that is known here", hint)
        for key in required:
            if key not in self.values:
                self.shape(key, "is missing", "it is needed here")

    def line(self, key: str, longest: int) -> str | None:
        """A text of one line."""
        return self._text(key, key, longest, ONE_LINE, self.values.get(key))

    def paragraphs(self, key: str, longest: int) -> str | None:
        """A text of paragraphs, set apart by empty lines; a single line break counts as a space."""
        text = self._text(key, key, longest, PARAGRAPHS, self.values.get(key))
        return text and "\n\n".join(" ".join(block.split()) for block in re.split(r"\n\s*\n", text))

    def texts(self, key: str, most: int, longest: int) -> tuple[str, ...]:
        """A list of texts of one line each."""
        if key not in self.values:
            return ()
        found = [
            self._text((key, index), key, longest, ONE_LINE, item) for index, item in self._items(key, most, least=0)
        ]
        return tuple(text for text in found if text is not None)

    def _text(self, at: str | Path, key: str, longest: int, expression: str, value: Any) -> str | None:
        if key not in self.values:
            return None
        if not isinstance(value, str):
            self.shape(at, f"is {_kind(value)}", "write text in quotes")
        elif len(value) > longest:
            self.shape(at, f"is {len(value)} characters long", f"say it in {longest}")
        elif re.fullmatch(expression, value) is None:
            if not value.strip():
                self.shape(at, "is empty", "write something or leave the key out")
            elif re.search(f"[{UNSAFE}]", value):
                self.shape(at, "holds control characters", "take them out")
            else:
                self.shape(at, "runs over several lines", "write it in one line, without tabs")
        else:
            return value.strip()
        return None

    def choice(self, key: str, choices: Collection[Choice]) -> Choice | None:
        """One word of a few."""
        return self._choice(key, choices, self.values[key]) if key in self.values else None

    def choices(self, key: str, choices: Collection[Choice]) -> tuple[Choice, ...] | None:
        """A list of words of a few, none of them twice."""
        if key not in self.values:
            return None
        items = list(self._items(key, len(choices), hint="write a list of words"))
        found = [self._choice((key, index), choices, item) for index, item in items]
        for index, item in items:
            if item in [other for place, other in items if place < index]:
                self.shape((key, index), f"names {item!r} again", "name each one once")
        return tuple(word for word in found if word is not None)

    def _choice(self, at: str | Path, choices: Collection[Choice], value: Any) -> Choice | None:
        for choice in choices:
            if isinstance(value, str) and value == choice.value:
                return choice
        words = [choice.value for choice in choices]
        near = get_close_matches(value, words, n=1) if isinstance(value, str) else []
        hint = f"perhaps {near[0]!r}" if near else f"write one of {', '.join(words)}"
        self.shape(at, f"is {_shown(value)}", hint)
        return None

    def quantity(self, key: str, dimension: Dimension) -> float | None:
        """A quantity in SI."""
        return self._quantity(key, dimension, self.values[key]) if key in self.values else None

    def quantities(self, key: str, dimension: Dimension, most: int) -> float | tuple[float, ...] | None:
        """One quantity, or a list of them, in SI."""
        if not isinstance(self.values.get(key), list):
            return self.quantity(key, dimension)
        found = [self._quantity((key, index), dimension, item) for index, item in self._items(key, most)]
        return tuple(number for number in found if number is not None)

    def _quantity(self, at: str | Path, dimension: Dimension, value: Any) -> float | None:
        if not isinstance(value, str):
            self.shape(at, f"is {_kind(value)}", f"write a {dimension} in quotes, with its unit: {EXAMPLES[dimension]}")
            return None
        try:
            return parse(value, dimension)
        except QuantityError as error:
            self._blame_quantity(at, error)
            return None

    def section(self, key: str) -> Section | None:
        """A cross-section."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, str):
            self.shape(key, f"is {_kind(value)}", 'write a section in quotes: "25 x 10 mm" or "round 1 in"')
            return None
        try:
            return parse_section(value)
        except QuantityError as error:
            self._blame_quantity(key, error)
            return None

    def _blame_quantity(self, at: str | Path, error: QuantityError) -> None:
        kind = FaultKind.SHAPE if error.syntax else FaultKind.VALUE
        self.source.blame(self._at(at), f"is wrong: {error}", "", kind)

    def count(self, key: str, most: int) -> int | None:
        """A whole number from 1."""
        if key not in self.values:
            return None
        value = self.values[key]
        whole = isinstance(value, int) or (isinstance(value, float) and value.is_integer())
        if isinstance(value, bool) or not whole:
            auto = ', or "auto"' if key == "heats" else ""
            self.shape(key, f"is {_shown(value)}", f"write a whole number from 1 to {most}{auto}")
        elif not 1 <= value <= most:
            self.shape(key, f"is {_shown(value)}", f"write a whole number from 1 to {most}")
        else:
            return int(value)
        return None

    def table(self, key: str) -> Table | None:
        """The table under a key."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, dict):
            self.shape(key, f"is {_kind(value)}", f"write a table, [step.{key}] with its keys below")
            return None
        return Table(self.source, self._at(key), value)

    def tables(self, key: str, most: int) -> list[Table]:
        """The tables of an array of tables."""
        if key not in self.values:
            return []
        found = []
        for index, item in self._items(key, most, hint=f"write [[{key}]] with its keys below"):
            if isinstance(item, dict):
                found.append(Table(self.source, (*self.path, key, index), item))
            else:
                self.shape((key, index), f"is {_kind(item)}", f"write [[{key}]] with its keys below")
        return found

    def _items(
        self, key: str, most: int, least: int = 1, hint: str = "write a list: [..., ...]"
    ) -> Iterator[tuple[int, Any]]:
        value = self.values[key]
        if not isinstance(value, list):
            self.shape(key, f"is {_kind(value)}", hint)
        elif len(value) < least:
            self.shape(key, "is empty", "write at least one, or leave the key out")
        elif len(value) > most:
            self.shape(key, f"has {len(value)} items", f"{most} are the most")
        else:
            yield from enumerate(value)


def _kind(value: Any) -> str:
    return KINDS_OF_VALUE.get(type(value), "a date or a time")


def _shown(value: Any) -> str:
    if isinstance(value, str):
        return repr(value[:40])
    # printing a number of thousands of digits is an error of its own
    return str(value) if isinstance(value, (int, float)) and abs(value) < 1e15 else _kind(value)

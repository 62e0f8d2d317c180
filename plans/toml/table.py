"""Typed access to the tables of a TOML text; whatever is wrong with a value is noted, never raised."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from typing import Any, Final, TypeVar

from plans.errors import FaultKind
from plans.quantities import Dimension, QuantityError, parse, parse_section
from plans.quantity_grammar import EXAMPLES
from plans.shapes import Section
from plans.text import paragraphs
from plans.toml.faults import Meant, TomlFaults, key_text, near_or_all, nearest
from plans.toml.key_lines import KeyPath

Word = TypeVar("Word", bound=str)

UNSAFE: Final = "\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069"
"""Control characters and marks that turn the direction of writing, as the inside of a character class."""
ONE_LINE: Final = f"^[^\t\n{UNSAFE}]*[^\t\n {UNSAFE}][^\t\n{UNSAFE}]*$"
"""What a text of one line must match: it is not blank, and holds no tab and nothing unsafe."""
PARAGRAPHS: Final = f"^[^{UNSAFE}]*$"
"""What a text of paragraphs must match: nothing unsafe."""

KINDS_OF_VALUE: Final[dict[type, str]] = {
    bool: "true or false",
    int: "a bare number",
    float: "a bare number",
    str: "text",
    list: "a list",
    dict: "a table",
}
"""What an error calls a value of each type that TOML has; the types that are missing are dates and times."""


class TomlTable:
    """One table of a TOML text.

    Every method that reads a key gives None where the key is absent, and where it is at fault; the fault then goes to
    `faults`. `hint` says what would be right, where the method's own words would not do.
    """

    def __init__(self, faults: TomlFaults, path: KeyPath, values: Mapping[str, Any]) -> None:
        self.faults = faults
        """Where faults of this table are noted."""
        self.path = path
        """Where the table stands in the text; empty for the top."""
        self.values = values
        """The table as tomllib read it."""

    def shape(self, key: str | KeyPath, what: str, hint: str) -> None:
        """Note a fault that shows without arithmetic: of a plan, one that the JSON Schema finds too."""
        self.faults.note(self._at(key), what, hint, FaultKind.SHAPE)

    def value(self, key: str | KeyPath, what: str, hint: str) -> None:
        """Note a fault that only the sense of what is written shows."""
        self.faults.note(self._at(key), what, hint, FaultKind.VALUE)

    def _at(self, key: str | KeyPath) -> KeyPath:
        return (*self.path, key) if isinstance(key, str) else (*self.path, *key)

    def check_keys(
        self,
        known: Collection[str],
        required: Mapping[str, str],
        unknown: str = "is no key that is known here",
        meant: Meant | None = None,
    ) -> None:
        """Note every key that is not known, and every one that is missing.

        Args:
            known: the keys that may stand here
            required: those that must, each with what to write, an example
            unknown: what an error says of a key that is not known
            meant: what other words for the keys mean
        """
        for key in self.values:
            if key not in known:
                self.shape(key, unknown, near_or_all(key, known, "known are", meant))
        for key, example in required.items():
            if key not in self.values:
                self.shape(key, "is missing", f"write {example}")

    def line(self, key: str, longest: int, hint: str = "write something or leave the key out") -> str | None:
        """A text of one line; `hint` is for one that is blank."""
        return self._text(key, longest, ONE_LINE, self.values[key], hint) if key in self.values else None

    def paragraphs(self, key: str, longest: int) -> str | None:
        """A text of paragraphs, set apart by empty lines; a single line break counts as a space."""
        text = self._text(key, longest, PARAGRAPHS, self.values[key]) if key in self.values else None
        return text and "\n\n".join(paragraphs(text))

    def lines(self, key: str, most: int, longest: int, least: int = 0) -> tuple[str, ...] | None:
        """A list of texts of one line each."""
        if key not in self.values:
            return None
        found = [self._text((key, index), longest, ONE_LINE, item) for index, item in self._items(key, most, least)]
        return tuple(text for text in found if text is not None)

    def _text(
        self,
        at: str | KeyPath,
        longest: int,
        expression: str,
        value: Any,
        hint: str = "write something or leave the key out",
    ) -> str | None:
        if not isinstance(value, str):
            self.shape(at, f"is {kind_of(value)}", "write text in quotes")
        elif len(value) > longest:
            self.shape(at, f"is {len(value)} characters long", f"say it in {longest}")
        elif re.fullmatch(expression, value) is None:
            if not value.strip():
                self.shape(at, "is empty", hint)
            elif re.search(f"[{UNSAFE}]", value):
                self.shape(at, "holds control characters", "take them out")
            else:
                self.shape(at, "runs over several lines", "write it in one line, without tabs")
        else:
            return value.strip()
        return None

    def choice(self, key: str, choices: Collection[Word], hint: str = "", meant: Meant | None = None) -> Word | None:
        """One word of a few; `meant` tells what other words for them mean."""
        return self._choice(key, choices, self.values[key], hint, meant) if key in self.values else None

    def choices(self, key: str, choices: Collection[Word], meant: Meant | None = None) -> tuple[Word, ...] | None:
        """A list of words of a few, none of them twice; `meant` tells what other words for them mean."""
        if key not in self.values:
            return None
        items = list(self._items(key, len(choices), hint="write a list of words"))
        found = [self._choice((key, index), choices, item, meant=meant) for index, item in items]
        for index, item in items:
            if item in [other for place, other in items if place < index]:
                self.shape((key, index), f"names {item!r} again", "name each one once")
        return tuple(word for word in found if word is not None)

    def _choice(
        self, at: str | KeyPath, choices: Collection[Word], value: Any, hint: str = "", meant: Meant | None = None
    ) -> Word | None:
        for choice in choices:
            if isinstance(value, str) and value == choice:
                return choice
        words = [str(choice) for choice in choices]
        near = nearest(value, words, meant) if isinstance(value, str) else ""
        right = f"perhaps {near!r}" if near else f"write one of {', '.join(words)}"
        self.shape(at, f"is {shown(value)}", hint or right)
        return None

    def quantity(self, key: str, dimension: Dimension, hint: str = "") -> float | None:
        """A quantity in SI; `hint` is for a text that is none of that dimension."""
        return self._quantity(key, dimension, self.values[key], hint) if key in self.values else None

    def quantities(self, key: str, dimension: Dimension, most: int) -> float | tuple[float, ...] | None:
        """One quantity, or a list of them, in SI."""
        if not isinstance(self.values.get(key), list):
            return self.quantity(key, dimension)
        found = [self._quantity((key, index), dimension, item) for index, item in self._items(key, most)]
        return tuple(number for number in found if number is not None)

    def _quantity(self, at: str | KeyPath, dimension: Dimension, value: Any, hint: str = "") -> float | None:
        if not isinstance(value, str):
            right = f"write a {dimension} in quotes, with its unit: {EXAMPLES[dimension]}"
            self.shape(at, f"is {kind_of(value)}", right)
            return None
        try:
            return parse(value, dimension)
        except QuantityError as error:
            self._note_quantity(at, error, hint)
            return None

    def section(self, key: str) -> Section | None:
        """A cross-section."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, str):
            self.shape(key, f"is {kind_of(value)}", 'write a section in quotes: "25 x 10 mm" or "round 1 in"')
            return None
        try:
            return parse_section(value)
        except QuantityError as error:
            self._note_quantity(key, error)
            return None

    def _note_quantity(self, at: str | KeyPath, error: QuantityError, hint: str = "") -> None:
        note = self.shape if error.syntax else self.value
        note(at, f"is wrong: {error}", hint if error.syntax else "")

    def count(self, key: str, most: int, least: int = 1, more: str = "", *, bare: bool = False) -> int | None:
        """A whole number.

        Args:
            key: where it stands
            most: the largest that may be written
            least: the smallest that may be written
            more: what else the key may hold, at the end of an error, e.g. `, or "auto"`
            bare: whether 2.0 is no whole number; JSON, and so the schema of plans, can't tell it from 2
        """
        if key not in self.values:
            return None
        value = self.values[key]
        whole = isinstance(value, int) or (not bare and isinstance(value, float) and value.is_integer())
        hint = f"write a whole number from {least} to {most}"
        if isinstance(value, bool) or not whole:
            quoted = ", without quotes" if isinstance(value, str) and value.strip().isdecimal() else ""
            self.shape(key, f"is {shown(value)}", f"{hint}{quoted}{more}")
        elif not least <= value <= most:
            self.shape(key, f"is {shown(value)}", hint)
        else:
            return int(value)
        return None

    def number(self, key: str, least: float, most: float, hint: str) -> float | None:
        """A bare number, whole or not."""
        if key not in self.values:
            return None
        value = self.values[key]
        if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
            self.shape(key, f"is {shown(value)}", hint)
            return None
        return float(value)

    def switch(self, key: str, hint: str = "write true or false") -> bool | None:
        """True or false."""
        value = self.values.get(key)
        if key in self.values and not isinstance(value, bool):
            self.shape(key, f"is {shown(value)}", hint)
        return value if isinstance(value, bool) else None

    def table(self, key: str, hint: str = "") -> TomlTable | None:
        """The table under a key."""
        if key not in self.values:
            return None
        value = self.values[key]
        if not isinstance(value, dict):
            header = key_text(tuple(part for part in self._at(key) if isinstance(part, str)))
            self.shape(key, f"is {kind_of(value)}", hint or f"write a table, [{header}] with its keys below")
            return None
        return TomlTable(self.faults, self._at(key), value)

    def tables(self, key: str, most: int) -> tuple[TomlTable, ...] | None:
        """The tables of an array of tables."""
        if key not in self.values:
            return None
        found = []
        for index, item in self._items(key, most, hint=f"write [[{key}]] with its keys below"):
            if isinstance(item, dict):
                found.append(TomlTable(self.faults, (*self.path, key, index), item))
            else:
                self.shape((key, index), f"is {kind_of(item)}", f"write [[{key}]] with its keys below")
        return tuple(found)

    def _items(
        self, key: str, most: int, least: int = 1, hint: str = "write a list: [..., ...]"
    ) -> Iterator[tuple[int, Any]]:
        value = self.values[key]
        if not isinstance(value, list):
            self.shape(key, f"is {kind_of(value)}", hint)
        elif len(value) < least:
            self.shape(key, "is empty", "write at least one, or leave the key out")
        elif len(value) > most:
            self.shape(key, f"has {len(value)} items", f"{most} are the most")
        else:
            yield from enumerate(value)


def kind_of(value: Any) -> str:
    """What an error calls a value that is of the wrong type."""
    return KINDS_OF_VALUE.get(type(value), "a date or a time")


def shown(value: Any) -> str:
    """A value as an error repeats it: text and numbers as they are, cut short; anything else by its kind."""
    if isinstance(value, str):
        return repr(value[:40])
    if isinstance(value, int | float) and not isinstance(value, bool):
        # printing a number of thousands of digits is an error of its own
        return "far too large" if abs(value) >= 1e15 else str(value)
    return str(value) if isinstance(value, bool) else kind_of(value)

"""What may stand behind a key of a plan file: texts, words, quantities, tables.

Each type reads itself out of a table; plans/reader/schema.py says it as JSON Schema, plans/reader/key_help.py in words.
`read` is called only where the key is there; it notes what is wrong, gives None for what can't be read, and the value
itself where that is only beyond sense.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Any, Final, Literal, NamedTuple, Protocol

from plans.plan import PhaseKind, StepKind
from plans.quantities import Dimension, show_difference, show_duration, show_length, show_temperature
from plans.section import Section
from plans.toml.key_lines import KeyPath
from plans.toml.table import TomlTable

Auto = Literal["auto"]
AUTO: Final[Auto] = "auto"
"""What stands for "work it out" where else there is a number."""


class Value(Protocol):
    """A type of value."""

    def read(self, table: TomlTable, key: str) -> Any:
        """What stands behind a key that is there; None where it can't be read."""


class Range(NamedTuple):
    """What a quantity may be; beyond it no smith can mean what he wrote."""

    least: float
    """The smallest that is taken, in SI."""
    most: float
    """The largest that is taken, in SI."""
    reason: str = ""
    """Why it ends there; empty where that is plain."""

    def check(self, table: TomlTable, path: KeyPath, number: float, dimension: Dimension, verb: str = "is") -> None:
        """Note a number that lies beyond."""
        if not self.least <= number <= self.most:
            what = f"{verb} {_show(number, dimension)}, beyond sense"
            table.value(path, what, f"write something from {self.ends(dimension)}")

    def ends(self, dimension: Dimension) -> str:
        """Both ends as they are printed, e.g. "1 mm to 20000 mm"."""
        return f"{_show(self.least, dimension)} to {_show(self.most, dimension)}"


class Version(NamedTuple):
    """The version of the format."""

    number: int
    """The one that is read."""

    def read(self, table: TomlTable, key: str) -> int | None:
        """The version, if it is the one."""
        value = table.values[key]
        if isinstance(value, bool) or value != self.number:
            table.shape(key, "is no version that this heatbook reads", f"write {key} = {self.number}")
            return None
        return self.number


class Line(NamedTuple):
    """A text of one line."""

    longest: int
    """Most characters."""

    def read(self, table: TomlTable, key: str) -> str | None:
        """The line without spaces around it."""
        return table.line(key, self.longest)


class Paragraphs(NamedTuple):
    """A text of paragraphs, set apart by empty lines."""

    longest: int
    """Most characters."""

    def read(self, table: TomlTable, key: str) -> str | None:
        """The text with each paragraph in one line, an empty line between two."""
        return table.paragraphs(key, self.longest)


class Lines(NamedTuple):
    """A list of lines, which may be empty."""

    most: int
    """Most lines."""
    longest: int
    """Most characters of each."""

    def read(self, table: TomlTable, key: str) -> tuple[str, ...] | None:
        """The lines."""
        return table.lines(key, self.most, self.longest)


class Choice(NamedTuple):
    """One word of a few."""

    words: tuple[StrEnum, ...]
    """The words that may be written."""

    def read(self, table: TomlTable, key: str) -> StrEnum | None:
        """The word."""
        return table.choice(key, self.words)


class Choices(NamedTuple):
    """A list of words of a few, at least one and none of them twice."""

    words: tuple[StrEnum, ...]
    """The words that may be written."""

    def read(self, table: TomlTable, key: str) -> tuple[StrEnum, ...] | None:
        """The words, as they stand."""
        return table.choices(key, self.words)


class Quantity(NamedTuple):
    """A number with its unit, as `plans.quantities` reads it."""

    dimension: Dimension
    """What is measured."""
    range: Range
    """What it may be, in SI."""

    def read(self, table: TomlTable, key: str) -> float | None:
        """The quantity in SI."""
        number = table.quantity(key, self.dimension)
        if number is not None:
            self.range.check(table, (key,), number, self.dimension)
        return number


class QuantityOrEach(NamedTuple):
    """A quantity for all heats, or a list with one for each."""

    dimension: Dimension
    """What is measured."""
    range: Range
    """What each may be, in SI."""
    most: int
    """Most items of the list."""

    def read(self, table: TomlTable, key: str) -> float | tuple[float, ...] | None:
        """The quantity in SI, or the list."""
        found = table.quantities(key, self.dimension, self.most)
        if isinstance(found, float):
            self.range.check(table, (key,), found, self.dimension)
        for index, number in enumerate(found if isinstance(found, tuple) else ()):
            self.range.check(table, (key, index), number, self.dimension)
        return found


class CrossSection(NamedTuple):
    """A cross-section, as `plans.quantities.parse_section` reads it."""

    side: Range
    """What each side may be [m]."""

    def read(self, table: TomlTable, key: str) -> Section | None:
        """The section."""
        section = table.section(key)
        if section is not None:
            side = section.thickness if section.thickness < self.side.least else section.width
            self.side.check(table, (key,), side, "length", "has a side of")
        return section


class Count(NamedTuple):
    """A whole number from 1."""

    most: int
    """The largest that may be written."""

    def read(self, table: TomlTable, key: str, more: str = "") -> int | None:
        """The number; `more` is what else the key may hold, for an error."""
        return table.count(key, self.most, more=more)


class OrAuto(NamedTuple):
    """The word auto, or a value."""

    value: Count | Quantity
    """What may stand there instead."""

    def read(self, table: TomlTable, key: str) -> Any:
        """`AUTO`, or the value."""
        if table.values[key] == AUTO:
            return AUTO
        if isinstance(self.value, Count):
            return self.value.read(table, key, f', or "{AUTO}"')
        return self.value.read(table, key)


class Nested(NamedTuple):
    """A table with keys of its own."""

    keys: type
    """The dataclass that declares them."""

    def read(self, table: TomlTable, key: str) -> Any:
        """The table as an object of that dataclass."""
        from plans.reader.declaring import read_keys

        inner = table.table(key)
        return None if inner is None else read_keys(inner, self.keys)


class ManyNested(NamedTuple):
    """An array of tables, [[key]], with at least one in it."""

    keys: type
    """The dataclass that declares the keys of each."""
    most: int
    """Most tables."""

    def read(self, table: TomlTable, key: str) -> tuple[TomlTable, ...] | None:
        """The tables, whose own keys are still to be read."""
        return table.tables(key, self.most)


def _show(number: float, dimension: Dimension) -> str:
    match dimension:
        case "temperature":
            return show_temperature(number)
        case "temperature difference":
            return show_difference(number)
        case "time":
            return show_duration(number) if number >= 1 or number == 0 else f"{number:.1g} s"
        case "length":
            return show_length(number)
    raise ValueError(f"no key of a plan is a {dimension}")


PHASES: Final = tuple(kind for kind in PhaseKind if kind is not PhaseKind.READY)
"""The phases that a plan may name."""
KINDS: Final = tuple(StepKind)
"""The kinds that a step may have."""

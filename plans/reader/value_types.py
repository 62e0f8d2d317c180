"""What may stand behind a key of a plan file: texts, words, quantities, tables.

Each type reads itself out of a table, and writes itself as what TOML then holds; plans/reader/schema.py says it as JSON
Schema, plans/reader/key_help.py in words. `read` is called only where the key is there; it notes what is wrong, gives
None for what can't be read, and the value itself where that is only beyond sense. What `write` gives of a value that
makes sense reads back to the same one, rounded as plans/spelling.py rounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from typing import Any, Final, Literal, NamedTuple, Protocol

from plans.phase import PhaseKind
from plans.plan import StepKind
from plans.quantities import Dimension
from plans.shapes import Section
from plans.shown import show_duration
from plans.spelling import spell, spell_section
from plans.toml import KeyPath, Meant, TomlTable
from plans.units import Units, both

Auto = Literal["auto"]
AUTO: Final[Auto] = "auto"
"""What stands for "work it out" where else there is a number."""


class Value(Protocol):
    """A type of value that may stand behind a key."""

    def read(self, table: TomlTable, key: str) -> Any:
        """The value behind a key that is there; None where it can't be read, which has then been noted."""

    def write(self, value: Any, units: Units) -> Any:
        """The value as TOML holds it, quantities in these units: a text, a number, a list or a table."""


class Range(NamedTuple):
    """The range in which a quantity makes sense; beyond it no smith can mean what he wrote."""

    least: float
    """Smallest quantity that is taken, in SI."""
    most: float
    """Largest quantity that is taken, in SI."""
    reason: str = ""
    """Why the range ends there; empty where that is plain."""

    def check(self, table: TomlTable, path: KeyPath, number: float, dimension: Dimension, verb: str = "is") -> None:
        """Note a number that lies out of the range.

        Args:
            table: where it stands
            path: its key, and its index in a list
            number: the quantity, in SI
            dimension: what it measures
            verb: what the error begins with, before the quantity
        """
        if not self.least <= number <= self.most:
            what = f"{verb} {_show_both(number, dimension)}, beyond sense"
            least, most = _show_both(self.least, dimension), _show_both(self.most, dimension)
            table.value(path, what, f"write something from {least} to {most}")

    def ends(self, dimension: Dimension) -> str:
        """Both ends of the range as they are printed, e.g. "1 mm to 20000 mm"."""
        return f"{_show(self.least, dimension)} to {_show(self.most, dimension)}"


class Version(NamedTuple):
    """The version of the format."""

    number: int
    """The only version that is read."""

    def read(self, table: TomlTable, key: str) -> int | None:
        """The version, if it is one that is read."""
        value = table.values[key]
        if isinstance(value, bool) or value != self.number:
            table.shape(key, "is no version that this heatbook reads", f"write {key} = {self.number}")
            return None
        return self.number

    def write(self, value: int, units: Units) -> int:  # noqa: ARG002
        """The version itself."""
        return value


class Line(NamedTuple):
    """A text of one line."""

    longest: int
    """Most characters of the text."""
    braces: bool = True
    """Whether it may hold quantities in braces; not where it is a name that is compared with others."""

    def read(self, table: TomlTable, key: str) -> str | None:
        """The text without spaces around it."""
        return table.line(key, self.longest)

    def write(self, value: str, units: Units) -> str:  # noqa: ARG002
        """The text itself."""
        return value


class Paragraphs(NamedTuple):
    """A text of paragraphs, set apart by empty lines."""

    longest: int
    """Most characters of the text."""

    def read(self, table: TomlTable, key: str) -> str | None:
        """The text with each paragraph in one line, an empty line between two."""
        return table.paragraphs(key, self.longest)

    def write(self, value: str, units: Units) -> str:  # noqa: ARG002
        """The text itself."""
        return value


class Lines(NamedTuple):
    """A list of lines, which may be empty unless it is said otherwise."""

    most: int
    """Most lines of the list."""
    longest: int
    """Most characters of each line."""
    least: int = 0
    """Least lines of the list."""

    def read(self, table: TomlTable, key: str) -> tuple[str, ...] | None:
        """The lines of the list, each without spaces around it."""
        return table.lines(key, self.most, self.longest, self.least)

    def write(self, value: Sequence[str], units: Units) -> list[str]:  # noqa: ARG002
        """The lines as a list."""
        return list(value)


class Choice(NamedTuple):
    """One word of a few."""

    words: tuple[StrEnum, ...]
    """The words that may be written."""
    meant: Meant | None = None
    """What other words for them mean, for an error to suggest."""

    def read(self, table: TomlTable, key: str) -> StrEnum | None:
        """The word that is written."""
        return table.choice(key, self.words, meant=self.meant)

    def write(self, value: StrEnum, units: Units) -> str:  # noqa: ARG002
        """The word."""
        return value.value


class Choices(NamedTuple):
    """A list of words of a few, at least one and none of them twice."""

    words: tuple[StrEnum, ...]
    """The words that may be written."""
    meant: Meant | None = None
    """What other words for them mean, for an error to suggest."""

    def read(self, table: TomlTable, key: str) -> tuple[StrEnum, ...] | None:
        """The words of the list, in their order."""
        return table.choices(key, self.words, self.meant)

    def write(self, value: Sequence[StrEnum], units: Units) -> list[str]:  # noqa: ARG002
        """The words as a list."""
        return [word.value for word in value]


class Quantity(NamedTuple):
    """A number with its unit, as `plans.quantities` reads it."""

    dimension: Dimension
    """What the quantity measures."""
    range: Range
    """The range of the quantity, in SI."""

    def read(self, table: TomlTable, key: str) -> float | None:
        """The quantity in SI."""
        number = table.quantity(key, self.dimension)
        if number is not None:
            self.range.check(table, (key,), number, self.dimension)
        return number

    def write(self, value: float, units: Units) -> str:
        """The quantity with its unit."""
        return spell(value, self.dimension, units)


class QuantityOrEach(NamedTuple):
    """A quantity for all heats, or a list with one for each."""

    dimension: Dimension
    """What the quantity measures."""
    range: Range
    """The range of each quantity, in SI."""
    most: int
    """Most quantities of the list."""

    def read(self, table: TomlTable, key: str) -> float | tuple[float, ...] | None:
        """The quantity in SI, or the list of them."""
        found = table.quantities(key, self.dimension, self.most)
        if isinstance(found, float):
            self.range.check(table, (key,), found, self.dimension)
        for index, number in enumerate(found if isinstance(found, tuple) else ()):
            self.range.check(table, (key, index), number, self.dimension)
        return found

    def write(self, value: float | Sequence[float], units: Units) -> str | list[str]:
        """The quantity with its unit, or the list of them."""
        if isinstance(value, Sequence):
            return [spell(number, self.dimension, units) for number in value]
        return spell(value, self.dimension, units)


class CrossSection(NamedTuple):
    """A cross-section, as `plans.quantities.parse_section` reads it."""

    side: Range
    """The range of each side [m]."""

    def read(self, table: TomlTable, key: str) -> Section | None:
        """The section, its sides in metres."""
        section = table.section(key)
        if section is not None:
            thinnest = section.thickness if section.edge is None else section.edge
            side = thinnest if thinnest < self.side.least else section.width
            self.side.check(table, (key,), side, "length", "has a side of")
        return section

    def write(self, value: Section, units: Units) -> str:
        """The section with its unit."""
        return spell_section(value, units)


class Count(NamedTuple):
    """A whole number from 1."""

    most: int
    """Largest number that may be written."""

    def read(self, table: TomlTable, key: str, more: str = "") -> int | None:
        """The number; `more` says in an error what else the key may hold, e.g. `, or "auto"`."""
        return table.count(key, self.most, more=more)

    def write(self, value: int, units: Units) -> int:  # noqa: ARG002
        """The number itself."""
        return value


class OrAuto(NamedTuple):
    """The word auto, or a value."""

    value: Count | Quantity
    """The type of value that may stand in place of the word."""

    def read(self, table: TomlTable, key: str) -> Any:
        """`AUTO`, or what the other type reads."""
        if table.values[key] == AUTO:
            return AUTO
        if isinstance(self.value, Count):
            return self.value.read(table, key, f', or "{AUTO}"')
        return self.value.read(table, key)

    def write(self, value: Any, units: Units) -> Any:
        """The word, or what the other type writes."""
        return value if value == AUTO else self.value.write(value, units)


def _show_both(number: float, dimension: Dimension) -> str:
    """A quantity for an error, which knows no settings."""
    return _show(number, dimension) if dimension == "time" else both(lambda units: _show(number, dimension, units))


def _show(number: float, dimension: Dimension, units: Units = Units.METRIC) -> str:
    match dimension:
        case "temperature":
            return units.temperature(number)
        case "temperature difference":
            return units.difference(number)
        case "time":
            return show_duration(number) if number >= 1 or number == 0 else f"{number:.1g} s"
        case "length":
            return units.length(number)
        case "number":
            return f"{number * 100:g} %"
        case "mass":
            return units.mass(number)
    raise ValueError(f"no key of a plan is a {dimension}")


PHASES: Final = tuple(kind for kind in PhaseKind if kind is not PhaseKind.READY)
"""The phases that a plan may name."""
KINDS: Final = tuple(StepKind)
"""The kinds that a step may have."""

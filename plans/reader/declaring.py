"""Declaring the keys of a plan file's tables, and reading a table by its declaration.

Each table is a dataclass, each key of it an attribute with a type, a docstring and a `key(...)`. From that alone come
the reader (`read_keys`), the writer (`write_keys`), the JSON Schema (plans/reader/schema.py) and the table of keys for
people (plans/reader/key_help.py); the last two take the docstring for what the key means.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, fields
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from plans.phase import PhaseKind
from plans.reader.meanings import KEYS_MEANT
from plans.reader.value_types import Value
from plans.toml import TomlTable
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Keys = TypeVar("Keys", bound="DataclassInstance")


class Key(NamedTuple):
    """What is declared of one key, besides its type in Python and what it means."""

    name: str
    """The key as it is written in the file: the name of its attribute, unless that would be a word of Python."""
    value: Value
    """The type of value that may stand behind the key."""
    example: str
    """An example of the value as TOML: the right side of a line in a plan file."""
    required: bool
    """Whether the table can't be without it."""
    default: Any
    """The value of the attribute where the key is absent."""
    otherwise: str
    """What happens where the key is absent, in words; empty where nothing does."""
    phase: PhaseKind | None
    """The kind of phase that alone uses the key: in a step without such a phase it is a slip. None where any step may
    have it."""
    needed: str
    """What to write where a step has that phase and lacks this key; empty where the phase does without."""
    names: bool
    """Whether an error calls the table by the text of this key."""

    @property
    def line(self) -> str:
        """An example of the key as a line of a plan file: `steel = "1084"`, or the head of a table: `[[step]]`."""
        return self.example if self.example.startswith("[[") else f"{self.name} = {self.example}"


def key(
    value: Value,
    example: str,
    *,
    name: str = "",
    required: bool = False,
    default: Any = None,
    otherwise: str = "",
    phase: PhaseKind | None = None,
    needed: str = "",
    names: bool = False,
) -> Any:
    """The declaration of a key, for an attribute of a dataclass; the arguments are the attributes of `Key`."""
    declared = Key(name, value, example, required, default, otherwise, phase, needed, names)
    return field(default=default, metadata={"key": declared})


@cache
def keys_of(declared: type[DataclassInstance]) -> dict[str, Key]:
    """The keys that a dataclass declares, by the attribute, in their order; each with its name filled in."""
    found = {}
    for attribute in fields(declared):
        one: Key = attribute.metadata["key"]
        found[attribute.name] = one._replace(name=one.name or attribute.name)
    return found


def read_keys(table: TomlTable, declared: type[Keys]) -> Keys:
    """Read a table by its declaration; what is wrong goes to the table's faults.

    Returns:
        the table's keys; one that is absent or can't be read has its default, which for a required one need not be of
        its type: then a fault has been noted
    """
    keys = keys_of(declared)
    found: dict[str, Any] = {}
    for attribute, one in keys.items():
        if one.names:  # goes first, so that the faults of all the others can name the table
            found[attribute] = _read(table, one)
            _call(table, found[attribute])
    table.check_keys(*_known_and_required(declared), meant=KEYS_MEANT)
    for attribute, one in keys.items():
        if attribute not in found:
            found[attribute] = _read(table, one)
    return declared(**found)


def write_keys(keys: DataclassInstance, units: Units) -> dict[str, Any]:
    """What a table of a file holds for its keys, in the order in which they are declared: the inverse of `read_keys`.

    Args:
        keys: an object of a dataclass that declares keys; what it holds of a `ManyNested` are objects of that one's
        units: in which quantities are written

    Returns:
        text, numbers, lists and tables by the names of the keys; those that have their default are left out unless
        the table can't be without them, and so are tables without a key
    """
    found = {}
    for attribute, one in keys_of(type(keys)).items():
        value = getattr(keys, attribute)
        if one.required or value != one.default:
            written = one.value.write(value, units)
            if written or not isinstance(one.value, Nested):
                found[one.name] = written
    return found


def _read(table: TomlTable, one: Key) -> Any:
    value = one.value.read(table, one.name) if one.name in table.values else None
    return one.default if value is None else value


@cache
def _known_and_required(declared: type[DataclassInstance]) -> tuple[tuple[str, ...], dict[str, str]]:
    keys = keys_of(declared).values()
    return tuple(one.name for one in keys), {one.name: one.line for one in keys if one.required}


def _call(table: TomlTable, name: str | None) -> None:
    if name and isinstance(table.path[-1], int):
        table.faults.names[table.path] = f'{table.path[-2]} {table.path[-1] + 1} "{name}"'


class Nested(NamedTuple):
    """A table with keys of its own."""

    keys: type
    """The dataclass that declares the keys of the table."""

    def read(self, table: TomlTable, key: str) -> Any:
        """The table, as an object of the dataclass that declares its keys."""
        inner = table.table(key)
        return None if inner is None else read_keys(inner, self.keys)

    def write(self, value: Any, units: Units) -> dict[str, Any]:
        """The table, from an object of the dataclass that declares its keys."""
        return write_keys(value, units)


class ManyNested(NamedTuple):
    """An array of tables, [[key]], with at least one in it."""

    keys: type
    """The dataclass that declares the keys of each table."""
    most: int
    """Most tables of the array."""

    def read(self, table: TomlTable, key: str) -> tuple[TomlTable, ...] | None:
        """The tables of the array, whose own keys are still to be read."""
        return table.tables(key, self.most)

    def write(self, value: Sequence[Any], units: Units) -> list[dict[str, Any]]:
        """The tables, from objects of the dataclass that declares their keys."""
        return [write_keys(one, units) for one in value]

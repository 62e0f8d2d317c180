"""What stands in the braces of a plan's texts: each is a quantity, or it is a fault with its line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from plans.prose import HINT, unreadable
from plans.reader.declaring import ManyNested, Nested, keys_of
from plans.reader.value_types import Line, Lines, Paragraphs
from plans.toml import TomlTable

if TYPE_CHECKING:
    from plans.toml import KeyPath


def check_texts(table: TomlTable, declared: type) -> None:
    """Note every brace that can't be read in the texts of a table and of those within it.

    Args:
        table: as it is written; what is no text where one should be is passed over, since reading it has noted that
        declared: the dataclass that declares the table's keys
    """
    for one in keys_of(declared).values():
        value = table.values.get(one.name)
        match one.value:
            case Line(braces=True) | Paragraphs():
                _check(table, (one.name,), value)
            case Lines():
                for index, item in enumerate(_list(value)):
                    _check(table, (one.name, index), item)
            case Nested(keys):
                _check_inner(table, (one.name,), value, keys)
            case ManyNested(keys, _):
                for index, item in enumerate(_list(value)):
                    _check_inner(table, (one.name, index), item, keys)


def _check(table: TomlTable, path: KeyPath, value: Any) -> None:
    for what in unreadable(value) if isinstance(value, str) else ():
        table.value(path, what, HINT)


def _check_inner(table: TomlTable, path: KeyPath, value: Any, keys: type) -> None:
    if isinstance(value, Mapping):
        check_texts(TomlTable(table.faults, (*table.path, *path), value), keys)


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []

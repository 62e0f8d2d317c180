"""The keys of a table one by one, those of the tables within it among them, for two of them to be held side by side."""

from __future__ import annotations

from math import isclose
from typing import TYPE_CHECKING, Any

from plans.editing.typed import typed_text
from plans.reader import Key, ManyNested, Nested, keys_of
from plans.record import record
from plans.shapes import Section
from plans.toml import TomlFaults, TomlTable, TomlText
from plans.units import SETTABLE, Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Path = tuple[str, ...]
"""What leads to a key within its table, as it stands in the file: ("fire",) or ("air", "for")."""


@record
class Figure:
    """The value of one key."""

    key: Key
    """What is declared of it."""
    value: Any
    """The value, as the reader gives it; the default where it is not there."""
    attribute: str
    """The attribute that holds it, in a table within behind that one's: "fire", "quench.medium"."""

    @property
    def is_there(self) -> bool:
        """Whether it has another value than where it is left out."""
        return self.key.required or self.value != self.key.default

    def written(self, units: Units) -> Any:
        """The value as TOML holds it; None where it is left out."""
        return self.key.value.write(self.value, units) if self.is_there else None

    def shown(self, units: Units) -> str:
        """The value as a person would type it; empty where it is left out."""
        return typed_text(self.key.value, self.written(units)) if self.is_there else ""

    def is_same(self, other: Figure) -> bool:
        """Whether it is the same value, in whatever units it was written; rounded as a file holds it counts as well."""
        if not self.is_there or not other.is_there:
            return self.is_there == other.is_there
        return _same(self.value, other.value) or any(
            _same(self._rounded(units), other.value) or _same(other._rounded(units), self.value) for units in SETTABLE
        )

    def _rounded(self, units: Units) -> Any:
        """The value as it is when it was written in some units and read again."""
        table = TomlTable(TomlFaults(TomlText("", "", {})), (), {self.key.name: self.written(units)})
        return self.key.value.read(table, self.key.name)


def figures_of(
    keys: DataclassInstance | None, declared: type[DataclassInstance] | None = None, within: str = ""
) -> dict[Path, Figure]:
    """Every key that a table can have, by its path, in the order in which they are declared.

    Args:
        keys: the table; None for one in which nothing stands
        declared: the dataclass that declares its keys; that of the table unless it is given
        within: the attribute of the table that it is in, with a dot behind it
    """
    found: dict[Path, Figure] = {}
    kind = declared or type(keys)
    for attribute, one in keys_of(kind).items():  # type: ignore[arg-type]
        value = one.default if keys is None else getattr(keys, attribute)
        if isinstance(one.value, Nested):
            inner = figures_of(value, one.value.keys, f"{within}{attribute}.")
            found |= {(one.name, *path): figure for path, figure in inner.items()}
        elif not isinstance(one.value, ManyNested):
            # what a table that is not there would need is not there either
            declaration = one if keys is not None else one._replace(required=False)
            found[one.name,] = Figure(declaration, value, within + attribute)
    return found


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=1e-6)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(_same(*pair) for pair in zip(one, other, strict=True))
    if isinstance(one, Section) and isinstance(other, Section):
        return all(_same(getattr(one, name), getattr(other, name)) for name in Section.__dataclass_fields__)
    return bool(one == other)

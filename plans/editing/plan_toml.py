"""A whole plan as the text of its file: from key records to TOML that reads as one written by hand."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from plans.editing.draft import Draft
from plans.editing.layout import comment_lines, key_lines_of
from plans.reader import ManyNested, Nested, keys_of, write_keys
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

MADE_FROM = "made_from"
"""The table of a plan that holds the answers which it was made from."""


def toml_of(draft: Draft, units: Units = Units.METRIC, comment: str = "") -> str:
    """The text of a plan's file.

    Keys stand in the order in which they are declared, and those at their default are left out. Whether the plan makes
    sense is not looked at: `plans.reader.read_plan` does that.

    Args:
        draft: what the plan holds
        units: in which quantities are written, rounded to what can be measured
        comment: what stands above everything, in paragraphs set apart by empty lines; empty for none
    """
    lines = [*comment_lines(comment), ""] if comment.strip() else []
    lines += own_lines(draft.head, units)
    for bar in draft.bars:
        lines += table_lines("[[bar]]", bar.keys, units, bar.why)
    for step in draft.steps:
        lines += table_lines("[[step]]", step.keys, units, step.why)
    if draft.made_from is not None:
        lines += table_lines(f"[{MADE_FROM}]", draft.made_from, units)
    return "\n".join(lines) + "\n"


def table_lines(header: str, keys: DataclassInstance, units: Units, why: Mapping[str, str] | None = None) -> list[str]:
    """The lines of a table with its header and an empty line before it, and of the tables within it behind it.

    Args:
        header: as it stands in the file, e.g. "[[step]]"
        keys: an object of a dataclass that declares keys
        units: in which quantities are written
        why: comments by the attribute, in a nested table by both, as in "quench.medium"
    """
    lines = ["", header, *own_lines(keys, units, why or {})]
    name = header.strip("[]")
    written = write_keys(keys, units)
    for attribute, one in keys_of(type(keys)).items():
        if one.name not in written:
            continue
        value = getattr(keys, attribute)
        if isinstance(one.value, Nested):
            start = f"{attribute}."
            inner = {key.removeprefix(start): text for key, text in (why or {}).items() if key.startswith(start)}
            lines += table_lines(f"[{name}.{one.name}]", value, units, inner)
        elif isinstance(one.value, ManyNested):
            for item in value:
                lines += table_lines(f"[[{name}.{one.name}]]", item, units)
    return lines


def own_lines(keys: DataclassInstance, units: Units, why: Mapping[str, str] | None = None) -> list[str]:
    """The lines of a table's own keys, without its header and the tables within it; arguments as in `table_lines`."""
    lines = []
    written = write_keys(keys, units)
    for attribute, one in keys_of(type(keys)).items():
        if one.name in written and not isinstance(one.value, Nested | ManyNested):
            lines += key_lines_of(one.name, one.value, written[one.name], (why or {}).get(attribute, ""))
    return lines

"""The keys of a plan file in one short table, for the README; plans/plan.keys.md has all that is to be said of them."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

from plans.reader.declaring import Key, ManyNested, Nested, keys_of
from plans.reader.key_help import HEADERS, key_meanings
from plans.reader.keys import TABLES
from plans.reader.value_types import AUTO, Choice, Choices, OrAuto, Paragraphs, QuantityOrEach

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

README_FILE: Final = Path(__file__).parents[2] / "README.md"
"""The README, where this is run in the source tree."""
_BEGIN: Final = "<!-- The table is made by `python -m plans.reader.schema`; changes by hand are lost. -->\n"
_END: Final = "<!-- Here the table ends. -->\n"
_SENTENCE: Final = re.compile(r"(?<!e\.g)\. +(?=[A-Z`])|; +")
"""Where the first sentence of a meaning ends, or its first half."""


def key_table() -> str:
    """Every key in one table of Markdown: the tables of a plan one below the other, each with its keys."""
    lines = ["| key | what is written | what it means |", "| --- | --- | --- |"]
    for declared in TABLES:
        lines.append(f"| **{HEADERS[declared]}** | | {_first(inspect.cleandoc(declared.__doc__ or ''))} |")
        lines += _rows(declared)
    return "\n".join(lines) + "\n"


def readme() -> str:
    """The text of the README with the table in it as it is now.

    Raises:
        ValueError: the README has no place for it.
    """
    text = README_FILE.read_text("utf-8")
    before, begin, rest = text.partition(_BEGIN)
    _, end, after = rest.partition(_END)
    if not begin or not end:
        raise ValueError(f"{README_FILE}: the lines are not there between which the table of keys stands")
    return f"{before}{begin}\n{key_table()}\n{end}{after}"


def _rows(declared: type[DataclassInstance]) -> Iterator[str]:
    for attribute, one in keys_of(declared).items():
        if not isinstance(one.value, Nested | ManyNested):
            needed = ", needed" if one.required else ""
            yield f"| `{one.name}`{needed} | {_written(one)} | {_first(key_meanings(declared)[attribute])} |"


def _written(one: Key) -> str:
    """What is written behind a key: the words that it may be, or an example."""
    match one.value:
        case Choice(words, _):
            return ", ".join(f'`"{word}"`' for word in words)
        case Choices(words, _):
            return "a list of " + ", ".join(f'`"{word}"`' for word in words)
        case OrAuto():
            return f'`{one.example}` or `"{AUTO}"`'
        case QuantityOrEach():
            return f"`{one.example}`, or a list with one for each heat"
        case Paragraphs():
            return "text, in paragraphs"
    return f"`{one.example}`"


def _first(said: str) -> str:
    """The first sentence of a text that stands under a name."""
    return _SENTENCE.split(" ".join(said.split()), maxsplit=1)[0].rstrip(".")

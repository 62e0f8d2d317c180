"""The answers as they are typed: a text each, by the attributes of `AnswerKeys`, and back from a plan's table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from plans.editing import typed_text, typed_value
from plans.errors import PlansError
from plans.making import Part
from plans.reader import AnswerKeys, Lines, check_texts, keys_of, read_keys
from plans.toml import TomlFaults, TomlTable, TomlText

LEAVE_OUT: Final = "leave_out"
"""The answer that is given part by part."""


class AnswerError(PlansError):
    """A text that was typed can't be taken for an answer.

    Args:
        answer: its attribute in `AnswerKeys`
        said: what is wrong with it, and what would be right; goes on from its name
    """

    def __init__(self, answer: str, said: str) -> None:
        self.answer = answer
        super().__init__(f"{answer.replace('_', ' ')} {said}")


def read_typed(typed: Mapping[str, str]) -> AnswerKeys:
    """The answers that were typed; one whose text is empty was not given.

    Raises:
        AnswerError: one of them can't be read.
    """
    keys = keys_of(AnswerKeys)
    values = {keys[answer].name: _value(keys[answer].value, text) for answer, text in typed.items() if text.strip()}
    faults = TomlFaults(TomlText("answers", "", values))
    table = TomlTable(faults, (), values)
    answers = read_keys(table, AnswerKeys)
    check_texts(table, AnswerKeys)
    for fault in faults.found:
        answer = fault.key.partition("[")[0]
        raise AnswerError(answer, f"{fault.what}; {fault.hint}" if fault.hint else fault.what)
    return answers


def _value(kind: Any, text: str) -> Any:
    # A list of lines stands in one line here.
    return typed_value(kind, text.replace(",", "\n") if isinstance(kind, Lines) else text)


def typed_of(table: Mapping[str, Any]) -> dict[str, str]:
    """What would be typed for the answers of a plan's table [made_from].

    Args:
        table: as TOML holds it
    """
    keys = keys_of(AnswerKeys)
    return {
        answer: ", ".join(typed_text(one.value, table[one.name]).splitlines())
        for answer, one in keys.items()
        if one.name in table
    }


def with_part(left_out: str, part: Part, *, is_done: bool) -> str:
    """The parts that are left out, as they are typed, with one of them done or left out."""
    others = [one.strip() for one in left_out.split(",") if one.strip() and one.strip() != part.value]
    return ", ".join(others if is_done else [*others, part.value])

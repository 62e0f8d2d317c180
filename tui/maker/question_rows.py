"""The rows of a page of questions: what was typed, what is taken without it, and where that comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from plans.maker import Group, Proposal, parts_of, taken
from plans.making import Part
from plans.prose import in_units
from plans.reader import AnswerKeys, Choice, Lines, key_meanings, keys_of, word_meanings
from plans.text import plain
from plans.units import Units
from tui.maker.answers import LEAVE_OUT, with_part
from tui.widgets import Field

_DONE, _LEFT_OUT = "done", "left out"
Row = tuple[str, Part | None]
"""Which answer a row is for; of the parts that are left out, which part."""
_NAMES: Final = {"temper": "temper at", "dip": "each dip"}
"""What an answer is called where its own name would not do beside the parts of the work."""


def rows_of(group: Group, answers: AnswerKeys) -> list[Row]:
    """The rows of a group of answers, from the top.

    Args:
        group: the group
        answers: what was answered so far
    """
    rows: list[Row] = []
    for answer in group.answers:
        rows += [(answer, part) for part in parts_of(answers)] if answer == LEAVE_OUT else [(answer, None)]
    return rows


def field_of(row: Row, typed: Mapping[str, str], proposal: Proposal, wrong: Mapping[str, str], units: Units) -> Field:
    """One row as it is shown.

    Args:
        row: which
        typed: the answers as typed
        proposal: what came of them, the last time that something did
        wrong: what is wrong, by the answers at fault
        units: in which figures are shown
    """
    answer, part = row
    text = typed.get(answer, "")
    if part is not None:
        left_out = part.value in (one.strip() for one in text.split(","))
        shown = _LEFT_OUT if left_out else ""
        return Field(
            part.value,
            shown,
            _DONE,
            plain(word_meanings(Part)[part.value]),
            words=(_DONE, _LEFT_OUT),
            holds_marks=False,
        )
    key = keys_of(AnswerKeys)[answer]
    words = tuple(word.value for word in key.value.words) if isinstance(key.value, Choice) else ()
    usual, beside = key.otherwise, ""
    chosen = taken(proposal, answer)
    if chosen is not None:
        written = key.value.write(chosen.value, units)
        usual = in_units(str(written), units)
        beside = units.text(chosen.why.said)
    elif isinstance(key.value, Lines):
        usual = ", ".join(key.default)
    if isinstance(key.value, Choice):
        beside = _word_meaning(key.value, text or key.otherwise) or beside
    elif text:
        beside = ""
    return Field(
        _NAMES.get(answer, answer.replace("_", " ")),
        text,
        usual,
        wrong.get(answer, beside),
        answer in wrong,
        words,
        holds_marks=answer == "title",
    )


def hint_of(row: Row, typed: Mapping[str, str]) -> tuple[str, str]:
    """What a row asks for, or what the word means that stands there; and an example.

    Args:
        row: which
        typed: the answers as typed
    """
    answer, part = row
    if part is not None:
        return f"{part.value}: {word_meanings(Part)[part.value]}", "← → done or left out"
    key = keys_of(AnswerKeys)[answer]
    name = answer.replace("_", " ")
    if isinstance(key.value, Choice):
        word = typed.get(answer, "") or (key.otherwise if key.default is None else key.default.value)
        meaning = _word_meaning(key.value, word)
        return f"{name}: {f'{word}: {meaning}' if meaning else key_meanings(AnswerKeys)[answer]}", "← → another"
    return f"{name}: {key_meanings(AnswerKeys)[answer].replace('`', '')}", f"e.g. {_bare(key.example)}"


def why_of(row: Row, typed: Mapping[str, str], proposal: Proposal, units: Units) -> list[tuple[str, str]]:
    """Why a figure is taken, who says so, and what it is; each with its heading.

    Args:
        row: which
        typed: the answers as typed
        proposal: what is proposed
        units: in which figures are shown
    """
    chosen = None if row[1] is not None else taken(proposal, row[0])
    said = hint_of(row, typed)[0].partition(": ")[2]
    if chosen is None:
        return [("what it is", said)]
    why = chosen.why
    return [(why.basis, units.text(why.said)), ("source", units.text(why.source)), ("what it is", said)]


def typed_with(typed: Mapping[str, str], row: Row, text: str) -> dict[str, str]:
    """The answers with what was typed into a row."""
    answer, part = row
    if part is not None:
        text = with_part(typed.get(answer, ""), part, is_done=text != _LEFT_OUT)
    return {**typed, answer: text}


def _word_meaning(kind: Choice, word: str) -> str:
    return word_meanings(type(kind.words[0])).get(word, "")


def _bare(example: str) -> str:
    """An example of TOML as it would be typed."""
    return example.replace('"', "").strip("[]")

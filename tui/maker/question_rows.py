"""The rows of a page of questions: what was typed, what is taken without it, and where that comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from plans.maker import Group, MakeError, Proposal, parts_of, refused_words, taken
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


def field_of(
    row: Row, typed: Mapping[str, str], answers: AnswerKeys, proposal: Proposal, wrong: Mapping[str, str], units: Units
) -> Field:
    """One row as it is shown; words that can't be given beside the other answers are not among those offered.

    Args:
        row: which
        typed: the answers as typed
        answers: the same as far as they can be read
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
    words: tuple[str, ...] = ()
    usual, beside = key.otherwise, ""
    chosen = taken(proposal, answer)
    if chosen is not None:
        written = key.value.write(chosen.value, units)
        usual = in_units(str(written), units)
        beside = units.text(chosen.why.said)
    elif isinstance(key.value, Lines):
        usual = ", ".join(key.default)
    if isinstance(key.value, Choice):
        refused = refused_words(answers, answer)
        words = tuple(one.value for one in key.value.words if one.value not in _never(answer, refused))
        word = text or key.otherwise
        beside = str(refused[word]) if word in refused else _word_meaning(key.value, word) or beside
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


def hint_of(row: Row, typed: Mapping[str, str], answers: AnswerKeys) -> tuple[str, str]:
    """What a row asks for, or what the word means that stands there; and an example.

    Args:
        row: which
        typed: the answers as typed
        answers: the same as far as they can be read
    """
    answer, part = row
    if part is not None:
        return f"{part.value}: {word_meanings(Part)[part.value]}", "← → done or left out"
    key = keys_of(AnswerKeys)[answer]
    name = answer.replace("_", " ")
    if isinstance(key.value, Choice):
        word = typed.get(answer, "") or (key.otherwise if key.default is None else key.default.value)
        meaning = _word_meaning(key.value, word)
        never = ", ".join(_never(answer, refused_words(answers, answer)))
        turned = f"← → another; not {never}" if never else "← → another"
        return f"{name}: {f'{word}: {meaning}' if meaning else key_meanings(AnswerKeys)[answer]}", turned
    return f"{name}: {key_meanings(AnswerKeys)[answer].replace('`', '')}", f"e.g. {_bare(key.example)}"


def why_of(
    row: Row, typed: Mapping[str, str], answers: AnswerKeys, proposal: Proposal, units: Units
) -> list[tuple[str, str]]:
    """Why a figure is taken, who says so, what it is, and which words are not offered; each with its heading.

    Args:
        row: which
        typed: the answers as typed
        answers: the same as far as they can be read
        proposal: what is proposed
        units: in which figures are shown
    """
    chosen = None if row[1] is not None else taken(proposal, row[0])
    what_it_is = ("what it is", hint_of(row, typed, answers)[0].partition(": ")[2])
    refused = refused_words(answers, row[0])
    never = [(f"not {word}", refused[word].why) for word in _never(row[0], refused)]
    if chosen is None:
        return [what_it_is, *never]
    why = chosen.why
    return [(why.basis, units.text(why.said)), ("source", units.text(why.source)), what_it_is, *never]


def typed_with(typed: Mapping[str, str], row: Row, text: str) -> dict[str, str]:
    """The answers with what was typed into a row."""
    answer, part = row
    if part is not None:
        text = with_part(typed.get(answer, ""), part, is_done=text != _LEFT_OUT)
    return {**typed, answer: text}


def _never(answer: str, refused: Mapping[str, MakeError]) -> tuple[str, ...]:
    """The refused words that are not offered for an answer: those for which nothing else would have to change."""
    return tuple(word for word, error in refused.items() if error.answer == answer)


def _word_meaning(kind: Choice, word: str) -> str:
    return word_meanings(type(kind.words[0])).get(word, "")


def _bare(example: str) -> str:
    """An example of TOML as it would be typed."""
    return example.replace('"', "").strip("[]")

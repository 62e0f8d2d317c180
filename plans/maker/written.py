"""Answers as a file holds them: what a plan is made from, so that the same comes of it when it is read back."""

from __future__ import annotations

from typing import Final

from plans.reader import AnswerKeys, read_keys, write_keys
from plans.toml import TomlFaults, TomlTable, parse_toml
from plans.units import Units

_TIMES: Final = 4
"""So often a figure may be rounded until it stays: to three digits, and what is then near a fraction of an inch."""


def as_written(answers: AnswerKeys, units: Units) -> AnswerKeys:
    """Answers with their figures rounded as they are written, so that they read back to the same.

    Args:
        answers: what was answered
        units: in which its quantities are written
    """
    for _ in range(_TIMES):
        faults = TomlFaults(parse_toml("", "the answers"), ())
        again = read_keys(TomlTable(faults, (), write_keys(answers, units)), AnswerKeys)
        if faults.found or again == answers:
            break
        answers = again
    return answers

"""Answers from a file: of their own, or of the plan that was made from them."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from plans.errors import Fault, FaultKind, PlanError
from plans.reader.answer_keys import AnswerKeys
from plans.reader.declaring import read_keys
from plans.reader.text_checks import check_texts
from plans.record import record
from plans.toml import TomlError, TomlFaults, TomlTable, TomlText, parse_toml, read_toml

MADE_FROM: Final = "made_from"
"""The table of a plan that holds the answers which it was made from."""
MOST_BYTES: Final = 1_000_000
"""A larger file holds no answers, and is not read to its end."""


@record(eq=False)
class AnswerFile:
    """A file that holds answers."""

    keys: AnswerKeys
    """The answers."""
    toml: TomlText
    """What stands in the file."""

    def fault(self, answer: str, what: str, hint: str, kind: FaultKind = FaultKind.VALUE) -> Fault:
        """What is to be said of an answer, with its line where it stands in the file; the rest as in `Fault`."""
        within = (MADE_FROM,) if MADE_FROM in self.toml.values else ()
        table = self.toml.values[MADE_FROM] if within else self.toml.values
        line = TomlFaults(self.toml).line((*within, answer)) if answer in table else None
        return Fault(self.toml.file, line, answer, "", what, hint, kind)


def read_answer_file(path: Path) -> AnswerFile:
    """Read answers from a file: its keys, or those of the table [made_from] of a plan.

    Raises:
        PlanError: the file can't be read or used; it holds every fault that was found.
    """
    try:
        toml = read_toml(path, MOST_BYTES)
    except TomlError as error:
        raise PlanError([error.fault]) from None
    if MADE_FROM not in toml.values and "step" in toml.values:
        what, hint = "this plan was not made from answers", "write the answers into a file of their own"
        raise PlanError([Fault(toml.file, None, "", "", what, hint, FaultKind.FILE)])
    return AnswerFile(_answers(toml), toml)


def made_from(text: str, file: str) -> AnswerKeys | None:
    """The answers that a plan was made from; None where it was written by hand.

    Args:
        text: of the plan's file
        file: what an error calls it

    Raises:
        PlanError: the text is no TOML, or the answers can't be used.
    """
    try:
        toml = parse_toml(text.removeprefix("\ufeff"), file)
    except TomlError as error:
        raise PlanError([error.fault]) from None
    return _answers(toml) if MADE_FROM in toml.values else None


def _answers(toml: TomlText) -> AnswerKeys:
    faults = TomlFaults(toml, ())
    table: TomlTable | None = TomlTable(faults, (), toml.values)
    assert table is not None
    if MADE_FROM in toml.values:
        table = table.table(MADE_FROM)
    keys = AnswerKeys() if table is None else read_keys(table, AnswerKeys)
    if table is not None:
        check_texts(table, AnswerKeys)
    if faults.found:
        raise PlanError(faults.found)
    return keys

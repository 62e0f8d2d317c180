"""The fields of the question that is asked, and what was typed into those of every question."""

from __future__ import annotations

from plans.units import Units
from tui.reckoner.question import Question
from tui.widgets import Field, Fields

_NAMES = 14
"""Cells for the names of the fields."""


class QuestionFields(Fields):
    """The fields of one question at a time, those of each as they were typed last; an example where nothing was.

    Args:
        units: of the example
    """

    DEFAULT_CSS = """
    QuestionFields { width: 38%; min-width: 30; max-width: 48; }
    """

    def __init__(self, units: Units) -> None:
        super().__init__(_NAMES)
        self._units = units
        self._names: tuple[str, ...] = ()
        self._asked = ""
        self._typed: dict[str, tuple[str, ...]] = {}
        """The texts by question, in the order of its fields; of the one that is asked, as they were before."""

    def show(self, question: Question) -> None:
        """Show the fields of this question, with what was typed into them; the cursor stands in the first."""
        if self._asked:
            self._typed[self._asked] = self.texts
        self._asked, self._names = question.name, tuple(field.name for field in question.fields)
        if question.name not in self._typed:
            example = question.example(self._units)
            self._typed[question.name] = tuple(example.get(name, "") for name in self._names)
        self.begin([Field(*pair) for pair in zip(self._names, self._typed[question.name], strict=True)])

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the fields, by their names."""
        return dict(zip(self._names, self.texts, strict=True))

    def blame(self, wrong: str) -> None:
        """Mark the field of this name as the one at fault, and no other."""
        self.tell([Field(name, wrong=name == wrong) for name in self._names])

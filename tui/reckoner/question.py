"""A question to the reckoner: what has to be given, what may be, and who answers."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from plans.errors import PlansError
from plans.record import record
from plans.units import Shown, Units
from tui.reckoner.typed import Reader, units_of

if TYPE_CHECKING:
    from plans.reckoner import Reckoning

_QUOTES = ('"', "'", "\u201c\u201d")
_WITH_UNITS = ("TEMPERATURE", "LENGTH", "LENGTHS", "SECTION")
"""What a field stands for where the text typed into it tells in which units somebody works."""

Answers = Mapping[str, Any]
"""What was given, in SI, by the names of the fields."""


@record
class Field:
    """One thing that can be given."""

    name: str
    """What the field is called; on the command line with two dashes before it."""
    about: Shown
    """What it is, with what is taken without it."""
    example: Shown
    """A text as one would type it."""
    reads: Reader
    """From the text that was typed to a figure in SI."""
    stands_for: str
    """What the command line's help shows in its place: TEMPERATURE, TIME ..."""
    needed: bool = False
    """Whether the question can't be answered without it."""
    also: tuple[str, ...] = ()
    """Other names on the command line."""
    bare: bool = False
    """Given without its name, first of all."""


@record
class Question:
    """One reckoning, as it is asked."""

    name: str
    """How it is called on the command line and in the row of questions."""
    about: str
    """What it answers, for help and for the head of the screen."""
    fields: tuple[Field, ...]
    """What has to be given and what may be, in the order in which it is asked."""
    answer: Callable[[Answers], Reckoning]
    """Reckons with what was given; a `ReckonError` names the field at fault."""
    examples: tuple[Shown, ...]
    """What one would type after `heatbook reckon`."""
    known: Callable[[], str] | None = None
    """What its help ends with, looked up when help is asked for: the names that it knows."""

    def ask(self, typed: Mapping[str, str], units: Units = Units.METRIC) -> Reckoning:
        """Read what was typed, and reckon.

        Args:
            typed: texts by the names of the fields; one that is empty counts as not given
            units: of the example in an error

        Raises:
            ReckonError: something is missing, can't be read or can't be reckoned with; it names the field.
            PlansError: a grade is not known, or a composition is no steel.
        """
        return self.answer(self.read(typed, units))

    def read(self, typed: Mapping[str, str], units: Units = Units.METRIC) -> Answers:
        """What was typed, in SI, by the names of the fields.

        Args:
            typed: texts by the names of the fields; one that is empty counts as not given
            units: of the example in an error

        Raises:
            ReckonError: a needed field is empty, or a text can't be read; it names the field.
        """
        from plans.reckoner import ReckonError

        answers: dict[str, Any] = {}
        for field in self.fields:
            if text := _bare(typed.get(field.name, "")):
                try:
                    answers[field.name] = field.reads(text)
                except PlansError as error:
                    raise ReckonError(field.name, str(error)) from None
            elif field.needed:
                about, example = units.text(field.about), units.text(field.example)
                raise ReckonError(field.name, f'it is missing; {about}, e.g. "{example}"')
        return answers

    def example(self, units: Units = Units.METRIC) -> dict[str, str]:
        """What the first example types in these units, by the names of the fields."""
        typed: dict[str, str] = {}
        name = next((field.name for field in self.fields if field.bare), "")
        for word in shlex.split(units.text(self.examples[0]))[1:]:
            if word.startswith("--"):
                name = word.removeprefix("--")
            else:
                typed[name] = f"{typed.get(name, '')} {word}".strip()
        return typed

    def units_typed(self, typed: Mapping[str, str], units: Units) -> Units:
        """The units to answer in: those in which the fields were typed, and where nothing tells, those that are set.

        Args:
            typed: texts by the names of the fields
            units: those that are set
        """
        texts = (typed.get(field.name, "") for field in self.fields if field.stands_for in _WITH_UNITS)
        return units_of(texts, units)

    def option(self, name: str) -> str:
        """How a field is called on the command line."""
        bare = any(field.bare and field.name == name for field in self.fields)
        return name.upper() if bare else f"--{name}"


def _bare(text: str) -> str:
    """A text without the quotes round it, in which a command line would have it; `1/2"` keeps its mark of inches."""
    bare = text.strip()
    quoted = len(bare) > 1 and any(bare[0] == quotes[0] and bare[-1] == quotes[-1] for quotes in _QUOTES)
    return bare[1:-1].strip() if quoted else bare

"""Where a figure comes from, and what does not add up: what the maker says beside each thing that it proposes."""

from __future__ import annotations

from typing import Generic, Literal, TypeVar

from plans.record import record
from plans.units import Shown, Units

Basis = Literal["asked", "arithmetic", "modelled", "published", "from memory", "common practice", "learned"]
"""Asked for by the smith; worked out by counting and geometry; by the warm model; read from a published table;
remembered of one; as the trade has it without a source; or told by this shop's logbook."""
Value = TypeVar("Value")


@record
class Why:
    """Where a figure comes from."""

    basis: Basis
    """What it rests on."""
    said: Shown
    """Why it is so, in a sentence or two for the smith."""
    source: Shown = ""
    """Who says so; empty where that is the smith, or arithmetic."""


@record
class Chosen(Generic[Value]):
    """A figure, and where it comes from."""

    value: Value
    """The figure, in SI."""
    why: Why
    """Where it comes from."""


@record
class Concern:
    """What does not add up in what shall be made, and what would mend it."""

    answer: str
    """The attribute of `plans.reader.AnswerKeys` that would mend it best; empty where none does."""
    what: Shown
    """What is wrong, with its figures."""
    mend: Shown
    """What would mend it."""
    serious: bool = False
    """Whether the work fails as it stands; else it is a doubt."""


def asked(said: Shown = "as you said") -> Why:
    """The reason of what the smith asked for."""
    return Why("asked", said)


def practice(said: Shown) -> Why:
    """The reason of what is common practice without a source."""
    return Why("common practice", said, "common practice, no source")


def arithmetic(said: Shown) -> Why:
    """The reason of what follows by counting, geometry and constant volume."""
    return Why("arithmetic", said)


def sentence(shown: Shown, units: Units) -> str:
    """A reason, a concern or what would mend it, as a sentence of its own: with a capital letter and a full stop."""
    text = units.text(shown).strip()
    return text and f"{text[0].upper()}{text[1:]}{'' if text[-1] in '.?!' else '.'}"

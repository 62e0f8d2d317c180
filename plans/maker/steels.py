"""The steels that a piece is made of, and which of them make its edge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Self

from plans.maker.why import Basis, Concern, Why
from plans.record import record
from plans.steel import Advice, Card, Composition, Grade, Origin, SteelError, card_of, find_grade, near_to
from plans.units import celsius, kelvin

STANDS_IN = Composition(carbon=1.0, manganese=0.4, silicon=0.25)
"""What a steel that isn't known is taken for: as much carbon as an edge mostly has burns soonest [mass %]."""


@record
class PieceSteel:
    """One steel of a piece."""

    name: str
    """As the smith calls it."""
    grade: Grade | None
    """What is known of it; None where no grade has that name."""
    answer: str = "steel"
    """The attribute of `plans.reader.AnswerKeys` that it was asked by."""

    @property
    def key(self) -> str:
        """The name of its grade, or its own where it has none."""
        return self.grade.name if self.grade else self.name

    @property
    def card(self) -> Card | None:
        """All that is known of it; None where no grade has its name."""
        return _card(self.grade.name) if self.grade else None

    @property
    def holds(self) -> Composition:
        """What is in it, or in `STANDS_IN` where it is not known [mass %]."""
        return self.grade.middle if self.grade else STANDS_IN

    @property
    def air_hardening(self) -> bool:
        """Whether it hardens in still air."""
        return self.grade is not None and self.grade.air_hardening

    @property
    def hardens(self) -> bool:
        """Whether a quench hardens it; one that isn't known is taken to."""
        return self.card is None or self.card.tempering[0].low is not None


@record
class Steels:
    """The steels of a piece, each once; two or more are welded together."""

    all: tuple[PieceSteel, ...]
    """Every steel; at least one."""
    edge: tuple[PieceSteel, ...]
    """Those that end in the edge, the one with most carbon first; empty where none of all of them hardens."""

    @classmethod
    def of(
        cls, names: Sequence[str], edge: Sequence[str] | None = None, answers: Mapping[str, str] | None = None
    ) -> Self:
        """The steels of these names.

        Args:
            names: each at least once, as `plans.steel.find_grade` knows them or not
            edge: names of those that end in the edge; None for all of them that harden
            answers: by name, the attribute of `plans.reader.AnswerKeys` that asked for it, where it isn't "steel"

        Raises:
            ValueError: there is no name.
        """
        if not names:
            raise ValueError("a piece is made of one steel at least")
        told = answers or {}
        every: dict[str, PieceSteel] = {}  # by the grade's own name: two names of one grade are one steel
        for name in (*names, *(edge or ())):
            one = PieceSteel(name, _grade(name), told.get(name, "steel"))
            every.setdefault(one.key, one)
        chosen = every if edge is None else {PieceSteel(name, _grade(name)).key for name in edge}
        hard = [one for key, one in every.items() if key in chosen and one.hardens]
        return cls(tuple(every.values()), tuple(sorted(hard, key=lambda one: -one.holds.carbon)))

    @property
    def hard(self) -> PieceSteel | None:
        """That of the edge which decides hardening and temper, the one with most carbon; None where none hardens."""
        return self.edge[0] if self.edge else None

    @property
    def welded(self) -> bool:
        """Whether there are two steels or more."""
        return len(self.all) > 1

    def unknown(self) -> tuple[Concern, ...]:
        """What to say of each steel that no grade is known for."""
        return tuple(
            Concern(
                one.answer,
                f"{one.name} is not known here: its figures are those that suit most steels of about 1 % carbon.",
                _mend(one.name),
            )
            for one in self.all
            if one.grade is None
        )


def why_advice(advice: Advice) -> Why:
    """The reason of a figure that a steel's card gives: its basis, what it says, and who says so."""
    basis: dict[Origin, Basis] = {Origin.PUBLISHED: "published", Origin.MEMORY: "from memory"}
    return Why(basis.get(advice.origin, "common practice"), advice.why, advice.source)


def rounded(at: float, down: float = 5.0) -> float:
    """A temperature [K] to the next step of some degC at or below it [K].

    Args:
        at: what is rounded [K]
        down: the step [K]
    """
    return kelvin((celsius(at) + 1e-6) // down * down)


def within(low: float, high: float, share: float) -> float:
    """A temperature that lies so far up in a range [K], to 5 degC where such a one lies in it.

    Args:
        low: low end of the range [K]
        high: high end of the range [K]
        share: 0 for the low end, 1 for the high one
    """
    at = low + share * (high - low)
    step = kelvin(round(celsius(at) / 5) * 5)
    return step if low <= step <= high else at


def _mend(name: str) -> str:
    near = near_to(name)
    sheet = "Ask for its maker's sheet and go by that; try a piece of it first, to the end."
    return (
        f"{near[0].upper()}{near[1:].removesuffix('?')}{'?' if near.endswith('?') else '.'} {sheet}" if near else sheet
    )


def _grade(name: str) -> Grade | None:
    try:
        return find_grade(name)
    except SteelError:
        return None


@cache
def _card(name: str) -> Card:
    return card_of(find_grade(name))

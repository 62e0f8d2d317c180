"""A temperature of a steel together with where it comes from and how far it can be trusted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from plans.steel.composition import Composition
from plans.units import kelvin


class Basis(StrEnum):
    """What a figure stands on."""

    PUBLISHED = "published"
    """Printed for the grade, by a maker or a handbook."""
    FORMULA = "formula"
    """A formula fitted to measured steels."""
    EQUILIBRIUM = "equilibrium"
    """Where the phases would balance if there were time enough; heating overshoots it by 10 to 40 K."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One temperature of a steel. Without a figure, `note` says why."""

    name: str
    """Ac1, Ac3, Acm, Ms, Bs."""
    low: float | None
    """[K]"""
    high: float | None
    """Same as `low` unless several figures are printed [K]."""
    basis: Basis
    formula: str
    """The formula as one would write it, or "as printed"."""
    source: str
    note: str = ""
    """What else has to be known: above all where the composition lies outside what the formula is good for."""
    strays: tuple[str, ...] = ()
    """What of the composition lies outside what the formula is good for, in words."""
    error: float | None = None
    """How far off it mostly is: a temperature difference [K]. None where nobody knows."""

    @property
    def inside(self) -> bool:
        """Whether the composition lies within what the formula is good for."""
        return not self.strays

    @property
    def value(self) -> float | None:
        """The middle of the range [K]."""
        if self.low is None or self.high is None:
            return None
        return (self.low + self.high) / 2


Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Limits:
    """Within what a formula is good for, by chemical symbol [mass %]."""

    good: Mapping[str, Range]
    """What the steels held that it was made from or held against."""
    last: Mapping[str, Range]
    """Beyond this no figure is given at all; between the two it is given and said to be extrapolated."""

    def beyond(self, steel: Composition) -> tuple[str, ...]:
        """What of a steel lies beyond `last`, in words."""
        return _outside(self.last, steel)

    def strays(self, steel: Composition) -> tuple[str, ...]:
        """What of a steel lies outside `good`, in words."""
        return _outside(self.good, steel)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula for one temperature of a steel, with what it is good for."""

    name: str
    text: str
    source: str
    celsius: Callable[[Composition], float]
    """The formula itself [degC]."""
    limits: Limits
    basis: Basis = Basis.FORMULA
    error: Callable[[Composition], float | None] = lambda _: None
    """How far off it mostly is: a temperature difference [K]."""
    remark: Callable[[Composition], str] = lambda _: ""
    """What has to be said besides."""

    def find(self, steel: Composition) -> Finding:
        """The temperature of a steel; outside the limits it says so, far outside it gives none."""
        beyond = self.limits.beyond(steel)
        if beyond:
            note = f"no figure: {', '.join(beyond)}"
            return Finding(self.name, None, None, self.basis, self.text, self.source, note, beyond)
        strays = self.limits.strays(steel)
        notes = [f"extrapolated: {', '.join(strays)}"] if strays else []
        remark = self.remark(steel)
        if remark:
            notes.append(remark)
        at = kelvin(self.celsius(steel))
        error = None if strays else self.error(steel)
        return Finding(self.name, at, at, self.basis, self.text, self.source, "; ".join(notes), strays, error)


def _outside(limits: Mapping[str, Range], steel: Composition) -> tuple[str, ...]:
    # A share typed as 0.6 and one that is the middle of two limits must not differ over a rounding.
    slack = 1e-9
    return tuple(
        f"{symbol} {steel.share(symbol):.3g} % is not within {low:g} to {high:g} %"
        for symbol, (low, high) in limits.items()
        if not low - slack <= steel.share(symbol) <= high + slack
    )

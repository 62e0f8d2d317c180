"""A critical temperature of a steel with its origin and error, and the formulas that such temperatures come from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import StrEnum

from plans.record import record
from plans.steel.composition import Composition
from plans.units import Shown, joined, kelvin


class Origin(StrEnum):
    """What a figure for a steel stands on."""

    PUBLISHED = "published"
    """Printed for the grade by a maker or a handbook, and read there."""
    MEMORY = "from memory"
    """Stated for the grade from memory of what a maker or a handbook prints."""
    FORMULA = "formula"
    """Computed by a formula that was fitted to measured steels, or by a rule of common practice."""
    EQUILIBRIUM = "equilibrium"
    """Computed as where the phases would balance if there were time enough; heating overshoots it by 10 to 40 K."""

    @property
    def is_stated(self) -> bool:
        """Whether somebody states the figure for the grade, so that it isn't computed."""
        return self in (Origin.PUBLISHED, Origin.MEMORY)


@record
class Finding:
    """One critical temperature of a steel. Where it has no figure, `note` says why."""

    name: str
    """Which temperature it is: "Ac1", "Ac3", "Acm", "Ms" or "Bs"."""
    low: float | None
    """The figure, or the lowest of several that are stated [K]; None where there is no figure."""
    high: float | None
    """The figure, or the highest of several that are stated [K]; None where there is no figure."""
    origin: Origin
    """Whether it is printed, remembered, computed by a formula, or computed at equilibrium."""
    formula: str
    """The formula as one would write it, with its units, or "as stated"."""
    source: str
    """The paper, book or maker's sheet that it is from."""
    note: Shown = ""
    """What else has to be known, in words: above all where the composition lies outside what the formula is good for,
    or why there is no figure."""
    strays: tuple[str, ...] = ()
    """Which shares of the composition lie outside what the formula is good for, each in words; empty if none does."""
    error: float | None = None
    """How far off the figure mostly is, either way: a temperature difference [K]; None where that is not known."""

    @property
    def inside(self) -> bool:
        """Whether the composition lies within what the formula is good for."""
        return not self.strays

    @property
    def value(self) -> float | None:
        """The figure, or the middle between `low` and `high` [K]; None where there is no figure."""
        if self.low is None or self.high is None:
            return None
        return (self.low + self.high) / 2


@record
class FormulaLimits:
    """The shares of elements within which a formula is good, and those beyond which it gives no figure."""

    good: Mapping[str, tuple[float, float]]
    """Least and most of each element in the steels that the formula was made from or held against, by chemical symbol
    [mass %]."""
    last: Mapping[str, tuple[float, float]]
    """Least and most of each element beyond which there is no figure at all, by chemical symbol [mass %]; between these
    and `good` the figure is said to be extrapolated."""

    def beyond(self, steel: Composition) -> tuple[str, ...]:
        """Which shares of a steel lie beyond `last`, each in words; empty where none does."""
        return _outside(self.last, steel)

    def strays(self, steel: Composition) -> tuple[str, ...]:
        """Which shares of a steel lie outside `good`, each in words; empty where none does."""
        return _outside(self.good, steel)


@record
class Formula:
    """A formula for one critical temperature of a steel, with what it is good for."""

    name: str
    """Which temperature it gives: "Ac1", "Ac3", "Acm", "Ms" or "Bs"."""
    text: str
    """The formula as one would write it, for degC and mass %."""
    source: str
    """The paper or book that it is from."""
    celsius: Callable[[Composition], float]
    """The formula itself: from a composition to the temperature [degC]."""
    limits: FormulaLimits
    """The compositions that it is good for."""
    origin: Origin = Origin.FORMULA
    """What kind of figure it gives: fitted to measured steels, or at equilibrium."""
    error: Callable[[Composition], float | None] = lambda _: None
    """How far off it mostly is for a composition, either way: a temperature difference [K]; None where that is not
    known."""
    remark: Callable[[Composition], Shown] = lambda _: ""
    """What else has to be said of the figure for a composition, in words; empty where there is nothing."""

    def find(self, steel: Composition) -> Finding:
        """The temperature of a steel; outside `limits.good` its note says so, outside `limits.last` there is none."""
        formula = f"{self.text}, in degC and mass %"
        beyond = self.limits.beyond(steel)
        if beyond:
            note = f"no figure: {', '.join(beyond)}"
            return Finding(self.name, None, None, self.origin, formula, self.source, note, beyond)
        strays = self.limits.strays(steel)
        remarks = joined((f"extrapolated: {', '.join(strays)}" if strays else "", self.remark(steel)))
        at = kelvin(self.celsius(steel))
        error = None if strays else self.error(steel)
        return Finding(self.name, at, at, self.origin, formula, self.source, remarks, strays, error)


def _outside(limits: Mapping[str, tuple[float, float]], steel: Composition) -> tuple[str, ...]:
    # A share typed as 0.6 and one that is the middle of two limits must not differ over a rounding.
    slack = 1e-9
    return tuple(
        f"{symbol} {steel.share(symbol):.3g} % is not within {low:g} to {high:g} %"
        for symbol, (low, high) in limits.items()
        if not low - slack <= steel.share(symbol) <= high + slack
    )

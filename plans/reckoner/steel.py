"""The reckoning of a steel: its critical temperatures, computed and stated, and what follows for the fire."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.hardened import ALL_DISSOLVED, hardened_figures, share_figure, temperature_figure
from plans.reckoner.kinds import DIFFERENCE, MASS_PERCENT, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.steel import (
    Advice,
    Card,
    Composition,
    Finding,
    Findings,
    Grade,
    Origin,
    What,
    card_of,
    critical,
    martensite,
    stated_finding,
)

_OF_THE_GRADE = "for the grade, not for one bar"


def reckon_steel(of: Grade | Composition, at: float | None = None, down_to: float = martensite.ROOM) -> Reckoning:
    """Critical temperatures of a steel, and what follows for the fire.

    Figures computed from the composition stand under the plain names (`ac1_celsius`), those stated for a grade beside
    them (`published_ac1_celsius`, or `remembered_ac1_celsius` where they are from memory of what is printed), and then
    how far the first lie from the second.

    Args:
        of: a grade, which is computed with the middle of its ranges, or a composition
        at: a hardening temperature [K]; None for the middle of the hardening range
        down_to: temperature at which the quench ends [K]

    Raises:
        ReckonError: no steel is hardened at such a temperature, or no quench ends at one.
    """
    if at is not None:
        checks.warmth_of_steel("at", at)
    checks.warmth_of_steel("down-to", down_to)
    known = card_of(of)
    found: list[Figure | Fact] = list(_limits(known))
    for quantity in (known.ac1, known.upper, known.ms, known.bs):
        found += _quantity(quantity, known.steel)
    found.append(share_figure("martensite_fraction", "martensite", martensite.ms(known.steel), down_to, ALL_DISSOLVED))
    found += hardened_figures(known, at, down_to)
    found += _stated_besides(known)
    found += _ranges(known)
    return Reckoning("steel", tuple(_asked(known, at, down_to)), tuple(found))


def _asked(known: Card, at: float | None, down_to: float) -> Iterator[Given]:
    if known.grade is not None:
        grade = known.grade
        also = f" ({', '.join(grade.also)})" if grade.also else ""
        near = f"; close to {', '.join(grade.near)}" if grade.near else ""
        yield Given("grade", grade.name, f"{grade.system} {grade.name}{also}: {grade.use}{near}")
    shares = {symbol: share for symbol, share in known.steel.shares().items() if share}
    yield Given("composition_percent", shares, str(known.steel))
    if at is not None:
        yield given("at_celsius", "quenched from", at, TEMPERATURE)
    yield given("down_to_celsius", "quenched down to", down_to, TEMPERATURE)


def _limits(known: Card) -> Iterator[Fact]:
    """What the standard or the sheet of a grade says is in it, by whom."""
    grade = known.grade
    if grade is None:
        return
    said = ["limits of the grade; all that is computed is for the composition above"]
    if grade.usual_source is not None:
        bars = ", ".join(f"{symbol} {share:g}" for symbol, share in grade.usual.items())
        said.append(f"bars mostly hold {bars} %: {grade.usual_source}")
    if grade.remembered:
        said.append(f"{', '.join(grade.remembered)} from memory")
    all_read = grade.source.looked_up and not grade.remembered
    # what melting leaves over is no part of the recipe; it stands in the record
    recipe = {symbol: limits for symbol, limits in grade.ranges.items() if limits[0] or symbol not in ("P", "S")}
    shown = ", ".join(_limit(symbol, *limits) for symbol, limits in recipe.items())
    yield Fact(
        "limits_percent",
        "composition",
        {symbol: list(limits) for symbol, limits in grade.ranges.items()},
        f"{shown} %",
        "published" if all_read else "from memory",
        "; ".join(said),
        str(grade.source),
    )


def _limit(symbol: str, low: float, high: float) -> str:
    if low == high:
        return f"{symbol} {high:g}"
    return f"{symbol} {low:g} to {high:g}" if low else f"{symbol} up to {high:g}"


def _quantity(known: Findings, steel: Composition) -> Iterator[Figure]:
    """One temperature: computed, printed, how far apart, and by another formula."""
    computed = [one for one in (known.best, *known.beside) if not one.origin.is_stated]
    stem = known.name.lower()
    yield temperature_figure(f"{stem}_celsius", known.name, computed[0])
    if known.best.origin.is_stated:
        yield _as_stated(known.best)
        if known.difference is not None:
            apart = Reckoned(known.difference, "modelled", "the formula less the middle of what is stated", "")
            yield Figure(f"{stem}_difference_kelvin", f"{known.name}, difference", apart, DIFFERENCE)
    if known.name == What.AC3 and critical.ac3_full(steel).value is not None:
        yield temperature_figure("ac3_full_celsius", "Ac3, all of Andrews' terms", critical.ac3_full(steel))
    for other in computed[1:]:
        key, name = _AUTHORS[other.source.startswith(critical.ANDREWS)]
        yield temperature_figure(f"{stem}_{key}_celsius", f"{known.name} by {name}", other)


_AUTHORS = {True: ("andrews", "Andrews"), False: ("steven_haynes", "Steven and Haynes")}


_WORDS: Final[dict[Origin, tuple[str, str, Literal["published", "from memory"]]]] = {
    Origin.PUBLISHED: ("published", "printed", "published"),
    Origin.MEMORY: ("remembered", "from memory", "from memory"),
}
"""For what is stated: the beginning of its key, what its label says, and its basis."""


def _as_stated(best: Finding) -> Figure:
    key, word, basis = _WORDS[best.origin]
    known = Reckoned(best.value or 0.0, basis, best.note or _OF_THE_GRADE, best.source, best.low, best.high)
    return Figure(f"{key}_{best.name.lower()}_celsius", f"{best.name}, {word}", known, TEMPERATURE, spans=True)


def _stated_besides(known: Card) -> Iterator[Figure]:
    """What is stated for the grade and stands beside no computed figure."""
    if known.grade is None:
        return
    shown = {known.ac1.name, known.upper.name, known.ms.name}
    for what in (What.AC1, What.AC3, What.ACM, What.MS):
        if what not in shown and (stated := stated_finding(known.grade, what)):
            yield _as_stated(stated)
    if known.dissolved_by_card is not None:
        said = "carbon in the austenite that the stated Ms stands for, by van Bohemen's formula turned round"
        found = Reckoned(known.dissolved_by_card, "modelled", said, known.ms.best.source)
        yield Figure("dissolved_carbon_by_card_percent", "carbon, by stated Ms", found, MASS_PERCENT)


def _ranges(known: Card) -> Iterator[Figure]:
    """Where to normalize, harden and temper, each with why."""
    for kind, advice in (
        ("normalizing", known.normalizing),
        ("hardening", (known.hardening,)),
        ("tempering", known.tempering),
    ):
        for one in advice:
            yield _range(kind, one)


def _range(kind: str, one: Advice) -> Figure:
    own = one.name != kind
    key = f"{kind}_{one.name.replace(' ', '_')}_celsius" if own else f"{kind}_celsius"
    label = f"{kind}, {one.name}" if own else kind
    if one.low is None or one.high is None:
        return Figure(key, label, None, TEMPERATURE, one.why, spans=True)
    found = Reckoned(
        (one.low + one.high) / 2,
        _WORDS[one.origin][2] if one.origin.is_stated else "modelled",
        f"{one.why} {one.hint}".strip(),
        one.source,
        one.low,
        one.high,
    )
    return Figure(key, label, found, TEMPERATURE, spans=True)

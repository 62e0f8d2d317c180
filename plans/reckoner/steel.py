"""The reckoning of a steel: its critical temperatures, computed and printed, and what follows for the fire."""

from __future__ import annotations

from collections.abc import Iterator

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.hardened import ALL_DISSOLVED, hardened_figures, share_figure, temperature_figure
from plans.reckoner.kinds import DIFFERENCE, MASS_PERCENT, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.steel import Advice, Card, Composition, Finding, Findings, Grade, Origin, What, card_of, critical, martensite

_OF_THE_GRADE = "for the grade, not for one bar"


def reckon_steel(of: Grade | Composition, at: float | None = None, down_to: float = martensite.ROOM) -> Reckoning:
    """Critical temperatures of a steel, and what follows for the fire.

    Figures computed from the composition stand under the plain names (`ac1_celsius`), those printed for a grade beside
    them (`published_ac1_celsius`), and then how far the first lie from the second.

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
    found: list[Figure | Fact] = []
    for quantity in (known.ac1, known.upper, known.ms, known.bs):
        found += _quantity(quantity, known.steel)
    found.append(share_figure("martensite_fraction", "martensite", martensite.ms(known.steel), down_to, ALL_DISSOLVED))
    found += hardened_figures(known, at, down_to)
    found += _printed_besides(known)
    found += _ranges(known)
    return Reckoning("steel", tuple(_asked(known, at, down_to)), tuple(found))


def _asked(known: Card, at: float | None, down_to: float) -> Iterator[Given]:
    if known.grade is not None:
        grade = known.grade
        also = f" ({', '.join(grade.also)})" if grade.also else ""
        yield Given("grade", grade.name, f"{grade.system} {grade.name}{also}: {grade.use}")
    shares = {symbol: share for symbol, share in known.steel.shares().items() if share}
    yield Given("composition_percent", shares, str(known.steel))
    if at is not None:
        yield given("at_celsius", "quenched from", at, TEMPERATURE)
    yield given("down_to_celsius", "quenched down to", down_to, TEMPERATURE)


def _quantity(known: Findings, steel: Composition) -> Iterator[Figure]:
    """One temperature: computed, printed, how far apart, and by another formula."""
    computed = [one for one in (known.best, *known.beside) if one.origin is not Origin.PUBLISHED]
    stem = known.name.lower()
    yield temperature_figure(f"{stem}_celsius", known.name, computed[0])
    if known.best.origin is Origin.PUBLISHED:
        yield _as_printed(stem, known.best)
        if known.difference is not None:
            apart = Reckoned(known.difference, "modelled", "the formula less the middle of what is printed", "")
            yield Figure(f"{stem}_difference_kelvin", f"{known.name}, difference", apart, DIFFERENCE)
    if known.name == What.AC3 and critical.ac3_full(steel).value is not None:
        yield temperature_figure("ac3_full_celsius", "Ac3, all of Andrews' terms", critical.ac3_full(steel))
    for other in computed[1:]:
        key, name = _AUTHORS[other.source.startswith(critical.ANDREWS)]
        yield temperature_figure(f"{stem}_{key}_celsius", f"{known.name} by {name}", other)


_AUTHORS = {True: ("andrews", "Andrews"), False: ("steven_haynes", "Steven and Haynes")}


def _as_printed(stem: str, best: Finding) -> Figure:
    value = best.value or 0.0
    known = Reckoned(value, "published", best.note or _OF_THE_GRADE, best.source, best.low, best.high)
    return Figure(f"published_{stem}_celsius", f"{best.name}, printed", known, TEMPERATURE, spans=True)


def _printed_besides(known: Card) -> Iterator[Figure]:
    """What is printed for the grade and stands beside no computed figure."""
    if known.grade is None:
        return
    shown = {known.ac1.name, known.upper.name, known.ms.name}
    for what in (What.AC1, What.AC3, What.ACM, What.MS):
        printed = known.grade.printed(what)
        if not printed or what in shown:
            continue
        low, high = min(one.low for one in printed), max(one.high for one in printed)
        notes = "; ".join(dict.fromkeys(one.note for one in printed if one.note)) or _OF_THE_GRADE
        source = "; ".join(dict.fromkeys(one.source for one in printed))
        found = Reckoned((low + high) / 2, "published", notes, source, low, high)
        yield Figure(
            f"published_{what.value.lower()}_celsius", f"{what.value}, printed", found, TEMPERATURE, spans=True
        )
    if known.dissolved_by_card is not None:
        said = "carbon in the austenite that the printed Ms stands for, by van Bohemen's formula turned round"
        found = Reckoned(known.dissolved_by_card, "modelled", said, known.ms.best.source)
        yield Figure("dissolved_carbon_by_card_percent", "carbon, by printed Ms", found, MASS_PERCENT)


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
        "published" if one.origin is Origin.PUBLISHED else "modelled",
        f"{one.why} {one.hint}".strip(),
        one.source,
        one.low,
        one.high,
    )
    return Figure(key, label, found, TEMPERATURE, spans=True)

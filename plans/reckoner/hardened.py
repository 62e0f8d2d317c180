"""Figures of what a quench makes of a steel: the carbon dissolved at the hardening heat, and what it does to Ms."""

from __future__ import annotations

from plans.reckoned import Reckoned
from plans.reckoner.figures import Figure
from plans.reckoner.kinds import MASS_PERCENT, SHARE, TEMPERATURE
from plans.steel import Card, Dissolved, Finding, hypereutectoid, martensite
from plans.units import Shown, Units, joined

KOISTINEN_MARBURGER = "D. P. Koistinen and R. E. Marburger, Acta Metall. 7 (1959) 59: 1 - exp(-0.011 (Ms - T))"
"""Source of the law that a share of martensite is reckoned by, as it is cited."""
_LINES = "balance of carbon and chromium over austenite and cementite, by fits to computed equilibria"
_QUENCHED = "of the austenite that was quenched, so fast that nothing else forms"
ALL_DISSOLVED = f"were all carbon in the austenite; {_QUENCHED}"
"""Validity of a share of martensite that is reckoned from the Ms of the whole composition, in words."""


def temperature_figure(key: str, label: str, found: Finding, instead: str = "") -> Figure:
    """The figure for a computed temperature of a steel, or why there is none.

    Args:
        key: name of the figure in the record
        label: name of the figure for people
        found: the temperature
        instead: what to say in place of its formula and its note
    """
    if found.value is None:
        return Figure(key, label, None, TEMPERATURE, found.note)
    least = most = None
    if found.error is not None:
        least, most = found.value - found.error, found.value + found.error

    def validity(units: Units) -> str:
        right = "" if found.error is None else f"mostly right to {units.difference(found.error)} either way"
        return units.text(joined((instead, right) if instead else (found.formula, found.note, right)))

    known = Reckoned(found.value, "modelled", validity, found.source, least, most, not found.inside)
    return Figure(key, label, known, TEMPERATURE)


def share_figure(
    key: str, label: str, ms: Finding, down_to: float, validity: str = _QUENCHED, *, left: bool = False
) -> Figure:
    """The figure for the share of martensite after a quench, or of the austenite that is left; its range is that of Ms.

    Args:
        key: name of the figure in the record
        label: name of the figure for people
        ms: Ms of the austenite that is quenched
        down_to: temperature at which the quench ends [K]
        validity: what the share holds for, in words
        left: whether to give the share of the austenite that is left
    """
    if ms.value is None:
        return Figure(key, label, None, SHARE, ms.note)
    of = martensite.retained if left else martensite.fraction
    error = ms.error
    ends = [] if error is None else sorted((of(ms.value - error, down_to), of(ms.value + error, down_to)))
    least, most = ends or (None, None)
    known = Reckoned(
        of(ms.value, down_to), "modelled", validity, KOISTINEN_MARBURGER, least, most, outside=not ms.inside
    )
    return Figure(key, label, known, SHARE)


def hardened_figures(known: Card, at: float | None, down_to: float) -> list[Figure]:
    """The figures of what a quench from a temperature makes of a steel; none where no such temperature is known.

    Args:
        known: what is known of the steel
        at: the hardening temperature [K]; None for the middle of the hardening range of a hypereutectoid steel, and for
            no figures of another one, whose carbon is all dissolved anyway
        down_to: temperature at which the quench ends [K]
    """
    from_range = known.hardened.at if known.hardened is not None else None
    quenched_from = at if at is not None else from_range
    if quenched_from is None:
        return []
    said = "as given" if at is not None else "the middle of its hardening range"
    heat = Figure("quenched_from_celsius", "quenched from", Reckoned(quenched_from, "modelled", said, ""), TEMPERATURE)
    if known.upper.name == "Acm":
        done = hypereutectoid.hardened(known.steel, quenched_from)
        if done is None:
            return [heat, _none(_why_nothing_dissolves(known, quenched_from))]
        return [heat, *_dissolved(done.dissolved), *_quenched(done.ms, down_to)]
    upper = known.upper.best.value
    if upper is None or quenched_from < upper:
        return [heat, _none(_why_not_austenite(upper))]
    whole = Dissolved(known.steel.carbon, known.steel.chromium, 0.0, True, "above Ac3, all of it")
    return [heat, *_dissolved(whole), *_quenched(martensite.ms(known.steel), down_to)]


def _none(why: Shown) -> Figure:
    return Figure("dissolved_carbon_percent", "carbon dissolved", None, MASS_PERCENT, why)


def _why_nothing_dissolves(known: Card, at: float) -> Shown:
    lower = known.ac1.best.value
    if lower is not None and at < lower:
        return lambda units: f"colder than Ac1, {units.temperature(lower)}: there is no austenite to harden"
    return "not known: it holds more alloy than the lines are good for"


def _why_not_austenite(upper: float | None) -> Shown:
    if upper is None:
        return "not known: its upper critical temperature is not"
    return lambda units: f"colder than Ac3, {units.temperature(upper)}: ferrite is left in it, which stays soft"


def _dissolved(there: Dissolved) -> list[Figure]:
    carbon = Reckoned(there.carbon, "modelled", there.note, _LINES, outside=not there.inside)
    carbide = Reckoned(there.carbide, "modelled", there.note, _LINES, outside=not there.inside)
    return [
        Figure("dissolved_carbon_percent", "carbon dissolved", carbon, MASS_PERCENT),
        Figure("carbide_fraction", "carbide left over", carbide, SHARE),
    ]


def _quenched(ms: Finding, down_to: float) -> list[Figure]:
    return [
        temperature_figure("hardened_ms_celsius", "Ms then", ms, "of the austenite as it is then; formula as for Ms"),
        share_figure("hardened_martensite_fraction", "martensite then", ms, down_to),
        share_figure("retained_austenite_fraction", "austenite retained", ms, down_to, left=True),
    ]

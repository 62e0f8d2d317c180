"""The reckoning of a temper: its parameter, the hardness to expect, and other tempers that do the same."""

from __future__ import annotations

from collections.abc import Sequence

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.errors import ReckonError, blamed
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import FINE_NUMBER, HRC, MASS_PERCENT, NUMBER, SECONDS, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.steel import SteelError, Temper, oxide, temper as tempers, tempered_hardness
from plans.units import Units

MOST_HOLDS = 10
"""Most holds of a temper, one after another, that can be asked about."""
_HOLLOMON_JAFFE = "J. H. Hollomon and L. D. Jaffe, Trans. AIME 162 (1945) 223: T (C + log t) / 1000, kelvin and hours"
_COMPARES = "compares tempers of one steel; exact for its constant"
_ONE_HOUR = "the hold of one hour that comes to the same parameter"


def reckon_temper(
    at: float,
    seconds: float,
    carbon: float | None = None,
    constant: float | None = None,
    holds: int = 1,
    other_time: float | None = None,
    other_temperature: float | None = None,
) -> Reckoning:
    """What a temper comes to, for plain carbon steel.

    Args:
        at: temperature of each hold [K]
        seconds: time of each hold [s]
        carbon: content of the steel, which gives the constant and the hardness [% by mass]; None where it is not known
        constant: C of the Hollomon-Jaffe parameter, for hours; None for that of the carbon content
        holds: number of holds, one after another
        other_time: time of one hold, to be told at what temperature it does the same as all holds together [s]
        other_temperature: temperature of one hold, to be told in what time it does the same as all holds together [K]

    Raises:
        ReckonError: a figure is none that a temper can have, or neither carbon nor constant is given.
    """
    asked = _asked(at, seconds, carbon, holds)
    done: list[Temper] = [(at, seconds)] * holds
    known = _constant(carbon, constant)
    blamed("at", tempers.parameter, at, 3600.0, known.value)
    value = blamed("for", tempers.combined, done, known.value)
    hour = tempers.one_hour(value, known.value)
    found: list[Figure | Fact] = [
        Figure("parameter", "parameter", Reckoned(value, "modelled", _COMPARES, _HOLLOMON_JAFFE), FINE_NUMBER),
        _as_given(constant) if constant is not None else Figure("constant", "constant", known, NUMBER),
        _hardness(carbon, done),
        Figure(
            "one_hour_celsius", "as one hour at", Reckoned(hour, "modelled", _ONE_HOUR, _HOLLOMON_JAFFE), TEMPERATURE
        ),
    ]
    if other_time is not None:
        asked.append(given("instead_for_seconds", "instead for", other_time, SECONDS))
        found.append(Figure("instead_at_celsius", "does the same at", _at(done, other_time, known), TEMPERATURE))
    if other_temperature is not None:
        asked.append(given("instead_at_celsius", "instead at", other_temperature, TEMPERATURE))
        found.append(Figure("instead_for_seconds", "does the same in", _in(done, other_temperature, known), SECONDS))
    found.append(_oxide(at))
    return Reckoning("temper", tuple(asked), tuple(found))


def _asked(at: float, seconds: float, carbon: float | None, holds: int) -> list[Given]:
    checks.time("for", seconds)
    if not 1 <= holds <= MOST_HOLDS:
        raise ReckonError("holds", f"{holds}: give a number from 1 to {MOST_HOLDS}")
    asked = [given("at_celsius", "at", at, TEMPERATURE), given("for_seconds", "for", seconds, SECONDS)]
    if carbon is not None:
        asked.insert(0, given("carbon_percent", "carbon", carbon, MASS_PERCENT))
    if holds > 1:
        asked.append(given("holds", "holds", holds, NUMBER))
    return asked


def _constant(carbon: float | None, constant: float | None) -> Reckoned:
    if constant is not None:
        if not 5 <= constant <= 40:
            raise ReckonError("constant", f"{constant:g}: for hours it is about 15 to 20 for steel")
        return Reckoned(constant, "modelled", "as given", "")
    if carbon is None:
        raise ReckonError("carbon", "give the carbon content, e.g. 0.8, or else a constant")
    return blamed("carbon", tempers.constant, carbon)


def _as_given(constant: float) -> Fact:
    """A constant that was given is no finding: nothing is said of its error or its source."""
    return Fact("constant", "constant", constant, f"{constant:g}", "as given", "for hours; its error is not known", "")


def _hardness(carbon: float | None, done: Sequence[Temper]) -> Figure:
    """The hardness, or why there is none; there being none is no fault."""
    key, label = "hardness_hrc", "hardness"
    if carbon is None:
        return Figure(key, label, None, HRC, "the carbon content is not given")
    try:
        return Figure(key, label, tempered_hardness(carbon, done), HRC)
    except SteelError as error:
        return Figure(key, label, None, HRC, str(error))


def _at(done: Sequence[Temper], seconds: float, known: Reckoned) -> Reckoned:
    checks.time("instead-for", seconds)
    return _same([blamed("instead-for", tempers.temperature_for, done, seconds, each) for each in _trio(known)], known)


def _in(done: Sequence[Temper], kelvin: float, known: Reckoned) -> Reckoned:
    return _same([blamed("instead-at", tempers.time_for, done, kelvin, each) for each in _trio(known)], known)


def _trio(known: Reckoned) -> tuple[float, ...]:
    """The constant, and the ends of what it may be."""
    return tuple(value for value in (known.value, known.least, known.most) if value is not None)


def _same(values: Sequence[float], known: Reckoned) -> Reckoned:
    least, most = (min(values), max(values)) if len(values) > 1 else (None, None)
    said = "comes to the same parameter, and so about to the same hardness"
    if least is not None:
        said += "; the range is that of the constant"
    return Reckoned(values[0], "modelled", said, _HOLLOMON_JAFFE, least, most, known.outside)


def _oxide(at: float) -> Fact:
    """The colour that runs over bright steel at this temperature."""
    colour = oxide.oxide_colour(at)
    name = None if colour is None else colour.name

    def validity(units: Units) -> str:
        ends = (units.temperature(end.kelvin) for end in (oxide.COLOURS[0], oxide.COLOURS[-1]))
        return f"{oxide.NOTE}; the chart goes from {' to '.join(ends)}, within {units.difference(oxide.SPREAD)}"

    return Fact("oxide_colour", "oxide colour", name, name or "none", "published", validity, oxide.SOURCE)

"""The Hollomon-Jaffe parameter of tempers: its constant by carbon, tempers one after another, tempers that do the same.

References:
    .. [1] J. H. Hollomon and L. D. Jaffe, Time-temperature relations in tempering steel, Trans. AIME 162 (1945)
       223-249. The parameter takes kelvin, hours and the decimal logarithm.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import log10

from plans.reckoned import Reckoned
from plans.steel.errors import SteelError
from plans.steel.lines import on_lines
from plans.units import ZERO_CELSIUS, exactly_in_both, in_both

Temper = tuple[float, float]
"""One hold of a temper: its temperature [K] and its time [s]."""

CONSTANT_ERROR = 2.0
"""How far the Hollomon-Jaffe constant may be off, either way: two laboratories differ by as much at nearly the same
carbon."""

_HOUR = 3600.0
_LONGEST = 1000.0
"""Longest time of a temper [h]."""
_COLDEST, _HOTTEST = 50.0 + ZERO_CELSIUS, 727.0 + ZERO_CELSIUS
"""Coldest and hottest temper: below, hardened steel hardly changes within `_LONGEST`; above is austenite [K]."""

# Carbon content [% by mass] and constant. The last three are best fits to open data (0.82 %: Grange and Baughman 1956,
# the others Hollomon and Jaffe 1945); the first is what Hollomon and Jaffe give for 0.15 to 0.45 %C, from memory.
_CONSTANTS = ((0.45, 19.5), (0.82, 18.3), (0.89, 15.6), (0.98, 14.6))
_CARBON = (0.15, 1.2)
_SOURCE = "Hollomon and Jaffe, Trans. AIME 162 (1945) 223"
_FITS = f"{_SOURCE}, and Grange and Baughman, Trans. ASM 48 (1956) 165: best fits to their data (CC BY 4.0)"


def constant(carbon: float) -> Reckoned:
    """The constant C of the Hollomon-Jaffe parameter for a plain carbon steel, for times in hours.

    Straight lines between best fits to measured series at 0.82, 0.89 and 0.98 %C, level above, and towards the usual
    19.5 at 0.45 %C below. Another rule, C = 21.3 - 5.8 %C (from memory), differs by up to 1.8.

    Args:
        carbon: content [% by mass]

    Raises:
        SteelError: the carbon content is not between 0 and 2 %.
    """
    if not 0 <= carbon <= 2:
        raise SteelError(f"carbon content of {carbon:g} %: give one from 0 to 2 %")
    least, most = _CARBON
    outside = not least <= carbon <= most
    validity = f"right to {CONSTANT_ERROR:g} either way; plain carbon steel of {least:g} to {most:g} %"
    if outside:
        validity += f"; {carbon:g} % lies outside, and the nearest constant stands in"
    value = on_lines(_CONSTANTS, carbon)
    return Reckoned(value, "modelled", validity, _FITS, value - CONSTANT_ERROR, value + CONSTANT_ERROR, outside)


def parameter(kelvin: float, seconds: float, constant: float) -> float:
    """Hollomon-Jaffe parameter T (C + log t) in thousands, as it is usually printed [1]_.

    Args:
        kelvin: temperature of the hold [K]
        seconds: time of the hold [s]
        constant: C, for hours

    Raises:
        SteelError: the temperature is not from 50 to 727 degC, or the time not from 1 s to 1000 h.
    """
    _check(kelvin, seconds)
    return kelvin * (constant + log10(seconds / _HOUR)) / 1000


def _check(kelvin: float, seconds: float) -> None:
    if not _COLDEST <= kelvin <= _HOTTEST:
        raise SteelError(
            f"no temper is done at {exactly_in_both(kelvin)}: give a temperature from {in_both(_COLDEST)} up to "
            f"{exactly_in_both(_HOTTEST)}"
        )
    if not 1 <= seconds <= _LONGEST * _HOUR:
        raise SteelError(f"a temper of {seconds:g} s: give a time from 1 s to {_LONGEST:g} h")


def combined(tempers: Iterable[Temper], constant: float) -> float:
    """Hollomon-Jaffe parameter, in thousands, of several tempers one after another [1]_.

    Those behind count at each new temperature as the time that would have done the same there, so that a hold cut in
    two is one hold.

    Args:
        tempers: the holds, in order
        constant: C, for hours

    Raises:
        SteelError: there is no temper, or one with a temperature or a time that no temper has.
    """
    done: float | None = None
    for kelvin, seconds in tempers:
        now = parameter(kelvin, seconds, constant)
        if done is not None:
            # The sum of both times, by their logarithms: at a cool hold the one behind would be millions of years.
            longer, shorter = max(done, now), min(done, now)
            now = longer + kelvin / 1000 * log10(1 + 10 ** ((shorter - longer) * 1000 / kelvin))
        done = now
    if done is None:
        raise SteelError("no temper: give at least one temperature with its time")
    return done


def one_hour(parameter: float, constant: float) -> float:
    """Temperature at which a hold of one hour comes to a parameter, by which tempers are compared [K].

    Args:
        parameter: Hollomon-Jaffe parameter, in thousands
        constant: C, for hours
    """
    return parameter * 1000 / constant


def temperature_for(tempers: Iterable[Temper], seconds: float, constant: float) -> float:
    """Temperature at which a hold of another time does the same as some tempers [K] [1]_.

    Args:
        tempers: the holds, in order
        seconds: the other time [s]
        constant: C, for hours

    Raises:
        SteelError: a temper or the time is none that a temper has, or the answer lies above 727 degC.
    """
    _check(_COLDEST, seconds)
    kelvin = combined(tempers, constant) * 1000 / (constant + log10(seconds / _HOUR))
    if kelvin > _HOTTEST:
        raise SteelError(f"the same temper in {seconds:g} s would need {in_both(kelvin)}: give it longer")
    return kelvin


def time_for(tempers: Iterable[Temper], kelvin: float, constant: float) -> float:
    """Time at another temperature that does the same as some tempers [s] [1]_.

    Args:
        tempers: the holds, in order
        kelvin: the other temperature [K]
        constant: C, for hours

    Raises:
        SteelError: a temper or the temperature is none that a temper has, or the answer lies outside of 1 s to 1000 h.
    """
    _check(kelvin, _HOUR)
    logarithm = combined(tempers, constant) * 1000 / kelvin - constant
    if not -log10(_HOUR) <= logarithm <= log10(_LONGEST):
        much = f"more than {_LONGEST:g} h" if logarithm > 0 else "less than 1 s"
        at = exactly_in_both(kelvin)
        raise SteelError(f"the same temper at {at} would take {much}: choose a temperature nearer")
    return float(10**logarithm) * _HOUR

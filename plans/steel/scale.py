"""Metal lost to scale: an upper bound, and right to a factor of two.

Pure iron in free air grows scale by a parabola, x^2 = k t. Steel in a fire with little free oxygen loses less, steel
whose scale is knocked off at every heat starts the parabola anew. The constants are from memory.

References:
    .. [1] Paidassi's measurements, as reviewed by R. Y. Chen and W. Y. D. Yuen, Oxidation of Metals 59 (2003) 433; from
       memory.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import replace
from math import exp, inf, sqrt

from plans.reckoned import Reckoned
from plans.shapes import Section
from plans.steel.errors import SteelError
from plans.steel.history import History, gap_note, stretches
from plans.units import ZERO_CELSIUS, Units, exactly_in_both

SCALE_FACTOR = 2.0
"""How far a loss to scale may be off, either way, as a factor."""

METAL_FOR_SCALE = 5400 * 0.755 / 7850
"""Thickness of metal that is gone for each thickness of scale: scale of 5400 kg/m3 with 75.5 % iron, steel of 7850
kg/m3."""

_LOWEST = 700.0 + ZERO_CELSIUS
_HIGHEST = 1250.0 + ZERO_CELSIUS
_SOURCE = "from memory: Paidassi, as reviewed by Chen and Yuen, Oxid. Met. 59 (2003) 433"


def parabolic_constant(kelvin: float) -> float:
    """Constant k of x^2 = k t for the scale on pure iron in air, found from 700 to 1250 degC [m2/s] [1]_.

    k = 6.1e-4 m2/s exp(-169.5 kJ/mol / RT), from memory.

    Args:
        kelvin: temperature, above 0 K
    """
    return 6.1e-4 * exp(-169452 / (8.314 * kelvin))


def scale_thickness(kelvin: float, seconds: float) -> float:
    """Thickness of the scale that grows at one temperature on a clean face [m] [1]_.

    Args:
        kelvin: temperature of the skin [K]
        seconds: time at it [s]

    Raises:
        SteelError: the temperature is not above absolute zero, or the time is below 0.
    """
    if not 0 < kelvin < inf:
        raise SteelError(f"a temperature of {exactly_in_both(kelvin)}: give one above absolute zero")
    if not 0 <= seconds < inf:
        raise SteelError(f"a time of {seconds:g} s: give one from 0 up")
    return sqrt(parabolic_constant(kelvin) * seconds)


def scale_loss(history: History, cleaned: Iterable[float] = ()) -> Reckoned:
    """Metal lost to scale from each face along a history: an upper bound [m] [1]_.

    `least` and `most` lie `SCALE_FACTOR` away.

    Args:
        history: times [s] and temperatures of the skin [K]
        cleaned: when the scale was knocked or brushed off, so that it grew anew [s]
    """
    thickness = squared = missing = hottest = 0.0
    waiting = deque(sorted(cleaned))
    for stretch in stretches(history):
        for part in stretch.cut(tuple(waiting)):
            while waiting and waiting[0] <= part.start:
                waiting.popleft()
                thickness, squared = thickness + sqrt(squared), 0.0
            if part.is_gap:
                missing += part.end - part.start
                continue
            hottest = max(hottest, part.first, part.last)
            squared += sum(parabolic_constant(kelvin) * seconds for seconds, kelvin in part.pieces())
    loss = (thickness + sqrt(squared)) * METAL_FOR_SCALE
    too_hot, too_cold = hottest > _HIGHEST, 0 < hottest < _LOWEST

    def validity(units: Units) -> str:
        said = (
            f"each face, an upper bound: pure iron in free air; the formula is right to a factor of {SCALE_FACTOR:g} "
            f"either way, {units.degrees(_LOWEST)} to {units.temperature(_HIGHEST)} "
            f"(colder, next to nothing){gap_note(missing)}"
        )
        beyond = "hotter" if too_hot else "colder"
        beside = f"; {units.temperature(hottest)} is {beyond} than the formula was found for"
        return said + beside if too_hot or too_cold else said

    return Reckoned(loss, "modelled", validity, _SOURCE, loss / SCALE_FACTOR, loss * SCALE_FACTOR, too_hot or too_cold)


def mass_share(loss: float, section: Section) -> float:
    """Share of a long bar's mass that goes with a loss of metal from every face, its ends left out.

    Args:
        loss: metal lost from each face [m]
        section: cross-section of the bar before the loss

    Returns:
        From 0 to 1; 1 where nothing of the bar is left.
    """
    if section.thickness <= 2 * loss:
        return 1.0
    if section.edge is not None:
        # Its skin times the loss; what the corners count twice is left out, which is little where the loss is.
        return min(section.around * loss / section.area, 1.0)
    width, thickness = section.width - 2 * loss, section.thickness - 2 * loss
    return 1 - width * thickness / (section.width * section.thickness)


def share_lost(loss: Reckoned, section: Section) -> Reckoned:
    """Share of a long bar's mass that a reckoned loss of metal from every face comes to, from 0 to 1, with its range.

    Args:
        loss: metal lost from each face [m]
        section: cross-section of the bar before the loss
    """
    least, most = (mass_share(end, section) for end in (loss.least or 0.0, loss.most or loss.value))
    return replace(loss, value=mass_share(loss.value, section), least=least, most=most)

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
from plans.section import Section
from plans.steel.errors import SteelError
from plans.steel.history import History, gap_note, spans
from plans.units import ZERO_CELSIUS, celsius

FACTOR = 2.0
"""How far the loss may be off, either way, as a factor."""

METAL_FOR_SCALE = 5400 * 0.755 / 7850
"""Metal gone for a thickness of scale: scale of 5400 kg/m3 with 75.5 % iron, steel of 7850 kg/m3."""

_LOWEST = 700.0 + ZERO_CELSIUS
_HIGHEST = 1250.0 + ZERO_CELSIUS
_SOURCE = "from memory: Paidassi, as reviewed by Chen and Yuen, Oxid. Met. 59 (2003) 433"


def parabolic_constant(kelvin: float) -> float:
    """k of x^2 = k t for scale on pure iron in air [m2/s], found from 700 to 1250 degC [1]_."""
    return 6.1e-4 * exp(-169452 / (8.314 * kelvin))


def scale_thickness(kelvin: float, seconds: float) -> float:
    """Thickness of the scale that grows at one temperature on a clean face [m] [1]_.

    Raises:
        SteelError: the temperature or the time is impossible.
    """
    if not 0 < kelvin < inf:
        raise SteelError(f"a temperature of {celsius(kelvin):g} degC: give one above absolute zero")
    if not 0 <= seconds < inf:
        raise SteelError(f"a time of {seconds:g} s: give one from 0 up")
    return sqrt(parabolic_constant(kelvin) * seconds)


def scale_loss(history: History, cleaned: Iterable[float] = (), longest_gap: float = inf) -> Reckoned:
    """Metal lost from each face along a history [m]: an upper bound, `least` and `most` a factor of two away [1]_.

    Args:
        history: times [s] and temperatures of the skin [K]
        cleaned: when the scale was knocked or brushed off, so that it grew anew [s]
        longest_gap: readings further apart than this have a gap between them [s]
    """
    thickness = squared = missing = hottest = 0.0
    waiting = deque(sorted(cleaned))
    for span in spans(history, longest_gap):
        for part in span.cut(tuple(waiting)):
            while waiting and waiting[0] <= part.start:
                waiting.popleft()
                thickness, squared = thickness + sqrt(squared), 0.0
            if part.is_gap:
                missing += part.end - part.start
                continue
            hottest = max(hottest, part.first, part.last)
            squared += sum(parabolic_constant(kelvin) * seconds for seconds, kelvin in part.pieces())
    loss = (thickness + sqrt(squared)) * METAL_FOR_SCALE
    outside = hottest > _HIGHEST
    validity = (
        f"each face, an upper bound: pure iron in free air; the formula is right to a factor of {FACTOR:g} either way, "
        f"{celsius(_LOWEST):g} to {celsius(_HIGHEST):g} degC (colder, next to nothing){gap_note(missing)}"
    )
    if outside:
        validity += f"; {celsius(hottest):.0f} degC is hotter than the formula was found for"
    return Reckoned(loss, "modelled", validity, _SOURCE, loss / FACTOR, loss * FACTOR, outside)


def mass_share(loss: float, section: Section) -> float:
    """Share of the mass that goes with a loss from every face of a long bar, ends left out.

    Args:
        loss: of metal from each face [m]
        section: of the bar

    Returns:
        From 0 to 1, where nothing is left.
    """
    width, thickness = section.width - 2 * loss, section.thickness - 2 * loss
    if thickness <= 0:
        return 1.0
    return 1 - width * thickness / (section.width * section.thickness)


def share_lost(loss: Reckoned, section: Section) -> Reckoned:
    """The same for a reckoned loss, its range with it."""
    least, most = (mass_share(end, section) for end in (loss.least or 0.0, loss.most or loss.value))
    return replace(loss, value=mass_share(loss.value, section), least=least, most=most)

"""Diffusion of carbon in austenite: its diffusivity D, and how deep a hot skin loses its carbon.

A temperature history counts by the integral of D dt along it [m2], called its spread here; at one temperature that is D
times the time.

References:
    .. [1] J. Agren, Scripta Metallurgica 20 (1986) 1507-1510.
    .. [2] W. D. Callister, Materials Science and Engineering, Table 5.2 (after Smithells, 7th ed.).
    .. [3] J. Crank, The Mathematics of Diffusion, 2nd ed., Clarendon Press 1975, section 2.4.
"""

from __future__ import annotations

from math import erf, exp, inf, sqrt

from plans.reckoned import Reckoned
from plans.steel.errors import SteelError
from plans.steel.history import History, gap_note, integral
from plans.units import ZERO_CELSIUS, Units, exactly_in_both

_GAS = 8.314
"""Gas constant as the textbooks round it [J/(mol K)]."""

CARBON_FACTOR = 2.0
"""How far a depth or a time that rests on the diffusion of carbon may be off, either way, as a factor.

Sources for D differ by as much; a skin is not quite without carbon, scale eats into it, and the fire's air changes.
"""

AUSTENITE = 727.0 + ZERO_CELSIUS
"""Temperature below which no diffusion of carbon is counted, as the carbon is bound in pearlite: 727 degC [K]."""
HOTTEST = 1400.0 + ZERO_CELSIUS
"""Temperature up to which diffusion in austenite is reckoned with: 1400 degC [K]."""
_MOST_CARBON = 2.0

_AGREN = "J. Agren, Scripta Metall. 20 (1986) 1507"
_CALLISTER = "Callister, Materials Science and Engineering, Table 5.2 (D0 2.3e-5 m2/s, Q 148 kJ/mol)"


def textbook_diffusivity(kelvin: float) -> float:
    """Diffusivity of carbon in austenite by the textbook's constants, whatever the carbon content [m2/s] [2]_.

    D = 2.3e-5 m2/s exp(-148 kJ/mol / RT): half of what other sources give at 0.8 %C.

    Args:
        kelvin: temperature, above 0 K
    """
    return 2.3e-5 * exp(-148e3 / (_GAS * kelvin))


def site_fraction(carbon: float) -> float:
    """Carbon atoms for each atom of iron in a steel of iron and carbon alone.

    Args:
        carbon: content [% by mass]
    """
    return (carbon / 12.011) / ((100.0 - carbon) / 55.845)


def agren_diffusivity(kelvin: float, carbon: float) -> float:
    """Diffusivity of carbon in austenite by Agren, which grows with the carbon that is there [m2/s] [1]_.

    Args:
        kelvin: temperature [K]
        carbon: content [% by mass]
    """
    y = site_fraction(carbon)
    return 4.53e-7 * (1 + y * (1 - y) * 8339.9 / kelvin) * exp(-(1 / kelvin - 2.221e-4) * (17767 - 26436 * y))


def _rate(kelvin: float, carbon: float | None) -> float:
    return textbook_diffusivity(kelvin) if carbon is None else agren_diffusivity(kelvin, carbon)


def _source(carbon: float | None) -> str:
    return _CALLISTER if carbon is None else _AGREN


def diffusivity(kelvin: float, carbon: float | None = None) -> Reckoned:
    """Diffusivity of carbon in austenite, with where it holds [m2/s].

    Args:
        kelvin: temperature [K]
        carbon: content for Agren's formula [1]_ [% by mass]; the textbook's constants [2]_ without it

    Raises:
        SteelError: the temperature is not above absolute zero, or the carbon content not from 0 to 2 %.
    """
    check_steel(kelvin, carbon)
    outside = not AUSTENITE <= kelvin <= HOTTEST

    def validity(units: Units) -> str:
        said = f"in austenite, from {units.degrees(AUSTENITE)} to {units.temperature(HOTTEST)}"
        if outside:
            return f"{said}; {units.temperature(kelvin)} is outside, so this figure means little"
        return said if carbon is not None else f"{said}; for little carbon: at 0.8 %C it is about twice as fast"

    return Reckoned(_rate(kelvin, carbon), "modelled", validity, _source(carbon), outside=outside)


def check_steel(kelvin: float, carbon: float | None) -> None:
    """Make sure that austenite can have a temperature and a carbon content.

    Args:
        kelvin: temperature [K]
        carbon: content [% by mass]; None where it is not known

    Raises:
        SteelError: the temperature is not above absolute zero, or the carbon content not from 0 to 2 %.
    """
    if not 0 < kelvin < inf:
        raise SteelError(f"a temperature of {exactly_in_both(kelvin)}: give one above absolute zero")
    if carbon is not None and not 0 <= carbon <= _MOST_CARBON:
        raise SteelError(f"carbon content of {carbon:g} %: austenite holds from 0 to {_MOST_CARBON:g} %")


def spread_over(history: History, carbon: float | None = None) -> Reckoned:
    """Spread of carbon along a history: the integral of D dt while the steel is austenite [m2].

    Args:
        history: times [s] and temperatures [K]
        carbon: content for which Agren's D is taken [% by mass]; the textbook's constants without it

    Raises:
        SteelError: the carbon content is not from 0 to 2 %.
    """
    check_steel(1.0, carbon)
    along = integral(lambda kelvin: _rate(kelvin, carbon) if kelvin >= AUSTENITE else 0.0, history)
    outside = along.hottest > HOTTEST

    def validity(units: Units) -> str:
        said = f"counts from {units.temperature(AUSTENITE)} up{gap_note(along.missing)}"
        hot = f"; {units.temperature(along.hottest)} is hotter than the formula was found for"
        return said + hot if outside else said

    return Reckoned(along.value, "modelled", validity, _source(carbon), outside=outside)


def inverse_erf(share: float) -> float:
    """The number whose error function is `share`.

    Args:
        share: from 0 up to but not including 1

    Raises:
        SteelError: the share is below 0, or 1 and more.
    """
    if not 0 <= share < 1:
        raise SteelError(f"a share of {share:g}: give one from 0 to below 1")
    low, high = 0.0, 6.0
    while high - low > 1e-15 * max(1.0, high):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if erf(middle) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def content_at(depth: float, spread: float, surface: float, core: float) -> float:
    """Carbon content below a surface that is held at one content, in a thick piece [% by mass] [3]_.

    Args:
        depth: below the surface [m]
        spread: integral of D dt [m2]
        surface: content at the surface [% by mass]
        core: content of the piece to begin with [% by mass]
    """
    if spread <= 0:
        return core if depth > 0 else surface
    return surface + (core - surface) * erf(depth / (2 * sqrt(spread)))


def depth_at_share(share: float, spread: float) -> float:
    """Depth at which the carbon content is `share` of the way from the surface's to the core's [m] [3]_.

    Where the surface holds no carbon it is the depth at which `share` of the core's carbon is left.

    Args:
        share: from 0 up to but not including 1
        spread: integral of D dt [m2]

    Raises:
        SteelError: the share is below 0, or 1 and more; or the spread is below 0.
    """
    if not 0 <= spread < inf:
        raise SteelError(f"integral of D dt of {spread:g} m2: give one from 0 up")
    return 2 * inverse_erf(share) * sqrt(spread)


def decarb_depth(history: History, carbon: float, share: float = 0.95, thickness: float | None = None) -> Reckoned:
    """Decarburized depth: how far below the skin `share` of the core's carbon is left [m] [1]_ [3]_.

    The skin is taken as without carbon, which is the most that a fire can do, and no scale as knocked off. `least` and
    `most` lie `CARBON_FACTOR` away.

    Args:
        history: times [s] and temperatures [K] of the skin
        carbon: content of the core [% by mass]
        share: of the core's carbon that is left at that depth, from 0 to below 1
        thickness: of the piece, so that the figure says when nothing is left of its core [m]; not asked without it

    Raises:
        SteelError: the carbon content is not from 0 to 2 %, or the share not from 0 to below 1.
    """
    spread = spread_over(history, carbon)
    depth = depth_at_share(share, spread.value)
    through = thickness is not None and depth > thickness / 2
    outside = spread.outside or through

    def validity(units: Units) -> str:
        said = f"to {share:.0%} of the core's carbon, right to a factor of {CARBON_FACTOR:g} either way"
        said += ", without the scale that eats into it"
        meet = "; both sides meet in the middle of so thin a piece, and it has lost more than this says"
        return f"{said}; {units.text(spread.validity)}{meet if through else ''}"

    source = f"{_source(carbon)}; erf profile, Crank, The Mathematics of Diffusion"
    return Reckoned(depth, "modelled", validity, source, depth / CARBON_FACTOR, depth * CARBON_FACTOR, outside)


def grinding_allowance(
    history: History, carbon: float, share: float = 0.95, thickness: float | None = None
) -> Reckoned:
    """Metal to leave on each face for grinding, so that no decarburized skin is left on the finished piece [m].

    The value is that of `decarb_depth`; `most` is what is safe, as the depth is known to `CARBON_FACTOR` only.

    Args:
        history: times [s] and temperatures [K] of the skin
        carbon: content of the core [% by mass]
        share: of the core's carbon that is left at the ground face, from 0 to below 1
        thickness: of the piece, so that the figure says when nothing is left of its core [m]; not asked without it

    Raises:
        SteelError: the carbon content is not from 0 to 2 %, or the share not from 0 to below 1.
    """
    depth = decarb_depth(history, carbon, share, thickness)

    def validity(units: Units) -> str:
        return f"each face; grind the larger figure away where the edge will be: {units.text(depth.validity)}"

    return Reckoned(depth.value, "modelled", validity, depth.source, depth.least, depth.most, depth.outside)

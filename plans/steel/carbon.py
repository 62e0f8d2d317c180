"""Carbon on the move in austenite: how fast, and how deep the skin loses it.

A history counts by the integral of D dt: what D times time is at one temperature.

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
from plans.units import ZERO_CELSIUS, celsius

GAS = 8.314
"""Gas constant as the textbooks round it [J/(mol K)]."""

FACTOR = 2.0
"""How far a decarburized depth may be off, either way, as a factor: the skin is not quite without carbon, scale eats
into it, and the fire's air changes."""

AUSTENITE = 727.0 + ZERO_CELSIUS
"""Colder than this nothing is counted: the carbon is bound in pearlite [K]."""
_HOTTEST = 1400.0 + ZERO_CELSIUS
_MOST_CARBON = 2.0

_AGREN = "J. Agren, Scripta Metall. 20 (1986) 1507"
_CALLISTER = "Callister, Materials Science and Engineering, Table 5.2 (D0 2.3e-5 m2/s, Q 148 kJ/mol)"


def arrhenius(kelvin: float, factor: float, energy: float, gas: float = GAS) -> float:
    """Diffusivity D0 exp(-Q/RT) [m2/s].

    Args:
        kelvin: temperature, above 0 K
        factor: D0 [m2/s]
        energy: Q [J/mol]
        gas: R [J/(mol K)]; textbooks round it differently
    """
    return factor * exp(-energy / (gas * kelvin))


def textbook_diffusivity(kelvin: float) -> float:
    """Diffusivity of carbon in austenite by the textbook's constants, whatever the carbon content [m2/s] [2]_.

    Half of what other sources give at 0.8 %C.
    """
    return arrhenius(kelvin, 2.3e-5, 148e3)


def site_fraction(carbon: float) -> float:
    """Carbon atoms for each atom of iron, from % by mass."""
    return (carbon / 12.011) / ((100.0 - carbon) / 55.845)


def agren_diffusivity(kelvin: float, carbon: float) -> float:
    """Diffusivity of carbon in austenite, which grows with the carbon that is there [m2/s] [1]_.

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
    """Diffusivity of carbon in austenite [m2/s]: Agren's at a carbon content, else the textbook's constants [1]_ [2]_.

    Raises:
        SteelError: the temperature or the carbon content is none that steel can have.
    """
    check_steel(kelvin, carbon)
    outside = not AUSTENITE <= kelvin <= _HOTTEST
    validity = f"in austenite, from {celsius(AUSTENITE):g} to {celsius(_HOTTEST):g} degC"
    if outside:
        validity += f"; {celsius(kelvin):.0f} degC is outside, so this figure means little"
    elif carbon is None:
        validity += "; for little carbon: at 0.8 %C it is about twice as fast"
    return Reckoned(_rate(kelvin, carbon), "modelled", validity, _source(carbon), outside=outside)


def check_steel(kelvin: float, carbon: float | None) -> None:
    """A `SteelError` if the temperature [K] or the carbon content [% by mass] is none that austenite can have."""
    if not 0 < kelvin < inf:
        raise SteelError(f"a temperature of {celsius(kelvin):g} degC: give one above absolute zero")
    if carbon is not None and not 0 <= carbon <= _MOST_CARBON:
        raise SteelError(f"carbon content of {carbon:g} %: austenite holds from 0 to {_MOST_CARBON:g} %")


def spread_over(history: History, carbon: float | None = None, longest_gap: float = inf) -> Reckoned:
    """Integral of D dt along a history, while the steel is austenite [m2].

    Args:
        history: times [s] and temperatures [K]
        carbon: content for which D is taken [% by mass]; the textbook's constants without it
        longest_gap: readings further apart than this have a gap between them [s]

    Raises:
        SteelError: the carbon content is none that steel can have.
    """
    check_steel(1.0, carbon)
    along = integral(lambda kelvin: _rate(kelvin, carbon) if kelvin >= AUSTENITE else 0.0, history, longest_gap)
    validity = f"counts from {celsius(AUSTENITE):g} degC up{gap_note(along.missing)}"
    outside = along.hottest > _HOTTEST
    if outside:
        validity += f"; {celsius(along.hottest):.0f} degC is hotter than the formula was found for"
    return Reckoned(along.value, "modelled", validity, _source(carbon), outside=outside)


def inverse_erf(share: float) -> float:
    """The number whose error function is `share`, from 0 up to but not including 1.

    Raises:
        SteelError: there is no such number.
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
    """How deep the content has come `share` of the way from the surface's to the core's [m] [3]_.

    With a skin without carbon: the depth at which `share` of the core's carbon is left.

    Raises:
        SteelError: the share is not from 0 to below 1, or the spread is below 0.
    """
    if not 0 <= spread < inf:
        raise SteelError(f"integral of D dt of {spread:g} m2: give one from 0 up")
    return 2 * inverse_erf(share) * sqrt(spread)


def spread_to_reach(content: float, depth: float, surface: float, core: float) -> float:
    """Integral of D dt until a content is reached at a depth, carburizing or decarburizing [m2] [3]_.

    Divided by D it is the time. The arguments are as for `content_at`.

    Raises:
        SteelError: the content is not between the surface's and the core's.
    """
    share = (content - surface) / (core - surface) if core != surface else inf
    if not 0 < share < 1:
        raise SteelError(f"{content:g} %C: give a content between the surface's {surface:g} and the core's {core:g}")
    return (depth / (2 * inverse_erf(share))) ** 2


def equal_time(seconds: float, diffusivity: float, other: float) -> float:
    """Time at another diffusivity for the same profile [s]: D t stays the same."""
    return seconds * diffusivity / other


def decarb_depth(
    history: History, carbon: float, share: float = 0.95, thickness: float | None = None, longest_gap: float = inf
) -> Reckoned:
    """How deep the skin has lost carbon: to where `share` of the core's is left [m] [1]_ [3]_.

    The skin is taken as without carbon, which is the most that a fire can do, and no scale as knocked off.

    Args:
        history: times [s] and temperatures [K] of the skin
        carbon: content of the core [% by mass]
        share: of the core's carbon at that depth
        thickness: of the piece where it matters, to be told when nothing is left of its core [m]
        longest_gap: readings further apart than this have a gap between them [s]

    Raises:
        SteelError: carbon or share is impossible.
    """
    spread = spread_over(history, carbon, longest_gap)
    depth = depth_at_share(share, spread.value)
    validity = f"to {share:.0%} of the core's carbon, right to a factor of {FACTOR:g} either way; {spread.validity}"
    outside = spread.outside
    if thickness is not None and depth > thickness / 2:
        outside = True
        validity += "; both sides meet in the middle of so thin a piece, and it has lost more than this says"
    source = f"{spread.source}; erf profile, Crank, The Mathematics of Diffusion"
    return Reckoned(depth, "modelled", validity, source, depth / FACTOR, depth * FACTOR, outside)


def grinding_allowance(
    history: History, carbon: float, share: float = 0.95, thickness: float | None = None, longest_gap: float = inf
) -> Reckoned:
    """What to leave on a face for grinding, so that no decarburized skin is left [m].

    The decarburized depth; `most` is what is safe, since the depth is known to a factor of two only. Arguments and
    errors are those of `decarb_depth`.
    """
    depth = decarb_depth(history, carbon, share, thickness, longest_gap)
    validity = f"each face; grind the larger figure away where the edge will be: {depth.validity}"
    return Reckoned(depth.value, "modelled", validity, depth.source, depth.least, depth.most, depth.outside)

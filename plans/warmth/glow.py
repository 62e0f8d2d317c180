"""Colour and brightness of hot steel by Planck's law; what the trade calls the colours stands in heat_names.py.

Steel at forging heat is scaled and close to black, so its colour is taken as a black body's; its brightness is lower by
the emissivity, which the eye does not notice.

References:
    .. [1] ISO/CIE 11664-1 and 11664-3, the 1931 observer and its tristimulus values.
    .. [2] IEC 61966-2-1:1999, sRGB.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, log

from plans.units import ZERO_CELSIUS
from plans.warmth.material import HOTTEST
from plans.warmth.observer import FIRST_WAVE, STEP, X, Y, Z

RGB = tuple[int, int, int]
"""A colour in sRGB: red, green and blue, each from 0 to 255."""

_FIRST_RADIATION = 1.191042972e-16
"""2 h c^2, CODATA 2018 [W m2 / sr]."""
_SECOND_RADIATION = 1.438776877e-2
"""h c / k, CODATA 2018 [m K]."""
_LUMENS = 683.0
"""Luminous efficacy [lm/W]."""

_TO_SRGB = ((3.2406, -1.5372, -0.4986), (-0.9689, 1.8758, 0.0415), (0.0557, -0.2040, 1.0570))

_DARK = ZERO_CELSIUS + 500.0
"""What the screen shows as black, and everything colder [K]."""
_FULL = ZERO_CELSIUS + 1100.0
"""What the screen shows at full brightness, and everything hotter [K]."""


def radiance(metres: float, kelvin: float) -> float:
    """Spectral radiance of a black body by Planck's law [W/(m3 sr)].

    Args:
        metres: wavelength [m]
        kelvin: temperature, above 0 K
    """
    return _FIRST_RADIATION / (metres**5 * (exp(_SECOND_RADIATION / (metres * kelvin)) - 1))


def tristimulus(kelvin: float) -> tuple[float, float, float]:
    """Tristimulus values X, Y and Z of a black body for the CIE 1931 observer; Y is its luminance [cd/m2] [1]_.

    Args:
        kelvin: temperature [K]

    Raises:
        ValueError: the temperature is not above 0 K, or above `HOTTEST`.
    """
    if not 0 < kelvin <= HOTTEST:
        raise ValueError(f"a glow needs a temperature above 0 K and up to {HOTTEST:.0f} K")
    x = y = z = 0.0
    if kelvin > 200:  # colder, and Planck's exponential overflows on the way to nothing
        for i, (for_x, for_y, for_z) in enumerate(zip(X, Y, Z, strict=True)):
            power = radiance((FIRST_WAVE + i * STEP) * 1e-9, kelvin)
            x += for_x * power
            y += for_y * power
            z += for_z * power
    scale = _LUMENS * STEP * 1e-9
    return x * scale, y * scale, z * scale


def luminance(kelvin: float) -> float:
    """Luminance of a black body: how bright it is to the eye [cd/m2] [1]_.

    Args:
        kelvin: temperature [K]

    Raises:
        ValueError: the temperature is not above 0 K, or above `HOTTEST`.
    """
    return tristimulus(kelvin)[1]


def _encoded(linear: float) -> float:
    return 12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055


@lru_cache(maxsize=4096)
def _hue(kelvin: int) -> RGB:
    stimulus = tristimulus(max(kelvin, 500))
    linear = [max(0.0, sum(a * b for a, b in zip(row, stimulus, strict=True))) for row in _TO_SRGB]
    red, green, blue = (round(255 * _encoded(channel / max(linear))) for channel in linear)
    return red, green, blue


def hue(kelvin: float) -> RGB:
    """Hue of hot steel in sRGB: its colour with the brightest channel at 255 [2]_.

    What sRGB can't show is clipped. Below 500 K, where nothing is seen, it is the hue of 500 K; above `HOTTEST` that of
    `HOTTEST`.

    Args:
        kelvin: temperature [K]
    """
    return _hue(round(min(kelvin, HOTTEST)))


@lru_cache(maxsize=4096)
def _drawn(kelvin: int) -> RGB:
    if kelvin <= _DARK:
        return 0, 0, 0
    dark, full = log(luminance(_DARK)), log(luminance(_FULL))
    share = min(1.0, (log(luminance(kelvin)) - dark) / (full - dark))
    red, green, blue = (round(share * channel) for channel in _hue(kelvin))
    return red, green, blue


def screen_glow(kelvin: float) -> RGB:
    """Colour to draw hot steel with on a screen: its hue, as bright as the logarithm of its luminance.

    Black up to 500 degC, at full brightness from 1100 degC up.

    Args:
        kelvin: temperature [K]
    """
    return _drawn(round(min(kelvin, HOTTEST)))

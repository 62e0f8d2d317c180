"""How reckoned figures are kept and shown: each with the unit that its key names, metric or inch on the screen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import floor, isfinite, log10
from typing import Final

from plans.shown import INCH, UNKNOWN, celsius, fahrenheit, show_duration, show_length, show_temperature

_DIGITS = 8
"""Significant ones in a record: finer than anything here is known, and free of the noise of the last bits."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of figures."""

    kept: Callable[[float], float]
    """From SI to what the record holds."""
    shown: Callable[[float, bool], str]
    """From SI to text; the second argument asks for inches and degF."""

    def record(self, value: float) -> float:
        """The figure for a record."""
        return float(f"{self.kept(value):.{_DIGITS}g}")

    def text(self, value: float, inch: bool = False) -> str:
        """The figure as people read it, with its unit."""
        return self.shown(value, inch) if isfinite(value) else UNKNOWN


def digits(value: float, count: int = 3) -> str:
    """A number to so many significant digits, without an exponent: "0.0482", "12.3", "1240"."""
    if value == 0:
        return "0"
    rounded = float(f"{value:.{count - 1}e}")
    places = count - 1 - floor(log10(abs(rounded)))
    return f"{rounded:.{max(0, places)}f}"


def _short(value: float) -> str:
    """Three digits at most, without zeros that say nothing: "0.8", "10", "0.043"."""
    text = digits(value)
    return text.rstrip("0").rstrip(".") if "." in text else text


def both(kelvin: float) -> str:
    """A temperature [K] for whoever reads degC and whoever reads degF."""
    return f"{show_temperature(kelvin)} ({show_temperature(kelvin, True)})"


def _same(value: float) -> float:
    return value


def _seconds(value: float, _: bool) -> str:
    if value >= 3600:
        return show_duration(round(value / 60) * 60)
    return f"{value:.1f}".removesuffix(".0") + " s" if 0 < value < 99.95 else show_duration(value)


def _fine_temperature(value: float, inch: bool) -> str:
    return f"{fahrenheit(value):.2f} degF" if inch else f"{celsius(value):.2f} degC"


def _difference(value: float, inch: bool) -> str:
    return f"{_short(value * 9 / 5)} degF" if inch else f"{_short(value)} K"


def _thin(value: float, inch: bool) -> str:
    return f"{digits(value / INCH, 2)} in" if inch else f"{digits(value * 1000, 2)} mm"


TEMPERATURE: Final = Unit(celsius, show_temperature)
FINE_TEMPERATURE: Final = Unit(celsius, _fine_temperature)
"""To the hundredth."""
DIFFERENCE: Final = Unit(_same, _difference)
"""A temperature difference [K]."""
LENGTH: Final = Unit(lambda value: value * 1000, show_length)
"""Millimetres, as a rule shows them; fractions of an inch."""
SECONDS: Final = Unit(_same, _seconds)
THIN: Final = Unit(lambda value: value * 1000, _thin)
"""Millimetres, of what a grinder takes away; thousandths of an inch."""
SHARE: Final = Unit(_same, lambda value, _: f"{_short(value * 100)} %")
"""From 0 to 1; read as per cent."""
MASS_PERCENT: Final = Unit(_same, lambda value, _: f"{value:.2f} %")
NUMBER: Final = Unit(_same, lambda value, _: _short(value))
FINE_NUMBER: Final = Unit(_same, lambda value, _: f"{value:.3f}")
HRC: Final = Unit(_same, lambda value, _: f"{value:.1f} HRC")
DIFFUSIVITY: Final = Unit(_same, lambda value, _: f"{value:.3g} m2/s")
LUMINANCE: Final = Unit(_same, lambda value, _: f"{_short(value) if value >= 0.001 else f'{value:.1g}'} cd/m2")
MILLIVOLTS: Final = Unit(lambda value: value * 1000, lambda value, _: f"{value * 1000:.3f} mV")
CONVECTION: Final = Unit(_same, lambda value, _: f"{_short(value)} W/m^2/K")

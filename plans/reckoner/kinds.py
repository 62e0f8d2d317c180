"""The kinds of figure that the reckoner gives: in which unit a record keeps each, and how people read it."""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite
from typing import Final, NamedTuple

from plans.record import record
from plans.shown import show_clock, show_duration
from plans.units import UNKNOWN, Units, celsius, digits

_DIGITS = 8
"""Significant digits of a figure in a record: finer than anything here is known, and free of the last bits' noise."""
_IN_WORDS = 99.95
"""Time from which on minutes are counted [s]."""
_HOUR = 3600.0
"""Time from which on seconds are not counted any more [s]."""
TONNE: Final = 9806.65
"""Force of a tonne [N]; exact (NIST SP 811, B.8)."""
US_TON: Final = 2000 * 4.4482216152605
"""Force of a US ton, 2000 lbf [N]; exact (NIST SP 811, B.8)."""
FOOT_POUND: Final = 0.3048 * 4.4482216152605
"""One foot-pound-force [J]; exact (NIST SP 811, B.8)."""
KSI: Final = 4.4482216152605e3 / 0.0254**2
"""A thousand pounds-force on a square inch [Pa]; exact (NIST SP 811, B.8)."""
_LEAST_SHARE = 0.0001
"""Share below which nobody cares how much it is."""


class Large(NamedTuple):
    """A figure to be read from afar, where its unit may be written small."""

    figure: str
    """The figure itself, as short as it can be: "4:18"."""
    unit: str
    """Its unit; empty where it has none."""


@record
class FigureKind:
    """One kind of figure, such as a temperature or a share: how a record keeps it, and how people read it."""

    kept: Callable[[float], float]
    """From SI to the number that a record holds; its unit stands in the record's key."""
    shown: Callable[[float, Units], str]
    """From SI to a text with a unit, in the units that are set."""
    shown_large: Callable[[float], Large] | None = None
    """From SI to a figure apart from its unit, where that is not the text cut before its last word."""

    def record(self, value: float) -> float:
        """The number that a record holds for a figure in SI."""
        return float(f"{self.kept(value):.{_DIGITS}g}")

    def text(self, value: float, units: Units = Units.METRIC) -> str:
        """A figure in SI as people read it, with its unit; "--" where it is no finite number."""
        return self.shown(value, units) if isfinite(value) else UNKNOWN

    def large(self, value: float, units: Units = Units.METRIC) -> Large:
        """A figure in SI to be read from afar; "--" without a unit where it is no finite number."""
        if not isfinite(value):
            return Large(UNKNOWN, "")
        if self.shown_large is not None:
            return self.shown_large(value)
        figure, _, unit = self.shown(value, units).rpartition(" ")
        return Large(figure, unit) if figure else Large(unit, "")


def _short(value: float) -> str:
    """Three digits at most, without zeros that say nothing: "0.8", "10", "0.043"."""
    text = digits(value)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _same(value: float) -> float:
    return value


def _seconds(value: float, _: Units) -> str:
    if value >= _HOUR:
        return show_duration(round(value / 60) * 60)
    return f"{value:.1f}".removesuffix(".0") + " s" if 0 < value < _IN_WORDS else show_duration(value)


def _clock(value: float) -> Large:
    """A time as a clock has it, where `_seconds` would say it in words."""
    if value >= _HOUR:
        return Large(show_clock(round(value / 60)), "h")
    if value >= _IN_WORDS:
        return Large(show_clock(value), "min")
    return Large(*_seconds(value, Units.METRIC).split())


def _share(value: float, _: Units) -> str:
    """Per cent; what is next to nothing is said to be less than the least that matters."""
    if 0 < value < _LEAST_SHARE:
        return f"under {_LEAST_SHARE * 100:g} %"
    return f"{_short(value * 100)} %"


def _fine_temperature(value: float, units: Units) -> str:
    return f"{units.to_degrees(value):.2f} {units.degree}"


def _difference(value: float, units: Units) -> str:
    return f"{_short(units.to_difference(value))} {units.difference_unit}"


def _force(value: float, units: Units) -> str:
    return f"{_short(value / US_TON)} US-tons" if units.inches else f"{_short(value / TONNE)} tonne"


def _work(value: float, units: Units) -> str:
    return f"{_short(value / FOOT_POUND)} ft-lbf" if units.inches else f"{_short(value)} J"


def _stress(value: float, units: Units) -> str:
    return f"{_short(value / KSI)} ksi" if units.inches else f"{_short(value / 1e6)} MPa"


TEMPERATURE: Final = FigureKind(celsius, lambda value, units: units.temperature(value))
"""A temperature, given in kelvin: kept in degC, read to the whole degree."""
FINE_TEMPERATURE: Final = FigureKind(celsius, _fine_temperature)
"""A temperature, given in kelvin: kept in degC, read to the hundredth of a degree."""
DIFFERENCE: Final = FigureKind(_same, _difference)
"""A temperature difference: kept in kelvin, read in K or degF to three digits."""
LENGTH: Final = FigureKind(lambda value: value * 1000, lambda value, units: units.length(value))
"""A length, given in metres: kept in millimetres, read as a rule shows it, in inches by their fractions."""
TYPED_LENGTH: Final = FigureKind(lambda value: value * 1000, lambda value, units: units.exact_length(value))
"""A length that was given, in metres: kept in millimetres, read as exactly as it was typed."""
WIDTH: Final = FigureKind(lambda value: value * 1000, lambda value, units: units.width(value))
"""One of several widths that add up, given in metres: kept in millimetres, read in mm or thousandths of an inch."""
SECONDS: Final = FigureKind(_same, _seconds, _clock)
"""A time: kept in seconds, read in seconds to the tenth, and from 100 s on in words."""
THIN: Final = FigureKind(lambda value: value * 1000, lambda value, units: units.depth(value))
"""A depth that a grinder takes away, given in metres: kept in millimetres, read to two digits, inches as decimals."""
SHARE: Final = FigureKind(_same, _share)
"""A share of a whole: kept as a number from 0 to 1, read as per cent."""
MASS_PERCENT: Final = FigureKind(_same, lambda value, _: f"{value:.2f} %")
"""A content by mass: kept and read in per cent."""
NUMBER: Final = FigureKind(_same, lambda value, _: _short(value))
"""A number without a unit, read to three digits."""
FINE_NUMBER: Final = FigureKind(_same, lambda value, _: f"{value:.3f}")
"""A number without a unit, read to three decimals."""
TIMES: Final = FigureKind(_same, lambda value, _: f"{value:.3f} times")
"""How many times as much as before, read to three decimals."""
HRC: Final = FigureKind(_same, lambda value, _: f"{value:.1f} HRC")
"""A hardness on Rockwell's C scale."""
DIFFUSIVITY: Final = FigureKind(_same, lambda value, _: f"{value:.3g} m2/s")
"""A diffusivity [m2/s]."""
LUMINANCE: Final = FigureKind(_same, lambda value, _: f"{_short(value) if value >= 0.001 else f'{value:.1g}'} cd/m2")
"""A luminance [cd/m2]."""
MILLIVOLTS: Final = FigureKind(lambda value: value * 1000, lambda value, _: f"{value * 1000:.3f} mV")
"""A voltage, given in volts: kept and read in millivolts."""
FORCE: Final = FigureKind(_same, _force)
"""A force, given in newton: kept so, read in tonnes or US tons, as presses are sold."""
WORK: Final = FigureKind(_same, _work)
"""Work, given in joule: kept so, read in J or ft-lbf."""
STRESS: Final = FigureKind(lambda value: value / 1e6, _stress)
"""A stress, given in pascal: kept in MPa, read in MPa or ksi."""
CONVECTION: Final = FigureKind(_same, lambda value, _: f"{_short(value)} W/m^2/K")
"""A coefficient of convection [W/(m2 K)]."""
MASS: Final = FigureKind(_same, lambda value, units: units.mass(value))
"""A mass: kept in kilograms, read in kg and g, or in lb and oz."""
LINE_MASS: Final = FigureKind(_same, lambda value, units: units.line_mass(value))
"""The mass of a bar for its length: kept in kg/m, read in kg/m or lb/ft."""
AREA: Final = FigureKind(lambda value: value * 1e6, lambda value, units: units.area(value))
"""An area of a section, given in m2: kept in mm2, read in mm2 or square inches."""
VOLUME: Final = FigureKind(lambda value: value * 1e6, lambda value, units: units.volume(value))
"""A volume, given in m3: kept in cm3, read in cm3 or cubic inches."""
DENSITY: Final = FigureKind(_same, lambda value, units: units.density(value))
"""A density: kept in kg/m3, read in kg/m3 or lb/in3."""
COUNT: Final = FigureKind(_same, lambda value, _: f"{value:.0f}")
"""A number of things, read to the last one."""
ANGLE: Final = FigureKind(_same, lambda value, _: f"{value:.1f}".removesuffix(".0") + " degrees")
"""An angle, given in degrees: kept so, and read to the tenth."""

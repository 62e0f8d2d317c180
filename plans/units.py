"""Printing of quantities in the units that are set, and the conversions behind it; needs no pint."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from enum import StrEnum
from math import floor, gcd, isfinite, log10
from typing import Final

from plans.shapes import REGULAR, Section

ZERO_CELSIUS: Final = 273.15
"""0 degC [K]; exact by definition (NIST SP 811, B.8)."""
INCH: Final = 0.0254
"""One inch [m]; exact by definition (NIST SP 811, B.8)."""
POUND: Final = 0.45359237
"""One pound [kg]; exact by definition (NIST SP 811, B.8)."""
UNKNOWN: Final = "--"
"""What is printed for a figure that is not known, or is no finite number."""


def celsius(kelvin: float) -> float:
    """A temperature in degC from one in kelvin."""
    return kelvin - ZERO_CELSIUS


def kelvin(celsius: float) -> float:
    """A temperature in kelvin from one in degC."""
    return celsius + ZERO_CELSIUS


def fahrenheit(kelvin: float) -> float:
    """A temperature in degF from one in kelvin (NIST SP 811, B.8)."""
    return kelvin * 9 / 5 - 459.67


def digits(value: float, count: int = 3) -> str:
    """A number to so many significant digits, without an exponent: "0.0482", "12.3", "1240"."""
    if value == 0:
        return "0"
    rounded = float(f"{value:.{count - 1}e}")
    places = count - 1 - floor(log10(abs(rounded)))
    return f"{rounded:.{max(0, places)}f}"


class Units(StrEnum):
    """The units that are set, or that something was typed in; each knows how to print every quantity.

    `SETTABLE` has those that can be set, whose values are those of the setting.
    """

    METRIC = "metric"
    """Millimetres, degC, and K for temperature differences."""
    INCH = "inch"
    """Inches in fractions, and degF for temperatures and differences."""
    MILLIMETRES_FAHRENHEIT = "mm and degF"
    """Millimetres, with degF for temperatures and differences."""
    INCHES_CELSIUS = "in and degC"
    """Inches in fractions, with degC, and K for temperature differences."""

    @classmethod
    def of(cls, *, inches: bool, fahrenheit: bool) -> Units:
        """The units with these lengths and these temperatures."""
        if inches:
            return cls.INCH if fahrenheit else cls.INCHES_CELSIUS
        return cls.MILLIMETRES_FAHRENHEIT if fahrenheit else cls.METRIC

    @property
    def inches(self) -> bool:
        """Whether lengths are in inches."""
        return self in (Units.INCH, Units.INCHES_CELSIUS)

    @property
    def fahrenheit(self) -> bool:
        """Whether temperatures and their differences are in degF."""
        return self in (Units.INCH, Units.MILLIMETRES_FAHRENHEIT)

    @property
    def degree(self) -> str:
        """The unit of a temperature: "degC" or "degF"."""
        return "degF" if self.fahrenheit else "degC"

    def to_degrees(self, kelvin: float) -> float:
        """A temperature [K] as a number of degC or degF."""
        return fahrenheit(kelvin) if self.fahrenheit else celsius(kelvin)

    def from_degrees(self, degrees: float) -> float:
        """A temperature [K] from a number of degC or degF; the inverse of `to_degrees`."""
        return (degrees + 459.67) * 5 / 9 if self.fahrenheit else kelvin(degrees)

    @property
    def difference_unit(self) -> str:
        """The unit of a temperature difference: "K" or "degF"."""
        return "degF" if self.fahrenheit else "K"

    def to_difference(self, kelvin: float) -> float:
        """A temperature difference [K] as a number of K or degF."""
        return kelvin * 9 / 5 if self.fahrenheit else kelvin

    @property
    def length_unit(self) -> str:
        """The unit of a length: "mm" or "in"."""
        return "in" if self.inches else "mm"

    def to_length(self, metres: float) -> float:
        """A length [m] as a number of millimetres, or of inches with decimals."""
        return metres / INCH if self.inches else metres * 1000

    def degrees(self, kelvin: float | None) -> str:
        """A temperature [K] to the whole degree, without its unit: "1250"; "--" where it is not known."""
        return UNKNOWN if kelvin is None or not isfinite(kelvin) else str(_whole(self.to_degrees(kelvin)))

    def temperature(self, kelvin: float | None) -> str:
        """A temperature [K] to the whole degree: "1250 degC" or "2282 degF"; "--" where it is not known."""
        return UNKNOWN if kelvin is None or not isfinite(kelvin) else f"{self.degrees(kelvin)} {self.degree}"

    def exact_temperature(self, kelvin: float) -> str:
        """A temperature [K] with what decimals it has, up to six digits: "1768.1 degC" or "3214.58 degF"."""
        return f"{self.to_degrees(kelvin):g} {self.degree}"

    def absolute(self, kelvin: float) -> str:
        """A temperature [K] of physics, which a smith who reads degC is told in kelvin: "500 K" or "440 degF"."""
        return self.temperature(kelvin) if self.fahrenheit else f"{_whole(kelvin)} K"

    def difference(self, kelvin: float, *, unit: bool = True) -> str:
        """A temperature difference [K] to the whole degree: "15 K" or "27 degF"."""
        if not isfinite(kelvin):
            return UNKNOWN
        number = str(_whole(self.to_difference(kelvin)))
        return f"{number} {self.difference_unit}" if unit else number

    def length(self, metres: float) -> str:
        """A length [m] as a rule shows it: "231 mm", "12.7 mm", or "1 1/4 in"."""
        if not isfinite(metres):
            return UNKNOWN
        return f"{_inches(metres)} in" if self.inches else f"{_millimetres(metres)} mm"

    def exact_length(self, metres: float) -> str:
        """A length [m] with what decimals it has, up to a micrometre, as it was typed: "12.75 mm", "39/64 in" or
        "0.04 in"."""
        if not isfinite(metres):
            return UNKNOWN
        number = self.to_length(metres)
        if self.inches and _is_sixty_fourth(number):
            return self.length(metres)
        return f"{number:.{4 if self.inches else 3}f}".rstrip("0").removesuffix(".") + f" {self.length_unit}"

    def written_length(self, metres: float) -> str:
        """A length [m] as it is written into a file: "31.75 mm" where it has no more decimals than that, and else
        rounded to a tenth of a millimetre, or by 0.5 %: "31.8 mm", "313 mm", "1 7/32 in", "0.315 in"."""
        number = self.to_length(metres)
        if self.inches:
            if (finest := next((one for one in _RULED if _is_near(number, one)), None)) is not None:
                return f"{_fraction(_whole(number * finest), finest)} in"
            return f"{digits(number)} in"
        if abs(number - round(number, 2)) < 1e-6:
            return f"{number:.2f}".rstrip("0").removesuffix(".") + " mm"
        return f"{digits(number, 2)} mm" if number < 1 else self.length(metres)

    def width(self, metres: float) -> str:
        """A width [m] beside others that it is to add up with: "10.3 mm", or thousandths of an inch, "0.406 in"."""
        if not isfinite(metres):
            return UNKNOWN
        return f"{metres / INCH:.3f} in" if self.inches else self.length(metres)

    def depth(self, metres: float, *, unit: bool = True) -> str:
        """A small length [m] to two significant digits, as of decarb or scale: "0.16 mm" or "0.0063 in"."""
        if not isfinite(metres):
            return UNKNOWN
        number = digits(self.to_length(metres), 2)
        return f"{number} {self.length_unit}" if unit else number

    def wire(self, diameter: float) -> str:
        """The diameter of a wire [m] as wire is sold: "3.25 mm", or thousandths of an inch, "0.128 in"."""
        number = self.to_length(diameter)
        return f"{number:.3f} in" if self.inches else f"{number:g} mm"

    def mass(self, kilograms: float) -> str:
        """A mass [kg] to three digits: "1.96 kg", "412 g", "4.32 lb" or "14.5 oz"."""
        large, small, few = ("lb", "oz", 16) if self.inches else ("kg", "g", 1000)
        number = kilograms / POUND if self.inches else kilograms
        return f"{digits(number)} {large}" if number >= 1 else f"{digits(number * few)} {small}"

    def line_mass(self, kilograms: float) -> str:
        """The mass of a bar for its length [kg/m] to three digits: "1.96 kg/m" or "1.32 lb/ft"."""
        return f"{digits(kilograms / POUND * INCH * 12)} lb/ft" if self.inches else f"{digits(kilograms)} kg/m"

    def area(self, square_metres: float) -> str:
        """An area of a section [m2] to three digits: "250 mm2" or "0.388 in2"."""
        return f"{digits(self.to_length(1) ** 2 * square_metres)} {self.length_unit}2"

    def volume(self, cubic_metres: float) -> str:
        """A volume [m3] to three digits: "250 cm3" or "15.3 in3"."""
        return f"{digits(cubic_metres / INCH**3)} in3" if self.inches else f"{digits(cubic_metres * 1e6)} cm3"

    def gas(self, cubic_metres: float) -> str:
        """A volume as gas is metered [m3], to three digits: "1.8 m3" or "63.6 ft3"."""
        return f"{digits(cubic_metres / (12 * INCH) ** 3)} ft3" if self.inches else f"{digits(cubic_metres)} m3"

    def density(self, density: float) -> str:
        """A density [kg/m3]: "7850 kg/m3" or "0.284 lb/in3"."""
        return f"{digits(density / POUND * INCH**3)} lb/in3" if self.inches else f"{_whole(density)} kg/m3"

    def section(self, section: Section, *, exact: bool = False) -> str:
        """A cross-section: "40 x 12 mm", "round 25 mm", "wedge 37 x 8 mm to 3.5 mm", or "1 9/16 x 1/2 in".

        Args:
            section: what is printed
            exact: whether its lengths come with what decimals they have, as they were typed
        """
        return self._section(section, self.exact_length if exact else self.length)

    def written_section(self, section: Section) -> str:
        """A cross-section as it is written into a file, its lengths as `written_length` has them."""
        return self._section(section, self.written_length)

    def _section(self, section: Section, length: Callable[[float], str]) -> str:
        if section.form in REGULAR:
            return f"{section.form} {length(section.thickness)}"
        if section.edge is not None:
            sides = self._section(Section(section.width, section.thickness), length)
            bevel = "" if section.bevel is None else f" bevel {length(section.bevel)}"
            return f"{section.form} {sides} to {length(section.edge)}{bevel}{_bow(section.radius, length)}"
        return f"{length(section.width).removesuffix(f' {self.length_unit}')} x {length(section.thickness)}"

    def text(self, shown: Shown) -> str:
        """A text for people with its figures in these units."""
        return shown if isinstance(shown, str) else shown(self)


SETTABLE: Final = (Units.METRIC, Units.INCH)
"""The units that a smith can set; the others come of what is typed."""
Shown = str | Callable[[Units], str]
"""A text for people: as it stands, or what writes it in the units that are set."""


def joined(texts: Iterable[Shown]) -> Shown:
    """Several texts as one, parted by semicolons; those that are empty are left out."""
    parts = [text for text in texts if text]
    plain = [text for text in parts if isinstance(text, str)]
    if len(plain) == len(parts):
        return "; ".join(plain)
    return lambda units: "; ".join(units.text(part) for part in parts)


def in_both(kelvin: float) -> str:
    """A temperature [K] in both scales, for the error texts, which know no settings: "900 degC (1652 degF)"."""
    return both(lambda units: units.temperature(kelvin))


def exactly_in_both(kelvin: float) -> str:
    """A temperature [K] in both scales with its decimals, so that one just beyond a limit is told from the limit."""
    return both(lambda units: units.exact_temperature(kelvin))


def section_in_both(section: Section) -> str:
    """A cross-section in both systems: "30 x 18 mm (1 3/16 x 23/32 in)"."""
    return both(lambda units: units.section(section))


def both(shown: Callable[[Units], str]) -> str:
    """A text for people in metric units, and behind it in parentheses in those of inches: "10 K (18 degF)"."""
    return f"{shown(Units.METRIC)} ({shown(Units.INCH)})"


def _bow(radius: float | None, length: Callable[[float], str]) -> str:
    if radius is None:
        return ""
    return f" {'hollow' if radius < 0 else 'convex'} radius {length(abs(radius))}"


def _whole(number: float) -> int:
    return floor(number + 0.5)


_RULED: Final = (16, 32, 64)
"""The parts of an inch that a rule has."""


def _is_near(inches: float, finest: int) -> bool:
    """Whether such a part of an inch is within 0.5 %, or it is what was typed."""
    return abs(inches * finest - _whole(inches * finest)) < max(0.005 * inches * finest, 1e-6) and inches * finest > 0.5


def _millimetres(metres: float) -> str:
    millimetres = metres * 1000
    return str(_whole(millimetres)) if abs(millimetres) >= 100 else f"{millimetres:.1f}".removesuffix(".0")


def _is_sixty_fourth(inches: float) -> bool:
    return abs(inches * 64 - _whole(inches * 64)) < 1e-6


def _inches(metres: float) -> str:
    """Inches to the nearest 1/16; finer where a sixteenth would be more than a few per cent of the length, or where it
    is a 64th to begin with, as it was typed."""
    inches = abs(metres) / INCH
    finest = 64 if inches < 0.25 or _is_sixty_fourth(inches) else 32 if inches < 1 else 16
    count = _whole(inches * finest)
    if count == 0:
        return "0" if metres == 0 else f"{metres / INCH:.3f}"
    return f"-{_fraction(count, finest)}" if metres < 0 else _fraction(count, finest)


def _fraction(count: int, finest: int) -> str:
    """So many parts of an inch, which is divided into `finest`: "1 1/4"."""
    whole, over = divmod(count, finest)
    part = f"{over // gcd(over, finest)}/{finest // gcd(over, finest)}" if over else ""
    return " ".join(piece for piece in (str(whole) if whole else "", part) if piece)

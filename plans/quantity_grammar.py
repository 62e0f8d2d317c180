"""How quantities are written: the units that are read, and the syntax as regular expressions.

The expressions are read alike by Python and by ECMA 262, so that the JSON Schema of plans holds the same ones.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Final, Literal

Dimension = Literal[
    "temperature", "temperature difference", "length", "time", "mass", "volume", "force", "convection", "number"
]
"""What a quantity can measure. In SI: temperature and temperature difference [K], length [m], time [s], mass [kg],
volume [m3], force [N], convection [W/(m2 K)], number [1]."""

LONGEST: Final = 60
"""Most characters of a quantity; none needs more."""
LONGEST_SECTION: Final = 90
"""Most characters of a cross-section; one with its edge, bevel and radius in inches has some eighty."""

_CELSIUS = ("degC", "°C", "℃", "deg C", "° C", "C")
_FAHRENHEIT = ("degF", "°F", "℉", "deg F", "° F", "F")

UNITS: Final[dict[Dimension, dict[str, str]]] = {
    "temperature": dict.fromkeys(_CELSIUS, "degC") | dict.fromkeys(_FAHRENHEIT, "degF") | {"K": "K"},
    "temperature difference": {"K": "K"}
    | dict.fromkeys(_CELSIUS, "delta_degC")
    | dict.fromkeys(_FAHRENHEIT, "delta_degF"),
    "length": {"mm": "mm", "cm": "cm", "m": "m"}
    | dict.fromkeys(("in", "inch", "inches", '"', "″"), "in")
    | dict.fromkeys(("ft", "foot", "feet", "'", "′"), "ft"),
    "time": {"ms": "ms"}
    | dict.fromkeys(("s", "sec", "second", "seconds"), "s")
    | dict.fromkeys(("min", "mins", "minute", "minutes"), "min")
    | dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "h"),
    "mass": {"kg": "kg", "g": "g", "oz": "oz"} | dict.fromkeys(("lb", "lbs"), "lb"),
    # A gallon is none: it is 4.5 or 3.8 litres by where one lives.
    "volume": dict.fromkeys(("m^3", "m3", "m³", "cubic metres", "cubic meters"), "m**3")
    | dict.fromkeys(("l", "L", "litre", "litres", "liter", "liters"), "l")
    | dict.fromkeys(("ft^3", "ft3", "ft³", "cu ft", "cubic feet"), "ft**3"),
    # A "ton" alone is read by nobody here: it is 2000 lbf, 2240 lbf or 1000 kgf by where one lives.
    "force": {"N": "newton", "kN": "kilonewton", "MN": "meganewton", "kgf": "kilogram_force", "lbf": "pound_force"}
    | dict.fromkeys(("t", "tonne", "tonnes", "metric ton", "metric tons"), "tonne_force")
    | dict.fromkeys(("US ton", "US tons", "US-ton", "US-tons", "short ton", "short tons"), "short_ton_force")
    | dict.fromkeys(("UK ton", "UK tons", "long ton", "long tons"), "long_ton_force"),
    "convection": dict.fromkeys(
        ("W/m^2/K", "W/m2/K", "W/m²/K", "W/m2K", "W/m²K", "W/(m^2 K)", "W/(m2 K)", "W/(m² K)", "W/(m2K)", "W/(m²K)"),
        "W/m**2/K",
    ),
    "number": {"": "", "%": "%"},
}
"""For each dimension every spelling of a unit that is read, and pint's name for it."""

EXAMPLES: Final[dict[Dimension, str]] = {
    "temperature": '"1250 degC" or "2282 degF"',
    "temperature difference": '"15 K" or "27 degF"',
    "length": '"25 mm" or "1 1/4 in"',
    "time": '"4 min", "90 s" or "1 h 30 min"',
    "mass": '"1.2 kg" or "2 lb 10 oz"',
    "volume": '"1.8 m^3", "12 l" or "65 ft^3"',
    "force": '"25 tonne", "25 US tons" or "250 kN"',
    "convection": '"20 W/m^2/K"',
    "number": '"0.8" or "80 %"',
}
"""How a quantity of each dimension may be written, for the end of an error."""

SPACE: Final = "[ \u00a0\u2009\u202f]*"
"""An expression for any number of spaces, narrow and unbreakable ones among them."""
_PLAIN = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2})?"
VULGAR: Final = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
"""What each fraction that has a character of its own means."""
_FRACTION = rf"(?:[0-9]+[ -])?[0-9]+/[1-9][0-9]*|(?:[0-9]+{SPACE})?[{''.join(VULGAR)}]"
NUMBER: Final = rf"(?:{_FRACTION}|{_PLAIN})"
"""An expression for a number: a decimal, or a fraction with or without a whole number before it."""
_CLOCK = "[0-9]{1,3}:[0-5][0-9]:[0-5][0-9]"


def any_of(units: dict[str, str]) -> str:
    """An expression for any of the units' spellings (the keys), the longer ones first."""
    return "(?:" + "|".join(re.escape(unit).replace(r"\ ", " ") for unit in sorted(units, key=len, reverse=True)) + ")"


_LENGTH_UNIT = any_of(UNITS["length"])
_TWO_SIDES = rf"({NUMBER}){SPACE}({_LENGTH_UNIT})?{SPACE}[xX×]{SPACE}({NUMBER}){SPACE}({_LENGTH_UNIT})"
_ONE_SIDE = rf"{NUMBER}{SPACE}{_LENGTH_UNIT}"
_SHAPE_FIRST = rf"(round|square|octagon|hexagon|⌀|Ø|ø){SPACE}({_ONE_SIDE})"
_SHAPE_LAST = rf"({_ONE_SIDE}){SPACE}(round|square|octagon|hexagon)"
_BEVEL = rf"(?:{SPACE}bevel{SPACE}({_ONE_SIDE}))?(?:{SPACE}(hollow|convex){SPACE}(?:radius{SPACE})?({_ONE_SIDE}))?"
_EDGED = rf"(wedge|diamond|lens){SPACE}{_TWO_SIDES}{SPACE}(?:to|edge){SPACE}({_ONE_SIDE}){_BEVEL}"

SECTION: Final = f"^{SPACE}(?:(?:flat{SPACE})?{_TWO_SIDES}|{_SHAPE_FIRST}|{_SHAPE_LAST}|{_EDGED}){SPACE}$"
"""The whole syntax of a cross-section, as an expression."""

SECTION_MARKS: Final = ("x", "X", "×", "round", "square", "octagon", "⌀", "Ø", "ø")
"""Every cross-section has one of these in it, which is found sooner than by the whole syntax."""


@cache
def pattern(dimension: Dimension) -> str:
    """The whole syntax of a quantity of that dimension, as an expression."""
    unit = any_of(UNITS[dimension])
    if dimension in ("temperature", "temperature difference", "volume", "force", "convection", "number"):
        sign = "[+−-]?" if dimension == "temperature" else ""
        return f"^{SPACE}{sign}{_PLAIN}{SPACE}{unit}{SPACE}$"
    terms = f"(?:{NUMBER}{SPACE}{unit}{SPACE})+"
    return f"^{SPACE}(?:{terms}|{_CLOCK}{SPACE})$" if dimension == "time" else f"^{SPACE}{terms}$"

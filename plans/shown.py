"""Printing of quantities, metric or inch; needs no pint, so that a screen can draw before pint is loaded."""

from __future__ import annotations

from math import floor, gcd, isfinite
from typing import Final

from plans.section import Section

ZERO_CELSIUS: Final = 273.15
"""0 degC [K]; exact by definition (NIST SP 811, B.8)."""
INCH: Final = 0.0254
"""One inch [m]; exact by definition (NIST SP 811, B.8)."""
UNKNOWN: Final = "--"
"""What stands for a figure that is no number."""


def celsius(kelvin: float) -> float:
    """A temperature in degC from one in kelvin."""
    return kelvin - ZERO_CELSIUS


def kelvin(celsius: float) -> float:
    """A temperature in kelvin from one in degC."""
    return celsius + ZERO_CELSIUS


def fahrenheit(kelvin: float) -> float:
    """A temperature in degF from one in kelvin."""
    return kelvin * 9 / 5 - 459.67


def show_temperature(kelvin: float, inch: bool = False) -> str:
    """A temperature [K] to the whole degree: "1250 degC", or "2282 degF" for a shop that works in inches."""
    if not isfinite(kelvin):
        return UNKNOWN
    return f"{_whole(fahrenheit(kelvin))} degF" if inch else f"{_whole(celsius(kelvin))} degC"


def show_difference(kelvin: float, inch: bool = False) -> str:
    """A temperature difference [K] to the whole degree: "15 K" or "27 degF"."""
    if not isfinite(kelvin):
        return UNKNOWN
    return f"{_whole(kelvin * 9 / 5)} degF" if inch else f"{_whole(kelvin)} K"


def show_length(metres: float, inch: bool = False) -> str:
    """A length [m] as a rule shows it: "231 mm", "12.7 mm", or "1 1/4 in"."""
    if not isfinite(metres):
        return UNKNOWN
    return f"{_inches(metres)} in" if inch else f"{_millimetres(metres)} mm"


def show_section(section: Section, inch: bool = False) -> str:
    """A section: "40 x 12 mm", "round 25 mm", or "1 9/16 x 1/2 in"."""
    if section.is_round:
        return f"round {show_length(section.width, inch)}"
    if inch:
        return f"{_inches(section.width)} x {_inches(section.thickness)} in"
    return f"{_millimetres(section.width)} x {_millimetres(section.thickness)} mm"


def show_duration(seconds: float) -> str:
    """A time [s] in words, to the second: "4 min 10 s", "2 h", "45 s"; from 10 h on to the minute."""
    if not isfinite(seconds):
        return UNKNOWN
    whole = _whole(abs(seconds))
    if whole >= 36000:
        whole = _whole(whole / 60) * 60
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    parts = [f"{count} {unit}" for count, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if count]
    return ("-" if seconds < 0 and whole else "") + (" ".join(parts) or "0 s")


def show_clock(seconds: float) -> str:
    """A time [s] as a clock has it, to the second: "4:10", "1:12:08", "-0:05"."""
    if not isfinite(seconds):
        return UNKNOWN
    whole = _whole(abs(seconds))
    sign = "-" if seconds < 0 and whole else ""
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    return f"{sign}{hours}:{minutes:02}:{rest:02}" if hours else f"{sign}{minutes}:{rest:02}"


def _whole(number: float) -> int:
    return floor(number + 0.5)


def _millimetres(metres: float) -> str:
    millimetres = metres * 1000
    return str(_whole(millimetres)) if abs(millimetres) >= 100 else f"{millimetres:.1f}".removesuffix(".0")


def _inches(metres: float) -> str:
    """Inches to the nearest 1/16; finer where a sixteenth would be more than a few per cent of the length."""
    inches = abs(metres) / INCH
    finest = 16 if inches >= 1 else 32 if inches >= 0.25 else 64
    count = _whole(inches * finest)
    if count == 0:
        return "0" if metres == 0 else f"{metres / INCH:.3f}"
    whole, over = divmod(count, finest)
    part = f"{over // gcd(over, finest)}/{finest // gcd(over, finest)}" if over else ""
    text = " ".join(piece for piece in (str(whole) if whole else "", part) if piece)
    return f"-{text}" if metres < 0 else text


def counted(count: int, noun: str) -> str:
    """So many of something: "1 heat", "3 heats"."""
    return f"{count} {noun}{'' if count == 1 else 's'}"

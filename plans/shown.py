"""Times and counts as text: durations in words, clocks, and "3 heats"."""

from __future__ import annotations

from math import floor, isfinite

from plans.section import Section
from plans.units import INCH, UNKNOWN, ZERO_CELSIUS, Units, celsius, fahrenheit, kelvin

__all__ = [
    "INCH",
    "UNKNOWN",
    "ZERO_CELSIUS",
    "celsius",
    "counted",
    "fahrenheit",
    "kelvin",
    "show_clock",
    "show_difference",
    "show_duration",
    "show_length",
    "show_section",
    "show_temperature",
]


def show_temperature(kelvin: float, inch: bool = False) -> str:
    """A temperature [K] to the whole degree."""
    return _units(inch).temperature(kelvin)


def show_difference(kelvin: float, inch: bool = False) -> str:
    """A temperature difference [K] to the whole degree."""
    return _units(inch).difference(kelvin)


def show_length(metres: float, inch: bool = False) -> str:
    """A length [m] as a rule shows it."""
    return _units(inch).length(metres)


def show_section(section: Section, inch: bool = False) -> str:
    """A cross-section."""
    return _units(inch).section(section)


def _units(inch: bool) -> Units:
    return Units.INCH if inch else Units.METRIC


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


def counted(count: int, noun: str) -> str:
    """So many of something: "1 heat", "3 heats"."""
    return f"{count} {noun}{'' if count == 1 else 's'}"

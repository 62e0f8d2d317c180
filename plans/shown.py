"""Times, counts and money as text: durations in words, clocks, "3 heats", and "0.30"."""

from __future__ import annotations

from math import floor, isfinite

from plans.units import UNKNOWN, digits


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


def show_money(amount: float) -> str:
    """An amount of money without its currency, to hundredths, and from 100 on to three digits: "0.30", "124"."""
    return f"{amount:.2f}" if amount < 100 else digits(amount)


def _whole(number: float) -> int:
    return floor(number + 0.5)


def counted(count: int, noun: str) -> str:
    """So many of something: "1 heat", "3 heats"."""
    return f"{count} {noun}{'' if count == 1 else 's'}"

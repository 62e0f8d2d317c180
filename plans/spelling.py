"""Quantities as a smith writes them into a file: the way back of `plans.quantities`, for whatever writes plans.

A figure that has few decimals is one that somebody typed, and stands as it is. One that was worked out is rounded to
what can be measured at the forge: a degree, a tenth of a millimetre or a common fraction of an inch, a second.
"""

from __future__ import annotations

from typing import Final

from plans.quantity_grammar import Dimension
from plans.shapes import Section
from plans.shown import show_duration
from plans.units import POUND, Units, digits

_TYPED: Final = 1e-6
"""A number this near to one of few decimals is that one: floats are no nearer once a unit was converted."""


def spell(number: float, dimension: Dimension, units: Units) -> str:
    """A quantity as it is written into a file, e.g. "1300 degC", "3.5 min", "1 1/4 in"; `parse` reads it back.

    Args:
        number: the quantity, in SI
        dimension: what it measures: temperature, temperature difference, length, time, mass or number
        units: that are written; times are alike in all

    Raises:
        ValueError: it is of another dimension.
    """
    match dimension:
        case "temperature":
            return f"{_degrees(units.to_degrees(number))} {units.degree}"
        case "temperature difference":
            return f"{_degrees(units.to_difference(number))} {units.difference_unit}"
        case "length":
            return units.written_length(number)
        case "time":
            return _time(number)
        case "mass":
            large, small, few = ("lb", "oz", 16) if units.inches else ("kg", "g", 1000)
            count = number / POUND if units.inches else number
            return f"{count:.4g} {large}" if count >= 1 else f"{count * few:.4g} {small}"
        case "number":
            return f"{round(number * 100, 2):g} %"
    raise ValueError(f"no file holds a {dimension}")


def spell_section(section: Section, units: Units) -> str:
    """A cross-section as it is written into a file, e.g. "31 x 18 mm" or "wedge 37 x 8 mm to 3.5 mm"; `parse_section`
    reads it back. One whose edge would be rounded to its full thickness is written as a flat one."""
    written = units.written_length
    if section.edge is not None and written(section.edge) == written(section.thickness):
        section = Section(section.width, section.thickness)
    return units.written_section(section)


def _degrees(number: float) -> str:
    """To a tenth where it has no more, else to the whole."""
    places = 1 if abs(number - round(number, 1)) < _TYPED else 0
    return f"{number:.{places}f}".removesuffix(".0")


def _time(seconds: float) -> str:
    if seconds < 10:
        return f"{float(digits(seconds, 4 if _has(seconds, 1000) else 2)):g} s"
    if seconds < 100 and _has(seconds, 10) and not _has(seconds, 1):
        return f"{seconds:.1f} s"
    whole = round(seconds)
    if whole < 100 and whole % 60:
        return f"{whole} s"
    if whole < 3600 and whole % 30 == 0:
        return f"{whole / 60:g} min"
    return show_duration(whole)


def _has(number: float, parts: int) -> bool:
    """Whether it is a whole number of such parts of one."""
    return abs(number * parts - round(number * parts)) < _TYPED * parts

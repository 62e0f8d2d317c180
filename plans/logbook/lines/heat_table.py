"""The heat table: one list of columns, for the log's text, the review and the page alike; how figures are printed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from enum import Enum
from math import floor
from typing import Final

from plans.logbook.figures import HeatEnd, HeatFigures
from plans.record import record
from plans.shown import show_clock, show_money
from plans.units import Units


class What(Enum):
    """What a column of a table holds, and so how it is printed."""

    COUNT = "count"
    """A whole number, printed as it is."""
    TIME = "time"
    """A time as a clock has it; nothing where it is zero."""
    SHORT_TIME = "short time"
    """A time as `short_time` has it; nothing where it is too short to speak of."""
    TEMPERATURE = "temperature"
    """A temperature; "--" where it is not known."""
    WORD = "word"
    """A word, printed as it is."""
    MASS = "mass"
    """A mass with its unit."""
    GAS = "gas"
    """A volume as gas is metered, with its unit."""
    MONEY = "money"
    """An amount of money; whoever shows it says the currency."""
    LENGTH = "length"
    """A length as it was measured, with what decimals it has."""
    DEPTH = "depth"
    """A small length, as of decarb."""
    WEIGHT = "weight"
    """A mass that was weighed, with its unit."""
    HARDNESS = "hardness"
    """A hardness, Rockwell C."""

    def unit(self, units: Units) -> str:
        """The unit of its figures where that may stand above them, since it is one for all; empty for others."""
        if self is What.TEMPERATURE:
            return units.degree
        if self is What.HARDNESS:
            return "HRC"
        return units.length_unit if self in (What.LENGTH, What.DEPTH) else ""


@record
class Column:
    """One column of the heat table, wherever that is printed."""

    title: str
    """Its heading where there is room."""
    short: str
    """Its heading on a narrow screen."""
    what: What
    """What the column holds, and so how it is printed."""
    value: Callable[[HeatFigures], float | str | None]
    """What a heat has there, in SI."""
    warns: bool = False
    """Whether it is to stand out where a heat has anything there."""

    def has(self, heat: HeatFigures) -> bool:
        """Whether a heat has anything there; a column in which no heat has is left out."""
        return bool(self.value(heat))

    def text(self, heat: HeatFigures, units: Units, *, unit: bool = True) -> str:
        """What is printed in this column for a heat.

        Args:
            heat: the heat
            units: the units that are set
            unit: False for temperatures without their unit
        """
        return value_text(self.what, self.value(heat), units, unit=unit)


def value_text(what: What, value: float | str | None, units: Units, *, unit: bool = True) -> str:
    """A value as tables of figures print it.

    Args:
        what: what it is
        value: in SI; None where nobody knows it
        units: the units that are set
        unit: False for what has one unit for all without that
    """
    if what is What.TEMPERATURE:
        kelvin = value if isinstance(value, float) else None
        return units.temperature(kelvin) if unit else units.degrees(kelvin)
    if not value:
        return ""
    if isinstance(value, str) or what is What.COUNT:
        return str(value)
    text = _PRINTED[what](value, units)
    return text if unit else text.removesuffix(f" {what.unit(units)}")


_PRINTED: Final[Mapping[What, Callable[[float, Units], str]]] = {
    What.TIME: lambda value, _: show_clock(value),
    What.SHORT_TIME: lambda value, _: short_time(value),
    What.MASS: lambda value, units: units.mass(value),
    What.GAS: lambda value, units: units.gas(value),
    What.MONEY: lambda value, _: show_money(value),
    What.LENGTH: lambda value, units: units.exact_length(value),
    What.DEPTH: lambda value, units: units.depth(value),
    What.WEIGHT: lambda value, units: units.mass(value),
    What.HARDNESS: lambda value, _: f"{value:g} HRC",
}


COLUMNS: tuple[Column, ...] = (
    Column("heat", "heat", What.COUNT, lambda heat: heat.heat),
    Column("in fire", "in fire", What.TIME, lambda heat: heat.in_fire),
    Column("soak", "soak", What.TIME, lambda heat: heat.soak),
    Column("leaving", "leaving", What.TEMPERATURE, lambda heat: heat.leaving),
    Column("struck", "struck", What.TIME, lambda heat: heat.strike),
    Column("lowest struck", "lowest", What.TEMPERATURE, lambda heat: heat.lowest_struck),
    Column(
        "too cold",
        "too cold",
        What.SHORT_TIME,
        lambda heat: heat.too_cold if heat.was_too_cold else None,
        warns=True,
    ),
    Column("air", "air", What.TIME, lambda heat: heat.air),
    Column("held", "held", What.TIME, lambda heat: heat.hold),
    Column("peak", "peak", What.TEMPERATURE, lambda heat: heat.peak),
    Column("basis", "basis", What.WORD, lambda heat: heat.basis.value),
    Column("remark", "remark", What.WORD, lambda heat: "" if heat.is_done else heat.end.value),
)
"""Every column, in order."""


def used_columns(heats: Iterable[HeatFigures]) -> tuple[Column, ...]:
    """The columns in which any of these heats has something, in order."""
    known = tuple(heats)
    return tuple(column for column in COLUMNS if any(column.has(heat) for heat in known))


def not_done(heats: Iterable[HeatFigures]) -> list[str]:
    """How many of these heats do not count, and why: "1 cut off", "1 under way"; nothing where all were done."""
    ends = [heat.end for heat in heats]
    return [f"{ends.count(end)} {end}" for end in HeatEnd if end is not HeatEnd.DONE and end in ends]


def short_time(seconds: float) -> str:
    """A time [s] of which tenths count while it is short: "0.5 s", "42 s", "1:12".

    A probe speaks a few times a second: half a second too cold is neither none nor a whole one.
    """
    if round(seconds, 1) < 10:
        return f"{seconds:.1f} s"
    whole = floor(seconds + 0.5)
    return f"{whole} s" if whole < 60 else show_clock(seconds)

"""What a thermocouple's temperature costs by the reference functions of ITS-90, beside thermocouple-its90."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from time import process_time

import thermocouple_its90

from devices.thermocouple import Kind, emf, temperature
from plans.units import celsius, kelvin
from tests.cost.row import Row, Timed, by_turns

POINTS = 2000
TURNS = 9
LOWEST = 20.0
"""Nobody forges below it, and below 13 degC a type B has two temperatures for a voltage [degC]."""
BAR = 1.2


def rows() -> Iterator[Row]:
    """Voltage to temperature, over the whole range above the shop's, for a common and for a noble thermocouple."""
    for kind in (Kind.K, Kind.S):
        theirs = thermocouple_its90.get(kind.value)
        _, highest = theirs.range
        span = [LOWEST + (highest - LOWEST) * number / POINTS for number in range(POINTS)]
        volts = [emf(kind, kelvin(degrees)) for degrees in span]
        millivolts = [one * 1000 for one in volts]
        for one in (volts[0], volts[-1]):
            assert abs(celsius(temperature(kind, one)) - theirs.temperature(one * 1000)) < 0.001
        ours, others = by_turns(
            TURNS, _timed(partial(temperature, kind), volts), _timed(theirs.temperature, millivolts)
        )
        yield Row(f"ITS-90, type {kind.value}, {POINTS:,} voltages", ours, "thermocouple-its90", others, BAR)


def _timed(reckon: Callable[[float], float], voltages: list[float]) -> Timed:
    def once(_: int) -> float:
        begun = process_time()
        for voltage in voltages:
            reckon(voltage)
        return process_time() - begun

    return once

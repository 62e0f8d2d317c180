"""Axes: round numbers along them, in the unit that a smith reads."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor, log10

from plans.record import record
from plans.units import Units

Tick = tuple[float, str]
"""Where a label belongs, in SI, and what it says."""

_ROUND = tuple(number * 10.0**power for power in range(-9, 7) for number in (1, 2, 5))
_DEGREES = (10.0, 20.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0, 2000.0, 5000.0)
_TIMES = (5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0, 28800.0, 86400.0)


@record
class Axis:
    """One axis; a value in SI is shown as `value * factor + offset`."""

    unit: str
    """Name of the unit that the labels are in."""
    factor: float = 1.0
    """What a value in SI is multiplied by for a label."""
    offset: float = 0.0
    """What is added after that."""
    steps: tuple[float, ...] = _ROUND
    """Round steps, rising, as shown."""

    def shown(self, value: float) -> float:
        """A value in SI as the labels give it."""
        return value * self.factor + self.offset

    def step(self, low: float, high: float, labels: int) -> float:
        """The smallest round step, as shown, that puts no more than so many labels between two values."""
        span = (high - low) * self.factor
        return next((step for step in self.steps if span / step <= max(1, labels)), self.steps[-1])

    def name(self, step: float) -> str:
        """The unit, for labels that stand so far apart."""
        del step
        return self.unit

    def label(self, shown: float, step: float) -> str:
        """A round number, with as many decimals as its step has."""
        return f"{shown:.{max(0, -floor(log10(step) + 1e-9))}f}"

    def ticks(self, low: float, high: float, step: float) -> Iterator[Tick]:
        """The multiples of a step between two values, with their labels."""
        first, last = self.shown(low) / step, self.shown(high) / step
        for number in range(ceil(first - 1e-9), floor(last + 1e-9) + 1):
            yield (number * step - self.offset) / self.factor, self.label(number * step, step)


class _Time(Axis):
    """In minutes, or in minutes and seconds where the step is shorter than one."""

    __slots__ = ()

    def name(self, step: float) -> str:
        return "min" if step >= 60 else "m:s"

    def label(self, shown: float, step: float) -> str:
        seconds = round(shown)
        return str(seconds // 60) if step >= 60 else f"{seconds // 60}:{seconds % 60:02d}"


TIME = _Time("s", steps=_TIMES)
_TEMPERATURES = {
    units: Axis(units.degree, units.to_difference(1.0), units.to_degrees(0.0), _DEGREES) for units in Units
}
_LENGTHS = {units: Axis(units.length_unit, units.to_length(1.0)) for units in Units}
CELSIUS, FAHRENHEIT = TEMPERATURES = _TEMPERATURES[Units.METRIC], _TEMPERATURES[Units.INCH]


def temperature(units: Units) -> Axis:
    """The axis of temperatures [K], in degC or degF as the units have it."""
    return _TEMPERATURES[units]


def length(units: Units) -> Axis:
    """The axis of lengths [m], in millimetres or in decimal inches."""
    return _LENGTHS[units]

"""Temperatures as the screen's scales write them."""

from __future__ import annotations

from plans.shown import celsius, kelvin
from plans.shown import fahrenheit as to_fahrenheit


def degrees(temperature: float, fahrenheit: bool = False) -> float:
    """`temperature` [K] in degC, or in degF."""
    return to_fahrenheit(temperature) if fahrenheit else celsius(temperature)


def from_degrees(value: float, fahrenheit: bool = False) -> float:
    """The inverse of `degrees` [K]."""
    return (value + 459.67) * 5 / 9 if fahrenheit else kelvin(value)


def unit(fahrenheit: bool = False) -> str:
    return "degF" if fahrenheit else "degC"

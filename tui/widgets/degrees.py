"""Temperatures as the screen's scales write them."""

from __future__ import annotations


def degrees(kelvin: float, fahrenheit: bool = False) -> float:
    """`kelvin` in degC, or in degF."""
    return kelvin * 9 / 5 - 459.67 if fahrenheit else kelvin - 273.15


def from_degrees(value: float, fahrenheit: bool = False) -> float:
    """The inverse of `degrees` [K]."""
    return (value + 459.67) * 5 / 9 if fahrenheit else value + 273.15


def unit(fahrenheit: bool = False) -> str:
    return "degF" if fahrenheit else "degC"

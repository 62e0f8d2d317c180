"""Thermal properties of carbon steel, by EN 1993-1-2:2005 clause 3.4.1.

The standard gives them from 20 to 1200 degC. Outside, they are held at the value of the nearer end: 650 J/(kg K) and
27.3 W/(m K) above, those of 20 degC below. The peak of the specific heat at 735 degC is the latent heat of the change
to austenite; whatever carries heat through it must go by `enthalpy`, which is its exact integral, and not by the
specific heat at one temperature.

The standard is for steel that a fire heats. Steel that cools gives the same heat back lower, in its arrest: how much is
the standard's, where is not (see `ARREST`).
"""

from __future__ import annotations

from functools import lru_cache
from math import log, sqrt

from plans.units import ZERO_CELSIUS
from plans.warmth.inverse import find_inverse
from plans.warmth.material import Material
from plans.warmth.transformation import Transformation

DENSITY = 7850.0
"""Density of steel at every temperature, EN 1993-1-2 clause 3.2.2 [kg/m3]."""

_COLD = 20.0
_PEAK_BEGINS = 600.0
_PEAK = 735.0
_PEAK_ENDS = 900.0
_FLAT = 800.0
"""From here up the conductivity no longer changes [degC]."""

ARREST = (ZERO_CELSIUS + 660.0, ZERO_CELSIUS + 700.0)
"""Low and high end of the range in which carbon steel that cools in still air arrests [K].

It lies about 680 degC, Ar1 of eutectoid steel. From memory, no source; work that is alloyed or cools fast arrests
lower, work that cools slowly higher.
"""


def _polynomial(celsius: float) -> float:
    return 425.0 + celsius * (0.773 + celsius * (-1.69e-3 + celsius * 2.22e-6))


def _polynomial_integral(celsius: float) -> float:
    return celsius * (425.0 + celsius * (0.773 / 2 + celsius * (-1.69e-3 / 3 + celsius * 2.22e-6 / 4)))


_COLD_HEAT = _polynomial(_COLD)
_HOT_HEAT = 650.0
_COLD_CONDUCTIVITY = 54.0 - 3.33e-2 * _COLD
_HOT_CONDUCTIVITY = 27.3


def specific_heat(kelvin: float) -> float:
    """Specific heat of carbon steel that is heated, EN 1993-1-2:2005 eq. 3.2a-d [J/(kg K)].

    Args:
        kelvin: temperature [K]
    """
    celsius = kelvin - ZERO_CELSIUS
    if celsius < _COLD:
        return _COLD_HEAT
    if celsius < _PEAK_BEGINS:
        return _polynomial(celsius)
    if celsius < _PEAK:
        return 666.0 + 13002.0 / (738.0 - celsius)
    if celsius < _PEAK_ENDS:
        return 545.0 + 17820.0 / (celsius - 731.0)
    return _HOT_HEAT


def conductivity(kelvin: float) -> float:
    """Thermal conductivity of carbon steel, EN 1993-1-2:2005 eq. 3.3a-b [W/(m K)].

    Args:
        kelvin: temperature [K]
    """
    celsius = kelvin - ZERO_CELSIUS
    if celsius < _COLD:
        return _COLD_CONDUCTIVITY
    if celsius < _FLAT:
        return 54.0 - 3.33e-2 * celsius
    return _HOT_CONDUCTIVITY


def _rising(celsius: float) -> float:
    return 666.0 * celsius - 13002.0 * log(738.0 - celsius)


def _falling(celsius: float) -> float:
    return 545.0 * celsius + 17820.0 * log(celsius - 731.0)


_AT_COLD = _COLD_HEAT * (_COLD + ZERO_CELSIUS)
_AT_BEGIN = _AT_COLD + _polynomial_integral(_PEAK_BEGINS) - _polynomial_integral(_COLD)
_AT_PEAK = _AT_BEGIN + _rising(_PEAK) - _rising(_PEAK_BEGINS)
_AT_END = _AT_PEAK + _falling(_PEAK_ENDS) - _falling(_PEAK)


def enthalpy(kelvin: float) -> float:
    """Enthalpy of carbon steel that is heated, the exact integral of `specific_heat` from 0 K [J/kg].

    Args:
        kelvin: temperature [K]
    """
    celsius = kelvin - ZERO_CELSIUS
    if celsius < _COLD:
        return _COLD_HEAT * kelvin
    if celsius < _PEAK_BEGINS:
        return _AT_COLD + _polynomial_integral(celsius) - _polynomial_integral(_COLD)
    if celsius < _PEAK:
        return _AT_BEGIN + _rising(celsius) - _rising(_PEAK_BEGINS)
    if celsius < _PEAK_ENDS:
        return _AT_PEAK + _falling(celsius) - _falling(_PEAK)
    return _AT_END + _HOT_HEAT * (celsius - _PEAK_ENDS)


def temperature(joules: float) -> float:
    """Temperature of carbon steel that is heated, the inverse of `enthalpy` [K].

    Args:
        joules: its enthalpy from 0 K [J/kg]
    """
    if joules <= _AT_COLD:
        return joules / _COLD_HEAT
    if joules >= _AT_END:
        return ZERO_CELSIUS + _PEAK_ENDS + (joules - _AT_END) / _HOT_HEAT
    if joules < _AT_BEGIN:
        low, high, start = _COLD, _PEAK_BEGINS, (joules - _AT_COLD) / (_AT_BEGIN - _AT_COLD)
    elif joules < _AT_PEAK:
        low, high, start = _PEAK_BEGINS, _PEAK, (joules - _AT_BEGIN) / (_AT_PEAK - _AT_BEGIN)
    else:
        low, high, start = _PEAK, _PEAK_ENDS, (joules - _AT_PEAK) / (_AT_END - _AT_PEAK)
    return find_inverse(enthalpy, specific_heat, joules, low + ZERO_CELSIUS, high + ZERO_CELSIUS, start)


_POTENTIAL_COLD = _COLD_CONDUCTIVITY * (_COLD + ZERO_CELSIUS)
_POTENTIAL_FLAT = _POTENTIAL_COLD + 54.0 * (_FLAT - _COLD) - 3.33e-2 / 2 * (_FLAT**2 - _COLD**2)


def potential(kelvin: float) -> float:
    """Potential of carbon steel: the exact integral of `conductivity` from 0 K [W/m].

    Args:
        kelvin: temperature [K]
    """
    celsius = kelvin - ZERO_CELSIUS
    if celsius < _COLD:
        return _COLD_CONDUCTIVITY * kelvin
    if celsius < _FLAT:
        return _POTENTIAL_COLD + (celsius - _COLD) * (54.0 - 3.33e-2 / 2 * (celsius + _COLD))
    return _POTENTIAL_FLAT + _HOT_CONDUCTIVITY * (celsius - _FLAT)


def temperature_at_potential(watts: float) -> float:
    """Temperature of carbon steel at a potential: the inverse of `potential` [K].

    Args:
        watts: potential, the integral of the conductivity from 0 K [W/m]
    """
    if watts <= _POTENTIAL_COLD:
        return watts / _COLD_CONDUCTIVITY
    if watts >= _POTENTIAL_FLAT:
        return ZERO_CELSIUS + _FLAT + (watts - _POTENTIAL_FLAT) / _HOT_CONDUCTIVITY
    rest = _COLD_CONDUCTIVITY**2 - 2 * 3.33e-2 * (watts - _POTENTIAL_COLD)
    return ZERO_CELSIUS + (54.0 - sqrt(rest)) / 3.33e-2


@lru_cache(maxsize=1)
def carbon_steel() -> Material:
    """Carbon steel by EN 1993-1-2 as a material of the conduction solver, with its arrest on cooling.

    Its tables are made once, when it is first asked for.
    """
    heating = (_PEAK_BEGINS + ZERO_CELSIUS, _PEAK_ENDS + ZERO_CELSIUS)
    change = Transformation(enthalpy, temperature, specific_heat, heating, ARREST)
    return Material(DENSITY, enthalpy, temperature, conductivity, potential, temperature_at_potential, change)

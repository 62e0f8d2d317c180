"""Thermocouples by ITS-90: emf from temperature and back, tolerances, and how hot their wires may get.

Types K, N, S, R, B and J; emf in volts and temperatures in kelvin throughout.
"""

from __future__ import annotations

from devices.thermocouple.functions import Kind, Range, emf, kind_of, reference_range
from devices.thermocouple.inversion import inverse_range, temperature
from devices.thermocouple.limits import tolerance, wire_limit, wire_limits

__all__ = [
    "Kind",
    "Range",
    "emf",
    "inverse_range",
    "kind_of",
    "reference_range",
    "temperature",
    "tolerance",
    "wire_limit",
    "wire_limits",
]

"""How heavy steel is, cold and hot."""

from __future__ import annotations

from typing import Final

from plans.reckoned import Reckoned
from plans.steel.grades import Grade
from plans.units import ZERO_CELSIUS, Units, celsius, kelvin as in_kelvin

STEEL: Final = 7850.0
"""Density of steel at 20 degC, EN 1993-1-2:2005 clause 3.2.2 with EN 1991-1-1 table A.4 [kg/m3]."""
_LEAST, _MOST = 7750.0, 7880.0
"""Between what steels that smiths use lie at 20 degC, those in `_OTHERS` apart; common practice, no source [kg/m3]."""
_OTHERS: Final = {
    "W1": 7840.0,
    "O2": 7660.0,
    "A2": 7860.0,
    "D2": 7700.0,
    "X153CrMoV12": 7700.0,
    "L6": 7860.0,
    "S7": 7760.0,
    "52100": 7810.0,
    "100Cr6": 7810.0,
    "wrought iron": 7700.0,
    "nickel 200": 8890.0,
}
"""Density of grades for which one is remembered, at 20 degC [kg/m3]."""
_REMEMBERED: Final = "ASM handbooks and makers' sheets; from memory"
_GRADE_ERROR, _SLAG_ERROR = 0.005, 0.02
_HOT_ERROR = 0.007
"""How far the volume of hot steel may lie from that of the standard at 1200 degC, as a share: so that the lattice of
austenite lies within (Seki and Nagata, ISIJ International 45 (2005) 1789)."""
_COLD, _HOTTEST = in_kelvin(20), in_kelvin(1200)
_SOURCE: Final = "EN 1993-1-2:2005, clauses 3.2.2 and 3.4.1.1"


def expansion(kelvin: float) -> float:
    """By what share of its length at 20 degC steel is longer, EN 1993-1-2:2005 clause 3.4.1.1 (eq. 3.1a to c).

    The standard gives it from 20 to 1200 degC; outside, its lines are drawn on.

    Args:
        kelvin: temperature [K]
    """
    degrees = celsius(kelvin)
    if degrees < 750:
        return 1.2e-5 * degrees + 0.4e-8 * degrees**2 - 2.416e-4
    return 1.1e-2 if degrees <= 860 else 2e-5 * degrees - 6.2e-3


def density_of(kelvin: float, grade: Grade | None = None) -> Reckoned:
    """Density of a steel at a temperature [kg/m3].

    That of structural steel, or one that is remembered of the grade, over the cube of its expansion. The range is what
    grades span, half a per cent where the grade's own is remembered, and what its expansion may differ by when hot.

    Args:
        kelvin: temperature [K]
        grade: of the steel; None for any carbon steel
    """
    own = None if grade is None else _OTHERS.get(grade.name)
    cold, least, most, source = STEEL, _LEAST, _MOST, _SOURCE
    said = "as any carbon steel" if grade is None else f"{grade.name}, as any carbon steel"
    if own is not None and grade is not None:
        error = _SLAG_ERROR if grade.name == "wrought iron" else _GRADE_ERROR
        cold, least, most = own, own * (1 - error), own * (1 + error)
        source, said = f"{_REMEMBERED}; {_SOURCE} for its expansion", grade.name
    swollen = (1 + expansion(kelvin)) ** 3
    doubt = _HOT_ERROR * max(kelvin - _COLD, 0.0) / (_HOTTEST - _COLD)
    outside = not ZERO_CELSIUS <= kelvin <= _HOTTEST

    def beyond(units: Units) -> str:
        return f"; the standard's expansion ends at {units.temperature(_HOTTEST)}" if outside else ""

    return Reckoned(
        cold / swollen,
        "published" if own is None else "from memory",
        lambda units: f"{said}{beyond(units)}",
        source,
        least / swollen * (1 - doubt),
        most / swollen * (1 + doubt),
        outside,
    )

"""Martensite: where it begins to form (Ms), how much there is, and how much austenite is left over."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import exp, log
from typing import Final

from plans.record import record
from plans.steel.composition import Composition
from plans.steel.critical import ANDREWS
from plans.steel.finding import Finding, Formula, FormulaLimits
from plans.units import Shown, Units, celsius, in_both, joined, kelvin

RATE: Final = 0.011
"""Rate constant of Koistinen and Marburger's law, 0.011 [1/K]."""
ROOM: Final = kelvin(20.0)
"""Room temperature, where a quench ends if nothing else is said: 20 degC [K]."""


@record
class Bias:
    """How far a formula for Ms lay from measurements, over the steels of one range of carbon."""

    least: float
    """Least carbon of the range [mass %]."""
    most: float
    """Most carbon of the range [mass %]."""
    bias: float
    """Mean of computed less measured Ms: a temperature difference, below zero where the formula reads low [K]."""
    rms: float
    """Root of the mean square of computed less measured Ms: a temperature difference [K]."""

    def text(self, units: Units) -> str:
        """How far the formula reads low or high, in the units that are set."""
        off, side = units.difference(abs(self.bias)), "low" if self.bias < 0 else "high"
        return f"reads {off} {side} on average between {self.least:g} and {self.most:g} % carbon"


MEASURED: Final = (
    "measured Ms of low-alloy steels, MsDatabase_2022_complete (Wentzien et al., steel research int. 2024): Mn up to 2,"
    " Si 1, Cr 2, Ni 3, Mo 1, V 0.5, W 1 %"
)
"""The measured steels that the biases of the formulas for Ms were found on, as a source is cited."""
VAN_BOHEMEN_BIASES: Final = (
    Bias(0.10, 0.60, 4.3, 25.8),
    Bias(0.60, 0.90, -1.2, 20.4),
    Bias(0.90, 1.30, -13.4, 36.2),
)
"""How far van Bohemen's formula lay from the measured steels, by carbon; found here."""
ANDREWS_BIASES: Final = (
    Bias(0.10, 0.60, 1.9, 25.3),
    Bias(0.60, 0.90, -31.9, 41.7),
    Bias(0.90, 1.30, -95.5, 103.9),
)
"""How far Andrews' formula lay from the measured steels, by carbon; found here."""

_MEASURED_ALLOYS: Final = {
    "Mn": (0.0, 2.0),
    "Si": (0.0, 1.0),
    "Cr": (0.0, 2.0),
    "Ni": (0.0, 3.0),
    "Mo": (0.0, 1.0),
    "V": (0.0, 0.5),
    "W": (0.0, 1.0),
    "Co": (0.0, 0.0),
    "Al": (0.0, 0.2),
}
_LAST_ALLOYS: Final = {
    "Mn": (0.0, 4.0),
    "Si": (0.0, 3.0),
    "Cr": (0.0, 4.0),
    "Ni": (0.0, 5.0),
    "Mo": (0.0, 2.0),
    "V": (0.0, 1.0),
    "W": (0.0, 2.0),
    "Co": (0.0, 1.0),
    "Al": (0.0, 1.0),
}


def _bias(biases: tuple[Bias, ...], steel: Composition) -> Bias | None:
    return next((one for one in biases if one.least <= steel.carbon <= one.most), None)


def _van_bohemen(steel: Composition) -> float:
    return (
        565
        - 600 * (1 - exp(-0.96 * steel.carbon))
        - 31 * steel.manganese
        - 13 * steel.silicon
        - 10 * steel.chromium
        - 18 * steel.nickel
        - 12 * steel.molybdenum
    )


def _andrews(steel: Composition) -> float:
    return (
        539
        - 423 * steel.carbon
        - 30.4 * steel.manganese
        - 17.7 * steel.nickel
        - 12.1 * steel.chromium
        - 7.5 * steel.molybdenum
    )


def _formula(text: str, source: str, degrees: Callable[[Composition], float], biases: tuple[Bias, ...]) -> Formula:
    def error(steel: Composition) -> float | None:
        bias = _bias(biases, steel)
        return bias.rms if bias else None

    def remark(steel: Composition) -> Shown:
        whole = "for austenite that holds all the carbon; carbides left over raise it" if steel.carbon > 0.8 else ""
        bias = _bias(biases, steel)
        return joined((whole, bias.text if bias and abs(bias.bias) >= 10 else ""))

    limits = FormulaLimits(good={"C": (0.10, 1.30)} | _MEASURED_ALLOYS, last={"C": (0.0, 1.6)} | _LAST_ALLOYS)
    return Formula("Ms", text, f"{source}; error: {MEASURED}", degrees, limits, error=error, remark=remark)


_VAN_BOHEMEN: Final = _formula(
    "565 - 600 (1 - exp(-0.96 C)) - 31 Mn - 13 Si - 10 Cr - 18 Ni - 12 Mo",
    "S. M. C. van Bohemen, Mater. Sci. Technol. 28 (2012) 487-495",
    _van_bohemen,
    VAN_BOHEMEN_BIASES,
)
_ANDREWS: Final = _formula(
    "539 - 423 C - 30.4 Mn - 17.7 Ni - 12.1 Cr - 7.5 Mo",
    ANDREWS,
    _andrews,
    ANDREWS_BIASES,
)


def ms(austenite: Composition) -> Finding:
    """Ms, where martensite begins to form on cooling, by van Bohemen 2012 [K].

    Beyond what the formula is good for the finding says so; far beyond it has no figure.

    Args:
        austenite: what the austenite holds: the steel itself, or less carbon where carbides are left over
    """
    return _VAN_BOHEMEN.find(austenite)


def ms_andrews(austenite: Composition) -> Finding:
    """Ms, where martensite begins to form on cooling, by Andrews' linear formula of 1965; for comparison with `ms` [K].

    It reads low for blade steels.

    Args:
        austenite: what the austenite holds: the steel itself, or less carbon where carbides are left over
    """
    return _ANDREWS.find(austenite)


def fraction(start: float, at: float) -> float:
    """Share of the austenite that has turned to martensite after cooling to a temperature, 0 to 1 [1]_.

    Args:
        start: Ms [K]
        at: the coldest that the steel has been [K]

    References:
        .. [1] D. P. Koistinen and R. E. Marburger, Acta Metall. 7 (1959) 59: f = 1 - exp(-0.011 (Ms - T)).
    """
    return 1 - exp(-RATE * max(0.0, start - at))


def retained(start: float, at: float = ROOM) -> float:
    """Share of the austenite that is left over after cooling to a temperature, 0 to 1: one less `fraction`.

    It holds where nothing but martensite has formed.

    Args:
        start: Ms [K]
        at: the coldest that the steel has been [K]
    """
    return 1 - fraction(start, at)


def carbon_for(start: float, steel: Composition) -> float:
    """Carbon dissolved in the austenite that an Ms stands for, by van Bohemen's formula turned round [mass %].

    A card prints the Ms after the usual hardening; this is what it says about the carbides that were left over.

    Args:
        start: Ms [K]
        steel: the steel; its carbon does not count, its other elements do

    Raises:
        ValueError: no carbon content gives that Ms.
    """
    without = _van_bohemen(replace(steel, carbon=0.0))
    left = 1 - (without - celsius(start)) / 600
    if not 0 < left <= 1:
        raise ValueError(f"no carbon content gives an Ms of {in_both(start)} beside these alloys")
    return -log(left) / 0.96

"""Lines of the iron-carbon diagram, and what chromium, silicon and manganese do to the solubility of carbon.

The lines are fits to equilibria computed from published assessments: Fe-C after Gustafson 1985, Fe-C-Cr after Khvan,
Hallstedt and Broeckmann 2014 (Calphad 46, 24-33), Si after Lacaze and Sundman 1991, Mn after Huang 1990, the last two
from memory. They hold for cementite as the only carbide: up to about 2 % Cr, and little Mo, V, W.
"""

from __future__ import annotations

from math import exp, sqrt
from typing import Final

from plans.record import record
from plans.steel.composition import Composition
from plans.units import celsius, kelvin

EUTECTOID: Final = kelvin(726.6)
"""Eutectoid temperature A1 of iron and carbon alone, 726.6 degC; textbooks print 727 degC [K]."""
EUTECTOID_CARBON: Final = 0.76
"""Carbon content of the eutectoid of iron and carbon alone [mass %]."""
MOST_CARBON: Final = 1.4
"""Most carbon for which the Acm line is fitted [mass %]."""
CEMENTITE_CARBON: Final = 6.74
"""Carbon content of cementite that holds a few per cent of chromium [mass %]."""

_ACM: Final = (381.1, 504.5, -66.36)
_A3: Final = (910.8, -452.4, 442.4, -219.6)


def a3(carbon: float) -> float:
    """A3 line: where the last ferrite of iron and carbon alone is gone, from no carbon to the eutectoid [K].

    A cubic through eleven computed equilibria, within 1 K of each. Past the eutectoid it goes on as where ferrite would
    end were there no cementite, which matters only where alloys have moved the eutectoid.

    Args:
        carbon: content [mass %]
    """
    return kelvin(sum(factor * carbon**power for power, factor in enumerate(_A3)))


def acm(carbon: float) -> float:
    """Acm line: where the last cementite of iron and carbon alone is dissolved, 381.1 + 504.5 C - 66.36 C2 degC [K].

    Fitted from 0.8 to 1.4 % carbon, where it is within 0.3 K of the computed equilibria; at the eutectoid, 0.76 %, it
    still meets A1 within 1 K.

    Args:
        carbon: content [mass %]
    """
    return kelvin(sum(factor * carbon**power for power, factor in enumerate(_ACM)))


def solubility(at: float) -> float:
    """Carbon that austenite of iron and carbon alone holds beside cementite: the inverse of `acm` [mass %].

    Args:
        at: temperature [K]
    """
    constant, slope, bend = _ACM
    root = slope**2 + 4 * bend * (celsius(at) - constant)
    # Above the top of the parabola (1340 degC) everything a steel can hold is dissolved.
    return (sqrt(max(root, 0.0)) - slope) / (2 * bend)


def solubility_in(at: float, chromium: float, silicon: float = 0.0, manganese: float = 0.0) -> float:
    """Carbon that austenite of a low-alloy steel holds beside cementite [mass %].

    Chromium takes away a share of the solubility that grows with its content **in the austenite**; silicon and
    manganese shift the temperature. Assessments differ over chromium: for 1.0 C 1.475 Cr 0.35 Mn 0.25 Si the sources
    above give Acm 901 degC and 0.847 % dissolved at 845 degC, the open steel database mc_fe 2.059 gives 886 degC and
    0.884 %. The factor here, nine tenths of what Fe-C-Cr alone gives, lies between them.

    Args:
        at: temperature [K]
        chromium: content of the austenite [mass %]
        silicon: content of the steel [mass %]
        manganese: content of the steel [mass %]
    """
    lost = max(0.0, 0.140 - 0.00048 * (celsius(at) - 845.0))
    return solubility(at - 18.5 * silicon - 2.5 * manganese) - lost * chromium


def acm_of(steel: Composition) -> float:
    """Acm of a low-alloy steel: where its last cementite is dissolved, at equilibrium [K].

    Bisection on `solubility_in`, which rises with the temperature all the way.
    """
    low, high = EUTECTOID - 150, EUTECTOID + 450
    while high - low > 0.01:
        middle = (low + high) / 2
        if solubility_in(middle, steel.chromium, steel.silicon, steel.manganese) < steel.carbon:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@record
class Austenite:
    """What the austenite of a steel holds once it is in equilibrium with its cementite at a temperature."""

    carbon: float
    """Carbon dissolved in the austenite [mass % of the austenite]."""
    chromium: float
    """Chromium dissolved in the austenite [mass % of the austenite]."""
    carbide: float
    """Share of the steel's mass that is undissolved cementite, 0 to 1."""


def austenite_at(steel: Composition, at: float) -> Austenite:
    """What the austenite of a steel holds above A1, at equilibrium with the cementite that is left.

    Cementite holds several times as much chromium as the austenite beside it (13 times at 760 degC, 9 at 845, 7.5 at
    900 by the same equilibria), so that while cementite is left there is less chromium in the austenite than in the
    steel, and so more room for carbon. Carbon and chromium are balanced over both.

    Args:
        steel: a hypereutectoid, low-alloy steel
        at: temperature [K]
    """
    partition = exp(4894.0 / at - 2.157)
    low, high = 0.0, steel.carbon
    if solubility_in(at, steel.chromium, steel.silicon, steel.manganese) >= steel.carbon:
        return Austenite(steel.carbon, steel.chromium, 0.0)
    # The more carbon is dissolved, the less cementite is left, the more chromium is in the austenite: one crossing.
    while high - low > 1e-6:
        middle = (low + high) / 2
        chromium = _chromium(steel, middle, partition)
        if middle < solubility_in(at, chromium, steel.silicon, steel.manganese):
            low = middle
        else:
            high = middle
    carbon = (low + high) / 2
    return Austenite(carbon, _chromium(steel, carbon, partition), _carbide(steel, carbon))


def _carbide(steel: Composition, dissolved: float) -> float:
    return (steel.carbon - dissolved) / (CEMENTITE_CARBON - dissolved)


def _chromium(steel: Composition, dissolved: float, partition: float) -> float:
    return steel.chromium / (1 + _carbide(steel, dissolved) * (partition - 1))

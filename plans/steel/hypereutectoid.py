"""Steel with more carbon than its eutectoid: what dissolves at a hardening temperature, and what a quench makes of it.

Not all carbon is meant to dissolve: carbides left over keep the grain fine and wear well, while every bit of carbon
that does dissolve lowers Ms and leaves more austenite after the quench.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from plans.steel import critical, equilibrium, martensite
from plans.steel.composition import Composition
from plans.steel.finding import Finding

PER_VANADIUM: Final = 0.236
"""Carbon in vanadium carbide for each part of vanadium: the ratio of the atomic masses."""


@dataclass(frozen=True, slots=True)
class Dissolved:
    """What is in the austenite at a temperature, at equilibrium."""

    carbon: float
    """[mass % of the austenite]"""
    chromium: float
    """[mass % of the austenite]"""
    carbide: float
    """Undissolved cementite: share of the mass, 0 to 1."""
    inside: bool
    """Whether the composition lies within what the lines are good for."""
    note: str


@dataclass(frozen=True, slots=True)
class Hardened:
    """What a quench from a temperature makes of a steel."""

    at: float
    """The hardening temperature [K]."""
    dissolved: Dissolved
    ms: Finding
    """Of the austenite as it is at `at`."""


def dissolved(steel: Composition, at: float) -> Dissolved | None:
    """What is in the austenite at a temperature, at equilibrium; None where that can't be said.

    It can't for a steel below its eutectoid (ask for its Ac3), below Ac1, or with more alloy than the lines hold for.

    Args:
        steel: any composition
        at: [K]
    """
    line = critical.acm(steel)
    lower = critical.ac1(steel).value
    if line.value is None or lower is None or at < lower or critical.upper(steel).name != line.name:
        return None
    austenite = equilibrium.austenite_at(steel, at)
    plain = min(steel.carbon, equilibrium.solubility(at))
    said = ["at equilibrium; a short soak of coarse carbides dissolves less"]
    if abs(plain - austenite.carbon) >= 0.01:
        said.append(f"the line of iron and carbon alone would give {plain:.2f} %")
    if steel.vanadium >= 0.05:
        said.append(f"vanadium may hold up to {PER_VANADIUM * steel.vanadium:.2f} % of it back")
    if line.strays:
        said.append(f"extrapolated: {', '.join(line.strays)}")
    return Dissolved(austenite.carbon, austenite.chromium, austenite.carbide, line.inside, "; ".join(said))


def hardened(steel: Composition, at: float) -> Hardened | None:
    """What a quench from a temperature makes of a hypereutectoid steel; None where `dissolved` says nothing.

    Args:
        steel: any composition
        at: the hardening temperature [K]
    """
    there = dissolved(steel, at)
    if there is None:
        return None
    austenite = replace(steel, carbon=there.carbon, chromium=there.chromium)
    return Hardened(at, there, martensite.ms(austenite))

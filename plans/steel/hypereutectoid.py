"""Steel with more carbon than its eutectoid: what dissolves at a hardening temperature, and what a quench makes of it.

Not all carbon is meant to dissolve: carbides left over keep the grain fine and wear well, while every bit of carbon
that does dissolve lowers Ms and leaves more austenite after the quench.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from plans.record import record
from plans.steel import critical, equilibrium, martensite
from plans.steel.composition import Composition
from plans.steel.finding import Finding

PER_VANADIUM: Final = 0.236
"""Mass of carbon that vanadium carbide holds for each mass of vanadium: the ratio of the atomic masses."""


@record
class Dissolved:
    """What the austenite of a steel holds at a hardening temperature, at equilibrium."""

    carbon: float
    """Carbon dissolved in the austenite [mass % of the austenite]."""
    chromium: float
    """Chromium dissolved in the austenite [mass % of the austenite]."""
    carbide: float
    """Share of the steel's mass that is undissolved cementite, 0 to 1."""
    inside: bool
    """Whether the composition lies within what the lines of equilibrium are good for."""
    note: str
    """What else has to be known of these figures, in words."""


@record
class Hardened:
    """A hypereutectoid steel as it is quenched from a hardening temperature."""

    at: float
    """The hardening temperature [K]."""
    dissolved: Dissolved
    """What the austenite holds at the hardening temperature."""
    ms: Finding
    """Ms of that austenite: it is higher than with all of the steel's carbon."""


def dissolved(steel: Composition, at: float) -> Dissolved | None:
    """What the austenite of a hypereutectoid steel holds at a temperature, at equilibrium; None where it isn't known.

    It isn't for a steel with less carbon than its eutectoid, at a temperature below Ac1, and for a steel with more
    alloy than the lines of equilibrium hold for.

    Args:
        steel: any composition
        at: temperature [K]
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
    """What a quench from a temperature makes of a hypereutectoid steel; None where `dissolved` knows nothing of it.

    Args:
        steel: any composition
        at: the hardening temperature [K]
    """
    there = dissolved(steel, at)
    if there is None:
        return None
    austenite = replace(steel, carbon=there.carbon, chromium=there.chromium)
    return Hardened(at, there, martensite.ms(austenite))

"""The reckoning of scale: how much metal a hot bar loses to it."""

from __future__ import annotations

from dataclasses import replace

from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import blamed
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import SECONDS, SHARE, TEMPERATURE, THIN
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.steel import SCALE_FACTOR, hold, scale_loss, scale_thickness, share_lost


def reckon_scale(at: float, seconds: float, section: Section | None = None) -> Reckoning:
    """Metal lost to scale from each face in a time at one temperature, an upper bound within a factor of two.

    Args:
        at: temperature of the skin [K]
        seconds: time at that temperature [s]
        section: cross-section of the bar, where the share of its mass is asked too

    Raises:
        ReckonError: the temperature, time or section is none that can be.
    """
    checks.warmth_of_steel("at", at)
    checks.time("for", seconds)
    loss = blamed("at", scale_loss, hold(at, seconds))
    grown = scale_thickness(at, seconds)
    asked: tuple[Given, ...] = (
        given("at_celsius", "at", at, TEMPERATURE),
        given("for_seconds", "for", seconds, SECONDS),
    )
    found = (
        Figure("loss_mm", "metal lost a face", loss, THIN),
        Figure(
            "scale_mm",
            "scale on it",
            replace(loss, value=grown, least=grown / SCALE_FACTOR, most=grown * SCALE_FACTOR),
            THIN,
        ),
    )
    if section is None:
        return Reckoning("scale", asked, found)
    checks.bar(section, None)
    lost = share_lost(loss, section)
    return Reckoning(
        "scale",
        (of_the_section(section), *asked),
        (*found, Figure("mass_fraction", "share of the bar", lost, SHARE)),
    )

"""The reckoning of a skin: what heats take from it, metal to scale and carbon below, reckoned together."""

from __future__ import annotations

from itertools import pairwise

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.carbon import of_the_share
from plans.reckoner.errors import ReckonError, blamed
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import MASS_PERCENT, NUMBER, SECONDS, SHARE, TEMPERATURE, THIN
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.shop import FireAir
from plans.steel import Spell, carbon_ledger, check_steel, hold, scale_share
from plans.units import Units

_MOST_HEATS = 100


def reckon_skin(
    carbon: float,
    at: float,
    seconds: float,
    heats: int = 1,
    fire: FireAir | None = None,
    measured: float | None = None,
    section: Section | None = None,
    to: Section | None = None,
    share: float = 0.95,
) -> Reckoning:
    """What some heats take from the skin of a bar: metal to scale, and carbon from below the surface that is left.

    Args:
        carbon: content of the steel [% by mass]
        at: temperature of the skin in each heat [K]
        seconds: time of each heat at it [s]
        heats: how many heats; scale is taken as knocked off before each
        fire: how the fire is set; None where that is not known
        measured: metal that goes to scale in the shop over what the formula for free air has; None where not measured
        section: cross-section of the bar to begin with; None where it is thick and the share of mass is not asked
        to: cross-section to which it is drawn, by equal factors each heat; None where it stays as it is
        share: share of the core's carbon that is left at the depth asked for, between 0 and 1

    Raises:
        ReckonError: something given is none that can be.
    """
    checks.warmth_of_steel("at", at)
    checks.time("for", seconds)
    blamed("carbon", check_steel, 1.0, carbon)
    if carbon == 0:
        raise ReckonError("carbon", "0 %: iron without carbon has none to lose")
    if not 0 < share < 1:
        raise ReckonError("share", f"{share:g}: give the share of the core's carbon that is left, e.g. 0.95")
    if not 1 <= heats <= _MOST_HEATS:
        raise ReckonError("heats", f"{heats}: give from 1 to {_MOST_HEATS}")
    if to is not None and section is None:
        raise ReckonError("section", "it is missing: the bar that is drawn to that")
    for name, bar in (("section", section), ("to", to)):
        if bar is not None:
            checks.bar(bar, None, name)
    if section is not None and to is not None and to.area >= section.area:
        raise ReckonError("to", "it is no smaller than the bar: give the section that it is drawn to")
    asked: list[Given] = [
        given("carbon_percent", "carbon", carbon, MASS_PERCENT),
        given("at_celsius", "at", at, TEMPERATURE),
        given("for_seconds", "for", seconds, SECONDS),
        given("heats", "heats", heats, NUMBER),
        Given("fire", fire, f"fire {fire or 'not known'}"),
    ]
    if measured is not None:
        asked.append(given("scale_factor", "scale beside free air", measured, NUMBER))
    if section is not None:
        asked.append(of_the_section(section))
    if to is not None:
        asked.append(Given("to", Units.METRIC.section(to), lambda units: f"drawn to {units.section(to)}"))
    asked.append(of_the_share(share))
    spells = heats_alike(at, seconds, heats, section, to)
    ledger = carbon_ledger(spells, carbon, scale_share(fire, measured), share)
    safe = ledger.decarb
    allowance = Reckoned(
        safe.most or safe.value,
        "modelled",
        "each face: the decarb at its deepest, where an edge will be",
        safe.source,
        outside=safe.outside,
    )
    found: list[Figure | Fact] = [
        Figure("decarb_depth_mm", "decarb below the face", ledger.decarb, THIN),
        Figure("grinding_allowance_mm", "leave for grinding, at worst", allowance, THIN),
        Figure("scale_loss_mm", "metal to scale, a face", ledger.scale, THIN),
    ]
    if ledger.mass_share is not None:
        found.append(Figure("mass_fraction", "share of the bar", ledger.mass_share, SHARE))
    return Reckoning("skin", tuple(asked), tuple(found), profile=ledger.profile)


def heats_alike(
    at: float, seconds: float, heats: int, section: Section | None = None, to: Section | None = None
) -> list[Spell]:
    """Some heats that are all alike, the scale knocked off before each, for the carbon ledger.

    Args:
        at: temperature of the skin in each [K]
        seconds: time of each at it [s]
        heats: how many
        section: cross-section of the bar to begin with; None where it is thick
        to: cross-section to which it is drawn, by equal factors each heat; None where it stays as it is
    """
    if section is None or to is None:
        return [Spell(hold(at, seconds), section, is_cleaned=True)] * heats
    bars = [section.on_the_way_to(to, heat / heats) for heat in range(heats + 1)]
    return [Spell(hold(at, seconds), *pair, is_cleaned=True) for pair in pairwise(bars)]

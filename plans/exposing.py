"""What the work of a step is exposed to in each phase: as it likely is, and at either end of what is not known."""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache

from plans.blows import USUAL, Blows, StruckBy
from plans.phase import PhaseKind, Place
from plans.plan import Step
from plans.record import record
from plans.shapes import Section
from plans.shop import Shop
from plans.warmth import (
    ROOM,
    SECTION,
    START,
    Exposed,
    Surroundings,
    ThinEnd,
    WarmModel,
    doubts_of,
    fire,
    of_a_section,
    oil,
    still_air,
    striking,
)


@record
class Lying:
    """Work that lies, or is held, somewhere in a step."""

    step: Step
    """The step."""
    heat: int
    """Number of the heat in the step, from 1."""
    phase: PhaseKind
    """What is going on."""
    section: Section
    """Section of the work, or of the part of it that is meant."""
    in_the_air: bool = False
    """Whether it is in the air whatever the phase: the smith pauses, or carries it to the quench."""

    @property
    def place(self) -> Place:
        """Where it is."""
        return Place.AIR if self.in_the_air else self.phase.row.place

    @property
    def blows(self) -> Blows:
        """What it is struck with when it is struck."""
        return self.step.blows or USUAL[StruckBy.HAND]


def fire_of(step: Step, heat: int) -> float:
    """The fire that a plan wants for a heat [K]; the shop's air where the step has none."""
    target = step.target(heat)
    return ROOM if target is None else target.fire


def around(
    lying: Lying, shop: Shop, fire_at: float | None = None, air: float = 1.0, contact: float = 1.0
) -> Surroundings:
    """What the work gives its heat to, or takes it from.

    Args:
        lying: where it is
        shop: the smith's own figures
        fire_at: the fire, where it is measured [K]; None for that of the plan
        air: how many times as much heat flows by radiation and convection as is likely
        contact: how many times as much flows into the tools
    """
    in_air = _air_round(lying.section).scaled(shop.cooling_factor * air)
    match lying.place:
        case Place.FIRE:
            return fire(fire_of(lying.step, lying.heat) if fire_at is None else fire_at).scaled(air)
        case Place.ANVIL:
            # What was learned on the anvil says nothing of dies.
            learned = shop.contact_factor if lying.blows.by is StruckBy.HAND else 1.0
            return striking(lying.blows, in_air, learned * contact)
        case Place.QUENCH:
            return oil()
        case Place.OVEN:
            at = next((phase.at for phase in lying.step.phases if phase.kind is lying.phase), None)
            return fire(at).scaled(air) if at is not None else in_air
        case _:
            return in_air


def exposed(
    lying: Lying, shop: Shop, fire_at: float | None = None, start: float = START, of: Hashable = None
) -> Exposed:
    """What the work is exposed to, and at either end of what is not known: air, contact, section.

    Args:
        lying: where it is
        shop: the smith's own figures
        fire_at: the fire, where it is measured [K]; None for that of the plan
        start: how far off its temperature may be as that begins: a temperature difference [K]
        of: what it all hangs on but for what a probe says; None for where it lies
    """
    warms, doubts = lying.place in (Place.FIRE, Place.OVEN), doubts_of(shop)
    least, most = doubts.fire if warms else doubts.air
    likely = around(lying, shop, fire_at)
    quick = [around(lying, shop, fire_at, most), likely.scaled(1 + SECTION, 1 + SECTION)]
    slow = [around(lying, shop, fire_at, least), likely.scaled(1 - SECTION, 1 - SECTION)]
    if lying.place is Place.ANVIL:
        lightest, hardest = doubts.anvil if lying.blows.by is StruckBy.HAND else doubts.dies
        quick.append(around(lying, shop, fire_at, contact=hardest))
        slow.append(around(lying, shop, fire_at, contact=lightest))
    return Exposed(likely, tuple(quick), tuple(slow), start, not warms, lying if of is None else of)


def thin_part(step: Step, section: Section, start: float) -> WarmModel:
    """The part of the work that goes cold first, at one temperature throughout.

    Args:
        step: the step, which has such a part
        section: of the work where it begins
        start: its temperature [K]
    """
    assert step.thin is not None
    if step.thin_length is None:
        return WarmModel(step.thin, start=start)
    return WarmModel(section, start=start, end=ThinEnd(step.thin, step.thin_length))


@lru_cache(maxsize=64)
def _air_round(section: Section) -> Surroundings:
    return still_air(convection=of_a_section(section, ROOM))

"""How long one heat of a step takes, phase by phase, by the warm model."""

from __future__ import annotations

from typing import Final, NamedTuple

from plans.exposing import Lying, around, thin_part
from plans.phase import PhaseKind
from plans.plan import Phase, Step, Target
from plans.record import record
from plans.shapes import Section
from plans.shop import Shop
from plans.warmth import ROOM, Course, Part, WarmModel

_ROUGHLY: Final = 600.0
"""Error that one step of a course may leave [J/kg]: it takes about half of the time that a sitting's own course takes,
and the times come out 1 % shorter, while a range is some 15 % to either side and more."""


@record
class HeatTimes:
    """One heat of a step: a cycle, a hold or a dip as well.

    A time is None where the step has no such phase, where the plan says too little (no section, no temperature), and
    where it never comes: within four hours.
    """

    to_heat: float | None = None
    """In the fire, until the skin is at heat [s]."""
    soak: float | None = None
    """In the fire after that: as the plan sets it, or until the middle is even with the skin [s]."""
    hammer: float | None = None
    """From the skin at heat until the struck face or the coldest place of the work is at the cold limit [s]."""
    thin_hammer: float | None = None
    """The same of the thin part [s]."""
    air: float | None = None
    """In the air: as the plan sets it, or until the middle has come down to what it waits for [s]."""
    quench: float | None = None
    """In the quench, as the plan sets it [s]."""
    oven: float | None = None
    """In the oven, as the plan sets it [s]."""
    dip: float | None = None
    """In the bath, as the plan sets it [s]."""

    @property
    def in_the_fire(self) -> float | None:
        """Until the skin is at heat, and the soak [s]."""
        return None if self.to_heat is None or self.soak is None else self.to_heat + self.soak

    @property
    def first_cold(self) -> float | None:
        """Hammer time until the first of them is cold, the work or its thin part [s]."""
        return min((one for one in (self.hammer, self.thin_hammer) if one is not None), default=None)


class Struck(NamedTuple):
    """Something that is struck."""

    model: WarmModel
    """The work or its thin part, as it comes out of the fire."""
    lying: Lying
    """Where it lies."""
    parts: tuple[Part, ...]
    """The places of it that must not be struck below the cold limit."""


def heat_times(step: Step, heat: int, shop: Shop, start: float, *, struck: bool = True) -> HeatTimes:
    """How long one heat of a step takes, phase by phase.

    Args:
        step: the step
        heat: number of the heat, from 1: it decides the section and what the heat aims at
        shop: the smith's own figures
        start: how warm the work is all through as it goes into the fire [K]
        struck: whether the hammer times are wanted
    """
    phases = {phase.kind: phase for phase in step.phases}
    target, section = step.target(heat), step.section_at(heat)
    to_heat = soak = hammer = thin = None
    if target is not None and section is not None and PhaseKind.FIRE in phases:
        lying = Lying(step, heat, PhaseKind.FIRE, section)
        course = _course(WarmModel(section, step.length, start), lying, shop)
        to_heat, soak = _in_the_fire(course, step, target, phases.get(PhaseKind.SOAK))
    if struck and PhaseKind.STRIKE in phases and step.keep_above is not None:
        left = [_hammer_time(piece, step.keep_above, shop) for piece in struck_pieces(step, heat)]
        hammer, thin = (*left, None, None)[:2]
    return HeatTimes(
        to_heat,
        soak,
        hammer,
        thin,
        _in_the_air(step, heat, shop),
        *(_as_set(phases.get(kind)) for kind in (PhaseKind.QUENCH, PhaseKind.OVEN, PhaseKind.DIP)),
    )


def comes_back_at(step: Step, heat: int, shop: Shop) -> float:
    """How warm the work is taken to be, all through, as it goes into the fire again after a heat [K].

    Struck work comes back as it reaches the cold limit, work from the air as that ends, work from an oven as warm as
    that is. From a quench, a bath and the bench it comes back cold, and where the plan does not say.

    Args:
        step: the step
        heat: number of the heat that is over, from 1
        shop: the smith's own figures
    """
    place, last = len(step.phases) - 1, step.phases[-1]
    if last.kind is not PhaseKind.AIR:
        return _left_at(step, heat, last)
    start = _out_at(step, heat, place)
    if last.until is not None:
        return min(last.until, start)
    section = step.section_at(heat)
    if last.seconds is None or section is None:
        return ROOM
    return _cooling(step, heat, section, start, shop).kelvin_at(Part.MIDDLE, last.seconds)


def _left_at(step: Step, heat: int, phase: Phase) -> float:
    """How warm the work is, all through, at the end of a phase that is none in the air [K]."""
    target = step.target(heat)
    match phase.kind:
        case PhaseKind.FIRE | PhaseKind.SOAK if target is not None:
            return target.heat_to
        case PhaseKind.STRIKE if step.keep_above is not None:
            return step.keep_above
        case PhaseKind.OVEN if phase.at is not None:
            return phase.at
        case _:
            return ROOM


def _in_the_fire(course: Course, step: Step, target: Target, soak: Phase | None) -> tuple[float | None, float | None]:
    """Until the skin is at heat, and how long it soaks after that [s]."""
    to_heat = course.time_until(Part.SKIN, target.heat_to, falls=False)
    if to_heat is None or soak is None:
        return to_heat, 0.0
    if soak.seconds is not None:
        return to_heat, soak.seconds
    even = course.time_until(Part.MIDDLE, target.heat_to - step.even_within, falls=False)
    return to_heat, None if even is None else max(0.0, even - to_heat)


def struck_pieces(step: Step, heat: int) -> list[Struck]:
    """What is struck in a heat, as it comes out of the fire: the work, and its thin part; none where nothing is.

    Args:
        step: the step
        heat: number of the heat, from 1
    """
    target, section = step.target(heat), step.section_at(heat)
    if target is None or section is None or step.keep_above is None:
        return []
    whole = WarmModel(section, step.length, target.heat_to)
    pieces = [Struck(whole, Lying(step, heat, PhaseKind.STRIKE, section), (Part.COLDEST, Part.FACE))]
    if step.thin is not None:
        lying = Lying(step, heat, PhaseKind.STRIKE, step.thin)
        pieces.append(Struck(thin_part(step, section, target.heat_to), lying, (Part.COLDEST,)))
    return pieces


def _hammer_time(piece: Struck, cold: float, shop: Shop) -> float | None:
    course = _course(piece.model, piece.lying, shop)
    times = [course.time_until(part, cold, falls=True) for part in piece.parts]
    return min((one for one in times if one is not None), default=None)


def _in_the_air(step: Step, heat: int, shop: Shop) -> float | None:
    """How long the work cools in the air [s]."""
    place = next((place for place, phase in enumerate(step.phases) if phase.kind is PhaseKind.AIR), None)
    if place is None:
        return None
    phase, start, section = step.phases[place], _out_at(step, heat, place), step.section_at(heat)
    if phase.until is None or section is None:
        return phase.seconds
    if phase.until >= start:
        return 0.0
    return _cooling(step, heat, section, start, shop).time_until(Part.MIDDLE, phase.until, falls=True)


def _out_at(step: Step, heat: int, place: int) -> float:
    """How warm the work is, all through, as the phase of that number begins, from 0 [K]."""
    return _left_at(step, heat, step.phases[place - 1]) if place else ROOM


def _cooling(step: Step, heat: int, section: Section, start: float, shop: Shop) -> Course:
    return _course(WarmModel(section, step.length, start), Lying(step, heat, PhaseKind.AIR, section), shop)


def _course(model: WarmModel, lying: Lying, shop: Shop) -> Course:
    return Course(model.piece, model.heat, around(lying, shop), _ROUGHLY)


def _as_set(phase: Phase | None) -> float | None:
    return None if phase is None else phase.seconds

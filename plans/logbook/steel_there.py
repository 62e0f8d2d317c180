"""How much steel is there by what was measured, and how much by the plan: volume is held, less what goes to scale."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from plans.measured import Measured
from plans.plan import Plan
from plans.record import record
from plans.shapes import Section
from plans.sitting import Measurement, with_those_before
from plans.steel import STEEL
from plans.stock import USUAL_SCALE, through

ALL_THERE: Final = 0.03
"""Share by which the steel must differ to be spoken of: on hot-forged faces a caliper and a rule tell no less; common
practice, no source."""


@record
class SteelThere:
    """The steel of a piece at one moment of a sitting."""

    measured: float
    """By what was measured [m3]."""
    planned: float
    """By the plan [m3]."""

    @property
    def missing(self) -> float:
        """Share of the planned steel that is missing; below 0 where there is more."""
        return 1 - self.measured / self.planned

    @property
    def said(self) -> str:
        """ "all there", "8 % missing" or "10 % more"."""
        if abs(self.missing) < ALL_THERE:
            return "all there"
        return f"{self._percent} {'missing' if self.missing > 0 else 'more'}"

    @property
    def sentence(self) -> str:
        """ "the steel is all there", "8 % of the steel is missing" or "10 % more steel than the plan has there"."""
        if abs(self.missing) < ALL_THERE:
            return "the steel is all there"
        more = f"{self._percent} more steel than the plan has there"
        return f"{self._percent} of the steel is missing" if self.missing > 0 else more

    @property
    def _percent(self) -> str:
        return f"{abs(self.missing) * 100:.0f} %"


def steel_there(one: Measurement, plan: Plan) -> SteelThere | None:
    """The steel that was measured beside what the plan has there; None where either is not known.

    Args:
        one: what was measured, after which heat
        plan: that was followed, with that step in it
    """
    step = plan.steps[one.step]
    measured = volume_of(one.measured, step.section_at(one.heat + 1))
    planned = _planned(plan, one.step, min(1.0, one.heat / step.heats))
    return None if measured is None or planned is None else SteelThere(measured, planned)


def steel_found(one: Measurement, measurements: Iterable[Measurement], plan: Plan) -> SteelThere | None:
    """The steel by a measurement and those of the same work before it; None where it says nothing of that, or it is not
    known.

    Args:
        one: what was measured, after which heat
        measurements: all of the sitting, in order, this one among them
        plan: that was followed, with that step in it
    """
    its = one.measured
    if not its.tells_size:
        return None
    by_itself = its.mass is not None or None not in (its.width, its.thickness, its.length)
    if by_itself:
        return steel_there(one, plan)
    # A weight that was told before says nothing of the sides that are told now.
    known = with_those_before(one, measurements)
    return steel_there(replace(known, measured=replace(known.measured, mass=None)), plan)


def volume_of(measured: Measured, planned: Section | None) -> float | None:
    """The volume of what was measured, by its weight, else by section and length [m3]; None where it is not known.

    Args:
        measured: the figures
        planned: the section that the plan has there, for a side that was not measured; None where it says none
    """
    if measured.mass is not None:
        return measured.mass / STEEL
    section = measured.section(planned)
    return None if section is None or measured.length is None else section.area * measured.length


def _planned(plan: Plan, number: int, share: float) -> float | None:
    """The steel in a step once a share of its heats is done [m3]; None where the plan does not tell."""
    found, step = through(plan), plan.steps[number]
    for its in found.steps if found is not None else ():
        if its.step == number:
            return its.begins + (its.ends - its.begins) * share
    if step.section is None or step.length is None:
        return None
    begins = step.section.area * step.length
    return begins * (1 + (USUAL_SCALE.left(step.heats)[0] - 1) * share)

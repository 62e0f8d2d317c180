"""How long a step takes: its first heat, its last, and all of them together."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Final

from plans.plan import THIN_NAME, Step
from plans.record import record
from plans.shop import Shop
from plans.times.of_a_heat import HeatTimes, comes_back_at, heat_times
from plans.warmth import ROOM

_EACH: Final = 4
"""Of a step with no more heats than this each is worked out; of one with more some are, and what lies between them is
taken from those on either side."""


@record
class StepTimes:
    """What a step takes, as the warm model has it before anything is in the fire.

    The work goes into the first heat as cold as the shop, whatever the step before left of its warmth, and into each
    later one as warm, all through, as the heat before it left it: struck work at the cold limit, work from the air as
    that ends, work from an oven as warm as that is, and from a quench, a bath or the bench cold. Its section shrinks
    from heat to heat by equal shares of the way to the one that the step comes to.
    """

    heats: int
    """How often the work goes into the fire; 0 for a step without one."""
    first: HeatTimes
    """The first heat."""
    last: HeatTimes
    """The last: that of the smallest section, where the work is drawn."""
    to_heat: float | None
    """In the fire until the skin is at heat, all heats together [s]; None where that is not known, or never comes."""
    soak: float | None
    """In the fire after that, all heats together [s]; None likewise."""
    air: float | None
    """In the air, all cycles together [s]; None where it has none, or they are not known."""
    quench: float | None
    """In the quench, all together [s]; None likewise."""
    oven: float | None
    """In the oven, all holds together [s]; None likewise."""
    dip: float | None
    """In the bath, all dips together [s]; None likewise."""

    @property
    def in_the_fire(self) -> float | None:
        """All heats together, until the skin is at heat and the soak [s]; None where that is not known."""
        return None if self.to_heat is None or self.soak is None else self.to_heat + self.soak


def step_times(step: Step, shop: Shop) -> StepTimes:
    """What a step takes; quick to ask again, for a step in which nothing but words has changed.

    Args:
        step: the step
        shop: the smith's own figures
    """
    return _times_of(_without_words(step), shop)


@lru_cache(maxsize=1024)
def _times_of(step: Step, shop: Shop) -> StepTimes:
    found: dict[int, HeatTimes] = {}
    for heat in _worked_out(step):
        before = ROOM if heat == 1 else comes_back_at(step, heat - 1, shop)
        found[heat] = heat_times(step, heat, shop, before, struck=heat in (1, step.heats))

    def in_all(name: str) -> float | None:
        return _sum({heat: getattr(times, name) for heat, times in found.items()})

    return StepTimes(
        step.heats_in_fire,
        found[1],
        found[step.heats],
        *(in_all(name) for name in ("to_heat", "soak", "air", "quench", "oven", "dip")),
    )


def _worked_out(step: Step) -> list[int]:
    """The heats that are worked out: the first two, the last, one in the middle, and those beside another target."""
    heats = range(1, step.heats + 1)
    if step.heats <= _EACH:
        return list(heats)
    some = {1, 2, (2 + step.heats) // 2, step.heats}
    beside = {heat for heat in heats if any(step.target(heat) != step.target(max(1, heat + by)) for by in (-1, 1))}
    return sorted(some | beside)


def _sum(times: dict[int, float | None]) -> float | None:
    """The times of all heats, from those of some; between two of them they change evenly."""
    total, before = 0.0, None
    for heat, seconds in times.items():
        if seconds is None:
            return None
        total += seconds
        if before is not None:
            # An arithmetic series without its ends.
            total += (heat - before[0] - 1) * (before[1] + seconds) / 2
        before = heat, seconds
    return total


def _without_words(step: Step) -> Step:
    """A step with nothing but what its times hang on."""
    phases = tuple(replace(phase, within=None, at_most=None, medium="", cue="") for phase in step.phases)
    bare = replace(step, title="", instruction="", phases=phases, checklist=(), cautions=(), thin_name=THIN_NAME)
    return replace(bare, burn_above=None, flux_at=None, reach_length=None, layers=None, turn_every=None)

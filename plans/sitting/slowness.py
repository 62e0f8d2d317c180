"""Whether a probe on the work is quick enough to be struck by: how far behind the skin it is, against hammer time."""

from __future__ import annotations

from plans.plan import Step
from plans.shapes import Section
from plans.warmth import Part, Surroundings, WarmModel, hammer_time

_SHARE = 0.3
"""A probe that is behind by more than this share of the hammer time tells later what is cold than the model may err: of
a hammer time of its own the model is no surer, as what an anvil takes is known to a factor of three only."""


def is_too_slow(behind: float, step: Step, heat: int, section: Section, around: Surroundings) -> bool:
    """Whether hammer time must go by the warm model in a heat, though a probe sits on the work.

    The hammer time is the model's, from the heat that the step aims at to its cold limit.

    Args:
        behind: how far what the probe says is behind the skin, by its lag and its filter [s]
        step: the step in which it is struck
        heat: number of the heat, from 1
        section: of the work
        around: what the struck work gives its heat to
    """
    target = step.target(heat)
    if target is None or step.keep_above is None or target.heat_to <= step.keep_above:
        return False
    left = hammer_time(WarmModel(section, step.length, target.heat_to), around, step.keep_above, Part.SKIN)
    return left is not None and behind > _SHARE * left

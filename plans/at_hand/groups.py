"""The groups that plans stand in: by what a plan does, so that nobody need say it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from enum import StrEnum
from typing import Final

from plans.plan import StepKind


class Group(StrEnum):
    """What a plan is for, by the step in it that asks the most; in the order in which they are shown."""

    WELDED = "welded blades and billets"
    """It has a step that welds."""
    FORGED = "forging"
    """It draws or forges, and welds nothing."""
    TREATED = "heat treatment"
    """It heats and cools steel whose shape stays: normalizing, annealing, hardening, tempering."""
    FINISHED = "finish"
    """All of it is cold: etching, and work at the bench."""
    UNUSABLE = "can't be used"
    """Its file can't be read as a plan."""

    @property
    def heading(self) -> str:
        """As it stands above its plans: "Heat treatment"."""
        return self.value.capitalize()


_SIGNS: Final[Mapping[Group, frozenset[StepKind]]] = {
    Group.WELDED: frozenset({StepKind.WELD}),
    Group.FORGED: frozenset({StepKind.DRAW, StepKind.FORGE}),
    Group.TREATED: frozenset({StepKind.NORMALIZE, StepKind.ANNEAL, StepKind.HARDEN, StepKind.TEMPER}),
}
"""The kinds of step of which one decides that a plan belongs to a group; the first group that has one."""


def group_of(kinds: Collection[StepKind]) -> Group:
    """The group of a plan.

    Args:
        kinds: those of its steps
    """
    return next((group for group, signs in _SIGNS.items() if not signs.isdisjoint(kinds)), Group.FINISHED)

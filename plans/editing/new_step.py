"""A step that is added by hand: the usual phases of its kind, with figures that can be followed until it is worded."""

from __future__ import annotations

from typing import Any, Final

from plans.editing.draft import draft_of
from plans.editing.parts import added
from plans.editing.setting import FILE
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Plan, StepKind
from plans.reader import AirKeys, DipKeys, OvenKeys, QuenchKeys, StepKeys, read_plan
from plans.shapes import Section
from plans.units import Units, kelvin

_TITLES: Final = {
    StepKind.WELD: "Weld",
    StepKind.DRAW: "Draw out",
    StepKind.FORGE: "Forge",
    StepKind.NORMALIZE: "Normalize",
    StepKind.ANNEAL: "Anneal",
    StepKind.HARDEN: "Harden",
    StepKind.TEMPER: "Temper",
    StepKind.ETCH: "Etch",
    StepKind.BENCH: "At the bench",
}
_FIRES: Final = {
    StepKind.WELD: (1280.0, 1250.0),
    StepKind.DRAW: (1150.0, 1120.0),
    StepKind.FORGE: (1120.0, 1090.0),
    StepKind.NORMALIZE: (900.0, 870.0),
    StepKind.ANNEAL: (800.0, 770.0),
    StepKind.HARDEN: (830.0, 800.0),
}
"""Fire, and what the work is heated to in it [degC]: common practice for some 0.8 % of carbon, no source."""
_COLD: Final = {StepKind.WELD: 1100.0, StepKind.DRAW: 900.0, StepKind.FORGE: 900.0}
"""Below which nothing is struck [degC]: common practice, no source."""
_NESTED: Final[dict[StepKind, dict[str, Any]]] = {
    StepKind.NORMALIZE: {"air": AirKeys(until=kelvin(480))},
    StepKind.HARDEN: {"quench": QuenchKeys("oil at {55 degC}", 10.0, 3.0)},
    StepKind.TEMPER: {"oven": OvenKeys(kelvin(200), 7200.0)},
    StepKind.ETCH: {"dip": DipKeys("ferric chloride, 1 part to 4 of water", 600.0)},
}
"""The tables of phases that can't be without one, and of the air after a normalizing heat; as above."""
_TAKEN_OVER: Final = (
    *("fire", "heat_to", "flux_at", "keep_above", "burn_above", "soak", "soak_at_most", "even_within"),
    *("struck_by", "contact", "contact_every", "air", "quench", "oven", "dip"),
)
"""What a new step has as the one before it of its kind."""
_NO_WORK: Final = (Section(0.025, 0.010), 0.150)
"""Section and length [m] of the work where nothing says them."""


def new_step(plan: Plan, at: int, kind: StepKind) -> StepKeys:
    """A step of a kind, to stand at a place of a plan.

    Its temperatures, times and media are those of the nearest step of its kind before it, or else placeholders that
    are common practice. Section and length it has from the step before; where that leaves none, from the first bar.

    Args:
        plan: as it is
        at: the number that the step shall have, from 0
        kind: what it is for
    """
    like = _like(plan, at, kind)
    figures = _usual(kind) if like is None else {name: getattr(like, name) for name in _TAKEN_OVER}
    if PhaseKind.FIRE in USUAL_PHASES[kind] and not _known(plan, at):
        figures["section"], figures["length"] = _NO_WORK
        if plan.bars:
            figures["section"], figures["length"] = plan.bars[0].section, plan.bars[0].length
    return StepKeys(_TITLES[kind], kind, **figures)


def with_new_step(text: str, at: int, kind: StepKind, units: Units) -> str:
    """The plan with a new step of a kind, as `new_step` has it; arguments and errors are those of `added`."""
    return added(text, "step", at, new_step(read_plan(text, "", FILE), at, kind), units)


def _like(plan: Plan, at: int, kind: StepKind) -> StepKeys | None:
    """The keys of the nearest step before that is of a kind and has its usual phases."""
    steps = draft_of(plan.source, FILE).steps[:at]
    return next((one.keys for one in reversed(steps) if one.keys.kind is kind and one.keys.phases is None), None)


def _known(plan: Plan, at: int) -> bool:
    """Whether a step at a place knows the section of the work without saying it."""
    before = plan.steps[:at]
    return before[-1].section is not None if before else len(plan.bars) == 1


def _usual(kind: StepKind) -> dict[str, Any]:
    figures: dict[str, Any] = {}
    if kind in _FIRES:
        figures["fire"], figures["heat_to"] = (kelvin(degrees) for degrees in _FIRES[kind])
    if kind in _COLD:
        figures["keep_above"] = kelvin(_COLD[kind])
    return figures | _NESTED.get(kind, {})

"""The usual cautions of the trade, by what a step does."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from plans.phase import PhaseKind
from plans.plan import Plan, Step, StepKind
from plans.record import record


@record
class Caution:
    """A danger of the trade, and what to do about it."""

    about: str
    """The danger in a word or two: "carbon monoxide"; or the title of the step whose plan gives the caution."""
    kinds: frozenset[StepKind]
    """Kinds of step that it belongs to; empty where a plan itself gives it."""
    text: str
    """What is said of it, in whole sentences; never markup."""
    begins: PhaseKind | None = None
    """The phase with which the danger begins; None for the first of the step."""


@cache
def _usual() -> tuple[str, tuple[Caution, ...]]:
    table = tomllib.loads(Path(__file__).with_name("cautions.toml").read_text(encoding="utf-8"))
    cautions = tuple(
        Caution(
            row["about"],
            frozenset(StepKind(kind) for kind in row["kinds"]),
            row["text"],
            PhaseKind(row["begins"]) if "begins" in row else None,
        )
        for row in table["caution"]
    )
    return table["first"], cautions


def first_of_all() -> str:
    """What stands above every caution: local codes, data sheets and licensed practice come first."""
    return _usual()[0]


def for_step(step: Step) -> tuple[Caution, ...]:
    """The cautions of one step: the plan's own, then those of its kind."""
    own = tuple(Caution(step.title, frozenset(), text) for text in step.cautions)
    return own + tuple(caution for caution in _usual()[1] if step.kind in caution.kinds)


def for_plan(plan: Plan) -> tuple[Caution, ...]:
    """All cautions of a plan, each once: the usual ones first, the most dangerous before the others, then its own."""
    needed = dict.fromkeys(caution for step in plan.steps for caution in for_step(step))
    usual = [caution for caution in _usual()[1] if caution in needed]
    return (*usual, *(caution for caution in needed if not caution.kinds))

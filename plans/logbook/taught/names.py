"""The names of the rows of what sittings teach: by them they are forgotten, and stand in the shop file."""

from __future__ import annotations

import re
from typing import Final

from plans.blows import StruckBy
from plans.logbook.teaching import StepDrawn, WeldSoaked
from plans.plan import StepKind

COOLING_ROW: Final = "cooling-factor"
CONTACT_ROW: Final = "contact-factor"
LOSS_ROW: Final = "loss-to-scale"
"""What a heat takes as scale."""
SPREAD_ROW: Final = "spread"
"""How far work comes out wider than planned."""
_SOAK: Final = "soak-"


def reduction_row(step: StepDrawn) -> str:
    """The row that tells what a heat takes off in such a step."""
    return _of_step("reduction", step.kind, step.by)


def heats_row(step: StepDrawn) -> str:
    """The row that tells how many heats such a step takes."""
    return _of_step("heats", step.kind, step.by)


def soak_row(weld: WeldSoaked) -> str:
    """The row that tells how welds of such a section came out."""
    return f"{_SOAK}{re.sub('[^a-z0-9]+', '-', weld.section.lower()).strip('-')}"


def row_names() -> tuple[str, ...]:
    """Every name that a row can have, but those of welds, which have a section in them; no sitting need tell of it."""
    of_steps = (_of_step(what, kind, by) for what in ("reduction", "heats") for kind in StepKind for by in StruckBy)
    return (COOLING_ROW, CONTACT_ROW, *of_steps, LOSS_ROW, SPREAD_ROW)


def names_a_row(text: str) -> bool:
    """Whether there can be such a row."""
    return text in row_names() or re.fullmatch(f"{_SOAK}[a-z0-9-]+", text) is not None


def _of_step(what: str, kind: StepKind, by: StruckBy) -> str:
    return f"{what}-{kind.value}-{by.value.replace(' ', '-')}"

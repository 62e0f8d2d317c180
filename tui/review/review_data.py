"""A sitting that was kept, made ready for looking at: its curves, and its heats with where they lie in time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from plans.errors import PlansError
from plans.logbook.book import Logbook
from plans.logbook.figures import Span, spans
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.logged_sitting import work_out
from plans.phase import IDLE, WARMING
from plans.plan import Plan
from plans.reader import read_plan
from plans.sitting.engine import Sitting
from plans.sitting.events import Called
from tui.widgets.curves import measured_curve
from tui.widgets.plotting import Curve


@dataclass(frozen=True, slots=True)
class HeatReview:
    """One heat: its figures, and where it lies."""

    step: int
    """From 0."""
    figures: Mapping[str, Any]
    began: float
    left_fire: float
    """When it came out of the fire; when it began, where it was in none [s]."""
    ended: float


@dataclass(frozen=True, slots=True)
class Review:
    """A sitting to be looked at."""

    kept: KeptSitting
    plan: Plan | None
    """None where its text can't be read by this version; there are no heats then."""
    end: float
    """Time of its last entry [s]."""
    measured: Curve
    modelled: Curve
    spans: tuple[Span, ...]
    heats: tuple[HeatReview, ...]
    calls: tuple[Called, ...]
    messages: tuple[str, ...]
    """What is wrong with its file, in plain words."""


def read_review(logbook: Logbook, name: str) -> Review:
    """Load a sitting and make it ready.

    Raises:
        LogbookError: there is none, or it can't be read.
    """
    kept = logbook.load(name, work_out)
    messages = tuple(logbook.messages)
    logbook.messages.clear()
    end = max(kept.log.last_at, 1.0)
    calls = tuple(event for event in kept.log.events if isinstance(event, Called))
    measured = measured_curve(kept.log.readings, 0.0, end + 1.0)
    modelled = measured_curve(kept.skin, 0.0, end + 1.0)
    try:
        plan = read_plan(kept.header.source, kept.header.plan, "the plan of this sitting")
    except PlansError as error:
        return Review(kept, None, end, measured, modelled, (), (), calls, (*messages, str(error)))
    parts = tuple(_phases(plan, kept))
    heats = tuple(_heats(kept, parts))
    return Review(kept, plan, end, measured, modelled, parts, heats, calls, messages)


def _phases(plan: Plan, kept: KeptSitting) -> list[Span]:
    """The phases by the events alone: the warm model need not be run again for them."""
    sitting = Sitting(plan, kept.header.probe_on, shop=kept.header.shop)
    for event in kept.log.events:
        sitting.state.apply(event)
    return spans(sitting, kept.log.last_at) if sitting.state.begins else []


def _heats(kept: KeptSitting, parts: tuple[Span, ...]) -> list[HeatReview]:
    found = []
    for step in kept.figures.get("steps", ()):
        for heat in step["heats"]:
            its = [
                part
                for part in parts
                if (part.step + 1, part.heat) == (step["step"], heat["heat"]) and part.phase not in IDLE
            ]
            if its:
                warming = [part.ended for part in its if part.phase in WARMING]
                left = warming[-1] if warming else its[0].began
                found.append(HeatReview(step["step"] - 1, heat, its[0].began, left, its[-1].ended))
    return found

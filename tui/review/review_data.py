"""A sitting that was kept, made ready for looking at: its curves, and its heats with where they lie in time."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from plans.logbook import HeatFigures, KeptSitting, Logbook, Timeline, work_out
from plans.phase import IDLE, WARMING
from plans.plan import Plan
from plans.sitting import Called, PhaseSpan
from tui.widgets import Curve, measured_curve, modelled_curve


@dataclass(frozen=True, slots=True)
class HeatReview:
    """One heat: its figures, and where it lies in the sitting."""

    step: int
    """Number of its step, from 0."""
    figures: HeatFigures
    """The figures of the heat, in SI."""
    began: float
    """When it began, in seconds since the sitting began."""
    left_fire: float
    """When it last came out of the fire, or began where it was in none, in seconds since the sitting began."""
    ended: float
    """When it ended, in seconds since the sitting began."""


@dataclass(frozen=True, slots=True)
class Review:
    """A kept sitting made ready for the review."""

    timeline: Timeline
    """The sitting, with its phases and what is believed of its readings."""
    end: float
    """Where its time axis ends, in seconds since it began: the newest moment that is known of, or 1."""
    measured: Curve
    """What is believed of the probe's readings [K]."""
    modelled: Curve
    """The skin as the warm model has it [K]."""
    heats: tuple[HeatReview, ...]
    """Its heats in order; none where its plan can't be read by this version."""
    messages: tuple[str, ...]
    """What is wrong with its file, in plain words."""

    @property
    def kept(self) -> KeptSitting:
        """The sitting as the logbook has it."""
        return self.timeline.kept

    @property
    def plan(self) -> Plan | None:
        """Its plan; None where its text can't be read by this version."""
        return self.timeline.plan

    @property
    def spans(self) -> tuple[PhaseSpan, ...]:
        """Its phases in order; none where its plan can't be read by this version."""
        return self.timeline.spans if self.plan is not None else ()

    @property
    def calls(self) -> list[Called]:
        """Every call that was made, in order."""
        return self.timeline.state.calls


def read_review(logbook: Logbook, name: str) -> Review:
    """Load a sitting from the logbook and make it ready for the review.

    Args:
        logbook: where it is kept
        name: its id, the beginning of one, or "last"

    Raises:
        LogbookError: there is none, or it can't be read.
    """
    kept = logbook.load(name, work_out)
    messages = tuple(logbook.messages)
    logbook.messages.clear()
    timeline = Timeline.of(kept)
    if timeline.trouble is not None:
        messages = (*messages, timeline.trouble)
    return Review(
        timeline,
        max(timeline.ended, 1.0),
        measured_curve(timeline.believed, 0.0, inf),
        modelled_curve(kept.skin),
        tuple(_heats(timeline)),
        messages,
    )


def _heats(timeline: Timeline) -> list[HeatReview]:
    figures = timeline.kept.figures
    if figures is None or timeline.plan is None:
        return []
    found = []
    for step in figures.steps:
        for heat in step.heats:
            its = [
                part
                for part in timeline.spans
                if (part.step, part.heat) == (step.step, heat.heat) and part.phase not in IDLE
            ]
            if its:
                warming = [part.ended for part in its if part.phase in WARMING]
                left = warming[-1] if warming else its[0].began
                found.append(HeatReview(step.step, heat, its[0].began, left, its[-1].ended))
    return found

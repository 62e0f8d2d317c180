"""A sitting that was kept, made ready for looking at: its curves, and its heats with where they lie in time."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from pathlib import Path

from plans.logbook import HeatFigures, KeptSitting, Logbook, LookingBack, Timeline, work_out
from plans.phase import IDLE, WARMING
from plans.plan import Plan
from plans.record import record
from plans.sitting import Called, Note, PhaseSpan, State, heats_as_done
from tui.widgets import Curve, measured_curve, modelled_curve


@record
class HeatReview:
    """One heat: its figures, and where it lies in the sitting."""

    step: int
    """Number of its step, from 0."""
    figures: HeatFigures
    """The figures of the heat, in SI."""
    began: float
    """When it began, by the sitting's own clock [s]."""
    left_fire: float
    """When it last came out of the fire, or began where it was in none, by the sitting's own clock [s]."""
    ended: float
    """When it ended, by the sitting's own clock [s]."""


@record
class Review:
    """A kept sitting made ready for the review; its times are the sitting's own clock [s], without breaks."""

    looked_back: LookingBack
    """What is to be said of the sitting as a whole; its times are seconds since it began."""
    end: float
    """Where its time axis ends: the newest moment that is known of, or 1."""
    spans: tuple[PhaseSpan, ...]
    """Its phases in order; none where its plan can't be read by this version."""
    calls: tuple[Called, ...]
    """Every call that was made, in order."""
    notes: tuple[Note, ...]
    """Every note that was left, in order."""
    measured: Curve
    """What is believed of the probe's readings [K]."""
    modelled: Curve
    """The skin as the warm model has it [K]."""
    heats: tuple[HeatReview, ...]
    """Its heats in order; none where its plan can't be read by this version."""
    messages: tuple[str, ...]
    """What is wrong with its file, in plain words."""
    photographs: Path
    """The folder of the copies of its photographs; it need not be there."""

    @property
    def timeline(self) -> Timeline:
        """The sitting, with its phases and what is believed of its readings, in seconds since it began."""
        return self.looked_back.timeline

    @property
    def kept(self) -> KeptSitting:
        """The sitting as the logbook has it."""
        return self.timeline.kept

    @property
    def plan(self) -> Plan | None:
        """Its plan; None where its text can't be read by this version."""
        return self.timeline.plan

    def with_said(self, kept: KeptSitting) -> Review:
        """Make a review of the same sitting, of which something else was said since."""
        return replace(self, looked_back=self.looked_back.with_said(kept))

    def part_at(self, at: float) -> PhaseSpan | None:
        """The phase that went on at a time of the sitting's own clock [s]; None where none did."""
        return next((part for part in reversed(self.spans) if part.began < at <= part.ended), None)

    @property
    def heats_as_done(self) -> dict[int, int]:
        """The steps that took other heats than planned, by their number from 0, with how many it were."""
        figures = self.kept.figures
        if self.plan is None or figures is None:
            return {}
        return heats_as_done(self.plan, self.timeline.state, {step.step: step.done for step in figures.steps})


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
    state = timeline.state
    clock = state.clock
    spans = tuple(replace(span, began=clock(span.began), ended=clock(span.ended)) for span in timeline.spans)
    if timeline.plan is None:
        spans = ()
    return Review(
        LookingBack.of(timeline),
        max(clock(timeline.ended), 1.0),
        spans,
        tuple(replace(call, at=clock(call.at)) for call in state.calls),
        tuple(replace(note, at=clock(note.at)) for note in state.notes),
        _by_clock(measured_curve(timeline.believed, 0.0, inf), state),
        _by_clock(modelled_curve(kept.skin), state),
        tuple(_heats(kept, spans)),
        messages,
        logbook.photographs(kept.header.id),
    )


def _by_clock(curve: Curve, state: State) -> Curve:
    """A curve over the sitting's own clock, broken where the sitting was."""
    if not state.breaks:
        return curve
    at: list[float] = []
    values: list[float | None] = []
    ahead = list(state.breaks)
    for moment, value in zip(curve.at, curve.values, strict=True):
        while ahead and moment > ahead[0][1]:
            at.append(state.clock(ahead.pop(0)[1]))
            values.append(None)
        if not ahead or moment <= ahead[0][0]:
            at.append(state.clock(moment))
            values.append(value)
    return Curve(at, values)


def _heats(kept: KeptSitting, spans: tuple[PhaseSpan, ...]) -> list[HeatReview]:
    figures = kept.figures
    if figures is None:
        return []
    found = []
    for step in figures.steps:
        for heat in step.heats:
            its = [
                part for part in spans if (part.step, part.heat) == (step.step, heat.heat) and part.phase not in IDLE
            ]
            if its:
                warming = [part.ended for part in its if part.phase in WARMING]
                left = warming[-1] if warming else its[0].began
                found.append(HeatReview(step.step, heat, its[0].began, left, its[-1].ended))
    return found

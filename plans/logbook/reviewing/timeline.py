"""A kept sitting told again by its log alone, for drawing: what was going on when, and which readings are believed.

The page and the review both draw from it; the warm model need not be run again for it.
"""

from __future__ import annotations

from bisect import bisect_right

from plans.errors import PlansError
from plans.logbook.afterwards import with_later
from plans.logbook.kept_plan import kept_plan
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.taken_back import calls_taken_back
from plans.phase import IDLE
from plans.plan import Plan
from plans.record import record
from plans.sitting import Believed, PhaseSpan, Skin, State, fastest_change, folded, length, phase_spans, spans_by_model
from plans.trace import Trace


@record
class Timeline:
    """What a drawing needs of a kept sitting."""

    kept: KeptSitting
    """The sitting as the logbook has it."""
    state: State
    """Where it stood in the end, with every phase, call and note on the way."""
    plan: Plan | None
    """Its plan; None where this version can't read it."""
    trouble: str | None
    """Why its plan can't be read, in plain words; None where it can."""
    taken_back: frozenset[int]
    """The calls of the state that came of a word that was taken back, by their place."""
    spans: tuple[PhaseSpan, ...]
    """Phases of the sitting in order."""
    believed: Believed
    """Its readings, and what of them is believed."""
    ended: float
    """The newest moment that is known of, in seconds since it began."""

    @property
    def seconds(self) -> float:
        """How long the sitting took, breaks left out [s]."""
        return length(self.state, self.ended)

    @classmethod
    def of(cls, kept: KeptSitting) -> Timeline:
        """Tell a sitting again by folding its log once more."""
        head = kept.header
        plan, trouble = None, None
        try:
            plan = kept_plan(head)
        except PlansError as error:
            trouble = str(error)
        state = folded(kept.log.events)
        ended = kept.left_at
        believed = Believed.of(kept.log, head.probe_on, fastest_change(plan) if plan else None)
        return cls(
            kept,
            state,
            plan,
            trouble,
            calls_taken_back(kept.log.events),
            tuple(phase_spans(state, ended)),
            believed,
            ended,
        )

    @property
    def measured(self) -> State:
        """Where it stood in the end, with what was measured by hand when it was over."""
        return with_later(self.state, self.kept.measured_later)

    @property
    def skin(self) -> Skin:
        """The work's skin: measured where a probe on it is believed, else as the warm model had it."""
        return Skin(self.believed, _KeptModel(self.kept.skin), spans_by_model(self.state, self.ended))

    def spans_of(self, step: int, heat: int) -> list[PhaseSpan]:
        """The phases of a heat in order, those left out in which none goes on.

        Args:
            step: number of its step, from 0
            heat: number of the heat within the step, from 1
        """
        return [part for part in self.spans if (part.step, part.heat) == (step, heat) and part.phase not in IDLE]

    def title(self, step: int) -> str:
        """Title of a step, by its number from 0; empty where the plan can't be read."""
        return self.plan.steps[step].title if self.plan else ""


class _KeptModel:
    """The skin as it was modelled, from the trace that was kept of it."""

    def __init__(self, trace: Trace) -> None:
        self._times, self.skin = trace.times, trace.kelvins

    @property
    def kept(self) -> _KeptModel:
        return self

    def place_after(self, at: float) -> int:
        return bisect_right(self._times, at)

    def time(self, place: int) -> float:
        return self._times[place]

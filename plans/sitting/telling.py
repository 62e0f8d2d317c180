"""What a sitting decides is told: it stands in the log and in the state at once, the end of a phase with its calls."""

from __future__ import annotations

from collections.abc import Sequence

from plans.phase import PhaseKind
from plans.reading import ProbeOn, Reading
from plans.sitting import due
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.due import Closing
from plans.sitting.event_record import as_kept
from plans.sitting.events import Basis, Begun, Called, Cause, Eased, Entry, Event
from plans.sitting.facts import Facts, facts_of
from plans.sitting.pace import section_at
from plans.sitting.quench import quench_floor
from plans.sitting.senses import Passed
from plans.sitting.slowness import is_too_slow
from plans.sitting.standing import Standing
from plans.warmth import Part


class Telling:
    """Takes down what is decided in a sitting, in order.

    Args:
        standing: the sitting; every event is applied to it as it is told
    """

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        """How the sitting stands, with all that was told."""
        self._told: list[Entry] = []

    def hand_over(self) -> list[Entry]:
        """What was told since this was asked last."""
        told, self._told = self._told, []
        return told

    def reading(self, reading: Reading) -> None:
        """A reading that the sitting has heard goes into the log."""
        self._told.append(reading)

    def event(self, event: Event) -> None:
        """An event that stands as it is."""
        self.standing.apply(event)
        self._told.append(event)

    def call(
        self,
        at: float,
        call: Call,
        kelvin: float | None = None,
        basis: Basis = Basis.MEASURED,
        happened: float | None = None,
    ) -> None:
        """Make a call.

        Args:
            at: now [s]
            call: what is called
            kelvin: the temperature that it is about [K]; None where it is about none
            basis: what that stands on
            happened: when what it is about came about [s]; None for now
        """
        kelvin, state = None if kelvin is None else as_kept(kelvin), self.standing.state
        self.event(Called(at, call, state.step, state.heat, kelvin, basis, happened))

    def begin(
        self, at: float, point: PlanPoint, cause: Cause, happened: float | None = None, *, closes: bool = True
    ) -> None:
        """Begin a phase.

        Args:
            at: now [s]
            point: where in the plan
            cause: what makes it begin
            happened: when it really began [s]; None for now
            closes: whether anything is to be said of the phase that it ends; of one that is begun anew, nothing is
        """
        closing = self.closing(point, happened) if closes else []
        self.close(at, closing, Begun(at, point.step, point.heat, point.phase, cause, happened))
        if point.phase is PhaseKind.STRIKE:
            self._weigh_the_probe(at)

    def close(self, at: float, closing: Sequence[Closing], by: Event) -> None:
        """Make the calls on a phase after the event that ends it, but as calls of its own step and heat.

        Args:
            at: now [s]
            closing: the calls
            by: what ends the phase
        """
        step, heat = self.standing.state.step, self.standing.state.heat
        self.event(by)
        for one in closing:
            kelvin = None if one.kelvin is None else as_kept(one.kelvin)
            took, wanted = (None if span is None else round(span, 3) for span in (one.took, one.wanted))
            self.event(Called(at, one.call, step, heat, kelvin, one.basis, took=took, wanted=wanted))

    def closing(self, point: PlanPoint | None, happened: float | None = None) -> list[Closing]:
        """What is to be said of the phase that goes on, as it ends.

        Args:
            point: where the sitting goes on; None where it comes to its end
            happened: when [s]; None for now
        """
        standing = self.standing
        following = point.phase if point is not None and point.step == standing.state.step else None
        facts = facts_of(standing, standing.now if happened is None else happened)
        floor = quench_floor(standing.plan) if following is PhaseKind.QUENCH else None
        # Of a long heat the peak takes a while to find: only what is a heat treatment is held against it.
        peak = standing.peak if following in (PhaseKind.AIR, PhaseKind.QUENCH) else None
        return due.calls_at_the_end(facts, following, peak, floor, self._soak_left(facts))

    def _soak_left(self, facts: Facts) -> float | None:
        """How long a soak by the warm model still likely takes [s]; None in any other phase."""
        if facts.phase.kind is not PhaseKind.SOAK or facts.phase.seconds is not None or facts.target is None:
            return None
        even, standing = facts.target.heat_to - facts.step.even_within, self.standing
        return standing.warm.likely_until(standing.exposure, standing.leading, Part.MIDDLE, even)

    def _weigh_the_probe(self, at: float) -> None:
        """Where the probe is too slow to be struck by, say so, and how warm the work must be by now."""
        standing = self.standing
        step, heat, kelvin = standing.current_step, standing.state.heat, standing.probe.kelvin
        section = section_at(standing.plan, standing.state.step, heat)
        around = standing.warm.around(standing.exposure, None)
        if standing.probe_on is not ProbeOn.WORK or kelvin is None or section is None or around is None:
            return
        behind = standing.lag + standing.probe.behind
        if is_too_slow(behind, step, heat, section, around):
            # What lags by a time constant is as far off as it changes in that time.
            off = min(0.0, behind * standing.believed.slope(at))
            self.call(at, Call.PROBE_SLOW, kelvin + off, Basis.MODELLED)

    def miss_probe(self, at: float) -> None:
        """The probe is lost [s]: call that once."""
        if Call.PROBE_LOST not in self.standing.state.alarms:
            self.call(at, Call.PROBE_LOST)

    def limits(self, at: float, kelvin: float, basis: Basis) -> None:
        """Hold the skin against the limits that count: what it passes is called, what holds again is eased.

        Args:
            at: now [s]
            kelvin: the skin [K]
            basis: what that stands on
        """
        state = self.standing.state
        in_sight = not state.paused or (state.is_lost and basis is Basis.MEASURED)
        if not in_sight or state.finished:
            return
        for call, turn in self.standing.limits.see(at, kelvin, basis):
            if turn is Passed.CROSSED:
                self.call(at, call, kelvin, basis)
            elif call in state.alarms:
                self.event(Eased(at, call))

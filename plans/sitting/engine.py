"""The run of a plan: words, readings and time in, log entries out. No input or output of its own, and no wall clock."""

from __future__ import annotations

from collections.abc import Iterable

from plans.plan import Phase, PhaseKind, Plan
from plans.reading import ProbeOn, Reading
from plans.shown import ZERO_CELSIUS
from plans.sitting import course, due
from plans.sitting.events import (
    Basis,
    Begun,
    Call,
    Called,
    Cause,
    Eased,
    Ended,
    Entry,
    Event,
    Said,
    Tick,
    WentOn,
    Word,
)
from plans.sitting.limits import Limits
from plans.sitting.senses import COLDEST, HOTTEST, Probe, Turn
from plans.sitting.state import State
from plans.sitting.warm import GRID, Warm, Where
from plans.trace import Trace, as_logged


class WordError(ValueError):
    """A word that means nothing just now; the text says why, and what would."""


class Sitting:
    """One run of one plan.

    Deterministic: whatever is decided is decided at a grid point or at an entry, never at a tick, so that the entries
    alone make the state, and replaying them makes it again.

    Args:
        plan: what is to be done
        probe_on: where the probe sits; None without one
    """

    def __init__(self, plan: Plan, probe_on: ProbeOn | None = None) -> None:
        self.plan = plan
        self.probe_on = probe_on
        self.state = State(plan)
        self.warm = Warm(plan, probe_on)
        self.measured = Trace()
        """Every reading, as it came."""
        self.probe = Probe()
        self._limits = Limits()
        self._now = 0.0
        self._out: list[Entry] = []
        self._deciding = True

    def open(self) -> list[Entry]:
        """Begin at the first step; to be called once, before anything is taken."""
        place = course.entry(self.plan, 0, None)
        self._emit(Begun(0.0, place.step, place.heat, place.phase))
        return self._hand_over()

    def take(self, entry: Said | Reading | Tick | WentOn) -> list[Entry]:
        """Take one thing in.

        Returns:
            what is to be logged, in order: the entry itself unless it is a tick, and what came of it

        Raises:
            WordError: the word means nothing just now; nothing has changed but the time, and what that brought
                comes with the next call
        """
        at = max(round(entry.at, 3), self._now)
        self._advance(at)
        match entry:
            case Reading(kelvin=kelvin, fault=fault):
                self._hear(as_logged(Reading(at, kelvin, fault)))
            case Said(word=word, text=text):
                self._say(Said(at, word, text))
            case WentOn():
                self._emit(WentOn(at))
            case Tick():
                pass
        return self._hand_over()

    def replay(self, entries: Iterable[Entry]) -> None:
        """Take a log in again, deciding nothing: what was decided stands in it."""
        self._deciding = False
        try:
            for entry in entries:
                self._advance(entry.at)
                if isinstance(entry, Reading):
                    self._hear(entry)
                else:
                    self._apply(entry)
        finally:
            self._deciding = True
        self._out.clear()

    @property
    def now(self) -> float:
        """How far time has come [s]."""
        return self._now

    @property
    def where(self) -> Where:
        """What is going on with the work."""
        state = self.state
        return Where(state.step, state.heat, state.phase, state.paused or state.finished)

    @property
    def skin(self) -> tuple[float, Basis] | None:
        """The work's skin [K], and whether it was measured or modelled; None when neither is to be had."""
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None:
            return self.probe.smooth, Basis.MEASURED
        if self.warm.known:
            return self.warm.skin[-1], Basis.MODELLED
        return None

    # Time

    def _advance(self, at: float) -> None:
        while (point := (self.warm.count + 1) * GRID) <= at:
            self._now = point
            self._listen(point)
            self.warm.advance(self.where, self.probe.kelvin)
            self._watch_skin(point)
            if self._deciding and not self.state.paused and not self.state.finished:
                self._decide(point)
        self._now = max(self._now, at)

    def _listen(self, at: float) -> None:
        """Notice a probe that has fallen silent."""
        if self.probe_on is None or self.state.finished:
            return
        if at - (self.probe.heard_at or 0.0) > self.probe.patience:
            self._lose_probe(at)

    def _lose_probe(self, at: float) -> None:
        self.probe.lose()
        if self._deciding and Call.PROBE_LOST not in self.state.alarms:
            self._call(at, Call.PROBE_LOST)

    def _decide(self, at: float) -> None:
        """Decide what the passing of time brings."""
        state = self.state
        if due.at_heat(self):
            self._emit(Begun(at, state.step, state.heat, PhaseKind.SOAK, Cause.TEMPERATURE))
            return
        for call in due.calls_due(self, at):
            self._call(at, call, *(self.skin or (None, Basis.PLANNED)))

    # Limits

    def _watch_skin(self, at: float) -> None:
        """Hold the modelled skin against the limits while nothing measures it."""
        skin = self.skin
        if skin is not None and skin[1] is Basis.MODELLED:
            self._hold_against_limits(at, skin[0], Basis.MODELLED)

    def _hold_against_limits(self, at: float, kelvin: float, basis: Basis) -> None:
        if self.state.paused or self.state.finished:
            return
        for call, turn in self._limits.see(at, kelvin, basis):
            if not self._deciding:
                continue
            if turn is Turn.CROSSED:
                self._call(at, call, kelvin, basis)
            elif call in self.state.alarms:
                self._emit(Eased(at, call))

    # Readings

    def _hear(self, reading: Reading) -> None:
        self.measured.append(reading.at, reading.kelvin, reading.fault)
        self._out.append(reading)
        if self.probe_on is None or self.state.finished:
            return
        if reading.kelvin is None or not COLDEST <= reading.kelvin <= HOTTEST:
            if (reading.fault or "").startswith("lost"):
                self._lose_probe(reading.at)
            return
        self.probe.hear(reading.at, reading.kelvin)
        if self._deciding and Call.PROBE_LOST in self.state.alarms:
            self._call(reading.at, Call.PROBE_BACK)
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None:
            self._hold_against_limits(reading.at, self.probe.smooth, Basis.MEASURED)

    # Words

    def _say(self, said: Said) -> None:
        state = self.state
        word = said.word
        if state.finished and word not in (Word.NOTE, Word.UNDO):
            raise WordError("the sitting is finished; undo takes that back")
        match word:
            case Word.NEXT:
                self._move(said, course.after(state))
            case Word.ON:
                self._move(said, course.step_after(state))
            case Word.OUT:
                place = course.out_of_fire(state)
                if place is None:
                    raise WordError("the work is not in the fire")
                self._move(said, place)
            case Word.BACK:
                place = course.before(state)
                if place is None:
                    raise WordError("this is the beginning; there is nothing to go back to")
                self._move(said, place)
            case Word.REPEAT:
                self._emit(said)
                place = course.after(state)
                if state.phase is state.current_step.phases[-1].kind and place is not None:
                    self._emit(Begun(said.at, place.step, place.heat, place.phase))
            case Word.PAUSE if state.paused:
                raise WordError("paused already")
            case Word.RESUME if not state.paused:
                raise WordError("not paused")
            case Word.UNDO if not state.marks:
                raise WordError("there is no word to take back")
            case Word.NOTE if not said.text.strip():
                raise WordError("a note needs words: note what was seen")
            case Word.FINISH:
                self._emit(said)
                self._emit(Ended(said.at))
            case _:
                self._emit(said)

    def _move(self, said: Said, place: course.Place | None) -> None:
        self._emit(said)
        if place is None:
            self._emit(Ended(said.at))
        else:
            self._emit(Begun(said.at, place.step, place.heat, place.phase))

    # Events

    @property
    def phase(self) -> Phase:
        """The plan's figures for the phase that is going on; empty ones while the smith is awaited."""
        kind = self.state.phase
        return next((phase for phase in self.state.current_step.phases if phase.kind is kind), Phase(kind))

    def _call(self, at: float, call: Call, kelvin: float | None = None, basis: Basis = Basis.MEASURED) -> None:
        if kelvin is not None:
            kelvin = round(kelvin - ZERO_CELSIUS, 2) + ZERO_CELSIUS  # as the log keeps it
        self._emit(Called(at, call, self.state.step, self.state.heat, kelvin, basis))

    def _emit(self, event: Event) -> None:
        self._apply(event)
        self._out.append(event)

    def _apply(self, event: Event) -> None:
        """Fold an event into the state, and let the warm model and the watches follow it."""
        state = self.state
        match event:
            case Said(word=Word.UNDO):
                moved = state.marks[-1].moved
                state.apply(event)
                self.warm.take_back(self.where, moved)
                if moved:
                    self._limits.set(state.current_step, state.phase)
            case Said(word=Word.ACKNOWLEDGE):
                state.apply(event)
            case Said():
                self.warm.mark()
                state.apply(event)
            case Begun(phase=PhaseKind.SOAK, cause=Cause.WORD):
                by_eye = state.phase is PhaseKind.FIRE and not self._is_measured
                state.apply(event)
                target = state.current_step.target(state.heat)
                if by_eye and target is not None:
                    self.warm.assume_skin(self.where, self.probe.kelvin, target.heat_to)
                self._limits.set(state.current_step, state.phase)
            case Begun():
                state.apply(event)
                self._limits.set(state.current_step, state.phase)
            case _:
                state.apply(event)

    @property
    def _is_measured(self) -> bool:
        skin = self.skin
        return skin is not None and skin[1] is Basis.MEASURED

    def _hand_over(self) -> list[Entry]:
        out, self._out = self._out, []
        return out

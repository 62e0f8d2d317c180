"""The run of a plan: words, readings and time in, log entries out. No input or output of its own, and no wall clock."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from plans.plan import Phase, PhaseKind, Plan
from plans.reading import ProbeOn, Reading
from plans.shop import Shop
from plans.shown import ZERO_CELSIUS
from plans.sitting import course, due
from plans.sitting.arrest import ArrestWatch
from plans.sitting.believed import Believed, tells_loss, why_no_temperature
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
    LeftFire,
    Said,
    Tick,
    WentOn,
    Word,
)
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.limits import Limits
from plans.sitting.phase_spans import phase_spans
from plans.sitting.senses import Passed
from plans.sitting.skin import Skin
from plans.sitting.state import State
from plans.sitting.turning import BRIGHTENING, RISE, Turn, TurningPoints
from plans.sitting.warm import GRID, Warm, Where
from plans.trace import as_logged

_SHORT = 25.0
"""How far short of heat the smith's word puts a skin that was reckoned too hot: a temperature difference [K]."""


class WordError(ValueError):
    """A word that means nothing just now; the text says why, and what would."""


class Sitting:
    """One run of one plan.

    Deterministic: whatever is decided is decided at a grid point or at an entry, never at a tick, so that the entries
    alone make the state, and replaying them makes it again.

    Args:
        plan: what is to be done
        probe_on: where the probe sits; None without one
        hands: what may end a phase by itself
        shop: the smith's own figures
    """

    def __init__(
        self,
        plan: Plan,
        probe_on: ProbeOn | None = None,
        hands: Hands = Hands(),  # noqa: B008 - frozen
        shop: Shop = Shop(),  # noqa: B008 - frozen
    ) -> None:
        self.plan = plan
        self.probe_on = probe_on
        self.hands = hands
        self.shop = shop
        self.state = State(plan)
        self.warm = Warm(plan, probe_on, shop)
        self.believed = Believed(probe_on)
        """Every reading, and what of it is believed."""
        self.measured = self.believed.measured
        """Every reading, as it came."""
        self.probe = self.believed.probe
        """What the probe says just now."""
        self._limits = Limits()
        self._turns = TurningPoints()
        self._arrest = ArrestWatch()
        self._word_at = 0.0
        """When the smith last said where the work is: what is older is not held against him [s]."""
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
        if isinstance(entry, WentOn):
            # What it says holds for the time in between already.
            self._emit(replace(entry, at=at))
        self._advance(at)
        match entry:
            case Reading(kelvin=kelvin, fault=fault):
                self._hear(as_logged(Reading(at, kelvin, fault)))
            case Said(word=word, text=text):
                self._say(Said(at, word, text))
            case _:
                pass
        return self._hand_over()

    def replay(self, entries: Iterable[Entry]) -> None:
        """Take a log in again, deciding nothing: what was decided stands in it."""
        self._deciding = False
        try:
            for entry in entries:
                if isinstance(entry, WentOn):
                    self._apply(entry)
                self._advance(entry.at)
                if isinstance(entry, Reading):
                    self._hear(entry)
                elif not isinstance(entry, WentOn):
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
        in_the_air = state.paused or state.finished or state.left_fire_at is not None
        return Where(state.step, state.heat, state.phase, in_the_air)

    @property
    def skin(self) -> tuple[float, Basis] | None:
        """The work's skin [K], and whether it was measured or modelled; None when neither is to be had."""
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None:
            return self.probe.smooth, Basis.MEASURED
        if self.warm.known:
            return self.warm.skin[-1], Basis.MODELLED
        return None

    @property
    def peak(self) -> float | None:
        """The hottest that the skin was in this heat so far [K], as its figures say it; None while nothing is known."""
        state = self.state
        heat = [part for part in phase_spans(state, self._now) if (part.step, part.heat) == (state.step, state.heat)]
        return Skin(self.believed, self.warm).peak(heat, state.pauses(self._now))

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
        if self.probe.is_silent(at):
            self._lose_probe(at)

    def _lose_probe(self, at: float) -> None:
        self.believed.lose(at)
        self._turns.forget()
        if self._deciding and Call.PROBE_LOST not in self.state.alarms:
            self._call(at, Call.PROBE_LOST)

    def _decide(self, at: float) -> None:
        """Decide what the passing of time brings."""
        state = self.state
        if due.soaks_by_itself(self):
            self._emit(Begun(at, state.step, state.heat, PhaseKind.SOAK, Cause.TEMPERATURE))
            return
        for call in due.calls_due(self, at):
            self._call(at, call, *(self.skin or (None, Basis.PLANNED)))
        place = course.after(state)
        if place is not None and place.step == state.step and due.grace_is_over(self, at):
            self._begin(at, place, Cause.CLOCK)

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
            if turn is Passed.CROSSED:
                self._call(at, call, kelvin, basis)
            elif call in self.state.alarms:
                self._emit(Eased(at, call))

    # Readings

    def _hear(self, reading: Reading) -> None:
        # Heard after the end too: the smith may take that back, and the probe was not lost meanwhile.
        self.believed.hear(reading)
        self._out.append(reading)
        if self.probe_on is None or self.state.finished:
            return
        if reading.kelvin is None or why_no_temperature(reading) is not None:
            if tells_loss(reading):
                self._lose_probe(reading.at)
            return
        if self._deciding and Call.PROBE_LOST in self.state.alarms and self.probe.kelvin is not None:
            self._call(reading.at, Call.PROBE_BACK)
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None:
            self._hold_against_limits(reading.at, self.probe.smooth, Basis.MEASURED)
        self._listen_to_the_steel(reading.at, reading.kelvin)

    def _listen_to_the_steel(self, at: float, kelvin: float) -> None:
        """Hear what the temperature tells of where the work is, and of what goes on inside it."""
        in_the_air = self.state.phase is PhaseKind.AIR
        turn = self._turns.hear(at, kelvin, BRIGHTENING if in_the_air else RISE)
        arrest = None
        if in_the_air and self.probe.kelvin is not None and self.probe_on is ProbeOn.WORK:
            arrest = self._arrest.hear(at, self.probe.kelvin)
        if not self._deciding or self.state.paused:
            return
        if arrest is not None:
            self._call(at, Call.ARREST, self.probe.kelvin, happened=max(arrest, self.state.since))
        if turn is None or turn.at < self._word_at:
            return
        if self.probe_on is ProbeOn.FIRE:
            if not turn.rose:
                self._call(at, Call.FIRE_FELL, self.probe.kelvin, happened=turn.at)
        elif self.hands.free is HandsFree.ALL:
            self._follow(at, turn)

    def _follow(self, at: float, turn: Turn) -> None:
        """The probe on the work felt it go into the fire or come out. Nothing skips a step without the smith."""
        state = self.state
        happened = max(turn.at, state.since)
        if not turn.rose:
            place = course.out_of_fire(state)
            if place is not None and place.phase is PhaseKind.QUENCH:
                if state.left_fire_at is None:
                    self._emit(LeftFire(at, happened))
            elif place is not None and place.step == state.step:
                self._begin(at, place, Cause.PROBE, happened)
            return
        place = course.in_the_fire_again(state)
        if place is not None:
            self._begin(at, place, Cause.PROBE, happened)

    # Words

    def _say(self, said: Said) -> None:
        state = self.state
        word = said.word
        if state.finished and word not in (Word.NOTE, Word.UNDO):
            raise WordError("the sitting is finished; undo takes that back")
        match word:
            case Word.NEXT if state.paused:
                self._emit(Said(said.at, Word.RESUME))
            case Word.NEXT:
                self._move(said, course.after(state))
            case Word.ON:
                self._move(said, course.step_after(state))
            case Word.OUT:
                place = course.out_of_fire(state)
                if place is None or state.left_fire_at is not None:
                    raise WordError("the work is not in the fire")
                if place.phase is PhaseKind.QUENCH:
                    self._emit(said)
                    self._emit(LeftFire(said.at))
                else:
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
                    self._begin(said.at, place, Cause.WORD)
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
            self._begin(said.at, place, Cause.WORD)

    # Events

    def _begin(self, at: float, place: course.Place, cause: Cause, happened: float | None = None) -> None:
        """Begin a phase, and say what is to be said of the one that it ends."""
        closing = due.calls_at_the_end(self, at if happened is None else happened, place)
        self._emit(Begun(at, place.step, place.heat, place.phase, cause, happened))
        for call, kelvin, basis in closing:
            self._call(at, call, kelvin, basis)

    @property
    def phase(self) -> Phase:
        """The plan's figures for the phase that is going on; empty ones while the smith is awaited."""
        kind = self.state.phase
        return next((phase for phase in self.state.current_step.phases if phase.kind is kind), Phase(kind))

    def _call(
        self,
        at: float,
        call: Call,
        kelvin: float | None = None,
        basis: Basis = Basis.MEASURED,
        happened: float | None = None,
    ) -> None:
        if kelvin is not None:
            kelvin = round(kelvin - ZERO_CELSIUS, 2) + ZERO_CELSIUS  # as the log keeps it
        self._emit(Called(at, call, self.state.step, self.state.heat, kelvin, basis, happened))

    def _emit(self, event: Event) -> None:
        self._apply(event)
        self._out.append(event)

    def _apply(self, event: Event) -> None:
        """Fold an event into the state, and let the warm model and the watches follow it."""
        state = self.state
        match event:
            case Said(word=word) if not word.is_aside:
                self._word_at = event.at
        match event:
            case Said(word=Word.UNDO):
                mark = state.marks[-1]
                state.apply(event)
                self.warm.take_back(self.where, mark.moved)
                if mark.moved:
                    self._limits.set(state.current_step, state.heat, state.phase, state.alarms)
                if mark.what is Cause.TEMPERATURE:
                    self._not_at_heat()
            case Said(word=word) if word.is_aside:
                state.apply(event)
            case WentOn(at=at, probe_on=probe_on, stood_since=since):
                state.apply(event)
                self.probe_on = self.warm.probe_on = probe_on
                self.believed.go_on(at, probe_on)
                self._turns.forget()
                if since is not None:
                    self.warm.forget_marks()
            case Said():
                self.warm.mark()
                state.apply(event)
            case Begun(phase=PhaseKind.SOAK, cause=Cause.WORD):
                by_eye = state.phase is PhaseKind.FIRE and not self.is_measured
                state.apply(event)
                target = state.current_step.target(state.heat)
                if by_eye and target is not None:
                    self.warm.assume_skin(self.where, self.probe.kelvin, target.heat_to)
                self._limits.set(state.current_step, state.heat, state.phase, state.alarms)
            case Begun(cause=cause, phase=phase):
                if cause.by_itself:
                    self.warm.mark()
                state.apply(event)
                if phase is PhaseKind.AIR:
                    self._arrest = ArrestWatch()
                self._limits.set(state.current_step, state.heat, state.phase, state.alarms)
                if state.not_yet:
                    self._not_at_heat()
            case _:
                state.apply(event)

    def _not_at_heat(self) -> None:
        """The smith sees that the skin is not at heat yet: the model must not say that it is."""
        target, skin = self.state.current_step.target(self.state.heat), self.skin
        if target is not None and skin is not None and skin[1] is Basis.MODELLED and skin[0] > target.heat_to - _SHORT:
            self.warm.assume_skin(self.where, self.probe.kelvin, target.heat_to - _SHORT)

    @property
    def is_measured(self) -> bool:
        """Whether a probe on the work tells its skin just now."""
        skin = self.skin
        return skin is not None and skin[1] is Basis.MEASURED

    def _hand_over(self) -> list[Entry]:
        out, self._out = self._out, []
        return out

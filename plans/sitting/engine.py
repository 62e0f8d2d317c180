"""The run of a plan: words, readings and time in, log entries out. No input or output of its own, and no wall clock."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cached_property

from plans.phase import PhaseKind
from plans.plan import Phase, Plan, Step
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting import course, due
from plans.sitting.arrest import ArrestWatch
from plans.sitting.asking import asked
from plans.sitting.believed import Believed, tells_loss
from plans.sitting.calls import PROMPTS, Call
from plans.sitting.course import PlanPoint
from plans.sitting.due import Closing, Facts
from plans.sitting.effects import Effect, effects_of
from plans.sitting.events import (
    Asked,
    Basis,
    Begun,
    Called,
    Cause,
    Doubt,
    Eased,
    Ended,
    Entry,
    Event,
    LeftFire,
    Said,
    Tick,
    WentOn,
    Word,
    as_kept,
)
from plans.sitting.folding import fold
from plans.sitting.following import followed, late_by
from plans.sitting.gaps import last_before
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.limits import Limits
from plans.sitting.outlook import Span
from plans.sitting.pace import TRANSFORMS_BELOW, fastest_change, section_at
from plans.sitting.phase_span import phase_spans, spans_by_model
from plans.sitting.quench import hardening_ceiling, quench_floor
from plans.sitting.retracing import Kept, retrace, run_anew
from plans.sitting.senses import Passed
from plans.sitting.skin import Skin
from plans.sitting.slowness import is_too_slow
from plans.sitting.state import State
from plans.sitting.turning import BRIGHTENING, RISE, Turn, TurningPoints, fall_within
from plans.sitting.undo import UndoPoint
from plans.sitting.warm import GRID, Exposure, WorkWarmth
from plans.trace import as_logged
from plans.units import ZERO_CELSIUS
from plans.warmth import Part

_LONG = 8
"""So many grid points with no entry of the log are passed over at once, where nothing comes about."""
_SOAK_DONE = frozenset({Call.SOAK_DONE})
_ECHO = 0.5
"""The same word sooner than this after it was asked about is no answer, but a stutter [s]."""
_GLOWS, _FALLS = 550.0 + ZERO_CELSIUS, 0.3
"""Work that is hotter [K] and does not fall as fast as this [K/s] lies in the fire; from memory, no source."""
_NEARLY = 100.0
"""Who was at the work when it was colder than its flux heat by no more than this fluxed it: a temperature difference
[K]; from memory, no source."""
_SHORT = 25.0
"""How far short of heat the smith's word puts a skin that was reckoned too hot: a temperature difference [K]."""


class Sitting:
    """One run of one plan: the only thing that decides.

    Deterministic: whatever is decided is decided at a grid point or at an entry, never at a tick, so that the entries
    alone make the state, and replaying them makes it again.

    Args:
        plan: what is to be done
        probe_on: where the probe sits; None without one
        hands: what may end a phase by itself
        shop: the smith's own figures
        lag: how far the probe itself lags behind what it sits on: its time constant [s]
    """

    def __init__(
        self,
        plan: Plan,
        probe_on: ProbeOn | None = None,
        hands: Hands = Hands(),  # noqa: B008 - frozen
        shop: Shop = Shop(),  # noqa: B008 - frozen
        lag: float = 0.0,
    ) -> None:
        self.plan = plan
        """What is to be done."""
        self.probe_on = probe_on
        """Where the probe sits; None without one."""
        self.hands = hands
        """What may end a phase by itself."""
        self.shop = shop
        """The smith's own figures."""
        self.lag = lag
        """How far the probe itself lags: its time constant [s]. What came of it stands in the log."""
        self.state = State()
        """Where the sitting stands: its events, folded."""
        self.warm = WorkWarmth(plan, probe_on, shop)
        """The warm model of the work, run along."""
        self.believed = Believed(probe_on, fastest_change(plan))
        """Every reading, and what of it is believed."""
        self.measured = self.believed.measured
        """Every reading, as it came."""
        self.probe = self.believed.probe
        """What the probe says just now."""
        self._limits = Limits()
        self._skin_at_first: float | None = None
        """The work's skin as the phase that goes on began [K]."""
        self._bases: list[Kept] = [(0, self.warm.remember())]
        """How the work was as the sitting began, and each time that the program was started again."""
        self._rewritten: list[tuple[float, float]] = []
        """What of the warm model's past was run anew, from and to [s]: what was kept of it before is no longer so."""
        self._asked_with: Kept | None = None
        """How many phases had begun as a word was asked about last, and the work in the warm model then."""
        self._turns = TurningPoints()
        self._arrest = ArrestWatch()
        self._word_at = 0.0
        """When the smith last said where the work is [s]: no turn of the temperature before it counts."""
        self._peak: tuple[float, tuple[float, Basis] | None] = 0.0, None
        """Until when the peak of this heat was worked out, and what it was; from the beginning, once it may change."""
        self._section: tuple[int, int, Section | None] = -1, 0, None
        """Step, heat and section that were asked for last."""
        self._now = 0.0
        self._out: list[Entry] = []
        self._deciding = True

    def open(self) -> list[Entry]:
        """Begin at the first step; to be called once, before anything is taken.

        Returns:
            what is to be logged
        """
        point = course.entry(self.plan, 0, None)
        self._emit(Begun(0.0, point.step, point.heat, point.phase))
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
            self._advance(_left_at(entry))
            # What it says holds for the time in between already.
            self._emit(replace(entry, at=at))
        self._advance(at)
        match entry:
            case Reading(kelvin=kelvin, fault=fault):
                self._hear(as_logged(entry if entry.at == at else Reading(at, kelvin, fault)))
            case Said(word=word, text=text):
                self._say(Said(at, word, text))
            case _:
                pass
        return self._hand_over()

    def replay(self, entries: Iterable[Entry]) -> None:
        """Take a log in again, deciding nothing: what was decided stands in it.

        Whoever goes on from there says so with `WentOn`: where the temperature turned is not followed meanwhile, and
        limits are watched anew from the end on.
        """
        self._deciding = False
        try:
            for entry in entries:
                if isinstance(entry, Reading):
                    self._advance(entry.at)
                    self._hear(entry)
                elif isinstance(entry, WentOn):
                    self._advance(_left_at(entry))
                    self._apply(entry)
                    self._advance(entry.at)
                else:
                    self._advance(entry.at)
                    self._apply(entry)
        finally:
            self._deciding = True
            self._turns.forget()
            self._watch_limits()

    @property
    def now(self) -> float:
        """How far time has come [s]."""
        return self._now

    @property
    def current_step(self) -> Step:
        """The step that is going on, as the plan has it; `state.step` is its number."""
        return self.plan.steps[self.state.step]

    @property
    def current_phase(self) -> Phase:
        """The phase that is going on, as the plan has it; `state.phase` is its kind.

        While the smith is awaited, which no plan names, it has no figures.
        """
        kind = self.state.phase
        for phase in self.current_step.phases:
            if phase.kind is kind:
                return phase
        return Phase(kind)

    def heats_planned(self, step: int) -> int:
        """How many heats a step (from 0) has, those that were added to the plan counted in."""
        return course.heats_planned(self.plan, self.state, step)

    @property
    def exposure(self) -> Exposure:
        """What the work is exposed to just now."""
        state = self.state
        in_the_air = state.paused or state.finished or state.left_fire_at is not None or state.out_for_a_look
        return Exposure(state.step, state.heat, state.phase, in_the_air)

    @property
    def skin(self) -> tuple[float, Basis] | None:
        """The work's skin [K], and whether it was measured or modelled; None when neither is to be had."""
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None and not self.state.strikes_by_model:
            return self.probe.smooth, Basis.MEASURED
        if self.warm.known:
            return self.warm.skin_now, Basis.MODELLED
        return None

    @property
    def leading(self) -> float | None:
        """What the probe says, where the warm model goes by it [K]; None without one, and where it is too slow."""
        return None if self.state.strikes_by_model else self.probe.kelvin

    @property
    def peak(self) -> tuple[float, Basis] | None:
        """The hottest that the skin was in this heat so far [K], as its figures say it, and whether that was measured.

        It is worked out from what of the heat was not looked at yet: ask for it at a word, not at every tick.
        """
        state, (since, before) = self.state, self._peak
        spans = (part for part in phase_spans(state, self._now) if (part.step, part.heat) == (state.step, state.heat))
        heat = [replace(part, began=max(part.began, since)) for part in spans if part.ended > since]
        skin = Skin(self.believed, self.warm, spans_by_model(state, self._now))
        peak = skin.peak(heat, state.pauses(self._now))
        if before is not None and (peak is None or before[0] >= peak[0]):
            peak = before
        self._peak = self._now, peak
        return peak

    # Time

    def _advance(self, at: float) -> None:
        last = int(at / GRID)
        while self.warm.count < last:
            self._advance_by_one()
            if last - self.warm.count > _LONG:
                self._pass_over(last)
        self._now = max(self._now, at)

    def _advance_by_one(self) -> None:
        self._now = point = (self.warm.count + 1) * GRID
        self._listen(point)
        self.warm.advance(self.exposure, self.leading)
        if not self._deciding:
            return
        self._watch_skin(point)
        if not self.state.paused and not self.state.finished:
            self._decide(point)

    def _pass_over(self, last: int) -> None:
        """Go on to the point before the next one at which something comes about, or to the last, all at once."""
        exposure = self.exposure
        if self.leading is not None or not self.warm.stands(exposure):
            return
        if self.probe_on is not None and not self.state.finished and not self.probe.is_silent(self._now):
            last = min(last, int(self.probe.stands_until / GRID))
        number = last_before(self._comes_about, self.warm.count, last)
        if number > self.warm.count:
            self.warm.pass_over(exposure, number)
            self._now = number * GRID

    def _comes_about(self, number: int) -> bool:
        """Whether anything comes about at a later grid point, if nothing does before it and nothing changes."""
        state, at = self.state, number * GRID
        if not self._deciding or state.paused or state.finished:
            return False
        foreseen, facts = self.warm.foreseen(self.exposure, number), self._facts(at)
        if foreseen is not None:
            skin = facts.skin if facts.basis is Basis.MEASURED else foreseen[0]
            facts = replace(facts, skin=skin, middle=foreseen[1])
        if due.soaks_by_itself(facts) or due.calls_due(facts) or self._next_by_the_clock(facts) is not None:
            return True
        return foreseen is not None and self._limits.turn_at(foreseen[0])

    def _listen(self, at: float) -> None:
        """Notice a probe that has fallen silent."""
        if self.probe_on is None or self.state.finished:
            return
        if self.probe.is_silent(at):
            self.believed.fall_silent(at)
            self._miss_probe(at)

    def _miss_probe(self, at: float) -> None:
        self._turns.forget()
        if self._deciding and Call.PROBE_LOST not in self.state.alarms:
            self._call(at, Call.PROBE_LOST)

    def _decide(self, at: float) -> None:
        """Decide what the passing of time brings."""
        state, facts = self.state, self._facts(at)
        if Call.FIRE_COLD in state.alarms and due.fire_is_hot_enough(facts):
            self._emit(Eased(at, Call.FIRE_COLD))
        if due.soaks_by_itself(facts):
            self._emit(Begun(at, state.step, state.heat, PhaseKind.SOAK, Cause.TEMPERATURE))
            return
        if calls := due.calls_due(facts):
            for call in calls:
                self._call(at, call, facts.skin, facts.basis)
            facts = self._facts(at)
        if (point := self._next_by_the_clock(facts)) is not None:
            self._begin(at, point, Cause.CLOCK)

    def _next_by_the_clock(self, facts: Facts) -> PlanPoint | None:
        """What begins now without a word, as time is up; None where nothing does."""
        point = course.after(self.plan, self.state) if due.grace_is_over(facts) else None
        return point if point is not None and point.step == self.state.step else None

    def _facts(self, at: float) -> Facts:
        """How the sitting stands at `at` [s], for what falls due."""
        state, step = self.state, self.current_step
        skin, basis = self.skin or (None, Basis.PLANNED)
        return Facts(
            at=at,
            step=step,
            target=step.target(state.heat),
            phase=self.current_phase,
            since=state.since,
            elapsed=state.elapsed(at),
            skin=skin,
            basis=basis,
            middle=self.warm.middle_now if self.warm.known else None,
            hands=self.hands,
            soak_by_word_only=state.soak_by_word_only,
            end_by_word_only=state.end_by_word_only,
            left_fire_at=state.left_fire_at,
            called=state.called,
            soak_done_at=state.called_at(_SOAK_DONE) if Call.SOAK_DONE in state.called else None,
            prompted_at=state.called_at((state.alarms & PROMPTS) - {Call.FLUX_NOW}) if state.alarms else None,
            restarted_at=max(state.restarted_at, state.looks[-1][1] if state.looks else 0.0),
            quenched_at=state.began_at(PhaseKind.QUENCH) if state.phase is PhaseKind.READY else None,
            begun_by=state.last_begun.cause,
            paused=state.paused,
            is_lost=state.is_lost,
            looked=state.out_for_a_look,
            fluxed=step.flux_at is not None and state.looked_above(step.flux_at - _NEARLY),
            behind=0.0,
            skin_at_first=self._skin_at_first,
            fire=self.probe.kelvin if self.probe_on is ProbeOn.FIRE else None,
        )

    # Limits

    def _watch_skin(self, at: float) -> None:
        """Hold the modelled skin against the limits while nothing measures it."""
        skin = self.skin
        if skin is not None and skin[1] is Basis.MODELLED:
            self._hold_against_limits(at, skin[0], Basis.MODELLED)

    def _hold_against_limits(self, at: float, kelvin: float, basis: Basis) -> None:
        in_sight = not self.state.paused or (self.state.is_lost and basis is Basis.MEASURED)
        if not in_sight or self.state.finished:
            return
        for call, turn in self._limits.see(at, kelvin, basis):
            if turn is Passed.CROSSED:
                self._call(at, call, kelvin, basis)
            elif call in self.state.alarms:
                self._emit(Eased(at, call))

    # Readings

    def _hear(self, reading: Reading) -> None:
        # Heard after the end too: the smith may take that back, and the probe was not lost meanwhile.
        self.warm.mark()
        is_believed = self.believed.hear(reading)
        if not self._deciding:
            if is_believed and self.state.phase is PhaseKind.AIR and not self.state.finished:
                self._listen_to_the_steel(reading.at)
            return
        self._out.append(reading)
        if self.probe_on is None or self.state.finished:
            return
        if tells_loss(reading):
            self._miss_probe(reading.at)
        if not is_believed:
            return
        if Call.PROBE_LOST in self.state.alarms:
            self._call(reading.at, Call.PROBE_BACK)
        if self.is_measured and self.probe.smooth is not None:
            self._hold_against_limits(reading.at, self.probe.smooth, Basis.MEASURED)
        arrest = self._listen_to_the_steel(reading.at)
        self._listen_for_turns(reading.at, arrest)

    def _listen_to_the_steel(self, at: float) -> float | None:
        """Hear what the temperature tells of what goes on inside work in the air: when an arrest began [s]."""
        begun, kelvin = self.state.last_begun, self.probe.kelvin
        if begun.phase is not PhaseKind.AIR or self.probe_on is not ProbeOn.WORK or kelvin is None:
            return None
        return self._arrest.hear(at, kelvin, self._section_in(begun.step, begun.heat))

    def _listen_for_turns(self, at: float, arrest: float | None) -> None:
        """Hear what the temperature tells of where the work is, and say what it told of its inside."""
        begun, kelvin = self.state.last_begun, self.probe.kelvin
        if kelvin is None:
            return
        if self.probe.anew:
            # What no steel can do was not done by the work: the probe slipped, or was set on anew.
            self._turns.forget()
        section = self._section_in(begun.step, begun.heat) if self.probe_on is ProbeOn.WORK else None
        may_brighten = begun.phase is PhaseKind.AIR and kelvin < TRANSFORMS_BELOW
        turn = self._turns.hear(at, kelvin, BRIGHTENING if may_brighten else RISE, fall_within(section, kelvin))
        if self.state.paused:
            return
        if arrest is not None:
            self._call(at, Call.ARREST, kelvin, happened=max(arrest, self.state.since))
        if turn is None or turn.at < self._word_at:
            return
        if self.probe_on is ProbeOn.FIRE:
            if not turn.rose:
                self._call(at, Call.FIRE_FELL, kelvin, happened=turn.at)
        elif self.hands.free is HandsFree.ALL:
            self._follow(at, turn)

    def _section_in(self, step: int, heat: int) -> Section | None:
        """The section in a heat of a step, which is asked for at every reading."""
        if self._section[:2] != (step, heat):
            self._section = step, heat, section_at(self.plan, step, heat)
        return self._section[2]

    def _follow(self, at: float, turn: Turn) -> None:
        """The probe on the work felt it go into the fire or come out."""
        happened = max(turn.at - late_by(turn, self.lag), self.state.since, self._word_at)
        for brought in followed(turn, happened, self._facts(at), self.peak, self.plan, self.state):
            if isinstance(brought, PlanPoint):
                self._begin(at, brought, Cause.PROBE, happened)
            elif isinstance(brought, Call):
                self._call(at, brought, turn.kelvin, happened=happened)
            else:
                self._emit(brought)

    # Words

    def _say(self, said: Said) -> None:
        facts = self._facts(said.at)
        question = self.state.asks(said.at)
        again = question is not None and said.at - question.at >= _ECHO and _answers(said.word, question)
        answered = question if again else None
        if self.hands.asks and not answered:
            said = self._answered(said, facts)
        effects = effects_of(said, self.plan, self.state, self._is_colder(facts))
        if self.hands.asks:
            asked = self._asked(said, facts, effects)
            if asked is not None and not (answered and _is_settled(answered, asked)):
                self._emit(asked)
                return
        # Said once more: it was so when it was said first.
        since = None if answered is None or answered.doubt is Doubt.WHERE else answered.at
        for effect in effects:
            if isinstance(effect, PlanPoint):
                since = self._since_when(effect) if since is None else since
                back = said.word is Word.BACK
                colder = self.state.phase is PhaseKind.SOAK and effect == self._first_of_this_heat and not back
                self._begin(said.at, effect, Cause.COLDER if colder else Cause.WORD, since, closes=not back)
            elif isinstance(effect, Call):
                self._call(said.at, effect, facts.skin, facts.basis)
            elif isinstance(effect, Ended) and said.word is not Word.FINISH:
                self._close(said.at, self._closing(None), effect)
            else:
                self._emit(effect)

    @property
    def _first_of_this_heat(self) -> PlanPoint:
        return PlanPoint(self.state.step, self.state.heat, PhaseKind.FIRE)

    def _is_colder(self, facts: Facts) -> bool:
        """Whether the work is below its heat; of a pause that it may have lain in the fire through, no model tells."""
        unknown = self.state.may_have_lain_in_it(facts.at) and facts.basis is not Basis.MEASURED
        return due.below_heat(facts) and not unknown

    def _answered(self, said: Said, facts: Facts) -> Said:
        """Where the work is after a pause, a probe on it can tell: it stays hot nowhere but in the fire."""
        if not facts.is_lost or said.word not in (Word.NEXT, Word.RESUME) or not self.is_measured:
            return said
        assert facts.skin is not None
        stays_hot = facts.skin > _GLOWS and self.believed.slope(facts.at) > -_FALLS
        return replace(said, word=Word.IN if stays_hot else Word.OUT)

    def _asked(self, said: Said, facts: Facts, effects: Iterable[Effect]) -> Asked | None:
        """What is asked about a word before it is taken; None where it can be meant."""
        point = None
        for effect in effects:
            if isinstance(effect, LeftFire):
                point = PlanPoint(self.state.step, self.state.heat, PhaseKind.QUENCH)
            elif isinstance(effect, PlanPoint):
                point = effect
        same_step = point is not None and point.step == self.state.step
        if self.is_measured:
            facts = replace(facts, behind=(self.lag + self.probe.behind) * self.believed.slope(said.at))

        def until(part: Part, kelvin: float) -> Span | None:
            return self.warm.until(self.exposure, self.leading, part, kelvin)

        return asked(said, facts, point, same_step, until)

    def _since_when(self, point: PlanPoint) -> float | None:
        """When that really began which a word says: what the probe felt before may have been it [s]; None for now."""
        state = self.state
        if state.went_in_unsaid and point.step > state.step:
            # In for the next step already: it was no heat of this one.
            return state.since
        if state.out_for_a_look and point.phase is PhaseKind.STRIKE:
            return state.looked_since
        return None

    # Events

    def _begin(
        self, at: float, point: PlanPoint, cause: Cause, happened: float | None = None, *, closes: bool = True
    ) -> None:
        """Begin a phase, and say what is to be said of the one that it ends; of one that is begun anew, nothing."""
        closing = self._closing(point, happened) if closes else []
        self._close(at, closing, Begun(at, point.step, point.heat, point.phase, cause, happened))
        if point.phase is PhaseKind.STRIKE:
            self._weigh_the_probe(at)

    def _close(self, at: float, closing: Sequence[Closing], by: Event) -> None:
        """Make the calls on a phase after the event that ends it, but as calls of its own step and heat."""
        step, heat = self.state.step, self.state.heat
        self._emit(by)
        for one in closing:
            kelvin = None if one.kelvin is None else as_kept(one.kelvin)
            took, wanted = (None if span is None else round(span, 3) for span in (one.took, one.wanted))
            self._emit(Called(at, one.call, step, heat, kelvin, one.basis, took=took, wanted=wanted))

    def _closing(self, point: PlanPoint | None, happened: float | None = None) -> list[Closing]:
        """What is to be said of the phase that goes on, as the sitting goes on to another point or to its end."""
        state = self.state
        following = point.phase if point is not None and point.step == state.step else None
        facts = self._facts(self._now if happened is None else happened)
        floor = quench_floor(self.plan) if following is PhaseKind.QUENCH else None
        return due.calls_at_the_end(facts, following, self.peak, floor, self._soak_left(facts))

    def _soak_left(self, facts: Facts) -> float | None:
        """How long a soak by the warm model still likely takes [s]; None in any other phase."""
        if facts.phase.kind is not PhaseKind.SOAK or facts.phase.seconds is not None or facts.target is None:
            return None
        even = facts.target.heat_to - facts.step.even_within
        return self.warm.likely_until(self.exposure, self.leading, Part.MIDDLE, even)

    def _weigh_the_probe(self, at: float) -> None:
        """Where the probe is too slow to be struck by, say so, and how warm the work must be by now."""
        step, heat, kelvin = self.current_step, self.state.heat, self.probe.kelvin
        section = section_at(self.plan, self.state.step, heat)
        around = self.warm.around(self.exposure, None)
        if self.probe_on is not ProbeOn.WORK or kelvin is None or section is None or around is None:
            return
        behind = self.lag + self.probe.behind
        if is_too_slow(behind, step, heat, section, around):
            # What lags by a time constant is as far off as it changes in that time.
            self._call(at, Call.PROBE_SLOW, kelvin + min(0.0, behind * self.believed.slope(at)), Basis.MODELLED)

    def _call(
        self,
        at: float,
        call: Call,
        kelvin: float | None = None,
        basis: Basis = Basis.MEASURED,
        happened: float | None = None,
    ) -> None:
        kelvin = None if kelvin is None else as_kept(kelvin)
        self._emit(Called(at, call, self.state.step, self.state.heat, kelvin, basis, happened))

    def _emit(self, event: Event) -> None:
        self._apply(event)
        self._out.append(event)

    def _apply(self, event: Event) -> None:
        """Fold an event into the state, and let the warm model and the watches follow it."""
        self.warm.mark()
        state = self.state
        was_in_the_fire = state.phase is PhaseKind.FIRE
        lay_in_it_since = state.paused_at if state.may_have_lain_in_it(event.at) else None
        went_back_to = fold(state, event, self.warm.remember)
        if not isinstance(event, Called | Eased) or (isinstance(event, Called) and event.call is Call.PROBE_SLOW):
            self._peak = 0.0, None
        match event:
            case Said(at=at, word=word):
                if not word.is_aside:
                    self._word_at = at
                if went_back_to is not None and word is Word.EARLIER:
                    self._retrace(state.last_since())
                elif went_back_to is not None:
                    self._go_back(went_back_to)
                elif word is Word.IN and lay_in_it_since is not None:
                    self._retrace(lay_in_it_since)
            case Asked():
                self._asked_with = len(state.begins), self.warm.remember()
            case WentOn(at=at, probe_on=probe_on):
                self.probe_on = self.warm.probe_on = probe_on
                self.believed.go_on(at, probe_on)
                self._bases.append((len(state.begins), self.warm.remember()))
                self._turns.forget()
            case Begun(phase=phase, cause=cause, happened=happened):
                if phase is PhaseKind.AIR:
                    self._arrest = ArrestWatch()
                elif phase is PhaseKind.SOAK and cause is Cause.WORD and was_in_the_fire:
                    self.warm.see_at_heat(event.step, event.heat, self.probe.kelvin)
                if cause is Cause.WORD and happened is not None:
                    self._retrace(happened)
                self._skin_at_first = None if self.skin is None else self.skin[0]
                self._watch_limits()
                if state.soak_by_word_only:
                    self._not_at_heat()
            case Called(call=Call.PROBE_SLOW, kelvin=float(kelvin)) if self.warm.known:
                self.warm.assume_skin(self.exposure, None, kelvin)
            case _:
                pass

    def _go_back(self, point: UndoPoint) -> None:
        """The state went back to an undo point; the warm model and the limits follow it."""
        if point.moved:
            run_anew(self.warm, self.state, (point.begins, point.work), self.probe.kelvin)
            self._watch_limits()
        if point.what is Cause.TEMPERATURE:
            self._not_at_heat()

    def _retrace(self, since: float) -> None:
        """What the work was exposed to since a time [s] is known otherwise by now: the warm model follows that."""
        aside = (*self._bases, *(() if self._asked_with is None else (self._asked_with,)))
        retrace(self.warm, self.state, aside, self._rewritten, since, self.probe.kelvin)
        self._rewritten.append((since, self._now))
        self._watch_limits()

    def _watch_limits(self) -> None:
        step, state = self.current_step, self.state
        quenches = any(phase.kind is PhaseKind.QUENCH for phase in step.phases)
        by_steel = self._hottest_to_harden if quenches else None
        self._limits.set(step, state.heat, state.phase, state.alarms, by_steel)

    def _not_at_heat(self) -> None:
        """The smith sees that the skin is not at heat yet: the model must not say that it is."""
        target, skin = self.current_step.target(self.state.heat), self.skin
        if target is not None and skin is not None and skin[1] is Basis.MODELLED and skin[0] > target.heat_to - _SHORT:
            self.warm.assume_skin(self.exposure, self.probe.kelvin, target.heat_to - _SHORT)

    @property
    def is_measured(self) -> bool:
        """Whether a probe on the work tells its skin just now."""
        skin = self.skin
        return skin is not None and skin[1] is Basis.MEASURED

    @cached_property
    def _hottest_to_harden(self) -> float | None:
        return hardening_ceiling(self.plan)

    def _hand_over(self) -> list[Entry]:
        out, self._out = self._out, []
        return out


def _left_at(entry: WentOn) -> float:
    """When the program was left before it was started again [s]; 0 where that is not known."""
    return next((since for since in (entry.paused_since, entry.away_since) if since is not None), 0.0)


def _is_settled(answered: Asked, asked: Asked) -> bool:
    """Whether no further question is asked: after that whether a press was meant, what the steel can have done is."""
    return answered.doubt is asked.doubt or answered.doubt is not Doubt.JUST_BEGAN


def _answers(word: Word, question: Asked) -> bool:
    """Whether a word says once more what was asked about; the key that ends a pause only asks again where it is."""
    if question.doubt is Doubt.WHERE and question.word is not Word.ON:
        return word is Word.NEXT
    return word is question.word

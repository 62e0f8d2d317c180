"""How a sitting stands by its entries alone: whatever follows from what happened, and nothing that is decided."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import Protocol

from plans.phase import PhaseKind
from plans.plan import Phase, Plan, Step
from plans.reading import ProbeOn, Reading
from plans.shop import Shop
from plans.sitting import course
from plans.sitting.as_measured import plan_as_measured
from plans.sitting.believed import Believed
from plans.sitting.calls import Call
from plans.sitting.ears import Ears
from plans.sitting.events import Asked, Basis, Begun, Called, Cause, Entry, Event, Said, WentOn, Word
from plans.sitting.folding import fold
from plans.sitting.gaps import last_before
from plans.sitting.hands import Hands
from plans.sitting.limits import Limits
from plans.sitting.pace import fastest_change
from plans.sitting.peak import Peak
from plans.sitting.quench import hardening_ceiling
from plans.sitting.retracing import Retracing, run_anew
from plans.sitting.state import State
from plans.sitting.undo import UndoPoint
from plans.sitting.warm import GRID, Exposure, WorkWarmth

_LONG = 8
"""So many grid points with no entry of the log are passed over at once, where nothing comes about."""
_SHORT = 25.0
"""How far short of heat the smith's word puts a skin that was reckoned too hot: a temperature difference [K]."""


class Decides(Protocol):
    """What is asked at every point of the grid, while a sitting runs."""

    def decide(self, at: float, fell_silent: bool) -> None:
        """Decide what a grid point brings.

        Args:
            at: its time [s]
            fell_silent: whether the probe has been silent for too long by now
        """

    def comes_about(self, number: int) -> bool:
        """Whether anything comes about at a later grid point, if nothing does before it and nothing changes."""


class Standing:
    """A sitting as its entries have made it: the events folded, the readings believed, the warm model run along.

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
        self.now = 0.0
        """How far time has come [s]."""
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
        self.ears = Ears()
        """What the probe tells of its own accord."""
        self.limits = Limits()
        """The limits that count in the phase that goes on."""
        self.skin_at_first: float | None = None
        """The work's skin as the phase that goes on began [K]."""
        self.word_at = 0.0
        """When the smith last said where the work is [s]: no turn of the temperature before it counts."""
        self._peak = Peak(self.believed, self.warm)
        self._retracing = Retracing(self.warm.remember())

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
        if self.probe_on is ProbeOn.WORK and self.probe.smooth is not None and not self._strikes_by_model:
            return self.probe.smooth, Basis.MEASURED
        if self.warm.known:
            return self.warm.skin_now, Basis.MODELLED
        return None

    @property
    def is_measured(self) -> bool:
        """Whether a probe on the work tells its skin just now."""
        skin = self.skin
        return skin is not None and skin[1] is Basis.MEASURED

    @property
    def leading(self) -> float | None:
        """What the probe says, where the warm model goes by it [K]; None without one, and where the work is struck and
        the probe on it is too slow for that, or silent just now."""
        return None if self._strikes_by_model else self.probe.kelvin

    @property
    def _strikes_by_model(self) -> bool:
        if self.state.strikes_by_model:
            return True
        # A few seconds are much of hammer time: what the probe said last is not held on to until it counts as lost.
        struck = self.state.phase is PhaseKind.STRIKE and self.probe_on is ProbeOn.WORK
        return struck and self.probe.age(self.now) is not None

    @property
    def peak(self) -> tuple[float, Basis] | None:
        """The hottest that the skin was in this heat so far [K], as its figures say it, and whether that was measured.

        It is worked out from what of the heat was not looked at yet: ask for it at a word, not at every tick.
        """
        return self._peak.up_to(self.state, self.now)

    # Time

    def advance(self, at: float, decides: Decides | None = None) -> None:
        """Go on to a time.

        Args:
            at: the time [s]
            decides: is asked what each grid point brings; None where that stands in the log
        """
        last = int(at / GRID)
        while self.warm.count < last:
            self._advance_by_one(decides)
            if last - self.warm.count > _LONG:
                self._pass_over(last, decides)
        self.now = max(self.now, at)

    def _advance_by_one(self, decides: Decides | None) -> None:
        self.now = point = (self.warm.count + 1) * GRID
        fell_silent = self.probe_on is not None and not self.state.finished and self.probe.is_silent(point)
        if fell_silent:
            self.believed.fall_silent(point)
            self.ears.forget()
        self.warm.advance(self.exposure, self.leading)
        if decides is not None:
            decides.decide(point, fell_silent)

    def _pass_over(self, last: int, decides: Decides | None) -> None:
        """Go on to the point before the next one at which something comes about, or to the last, all at once."""
        exposure = self.exposure
        if self.leading is not None or not self.warm.stands(exposure):
            return
        if self.probe_on is not None and not self.state.finished and not self.probe.is_silent(self.now):
            last = min(last, int(self.probe.stands_until / GRID))
        number = last if decides is None else last_before(decides.comes_about, self.warm.count, last)
        if number > self.warm.count:
            self.warm.pass_over(exposure, number)
            self.now = number * GRID

    # Entries

    def replay(self, entries: Iterable[Entry]) -> None:
        """Take a log in again, deciding nothing: what was decided stands in it.

        Whoever goes on from there says so with `WentOn`: where the temperature turned is not followed meanwhile, and
        limits are watched anew from the end on.
        """
        back_at = 0.0
        try:
            for entry in entries:
                if isinstance(entry, WentOn):
                    # What came about in the break stands behind it, and comes before its time.
                    self.advance(entry.left_at)
                    back_at = entry.at
                else:
                    self.advance(entry.at)
                if not isinstance(entry, Reading):
                    self.apply(entry)
                elif self.hear(entry):
                    self.arrest_began(entry.at)
            self.advance(back_at)
        finally:
            self.ears.forget()
            self._watch_limits()

    def hear(self, reading: Reading) -> bool:
        """Take a reading in, whose time has come; whether it is believed."""
        self.warm.mark()
        return self.believed.hear(reading)

    def arrest_began(self, at: float) -> float | None:
        """When an arrest began that a believed reading at `at` [s] bears out [s]; None where none does."""
        if self.state.finished:
            return None
        return self.ears.arrest_began(at, self.probe, self.probe_on, self.state.last_begun, self.plan)

    def apply(self, event: Event) -> None:
        """Fold an event into the state, and let the warm model and the watches follow it."""
        self.warm.mark()
        state = self.state
        was_in_the_fire = state.phase is PhaseKind.FIRE
        lay_in_it_since = self._may_lie_in_it_since(event.at)
        went_back_to = fold(state, event, self.warm.remember)
        if state.measurements or self.warm.plan is not self.plan:
            self.warm.go_by(plan_as_measured(self.plan, state))
        self._peak.follow(event)
        self.ears.follow(event)
        match event:
            case Said(at=at, word=word):
                if not word.is_aside:
                    self.word_at = at
                if went_back_to is not None and word is Word.EARLIER:
                    self._retrace(state.last_since())
                elif went_back_to is not None:
                    self._go_back(went_back_to)
                    # What was said of the time before the word is taken back, or said again, with it.
                    for since in (lay_in_it_since, self._may_lie_in_it_since(at)):
                        if since is not None:
                            self._retrace(since)
                elif word is Word.IN and lay_in_it_since is not None:
                    self._retrace(lay_in_it_since)
            case Asked():
                self._retracing.keep_asked(len(state.begins), self.warm.remember())
            case WentOn(at=at, probe_on=probe_on):
                self.probe_on = self.warm.probe_on = probe_on
                self.believed.go_on(at, probe_on)
                self._retracing.keep_restarted(len(state.begins), self.warm.remember())
            case Begun():
                self._begin(event, was_in_the_fire)
            case Called(call=Call.PROBE_SLOW, kelvin=float(kelvin)) if self.warm.known:
                self.warm.assume_skin(self.exposure, None, kelvin)
            case _:
                pass

    def _begin(self, begun: Begun, was_in_the_fire: bool) -> None:
        by_word = begun.cause is Cause.WORD
        if begun.phase is PhaseKind.SOAK and by_word and was_in_the_fire:
            self.warm.see_at_heat(begun.step, begun.heat, self.probe.kelvin)
        if by_word and begun.happened is not None:
            self._retrace(begun.happened)
        self.skin_at_first = None if self.skin is None else self.skin[0]
        self._watch_limits()
        if self.state.soak_by_word_only:
            self._not_at_heat()

    def _may_lie_in_it_since(self, at: float) -> float | None:
        """Since when it is not known whether the work lies in the fire [s]; None where it is known at `at` [s]."""
        return self.state.paused_at if self.state.may_have_lain_in_it(at) else None

    def _go_back(self, point: UndoPoint) -> None:
        """The state went back to an undo point; the warm model and the limits follow it."""
        if point.moved or point.what is Word.MEASURED:
            # With what was measured the work had another section.
            run_anew(self.warm, self.state, (point.begins, point.work), self.probe.kelvin)
            self._watch_limits()
        if point.what is Cause.TEMPERATURE:
            self._not_at_heat()

    def _retrace(self, since: float) -> None:
        """What the work was exposed to since a time [s] is known otherwise by now: the warm model follows that."""
        self._retracing.retrace(self.warm, self.state, since, self.now, self.probe.kelvin)
        self._watch_limits()

    def _watch_limits(self) -> None:
        step, state = self.current_step, self.state
        quenches = any(phase.kind is PhaseKind.QUENCH for phase in step.phases)
        by_steel = self._hottest_to_harden if quenches else None
        self.limits.set(step, state.heat, state.phase, state.alarms, by_steel)

    @cached_property
    def _hottest_to_harden(self) -> float | None:
        return hardening_ceiling(self.plan)

    def _not_at_heat(self) -> None:
        """The smith sees that the skin is not at heat yet: the model must not say that it is."""
        target, skin = self.current_step.target(self.state.heat), self.skin
        if target is not None and skin is not None and skin[1] is Basis.MODELLED and skin[0] > target.heat_to - _SHORT:
            self.warm.assume_skin(self.exposure, self.probe.kelvin, target.heat_to - _SHORT)

"""The smith in the rehearsal: follows the sitting, says words, and is not always quick, patient or wise."""

from __future__ import annotations

from math import inf
from random import Random
from typing import TYPE_CHECKING

from devices.rehearsal.waits import black_at, cool_enough
from plans.phase import WARMING, PhaseKind
from plans.plan import Plan, StepKind
from plans.sitting import PROMPTS, Call, Said, Word

if TYPE_CHECKING:
    from plans.sitting import Sitting

_DRAWN = (StepKind.DRAW, StepKind.FORGE)
_AGAIN_AFTER = 10.0
"""A word that changed nothing is said again after this [s]."""
_BETWEEN_WORDS = 1.0
"""From one word to the next, where he says two [s]."""
_PATIENCE = {PhaseKind.FIRE: 900.0, PhaseKind.SOAK: 1200.0, PhaseKind.STRIKE: 150.0, PhaseKind.AIR: 3600.0}
"""Nothing called, and no warmer or colder, for this long: he goes by his own eyes [s]. The other phases: a while after
their set time."""
_CHANGE = 5.0
"""Work that became warmer, or colder, by this is worth waiting for: a temperature difference [K]."""
_LOOKS_EVERY = 1.0
"""He looks up from the anvil no more often [s]: again when half of what he had left has gone."""
_LONGEST_LOOK = 20.0
"""However much he had left, he looks up as if it had been no more [s]."""
_SURE = 2.0
"""After this he says once more what he was asked about [s]."""
_NOTES = (
    "scale came off in plates, brush it before the next heat",
    "left corner runs ahead, two more blows on the right",
    "fire sits a little lower on the burner's side",
    "tongs slip on this section, flatten the reins' end",
)


class Smith:
    """Says what a smith would say to a sitting.

    His moods are settled beforehand: which heats he strikes too long, when he is slow to answer, where he goes too
    early and takes it back, which step needs one heat more, where he leaves a note.

    Args:
        plan: what he follows
        chance: everything random comes from this generator, so that the same seed makes the same smith
    """

    def __init__(self, plan: Plan, chance: Random) -> None:
        self._plan = plan
        self._chance = chance
        strikes = self._heats_with(PhaseKind.STRIKE)
        soaks = self._heats_with(PhaseKind.SOAK)
        quenches = self._heats_with(PhaseKind.QUENCH)
        last_drawn = [
            (number, step.heats)
            for number, step in enumerate(plan.steps)
            if step.kind in _DRAWN and (number, step.heats) in strikes
        ]
        self._stubborn = _some(chance, strikes, 3)
        # What is to be hardened is not left to soak.
        left = [heat for heat in soaks if heat not in quenches]
        self._slow = _some(chance, left, 2)
        self._away = _some(chance, left, 1) if chance.random() < 0.5 else frozenset()
        self._one_more = _some(chance, last_drawn, 1)
        self._notes = dict(zip(sorted(_some(chance, strikes, 2)), chance.sample(_NOTES, 2), strict=False))
        taken = self._slow | self._away | self._one_more | self._notes.keys()
        self._dawdles = _some(chance, quenches, 1) if chance.random() < 0.3 else frozenset()
        self._hasty = _some(chance, [heat for heat in soaks if heat in strikes and heat not in taken], 1)
        self._key: tuple[object, ...] | None = None
        self._next_at: float | None = None
        self._patient_until = 0.0
        self._margin = 0.0
        self._looks_at = 0.0
        self._thin_cold_at = inf
        self._was_at: float | None = None
        """How warm the work was when it last had become warmer in the fire, or colder out of it [K]."""
        self._asides: list[Said] = [Said(chance.uniform(2.0, 4.0), Word.ACKNOWLEDGE)]
        self._said_at = -inf
        self._goes_too_early = False
        self._went_too_early_at: float | None = None
        self._regrets_at: float | None = None
        self._wants_one_more = False

    def says(self, at: float, sitting: Sitting) -> Said | None:
        """The word that the smith says now; the sitting is to take it before he is asked again.

        Args:
            at: rehearsal time [s]
            sitting: what he looks at before he speaks

        Returns:
            the word, said at `at`; None where he says nothing
        """
        state = sitting.state
        if state.finished or state.paused:
            # After a pause he takes the phase up afresh.
            self._key = None
            return None
        # Out for flux or on its way to the quench, the same phase goes on.
        key = (state.phase, state.step, state.heat, state.since, state.out_for_a_look, state.left_fire_at)
        if key != self._key:
            self._key = key
            self._begin(at, sitting)
        if self._regrets_at is not None:
            if at < self._regrets_at:
                return None
            self._regrets_at = None
            return Said(at, Word.UNDO)
        if self._asides and at >= self._asides[0].at:
            aside = self._asides.pop(0)
            return Said(at, aside.word, aside.text)
        if (asked := state.asks(at)) is not None and asked.at == self._said_at and asked.at + _SURE <= at:
            self._said_at = at
            return Said(at, asked.word)
        if self._next_at is None:
            self._next_at = self._settles(at, sitting)
        if self._next_at is None or at < self._next_at:
            return None
        self._next_at = at + _AGAIN_AFTER
        if self._goes_too_early:
            self._went_too_early_at = at
        if self._wants_one_more:
            self._one_more, self._wants_one_more = frozenset(), False
            self._next_at = at + _BETWEEN_WORDS
            return Said(at, Word.REPEAT)
        self._said_at = at
        return Said(at, _word_now(sitting))

    def _begin(self, at: float, sitting: Sitting) -> None:
        """A phase began, by whoever's word."""
        chance, state = self._chance, sitting.state
        place = (state.step, state.heat)
        # Only what his own hasty word began is his to take back.
        regrets = state.since == self._went_too_early_at
        self._regrets_at = at + chance.uniform(2.0, 4.0) if regrets else None
        self._went_too_early_at = None
        self._goes_too_early = self._wants_one_more = False
        self._next_at = None
        self._asides = [aside for aside in self._asides if aside.word is Word.ACKNOWLEDGE]
        self._looks_at = at + _LOOKS_EVERY
        self._thin_cold_at = inf
        self._margin = chance.uniform(2.5, 6.0)
        self._was_at = None
        self._patient_until = at + self._patience(sitting)
        if state.out_for_a_look:
            self._next_at = at + chance.uniform(6.0, 12.0)
            return
        if state.left_fire_at is not None:
            self._next_at = at + self._carries(sitting)
            return
        match state.phase:
            case PhaseKind.BENCH:
                self._next_at = at + chance.uniform(30.0, 90.0)
            case PhaseKind.SOAK if place in self._hasty:
                self._hasty = frozenset()
                self._goes_too_early = True
                self._next_at = at + chance.uniform(2.0, 5.0)
            case PhaseKind.STRIKE:
                if place in self._notes:
                    self._asides.append(Said(at + chance.uniform(2.0, 5.0), Word.NOTE, self._notes.pop(place)))
                self._wants_one_more = place in self._one_more
                if sitting.current_step.keep_above is None:
                    self._next_at = at + chance.uniform(15.0, 40.0)
            case _:
                pass

    def _carries(self, sitting: Sitting) -> float:
        """How long he takes from the fire into the quench [s]: in time, but for the once that he dawdles."""
        state = sitting.state
        quench = next(phase for phase in sitting.current_step.phases if phase.kind is PhaseKind.QUENCH)
        within = quench.within or 3.0
        if (state.step, state.heat) in self._dawdles:
            return within + self._chance.uniform(1.0, 3.0)
        return min(self._chance.uniform(0.75, 2.0), 0.7 * within)

    def _patience(self, sitting: Sitting) -> float:
        return (sitting.current_phase.seconds or 0.0) + _PATIENCE.get(sitting.state.phase, 120.0)

    def _is_patient(self, at: float, sitting: Sitting) -> bool:
        """Whether he waits on for a call: as long as the work still warms, or cools, and for a while after."""
        warm = sitting.warm
        warmth = (warm.skin_now + warm.middle_now) / 2 if warm.known else sitting.probe.smooth
        on = 1.0 if sitting.state.phase in WARMING else -1.0
        if warmth is not None and (self._was_at is None or on * (warmth - self._was_at) > _CHANGE):
            self._was_at = warmth
            self._patient_until = max(self._patient_until, at + self._patience(sitting))
        return at < self._patient_until

    def _settles(self, at: float, sitting: Sitting) -> float | None:
        """When he will go on, once he knows; None while he waits."""
        chance, state = self._chance, sitting.state
        place = (state.step, state.heat)
        if not self._is_patient(at, sitting):
            return at
        # Of work whose warmth nothing tells, he doesn't wait for it to cool.
        skin = -inf if sitting.skin is None else sitting.skin[0]
        match state.phase:
            case PhaseKind.READY:
                return None if skin > cool_enough(sitting.current_step) else at + chance.uniform(5.0, 15.0)
            case PhaseKind.SOAK:
                if Call.TOO_HOT in state.called:
                    return at + chance.uniform(2.0, 4.0)
                if Call.SOAK_DONE not in state.called:
                    return None
                if place in self._away:
                    return at + chance.uniform(180.0, 300.0)
                return at + (chance.uniform(30.0, 60.0) if place in self._slow else chance.uniform(2.0, 8.0))
            case PhaseKind.STRIKE:
                return self._tires(at, sitting)
            case PhaseKind.AIR if (black := black_at(sitting)) is not None and sitting.current_phase.until is None:
                return at + chance.uniform(5.0, 15.0) if skin < black else None
            case PhaseKind.QUENCH:
                return at + chance.uniform(1.0, 3.0) if PROMPTS & state.alarms else None
            case _:
                return at + chance.uniform(2.0, 8.0) if PROMPTS & state.alarms else None

    def _tires(self, at: float, sitting: Sitting) -> float | None:
        """When he stops striking: just before the work, or its thin part, is cold, or too late."""
        chance, state = self._chance, sitting.state
        stubborn = (state.step, state.heat) in self._stubborn
        if Call.TOO_COLD in state.called:
            return at + (chance.uniform(8.0, 20.0) if stubborn else chance.uniform(1.0, 3.0))
        if stubborn or at < self._looks_at:
            return None
        # Whoever only lists what is plugged in need not load the warm model.
        from plans.warmth import Part

        cold = sitting.current_step.keep_above or 0.0
        left = sitting.warm.likely_until(sitting.exposure, sitting.leading, Part.FACE, cold)
        if self._thin_cold_at == inf and (thin := sitting.warm.until_thin_is_cold(sitting.exposure, cold)) is not None:
            self._thin_cold_at = at + thin.likely
        left = min(inf if left is None else left, self._thin_cold_at - at)
        self._looks_at = at + max(_LOOKS_EVERY, min(left, _LONGEST_LOOK) / 2)
        return at + chance.uniform(1.0, 3.0) if left <= self._margin else None

    def _heats_with(self, kind: PhaseKind) -> list[tuple[int, int]]:
        return [
            (number, heat)
            for number, step in enumerate(self._plan.steps)
            if any(phase.kind is kind for phase in step.phases)
            for heat in range(1, step.heats + 1)
        ]


def _word_now(sitting: Sitting) -> Word:
    """What he says to go on. Out of the fire for the quench is a word of its own, as the way there is timed."""
    state, kinds = sitting.state, [phase.kind for phase in sitting.current_step.phases]
    lies_in_it = state.phase in WARMING and state.left_fire_at is None and not state.out_for_a_look
    if not lies_in_it or Call.FLUX_NOW in state.alarms:
        return Word.NEXT
    follows = kinds[kinds.index(state.phase) + 1 :][:1]
    return Word.OUT if follows == [PhaseKind.QUENCH] else Word.NEXT


def _some(chance: Random, places: list[tuple[int, int]], count: int) -> frozenset[tuple[int, int]]:
    return frozenset(chance.sample(places, min(count, len(places))))

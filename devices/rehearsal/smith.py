"""The smith in the rehearsal: follows the sitting, says words, and is not always quick, patient or wise."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from plans.phase import PhaseKind
from plans.plan import Plan, StepKind
from plans.sitting import PROMPTS, Call, Said, Word

if TYPE_CHECKING:
    from plans.sitting import Sitting

_DRAWN = (StepKind.DRAW, StepKind.FORGE)
_AGAIN_AFTER = 10.0
"""A word that changed nothing is said again after this [s]."""
_BETWEEN_WORDS = 1.0
"""From one word to the next, where he says two [s]."""
_PATIENCE = {PhaseKind.FIRE: 900.0, PhaseKind.SOAK: 1200.0, PhaseKind.STRIKE: 150.0, PhaseKind.AIR: 1500.0}
"""Nothing called for this long: he goes by his own eyes [s]. The other phases: a while after their set time."""
_LOOKS_EVERY = 1.0
"""How often he looks up from the anvil [s]."""
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
        last_drawn = [
            (number, step.heats)
            for number, step in enumerate(plan.steps)
            if step.kind in _DRAWN and (number, step.heats) in strikes
        ]
        self._stubborn = _some(chance, strikes, 3)
        self._slow = _some(chance, soaks, 2)
        self._away = _some(chance, soaks, 1) if chance.random() < 0.5 else frozenset()
        self._one_more = _some(chance, last_drawn, 1)
        self._notes = dict(zip(sorted(_some(chance, strikes, 2)), chance.sample(_NOTES, 2), strict=False))
        taken = self._slow | self._away | self._one_more | self._notes.keys()
        self._hasty = _some(chance, [heat for heat in soaks if heat in strikes and heat not in taken], 1)
        self._key: tuple[PhaseKind, int, int, float] | None = None
        self._next_at: float | None = None
        self._patient_until = 0.0
        self._margin = 0.0
        self._looked_at = 0.0
        self._asides: list[Said] = [Said(chance.uniform(2.0, 4.0), Word.ACKNOWLEDGE)]
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
        key = (state.phase, state.step, state.heat, state.since)
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
        return Said(at, Word.NEXT)

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
        self._looked_at = at
        self._margin = chance.uniform(1.0, 5.0)
        self._patient_until = at + (sitting.current_phase.seconds or 0.0) + _PATIENCE.get(state.phase, 120.0)
        match state.phase:
            case PhaseKind.READY:
                self._next_at = at + chance.uniform(5.0, 15.0)
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

    def _settles(self, at: float, sitting: Sitting) -> float | None:
        """When he will go on, once he knows; None while he waits."""
        chance, state = self._chance, sitting.state
        place = (state.step, state.heat)
        if at >= self._patient_until:
            return at
        match state.phase:
            case PhaseKind.SOAK:
                if Call.TOO_HOT in state.called:
                    return at + chance.uniform(2.0, 4.0)
                if Call.SOAK_DONE not in state.called:
                    return None
                if place in self._away:
                    return at + chance.uniform(180.0, 300.0)
                return at + (chance.uniform(30.0, 60.0) if place in self._slow else chance.uniform(2.0, 8.0))
            case PhaseKind.STRIKE:
                stubborn = place in self._stubborn
                if Call.TOO_COLD in state.called:
                    return at + (chance.uniform(8.0, 20.0) if stubborn else chance.uniform(1.0, 3.0))
                if stubborn or at < self._looked_at + _LOOKS_EVERY:
                    return None
                self._looked_at = at
                # Whoever only lists what is plugged in need not load the warm model.
                from plans.warmth import Part

                cold = sitting.current_step.keep_above or 0.0
                left = sitting.warm.likely_until(sitting.exposure, sitting.leading, Part.FACE, cold)
                return None if left is None or left > self._margin else at + chance.uniform(1.0, 3.0)
            case _:
                return at + chance.uniform(2.0, 8.0) if PROMPTS & state.called else None

    def _heats_with(self, kind: PhaseKind) -> list[tuple[int, int]]:
        return [
            (number, heat)
            for number, step in enumerate(self._plan.steps)
            if any(phase.kind is kind for phase in step.phases)
            for heat in range(1, step.heats + 1)
        ]


def _some(chance: Random, places: list[tuple[int, int]], count: int) -> frozenset[tuple[int, int]]:
    return frozenset(chance.sample(places, min(count, len(places))))

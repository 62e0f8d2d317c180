"""What a word of the smith brings: it is asked about where it can hardly be meant, else done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from plans.phase import PhaseKind
from plans.sitting import due
from plans.sitting.asking import asked
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.effects import Effect, effects_of
from plans.sitting.events import Asked, Basis, Cause, Doubt, Ended, LeftFire, Said, Word
from plans.sitting.facts import Facts, facts_of
from plans.sitting.standing import Standing
from plans.sitting.state import ECHO, State
from plans.sitting.telling import Telling
from plans.units import ZERO_CELSIUS
from plans.warmth import Part, Span

_GLOWS, _FALLS = 550.0 + ZERO_CELSIUS, 0.3
"""Work that is hotter [K] and does not fall as fast as this [K/s] lies in the fire; from memory, no source."""


def heed(telling: Telling, said: Said) -> None:
    """Take a word, and tell what comes of it.

    Args:
        telling: takes down what is decided
        said: the word; its time has come

    Raises:
        WordError: the word means nothing just now; nothing has changed.
    """
    standing = telling.standing
    facts = facts_of(standing, said.at)
    question = standing.state.asks(said.at)
    again = question is not None and said.at - question.at >= ECHO and _answers(said.word, question)
    answered = question if again else None
    if standing.hands.asks and not answered:
        said = _as_the_probe_tells(standing, said, facts)
    effects = effects_of(said, standing.plan, standing.state, _is_colder(standing.state, facts))
    if standing.hands.asks:
        doubted = _doubted(standing, said, facts, effects)
        if doubted is not None and not (answered and _is_settled(answered, doubted)):
            telling.event(doubted)
            return
    # Said once more: it was so when it was said first.
    since = None if answered is None or answered.doubt is Doubt.WHERE else answered.at
    for effect in effects:
        state = standing.state
        if isinstance(effect, PlanPoint):
            since = _since_when(state, effect) if since is None else since
            back = said.word is Word.BACK
            first_of_this_heat = PlanPoint(state.step, state.heat, PhaseKind.FIRE)
            colder = state.phase is PhaseKind.SOAK and effect == first_of_this_heat and not back
            telling.begin(said.at, effect, Cause.COLDER if colder else Cause.WORD, since, closes=not back)
        elif isinstance(effect, Call):
            telling.call(said.at, effect, facts.skin, facts.basis)
        elif isinstance(effect, Ended) and said.word is not Word.FINISH:
            telling.close(said.at, telling.closing(None), effect)
        else:
            telling.event(effect)


def _is_colder(state: State, facts: Facts) -> bool:
    """Whether the work is below its heat; of a pause that it may have lain in the fire through, no model tells."""
    unknown = state.may_have_lain_in_it(facts.at) and facts.basis is not Basis.MEASURED
    return due.below_heat(facts) and not unknown


def _as_the_probe_tells(standing: Standing, said: Said, facts: Facts) -> Said:
    """Where the work is after a pause, a probe on it can tell: it stays hot nowhere but in the fire."""
    if not facts.is_lost or said.word not in (Word.NEXT, Word.RESUME) or not standing.is_measured:
        return said
    assert facts.skin is not None
    stays_hot = facts.skin > _GLOWS and standing.believed.slope(facts.at) > -_FALLS
    return replace(said, word=Word.IN if stays_hot else Word.OUT)


def _doubted(standing: Standing, said: Said, facts: Facts, effects: Iterable[Effect]) -> Asked | None:
    """What is asked about a word before it is taken; None where it can be meant."""
    state, point = standing.state, None
    for effect in effects:
        if isinstance(effect, LeftFire):
            point = PlanPoint(state.step, state.heat, PhaseKind.QUENCH)
        elif isinstance(effect, PlanPoint):
            point = effect
    same_step = point is not None and point.step == state.step
    if standing.is_measured:
        behind = standing.lag + standing.probe.behind
        facts = replace(facts, behind=behind * standing.believed.slope(said.at))

    def until(part: Part, kelvin: float) -> Span | None:
        return standing.warm.until(standing.exposure, standing.leading, part, kelvin)

    return asked(said, facts, point, same_step, until)


def _since_when(state: State, point: PlanPoint) -> float | None:
    """When that really began which a word says: what the probe felt before may have been it [s]; None for now."""
    if state.went_in_unsaid and point.step > state.step:
        # In for the next step already: it was no heat of this one.
        return state.since
    if state.out_for_a_look and point.phase is PhaseKind.STRIKE:
        return state.looked_since
    return None


def _is_settled(answered: Asked, doubted: Asked) -> bool:
    """Whether no further question is asked: after that whether a press was meant, what the steel can have done is."""
    return answered.doubt is doubted.doubt or answered.doubt is not Doubt.JUST_BEGAN


def _answers(word: Word, question: Asked) -> bool:
    """Whether a word says once more what was asked about; the key that ends a pause only asks again where it is."""
    if question.doubt is Doubt.WHERE and question.word is not Word.ON:
        return word is Word.NEXT
    return word is question.word

"""What the sitting decides by itself, and what only the smith does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.sitting.skin import Skin, Stretch
from plans.sitting.warm import GRID
from plans.warmth.forecast import skin_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire

Begin = Callable[..., Any]
Alone = Callable[..., Plan]
ICE = 273.15
FIRE, SOAK = PhaseKind.FIRE, PhaseKind.SOAK


def test_without_a_probe_fire_and_soak_end_when_the_model_says(begin: Begin, plan: Any) -> None:
    story = begin().say(Word.NEXT)
    took = story.wait_for(PhaseKind.SOAK)
    step = plan.steps[0]
    expected = skin_time(WarmModel(step.section), fire(1290 + ICE), 1250 + ICE)
    assert took == pytest.approx(expected, rel=0.02)
    story.wait_for(Call.SOAK_DONE)
    assert story.sitting.warm.middle[-1] >= 1250 + ICE - step.even_within
    assert story.sitting.state.calls[-1].basis is Basis.MODELLED


def test_nothing_skips_a_step_without_the_smith(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait(3 * 3600)
    assert story.place == (0, 1, SOAK)


def test_undo_says_that_it_is_not_at_heat_yet(begin: Begin) -> None:
    """The model began the soak; the smith sees that it is too early, and from then on his word alone begins it."""
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    story.say(Word.UNDO)
    assert story.phase is FIRE
    # What was modelled up to the word stays as it was; the next grid point has the skin short of heat.
    assert story.wait(GRID).sitting.warm.skin[-1] < 1250 + ICE
    story.wait(600)
    assert story.phase is FIRE
    assert Call.SOAK_DONE not in story.calls
    assert Call.AT_HEAT in story.calls
    assert story.say(Word.NEXT).phase is SOAK


def test_back_from_the_soak_waits_for_the_smith_too(begin: Begin) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(SOAK)
    story.say(Word.BACK).wait(600)
    assert story.phase is FIRE


@pytest.mark.parametrize(("step", "phase", "words"), [(2, SOAK, 2), (4, PhaseKind.OVEN, 1)])
def test_a_tick_does_not_go_over_the_whole_heat_again(
    begin: Begin, steps_alone: Alone, monkeypatch: pytest.MonkeyPatch, step: int, phase: PhaseKind, words: int
) -> None:
    """What is asked of the whole heat costs more the longer it goes on: a word may ask for it, a tick may not."""
    asked: list[tuple[float, float]] = []
    over = Skin.over

    def counted(skin: Skin, began: float, ended: float) -> Iterator[Stretch]:
        asked.append((began, ended))
        return over(skin, began, ended)

    monkeypatch.setattr(Skin, "over", counted)
    story = begin(of=steps_alone(step))
    for _ in range(words):
        story.wait(10.0).say(Word.NEXT)
    assert story.phase is phase
    asked.clear()
    for _ in range(7200):
        story.wait(0.5)
        assert asked == [], "at once, and not after the hours that it would take"
    assert story.phase is phase
    story.say(Word.NEXT)
    assert asked, "at the end of the phase its heat is gone over"

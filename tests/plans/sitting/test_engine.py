"""What the sitting decides by itself, and what only the smith does."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.warmth.forecast import skin_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire

Begin = Callable[..., Any]
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
    assert story.sitting.warm.skin[-1] < 1250 + 273.15 or story.wait(0.5).sitting.warm.skin[-1] < 1250 + 273.15
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

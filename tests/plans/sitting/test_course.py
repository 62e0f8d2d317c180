"""Which phase comes next, and which came before."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from plans.phase import PhaseKind
from plans.sitting.events import Word
from plans.sitting.words import WordError

Begin = Callable[..., Any]
READY, FIRE, SOAK, STRIKE = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE
AIR, QUENCH, OVEN, DIP, BENCH = PhaseKind.AIR, PhaseKind.QUENCH, PhaseKind.OVEN, PhaseKind.DIP, PhaseKind.BENCH


def test_next_alone_leads_through_the_whole_plan(begin: Begin) -> None:
    story = begin()
    places = [story.place]
    while not story.sitting.state.finished:
        story.say(Word.NEXT)
        places.append(story.place)
    assert places[:-1] == [
        (0, 1, READY),
        (0, 1, FIRE),
        (0, 1, SOAK),
        (0, 1, STRIKE),
        (0, 2, FIRE),
        (0, 2, SOAK),
        (0, 2, STRIKE),
        (1, 1, FIRE),  # hot from the anvil, straight in
        (1, 1, SOAK),
        (1, 1, STRIKE),
        (2, 1, READY),  # normalizing begins from black
        (2, 1, FIRE),
        (2, 1, SOAK),
        (2, 1, AIR),
        (2, 2, FIRE),
        (2, 2, SOAK),
        (2, 2, AIR),
        (3, 1, READY),
        (3, 1, FIRE),
        (3, 1, SOAK),
        (3, 1, QUENCH),
        (4, 1, READY),
        (4, 1, OVEN),
        (4, 1, AIR),
        (4, 2, OVEN),
        (4, 2, AIR),
        (5, 1, READY),
        (5, 1, DIP),
        (5, 1, BENCH),
        (5, 2, DIP),
        (5, 2, BENCH),
        (6, 1, BENCH),
    ]


def test_back_goes_to_the_phase_before_across_heats_and_steps(begin: Begin) -> None:
    story = begin()
    for _ in range(7):
        story.say(Word.NEXT)
    places = []
    while True:
        try:
            story.say(Word.BACK)
        except WordError:
            break
        places.append(story.place)
    assert places == [
        (0, 2, STRIKE),
        (0, 2, SOAK),
        (0, 2, FIRE),
        (0, 1, STRIKE),
        (0, 1, SOAK),
        (0, 1, FIRE),
    ]

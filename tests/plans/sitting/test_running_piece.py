"""A piece that a probe leads takes few steps, and is no further off for that; whatever it hangs on is in its state."""

from __future__ import annotations

from math import sin

import pytest

from plans.blows import USUAL, StruckBy
from plans.shapes import Section
from plans.sitting.running_piece import GRID, RunningPiece
from plans.warmth import START, Exposed, Surroundings, WarmModel, fire, still_air, striking

BAR = Section(0.040, 0.014)
AIR, FIRE = still_air(), fire(1290 + 273.15)
HEAT = ((FIRE, 200.0), (striking(USUAL[StruckBy.HAND], AIR), 40.0), (FIRE, 60.0), (AIR, 60.0))
"""What a bar goes through, and for how long [s]."""


def exposed(around: Surroundings) -> Exposed:
    return Exposed(around, (), (), START, around is not FIRE, around)


def test_led_by_a_noisy_probe_it_stays_close_to_the_work_in_few_steps() -> None:
    """The work is the same equations with a step at every point, in surroundings instead of led."""
    work, piece = WarmModel(BAR), RunningPiece(WarmModel(BAR), 0)
    off, steps, points = [], set(), 0
    for around, seconds in HEAT:
        for _ in range(int(seconds / GRID)):
            work.step(GRID, around)
            points += 1
            piece.advance(exposed(around), work.skin + 2 * sin(points * 7.3))
            off.append(piece.warmth.middle - work.middle)
            steps.add(piece.state().stepped)
    assert (sum(kelvin**2 for kelvin in off) / points) ** 0.5 < 2.5
    # Where the steel transforms the middle pauses, which no step before it can tell.
    assert max(map(abs, off)) < 20
    assert len(steps) < points / 4


@pytest.mark.parametrize("points", [3, 4, 17])
def test_from_its_state_it_goes_on_to_the_last_bit(points: int) -> None:
    piece = RunningPiece(WarmModel(BAR), 0)
    for number in range(points):
        piece.advance(exposed(FIRE), 300.0 + 12 * number)
    again = RunningPiece.of(piece.state())
    for around, skin in ((FIRE, 500.0), (FIRE, 501.0), (AIR, 502.0), (AIR, None), (AIR, None)):
        for one in (piece, again):
            one.advance(exposed(around), skin)
        assert (again.warmth, again.state()) == (piece.warmth, piece.state())

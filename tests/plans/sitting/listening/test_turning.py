"""In and out of the fire, from the temperature alone."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from typing import Any

import pytest

from plans.sitting.turning import Turn
from tests.plans.sitting.listening.ears import turns_in

Shop = Callable[..., Any]


def heard(rows: Sequence[tuple[float, float | None]]) -> list[tuple[float, Turn]]:
    """When each turn could be told, and the turn."""
    return turns_in((at, None if celsius is None else celsius + 273.15) for at, celsius in rows)


@pytest.mark.slow
@pytest.mark.parametrize("hertz", [1.0, 4.0, 10.0])
@pytest.mark.parametrize("noise", [1.0, 2.0, 4.0])
@pytest.mark.parametrize("thickness", [6.0, 12.0, 25.0])
def test_every_heat_is_heard_soon_and_dated_well(shop: Shop, thickness: float, noise: float, hertz: float) -> None:
    work = shop(thickness, noise, hertz, seed=int(thickness * 10 + noise))
    for _ in range(6):
        work.put_in(1290.0, 1250.0)
        work.take_out(950.0, chill=1.2)
    work.go(60.0, 20.0)
    found = heard(work.rows)
    outs = [(when, turn.at) for when, turn in found if not turn.rose]
    ins = [(when, turn.at) for when, turn in found if turn.rose]
    assert (len(outs), len(ins)) == (6, 6)
    for (when, dated), true in zip(outs, work.outs, strict=True):
        assert 0 < when - true <= 6 + 3 / hertz
        assert abs(dated - true) <= 3 + 3 / hertz
    for (when, dated), true in zip(ins, work.ins, strict=True):
        assert 0 < when - true <= 12 + 3 / hertz
        assert abs(dated - true) <= 5 + 3 / hertz


@pytest.mark.slow
@pytest.mark.parametrize("noise", [1.0, 2.0, 4.0])
def test_eight_hours_in_a_wandering_fire_are_no_heats(noise: float) -> None:
    chance = random.Random(int(noise))
    rows: list[tuple[float, float | None]] = []
    drift = 0.0
    for index in range(8 * 3600 * 2):
        drift += chance.gauss(0, 0.3) - drift * 0.01
        spike = chance.choice((-1, 1)) * chance.uniform(50, 300) if chance.random() < 0.005 else 0.0
        missing = chance.random() < 0.02
        rows.append((index / 2, None if missing else 1240 + drift + chance.gauss(0, noise) + spike))
    assert heard(rows) == []


def test_a_silence_is_no_turn() -> None:
    rows = [(float(at), 1200.0) for at in range(60)] + [(float(at), 700.0) for at in range(120, 180)]
    assert heard(rows) == []

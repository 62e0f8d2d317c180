"""What the checks against published sources share."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from plans.warmth.ahead import Moment, look_ahead
from plans.warmth.bar import BarShape
from plans.warmth.conduction import Conduction
from plans.warmth.material import Material
from plans.warmth.surroundings import Surroundings
from tests.outside.chains import chain

StateAt = Callable[[BarShape, Material, float, Surroundings, float], tuple[float, float]]


@pytest.fixture
def state_at() -> StateAt:
    """Middle and skin [K] of a bar at a time, by the program's own solver cut much finer than in use."""

    def solve(
        shape: BarShape, material: Material, start: float, surroundings: Surroundings, seconds: float
    ) -> tuple[float, float]:
        cells = 160
        bar = Conduction(chain(shape, cells), material)
        # A share of the heat at stake, so that textbook materials of any specific heat come out equally exact.
        tolerance = 1e-8 * material.enthalpy(abs(start - surroundings.air))
        last: list[Moment] = []
        for moment in look_ahead(bar, material.even(start, bar.count), surroundings, tolerance):
            last = [*last[-2:], moment]
            if moment.seconds >= seconds:
                break
        times, seen = [moment.seconds for moment in last], [bar.warmth(moment.heat) for moment in last]
        return (
            _parabola(times, [warmth.middle for warmth in seen], seconds),
            _parabola(times, [warmth.skin for warmth in seen], seconds),
        )

    return solve


def _parabola(times: list[float], values: list[float], at: float) -> float:
    (a, b, c), (x, y, z) = times, values
    return (
        x * (at - b) * (at - c) / ((a - b) * (a - c))
        + y * (at - a) * (at - c) / ((b - a) * (b - c))
        + z * (at - a) * (at - b) / ((c - a) * (c - b))
    )

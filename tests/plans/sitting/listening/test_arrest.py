"""The arrest, from the temperature alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.sitting.arrest import ArrestWatch
from plans.sitting.senses import Probe

Shop = Callable[..., Any]


def found(rows: list[tuple[float, float | None]]) -> list[tuple[float, float]]:
    """When the arrest could be told, and when it began."""
    watch, probe = ArrestWatch(), Probe()
    told = []
    for at, celsius in rows:
        if celsius is None:
            continue
        is_believed = probe.hear(at, celsius + 273.15)
        when = watch.hear(at, probe.kelvin) if is_believed and probe.kelvin is not None else None
        if when is not None:
            told.append((at, when))
    return told


@pytest.mark.slow
@pytest.mark.parametrize("hertz", [1.0, 4.0, 10.0])
@pytest.mark.parametrize("noise", [1.0, 2.0, 4.0])
@pytest.mark.parametrize("thickness", [6.0, 12.0, 25.0])
def test_the_arrest_is_found_once_and_dated(shop: Shop, thickness: float, noise: float, hertz: float) -> None:
    hits = 0
    for seed in range(5):
        work = shop(thickness, noise, hertz, seed)
        work.celsius = 900.0
        work.take_out(480.0)
        told = found(work.rows)
        assert len(told) <= 1
        for at, when in told:
            quiet = hertz >= 4 and noise <= 2
            assert 0 < at - work.arrests[0] < (20 if quiet else 30)
            assert abs(when - work.arrests[0]) < (5 if quiet else 15)
            hits += 1
    assert hits == 5


@pytest.mark.parametrize("noise", [1.0, 2.0, 4.0])
def test_without_an_arrest_none_is_found(shop: Shop, noise: float) -> None:
    for seed in range(10):
        work = shop(12.0, noise, 4.0, seed)
        work.celsius, work.transforms = 900.0, False
        work.take_out(480.0)
        assert found(work.rows) == []

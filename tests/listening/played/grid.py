"""Which cells there are: every thickness, noise and pace, hours of nothing, and what happens in a real shop."""

from __future__ import annotations

from itertools import product

from tests.listening.played.cells import Cell
from tests.listening.played.thermometer import Faults

_THICK, _NOISE, _PACE = (6.0, 12.0, 25.0), (1.0, 2.0, 4.0), (1.0, 4.0, 10.0)


def full(seed: int) -> list[Cell]:
    """All of them."""
    return [
        *(Cell("weld", mm, Faults(sd, hz), 20, seed) for mm, sd, hz in product(_THICK, _NOISE, _PACE)),
        *(Cell("normalize", mm, Faults(sd, hz), 12, seed) for mm, sd, hz in product(_THICK, _NOISE, _PACE)),
        *(Cell("held", 12.0, Faults(sd, hz), 8, seed) for sd, hz in product(_NOISE, _PACE)),
        *(Cell("lying", 12.0, Faults(sd, hz), 8, seed) for sd, hz in product(_NOISE, _PACE)),
        *(Cell("hover", 12.0, Faults(sd, hz), 8, seed) for sd, hz in product(_NOISE, _PACE)),
        *_in_a_shop(seed),
    ]


def _in_a_shop(seed: int) -> list[Cell]:
    slow = {"fire": 1265.0, "sag": 90.0, "recovery": 60.0}
    draughty = {"sag": 150.0, "recovery": 30.0}
    cells = []
    for mm in _THICK:
        for lag in (2.0, 5.0):
            cells.append(Cell("weld", mm, Faults(lag=lag), 20, seed, f"lag {lag:g} s"))
            cells.append(Cell("normalize", mm, Faults(lag=lag), 12, seed, f"lag {lag:g} s"))
        cells.append(Cell("weld", mm, Faults(), 20, seed, "slow fire", slow))
        cells.append(Cell("weld", mm, Faults(), 20, seed, "draughty door", draughty))
        cells.append(Cell("weld", mm, Faults(), 20, seed, "on the anvil", {"touch_every": 1.5}))
        cells.append(Cell("weld", mm, Faults(lag=2.0), 20, seed, "all of these", slow | {"touch_every": 1.5}))
        cells.append(Cell("held", mm, Faults(), 8, seed, "door opened", {"look_every": 120.0}))
        cells.append(Cell("normalize", mm, Faults(), 12, seed, "gusts", {"gusts": 1.0}))
    return cells


def quick(seed: int) -> list[Cell]:
    """The corners, and one each of the rest, in hours that a suite of tests can spare."""
    return [
        Cell("held", 12.0, Faults(4.0, 1.0), 1, seed),
        Cell("lying", 12.0, Faults(4.0, 1.0), 1, seed),
        Cell("hover", 12.0, Faults(4.0, 1.0), 4, seed),
        *(Cell("weld", mm, Faults(sd, hz), 4, seed) for mm, sd, hz in zip(_THICK, _NOISE, _PACE, strict=True)),
        Cell("weld", 12.0, Faults(lag=2.0), 4, seed, "lag 2 s"),
        *(Cell("normalize", mm, Faults(sd, hz), 3, seed) for mm, sd, hz in ((6.0, 4.0, 4.0), (12.0, 2.0, 1.0))),
    ]

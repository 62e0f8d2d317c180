"""Long traces with a physics of their own, played to the program, and what it heard held against the truth."""

from __future__ import annotations

import os
import sys
from collections import defaultdict
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor

from tests.faults.row import Row
from tests.listening.played.cells import Cell
from tests.listening.played.grid import full
from tests.listening.played.judging import Score
from tests.listening.played.live_weld import play_on_port

_ALLOWED = {"held": 0.0, "lying": 0.0, "hover": 0.3, "normalize": 0.05, "weld": 0.02}
"""By scene, the share of the events that may be missed or false, or false calls an hour where there are no events."""
_ALLOWED_IN_A_SHOP = {"normalize": 0.1, "weld": 0.1}
"""That share where something makes it harder: a couple that lags by seconds, a slow fire, gusts."""
_SAME = 15.0
"""What was missed and what was false no further apart is one event, told at the wrong time [s]."""
_PROGRAM = (sys.executable, "-m", "tui.cli")


def played(seed: int = 1) -> list[Row]:
    """All the cells through recordings, and one on a pseudo-terminal in real time; a row for each kind of event."""
    cells = full(seed)
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        on_port = pool.submit(play_on_port, _PROGRAM, seed, False)
        heard = list(zip(cells, pool.map(Cell.play, cells), strict=True))
        heard.append(on_port.result())
    return list(_rows(heard))


def _wrong(score: Score) -> Iterable[str]:
    """What went wrong, each event once: one that was told too early or too late is not one missed and another false."""
    false = sorted(score.false_at)
    for missed in sorted(score.missed_at):
        told = next((at for at in false if abs(at - missed) <= _SAME), None)
        if told is None:
            yield f"missed at {missed:.0f} s"
            continue
        false.remove(told)
        yield f"told at {told:.0f} s, was at {missed:.0f} s"
    yield from (f"false at {at:.0f} s" for at in false)


def _rows(heard: Iterable[tuple[Cell, dict[str, Score]]]) -> Iterable[Row]:
    events: dict[tuple[str, str], int] = defaultdict(int)
    wrong: dict[tuple[str, str], list[str]] = defaultdict(list)
    for cell, scores in heard:
        for what, score in scores.items():
            # Hours in which nothing of the kind should be told count as one case each, an event as one.
            scene = f"{cell.scene}, in a shop" if cell.effect and cell.scene in _ALLOWED_IN_A_SHOP else cell.scene
            events[scene, what] += score.true or round(score.hours)
            wrong[scene, what] += [f"{cell.name()}: {said}" for said in _wrong(score)]
    for (scene, what), cases in events.items():
        plain, _, harder = scene.partition(", ")
        allowed = (_ALLOWED_IN_A_SHOP if harder else _ALLOWED)[plain]
        yield Row(f"played, {scene}: {what}", cases, tuple(wrong[scene, what]), allowed)

"""The cells of the table: a scene, played once with one thickness and one set of faults, and judged."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from tests.listening.played.forge import Forge, Work
from tests.listening.played.judging import TAIL, Score, Told, judge
from tests.listening.played.program import Log, Program, Rows
from tests.listening.played.scenes import (
    COLD_BELOW,
    NORMALIZE_AT,
    WELD_AT,
    held_in_the_fire,
    hovering,
    left_lying,
    normalizing,
    weld_heats,
)
from tests.listening.played.thermometer import Faults, Thermometer

IN, OUT, HEAT, COLD, ARREST = "in", "out", "at heat", "too cold", "arrest"

STRIKE_FOR = 600.0
"""How long one strike of a skin that hovers lasts [s]."""

WELD = f"""
heatbook = 1
title = "Weld heats"
about = "Played from a recording."
[[step]]
title = "Weld"
kind = "weld"
fire = "1290 degC"
heat_to = "{WELD_AT:g} degC"
keep_above = "{COLD_BELOW:g} degC"
burn_above = "1330 degC"
soak = "20 s"
heats = 3
section = "40 x %g mm"
"""

NORMALIZE = f"""
heatbook = 1
title = "Normalizing"
about = "Played from a recording."
[[step]]
title = "Normalize"
kind = "normalize"
fire = "935 degC"
heat_to = "{NORMALIZE_AT:g} degC"
soak = "60 s"
heats = %d
section = "40 x %g mm"
[step.air]
until = "480 degC"
"""


@dataclass(frozen=True)
class Cell:
    """One trace: what it is played with, and what is to be counted."""

    scene: str
    thickness: float
    faults: Faults
    size: float
    """Heats, cycles or hours."""
    seed: int = 1
    effect: str = ""
    """What makes it harder, in words."""
    options: dict[str, float] = field(default_factory=dict)
    """Of the forge or of the scene."""

    def name(self) -> str:
        """What it is, in a few words."""
        effect = f", {self.effect}" if self.effect else ""
        return f"{self.scene} {self.thickness:g} mm, sd {self.faults.noise:g}, {self.faults.hertz:g} Hz{effect}"

    def play(self, heatbook: tuple[str, ...] | None = None) -> dict[str, Score]:
        """Make the trace, let the program hear it, and judge what its log says."""
        rows: Rows = [(0.0, None, "")]
        chance = Random(f"{self.scene} {self.thickness} {self.faults} {self.seed} {self.effect}")
        options: dict[str, float] = {"limit": COLD_BELOW, "target": WELD_AT}
        options |= {name: value for name, value in self.options.items() if name in ("fire", "sag", "recovery")}
        if self.scene in ("held", "lying", "hover") and self.faults.hertz < 2:
            options["moment"] = 0.2
        forge = Forge(Work(self.thickness), chance, **options)
        thermometer = Thermometer(
            self.faults, Random(chance.random()), lambda at, celsius: rows.append((at, celsius, ""))
        )
        forge.watchers.append(thermometer)
        scene = _SCENES[self.scene]
        plan = scene(self, forge, rows)
        with tempfile.TemporaryDirectory() as folder:
            program = Program(Path(folder), heatbook)
            log = program.play(plan, rows)
        if self.scene == "hover":
            return {COLD: _chattered(log, forge.at)}
        return judged(forge, log, thermometer.silences, "air" if self.scene == "normalize" else "strike")


def _chattered(log: Log, seconds: float) -> Score:
    """False ones among the strikes of a skin that hovers above the limit.

    One that was told holds until the skin is clearly above the limit, which it never is here: the rest of that strike
    is no time in which another could be told. What the warm model tells of a silent probe is none of the probe's.
    """
    told = [(event["at_seconds"], event["basis"]) for event in log.calls_made("too cold")]
    score = Score()
    begin = 0.0
    while begin < seconds:
        end = min(begin + STRIKE_FOR, seconds)
        first = next(((at, basis) for at, basis in told if begin <= at < end), (end, ""))
        score.hours += (first[0] - begin) / 3600
        if first[1] == "measured":
            score.false += 1
            score.false_at.append(first[0])
        begin = end
    return score


def judged(
    forge: Forge, log: Log, silences: list[tuple[float, float]], outside: str, tail: float = TAIL
) -> dict[str, Score]:
    """Hold a log against what went on in the forge; `outside` is the phase that the work comes out to."""
    truth = forge.truth

    def score(true: list[float], told: Told, until: list[float], early: float = 1.0) -> Score:
        return judge(true, told, forge.at, until, silences, early, tail)

    scores = {
        IN: score(truth.ins, log.phases("fire", "probe"), truth.outs),
        OUT: score(truth.outs, log.phases(outside, "probe"), truth.ins),
        HEAT: score(truth.at_heat, log.phases("soak", "temperature"), truth.outs, early=30.0),
    }
    if outside == "air":
        return scores | {ARREST: score(truth.begun, log.called("possible arrest"), truth.ins, early=5.0)}
    return scores | {COLD: score(truth.cold, log.called("too cold"), truth.ins, early=5.0)}


def _weld(cell: Cell, forge: Forge, _: Rows) -> str:
    weld_heats(forge, int(cell.size), cell.options.get("touch_every"))
    return WELD % cell.thickness


def _held(cell: Cell, forge: Forge, _: Rows) -> str:
    held_in_the_fire(forge, cell.size, cell.options.get("look_every"))
    return WELD % cell.thickness


def _lying(cell: Cell, forge: Forge, _: Rows) -> str:
    left_lying(forge, cell.size)
    return WELD % cell.thickness


def _hover(cell: Cell, forge: Forge, rows: Rows) -> str:
    rows.clear()
    for number in range(int(cell.size * 3600 / STRIKE_FOR)):
        rows += [(forge.at, None, "next")] * 3
        hovering(forge, COLD_BELOW + 5, (number + 1) * STRIKE_FOR / 3600)
    return WELD % cell.thickness


def _normalize(cell: Cell, forge: Forge, _: Rows) -> str:
    forge.go(20.0)
    normalizing(forge, int(cell.size), (NORMALIZE_AT,), 70.0, gusts=bool(cell.options.get("gusts")))
    return NORMALIZE % (int(cell.size), cell.thickness)


_SCENES: dict[str, Callable[[Cell, Forge, Rows], str]] = {
    "weld": _weld,
    "held": _held,
    "lying": _lying,
    "hover": _hover,
    "normalize": _normalize,
}

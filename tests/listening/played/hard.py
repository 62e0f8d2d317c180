"""What makes listening hard: loose contacts, looks and flux, fires that change slowly, probes that lag.

    python -m tests.listening.played.hard                every trace; prints the table, some minutes
    python -m tests.listening.played.hard --only flux    those of one scene

The sitting is fed in this process, in order, as a recording feeds it.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from random import Random

from plans.logbook.figures.heats import heat_figures
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.engine import Sitting
from plans.sitting.event_record import event_to_record
from plans.sitting.events import Event
from plans.sitting.hands import Hands, HandsFree
from tests.listening.played.cells import ARREST, COLD, HEAT, IN, NORMALIZE, OUT, WELD, judged
from tests.listening.played.forge import Forge, Watcher, Work
from tests.listening.played.judging import Score
from tests.listening.played.program import Log
from tests.listening.played.scenes import (
    COLD_BELOW,
    NORMALIZE_AT,
    WELD_AT,
    coming_up,
    fluxing,
    held_in_the_fire,
    in_a_kiln,
    in_changing_draughts,
    looked_at,
    normalizing,
    turned_down,
    weld_heats,
)
from tests.listening.played.thermometer import Faults, Thermometer
from tests.markdown import table

BENCH = (
    """
heatbook = 1
title = "Bench first"
about = "A step without a fire, and then one with."
[[step]]
title = "File it"
kind = "bench"
"""
    + NORMALIZE.partition("[[step]]")[1]
    + NORMALIZE.partition("[[step]]")[2]
)


@dataclass(frozen=True)
class Trace:
    """One trace: what is played, with what work and what probe."""

    scene: str
    thickness: float
    faults: Faults
    seed: int
    transforms: bool = True
    lag_known: bool = False
    """Whether the program is told the lag of the probe."""

    @property
    def kind(self) -> str:
        """The row of the table that it is counted in."""
        return f"{self.scene}{'' if self.transforms else ', no change of structure'}"


@dataclass
class Heard:
    """What the program made of one trace."""

    scores: dict[str, Score]
    heats: int
    """Heats that its figures count."""
    true_heats: int
    calls: list[str]
    cycles: list[int] | None = None
    """Where what counts is which cycle each was: the number of each that was called cold enough."""
    must_say: str | None = None
    """A call without which the trace is spoiled, where nothing else can be heard."""
    warm: list[float] = field(default_factory=list)
    """By how much each heat's lowest struck skin was told too warm: a temperature difference [K]."""


def play(trace: Trace) -> Heard:
    """Make the trace, and let a sitting hear it."""
    chance = Random(f"{trace.kind} {trace.thickness} {trace.faults} {trace.seed}")
    forge = Forge(Work(trace.thickness, transforms=trace.transforms), chance, limit=COLD_BELOW, target=WELD_AT)
    rows: list[tuple[float, float | None]] = []
    lowest = _Lowest()
    thermometer = Thermometer(trace.faults, Random(chance.random()), lambda at, celsius: rows.append((at, celsius)))
    forge.watchers += [thermometer, lowest]
    outside = "air" if trace.scene in ("normalize", "draughts", "look", "kiln", "bench") else "strike"
    text = _SCENES[trace.scene](trace, forge)
    # What is played is a plate: it has no narrow side.
    plan = read_plan(text.replace('"40 x ', '"200 x '), "played", "played.toml")
    lag = trace.faults.lag if trace.lag_known else 0.0
    sitting = Sitting(plan, ProbeOn.WORK, Hands(HandsFree.ALL), lag=lag)
    events: list[Event] = list(sitting.open())  # type: ignore[arg-type]
    for at, celsius in rows:
        kelvin = None if celsius is None else round(celsius, 1) + 273.15
        for entry in sitting.take(Reading(round(at, 3), kelvin, None if kelvin else "missing")):
            if not isinstance(entry, Reading):
                events.append(entry)
    records = [event_to_record(event) for event in events]
    log = Log("played", records, [])
    figures = heat_figures(sitting)
    heats = [heat for step in figures.steps for heat in step.heats if heat.strike or heat.air]
    truth = [low for began, low in lowest.found]
    told = [heat.lowest_struck - 273.15 for heat in heats if heat.lowest_struck is not None]
    warm = [one - other for one, other in zip(told, truth, strict=False)] if len(told) == len(truth) else []
    calls = [record["call"] for record in records if record["event"] == "call"]
    cold = [record["heat"] for record in records if record["event"] == "call" and record["call"] == "cold enough"]
    cycles = cold if trace.scene == "look" else None
    must_say = "waits for your word" if trace.scene == "bench" else None
    scores = judged(forge, log, thermometer.silences, outside)
    return Heard(scores, len(heats), len(forge.truth.outs), calls, cycles, must_say, warm)


class _Lowest(Watcher):
    """How cold the skin really became in each stay outside."""

    def __init__(self) -> None:
        self.found: list[tuple[float, float]] = []

    def look(self, forge: Forge) -> None:
        outs, ins = forge.truth.outs, forge.truth.ins
        if not outs or ins[-1] > outs[-1]:
            return
        if not self.found or self.found[-1][0] != outs[-1]:
            self.found.append((outs[-1], forge.work.skin))
        self.found[-1] = (outs[-1], min(self.found[-1][1], forge.work.skin))


def _weld(trace: Trace, forge: Forge) -> str:
    weld_heats(forge, 4)
    return WELD % trace.thickness


def _struck(trace: Trace, forge: Forge) -> str:
    weld_heats(forge, 4, touch_every=5.0)
    return WELD % trace.thickness


def _normalize(trace: Trace, forge: Forge) -> str:
    forge.go(20.0)
    normalizing(forge, 3, (NORMALIZE_AT,), 70.0)
    return NORMALIZE % (3, trace.thickness)


def _draughts(trace: Trace, forge: Forge) -> str:
    in_changing_draughts(forge, 3, NORMALIZE_AT)
    return NORMALIZE % (3, trace.thickness)


def _flux(trace: Trace, forge: Forge) -> str:
    fluxing(forge, 2)
    return WELD % trace.thickness


def _look(trace: Trace, forge: Forge) -> str:
    looked_at(forge, 2, NORMALIZE_AT)
    return NORMALIZE % (2, trace.thickness)


def _slow_fire(trace: Trace, forge: Forge) -> str:
    coming_up(forge, 300.0, 400.0)
    return WELD % trace.thickness


def _kiln(trace: Trace, forge: Forge) -> str:
    in_a_kiln(forge, NORMALIZE_AT, 12.0)
    return NORMALIZE % (1, trace.thickness)


def _turned_down(trace: Trace, forge: Forge) -> str:
    turned_down(forge, 2, 60.0, forge.chance.uniform(10.0, 60.0))
    return WELD % trace.thickness


def _held(_: Trace, forge: Forge) -> str:
    held_in_the_fire(forge, 1.0)
    return WELD % 12.0


def _bench(trace: Trace, forge: Forge) -> str:
    forge.go(20.0)
    normalizing(forge, 3, (NORMALIZE_AT,), 70.0)
    return BENCH % (3, trace.thickness)


_SCENES: dict[str, Callable[[Trace, Forge], str]] = {
    "weld": _weld,
    "lag": _struck,
    "normalize": _normalize,
    "draughts": _draughts,
    "flux": _flux,
    "look": _look,
    "fire 300 K low": _slow_fire,
    "held for an hour": _held,
    "kiln": _kiln,
    "turned down": _turned_down,
    "bench": _bench,
}
_THICK = (6.0, 12.0, 25.0)


def traces(seeds: Iterable[int]) -> Iterator[Trace]:
    """All of them: for each seed 21 with loose contacts, and 40 more."""
    for seed in seeds:
        for mm in _THICK:
            for hertz in (1.0, 4.0, 10.0):
                loose = Faults(2.0, hertz, contacts=20.0)
                yield Trace("weld", mm, loose, seed)
                yield Trace("normalize", mm, loose, seed)
                if mm == _THICK[0]:
                    yield Trace("held for an hour", mm, loose, seed)
            for scene in ("flux", "look", "fire 300 K low", "turned down", "bench", "draughts"):
                yield Trace(scene, mm, Faults(2.0, 4.0), seed)
            yield Trace("draughts", mm, Faults(2.0, 4.0), seed, transforms=False)
            yield Trace("normalize", mm, Faults(2.0, 4.0), seed, transforms=False)
            for lag in (5.0, 10.0, 20.0):
                yield Trace("lag", mm, Faults(2.0, 4.0, lag=lag), seed, lag_known=True)
            for hertz in (0.1, 0.3):
                yield Trace("lag", mm, Faults(2.0, hertz), seed)
        yield Trace("kiln", 6.0, Faults(2.0, 1.0), seed)


_HEADINGS = ("scene", "Hz", "lag", "traces", "spoiled", "heats", "in", "out", "at heat", "arrest", "too cold", "warm K")
_WIDTHS = (32, 4, 4, 6, 7, 9, 14, 14, 14, 14, 14, 14)


def rows(found: Iterable[tuple[Trace, Heard]]) -> Iterator[tuple[str, ...]]:
    """A row for each kind of trace: found/true, and after a plus those that never were."""
    kinds: dict[tuple[str, float, float], list[Heard]] = {}
    for trace, heard in found:
        contacts = ", loose contacts" if trace.faults.contacts else ""
        kinds.setdefault((trace.kind + contacts, trace.faults.hertz, trace.faults.lag), []).append(heard)
    for (kind, hertz, lag), heards in kinds.items():
        scores = {}
        for what in (IN, OUT, HEAT, ARREST, COLD):
            scores[what] = Score()
            for heard in heards:
                scores[what].add(heard.scores.get(what, Score()))
        warm = sorted(one for heard in heards for one in heard.warm)
        yield (
            kind,
            f"{hertz:g}",
            f"{lag:g}" if lag else "",
            str(len(heards)),
            str(sum(_is_spoiled(heard) for heard in heards)),
            f"{sum(heard.heats for heard in heards)}/{sum(heard.true_heats for heard in heards)}",
            *(_told(scores[what]) for what in (IN, OUT, HEAT, ARREST, COLD)),
            f"{warm[len(warm) // 2]:+.0f}, {warm[0]:+.0f} to {warm[-1]:+.0f}" if warm else "",
        )


def _is_spoiled(heard: Heard) -> bool:
    """Whether heats were counted that never were, or lost."""
    if heard.cycles is not None:
        return heard.cycles != list(range(1, heard.true_heats + 1))
    if heard.must_say is not None:
        return heard.must_say not in heard.calls
    outs = heard.scores[OUT]
    return bool(outs.false) or outs.found != outs.true or bool(heard.scores[IN].false)


def _told(score: Score) -> str:
    if not (score.true or score.false):
        return ""
    late = f", {score.delay[0]:.0f} s" if score.delays else ""
    return f"{score.found}/{score.true}{f' +{score.false}' if score.false else ''}{late}"


def main() -> None:
    """Play and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.listening.played.hard", description="Hard to hear.")
    parser.add_argument("--only", default="", help="traces of this scene only")
    parser.add_argument("--seeds", type=int, default=6, help="how many of each")
    chosen = parser.parse_args()
    every = [trace for trace in traces(range(1, chosen.seeds + 1)) if chosen.only in ("", trace.scene)]
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        found = zip(every, pool.map(play, every, chunksize=2), strict=True)
        for line in table(_HEADINGS, _WIDTHS, rows(found)):
            print(line)
    sys.stdout.flush()


if __name__ == "__main__":
    main()

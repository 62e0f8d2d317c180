"""A plan that has every kind of phase, and a rehearsal played through without a port."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, field, replace

import pytest

from devices.rehearsal.smithy import Smithy
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Bar, Phase, Plan, Step, StepKind, Target
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Entry, Said, Tick
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.words import WordError


def _forged(
    title: str, kind: StepKind, heats: int, celsius: float, cold: float, begin: Section, reach: Section
) -> Step:
    target = Target(celsius + 303.15, celsius + 273.15)
    return Step(
        title,
        kind,
        tuple(Phase(phase) for phase in USUAL_PHASES[kind]),
        heats=heats,
        targets=(target,) * heats,
        keep_above=cold + 273.15,
        burn_above=celsius + 343.15,
        section=begin,
        reach=reach,
    )


@pytest.fixture(scope="session")
def plan() -> Plan:
    """Weld, draw out, normalize, harden, temper, etch, with the bench before and after."""
    stack, welded, drawn = Section(0.04, 0.02), Section(0.038, 0.017), Section(0.04, 0.008)
    warm = Target(1106.15, 1086.15)
    return Plan(
        "small",
        "A small plan",
        "",
        (Bar("billet", "1084", stack, 0.15),),
        (
            Step("Grind", StepKind.BENCH, (Phase(PhaseKind.BENCH),)),
            _forged("Weld", StepKind.WELD, 3, 1240.0, 1100.0, stack, welded),
            _forged("Draw", StepKind.DRAW, 3, 1150.0, 900.0, welded, drawn),
            Step(
                "Normalize",
                StepKind.NORMALIZE,
                (Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, seconds=60.0), Phase(PhaseKind.AIR, until=873.15)),
                targets=(Target(1193.15, 1173.15),),
                section=drawn,
            ),
            Step(
                "Harden",
                StepKind.HARDEN,
                (Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, seconds=60.0), Phase(PhaseKind.QUENCH, seconds=20.0)),
                targets=(warm,),
                section=drawn,
            ),
            Step(
                "Temper",
                StepKind.TEMPER,
                (Phase(PhaseKind.OVEN, seconds=120.0, at=473.15), Phase(PhaseKind.AIR, seconds=30.0)),
            ),
            Step("Etch", StepKind.ETCH, (Phase(PhaseKind.DIP, seconds=60.0), Phase(PhaseKind.BENCH)), heats=2),
        ),
        "",
    )


@pytest.fixture(scope="session")
def short(plan: Plan) -> Plan:
    """The same with one heat of each step: every kind of phase, in a third of the time."""
    return replace(plan, steps=tuple(replace(step, heats=1, targets=step.targets[:1]) for step in plan.steps))


@dataclass(slots=True)
class Played:
    """A rehearsal that was played through."""

    sitting: Sitting
    at: float = 0.0
    """When it ended, or was given up [s]."""
    lines: list[bytes] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    said: list[Said] = field(default_factory=list)
    """The simulated smith's words."""
    moments: list[tuple[float, PhaseKind]] = field(default_factory=list)
    """How much time went on in each moment [s], and in which phase."""
    begun: list[tuple[Begun, float]] = field(default_factory=list)
    """The phases that began, each with how hot the skin of the simulated work was then [K]."""


Play = Callable[..., Played]
_BLIND_MOMENTS = {PhaseKind.STRIKE: 1.0, PhaseKind.READY: 1.0, PhaseKind.QUENCH: 0.25}
_BLIND_MOMENT = 15.0
"""How much time goes on at once in a rehearsal without a probe, in these phases and in others [s]."""


@pytest.fixture(scope="session")
def play() -> Play:
    """Play forge, probe, smith and sitting in lock-step, without threads or a port.

    `blind`: without the probe, so that the smith goes by the warm model alone, and with longer moments where no second
    counts, but for what is to be `as_watched`. It takes a sixth of the time, and tells what the model is worth in a
    world that is not its own.
    """

    def run(
        plan: Plan,
        seed: int,
        human: Iterable[Said] = (),
        give_up: float = 4 * 3600.0,
        blind: bool = False,
        as_watched: bool = False,
        hands: Hands = Hands(HandsFree.THERMAL),  # noqa: B008 - frozen
    ) -> Played:
        smithy, sitting = Smithy(plan, seed), Sitting(plan, None if blind else ProbeOn.WORK, hands)
        played = Played(sitting)
        waiting = sorted(human, key=lambda said: said.at)

        def log(entries: list[Entry]) -> None:
            played.entries += entries
            played.begun += [(entry, smithy.forge.bar.skin) for entry in entries if isinstance(entry, Begun)]

        def hear(said: Said) -> None:
            played.said.append(said)
            log(sitting.take(said))

        log(sitting.open())

        while not sitting.state.finished and played.at < give_up:
            if blind and not as_watched and not sitting.exposure.in_the_air:
                smithy.moment = max(smithy.moment, _BLIND_MOMENTS.get(sitting.state.phase, _BLIND_MOMENT))
            played.moments.append((smithy.moment, sitting.state.phase))
            lines = smithy.on()
            played.at = at = smithy.at
            played.lines += lines
            log(sitting.take(Reading(at, float(lines[-1]) + 273.15) if lines and not blind else Tick(at)))
            smithy.answer(at, sitting, hear)
            while waiting and waiting[0].at <= at:
                said = waiting.pop(0)
                with suppress(WordError):
                    log(sitting.take(Said(at, said.word, said.text)))
        return played

    return run

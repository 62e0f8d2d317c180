"""A small plan with every kind of phase, and a smith who follows it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from plans.plan import USUAL_PHASES, Phase, PhaseKind, Plan, Step, StepKind, Target
from plans.section import Section

ICE = 273.15


def _step(kind: StepKind, **more: object) -> Step:
    phases = tuple(Phase(phase) for phase in USUAL_PHASES[kind])
    return Step(**({"title": kind.value, "kind": kind, "phases": phases} | more))  # type: ignore[arg-type]


@pytest.fixture(scope="session")
def plan() -> Plan:
    """Weld twice, draw once, normalize at two falling heats, harden, temper twice, etch twice, look at it."""
    return Plan(
        name="trial",
        title="A trial",
        about="",
        bars=(),
        source="",
        steps=(
            _step(
                StepKind.WELD,
                heats=2,
                targets=(Target(1290 + ICE, 1250 + ICE),),
                keep_above=1150 + ICE,
                burn_above=1320 + ICE,
                section=Section(0.040, 0.014),
                reach=Section(0.040, 0.012),
            ),
            _step(
                StepKind.DRAW,
                targets=(Target(1200 + ICE, 1150 + ICE),),
                keep_above=900 + ICE,
                burn_above=1250 + ICE,
                section=Section(0.040, 0.012),
                reach=Section(0.040, 0.006),
            ),
            _step(
                StepKind.NORMALIZE,
                heats=2,
                phases=(
                    Phase(PhaseKind.FIRE),
                    Phase(PhaseKind.SOAK, seconds=180.0),
                    Phase(PhaseKind.AIR, until=480 + ICE),
                ),
                targets=(Target(930 + ICE, 900 + ICE), Target(875 + ICE, 845 + ICE)),
                section=Section(0.040, 0.006),
            ),
            _step(
                StepKind.HARDEN,
                phases=(
                    Phase(PhaseKind.FIRE),
                    Phase(PhaseKind.SOAK, seconds=120.0),
                    Phase(PhaseKind.QUENCH, seconds=10.0, medium="oil"),
                ),
                targets=(Target(830 + ICE, 800 + ICE),),
                section=Section(0.040, 0.006),
            ),
            _step(
                StepKind.TEMPER,
                heats=2,
                phases=(Phase(PhaseKind.OVEN, seconds=7200.0, at=200 + ICE), Phase(PhaseKind.AIR, seconds=600.0)),
                section=Section(0.040, 0.006),
            ),
            _step(StepKind.ETCH, heats=2, phases=(Phase(PhaseKind.DIP, seconds=600.0), Phase(PhaseKind.BENCH))),
            _step(StepKind.BENCH),
        ),
    )


@pytest.fixture
def celsius() -> Callable[[float], float]:
    """Kelvin from degC, for writing readings down."""
    return lambda degrees: degrees + ICE

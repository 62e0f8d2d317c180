"""A small plan with every kind of phase, and a sitting that is told what happens second by second."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import pytest

from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Phase, Plan, Step, StepKind, Target
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Entry, Said, Tick, Word

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
                checklist=("flux runs", "no shadow left"),
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
                    Phase(PhaseKind.SOAK, seconds=180.0, at_most=300.0),
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
                    Phase(PhaseKind.QUENCH, seconds=10.0, within=3.0, medium="oil"),
                ),
                targets=(Target(830 + ICE, 800 + ICE),),
                section=Section(0.040, 0.006),
            ),
            _step(
                StepKind.TEMPER,
                heats=2,
                phases=(
                    Phase(PhaseKind.OVEN, seconds=7200.0, at=200 + ICE, within=7200.0),
                    Phase(PhaseKind.AIR, seconds=600.0),
                ),
                section=Section(0.040, 0.006),
            ),
            _step(StepKind.ETCH, heats=2, phases=(Phase(PhaseKind.DIP, seconds=600.0), Phase(PhaseKind.BENCH))),
            _step(StepKind.BENCH),
        ),
    )


@pytest.fixture(scope="session")
def steps_alone(plan: Plan) -> Callable[..., Plan]:
    """The small plan with nothing but the steps of these numbers (from 0)."""

    def alone(*numbers: int) -> Plan:
        return replace(plan, steps=tuple(plan.steps[number] for number in numbers))

    return alone


@dataclass
class Story:
    """A sitting as it goes on: `wait`, `say`, `feel`."""

    sitting: Sitting
    at: float = 0.0
    log: list[Entry] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.log += self.sitting.open()

    def say(self, word: Word, text: str = "") -> Story:
        self.log += self.sitting.take(Said(self.at, word, text))
        return self

    def wait(self, seconds: float) -> Story:
        self.at += seconds
        self.log += self.sitting.take(Tick(self.at))
        return self

    def wait_for(self, phase_or_call: PhaseKind | Call, at_most: float = 1800.0) -> float:
        """Wait until a phase begins or a call is made in this phase; how long that was [s]."""
        began = self.at
        while self.at < began + at_most:
            state = self.sitting.state
            if state.phase is phase_or_call or phase_or_call in state.called:
                return self.at - began
            self.wait(0.5)
        raise AssertionError(f"no {phase_or_call} within {at_most} s")

    def feel(
        self, celsius: float | None, every: float = 0.25, seconds: float = 0.25, fault: str | None = None
    ) -> Story:
        """The probe says the same for so long."""
        end = self.at + seconds
        while self.at < end - 1e-9:
            self.at += every
            kelvin = None if celsius is None else celsius + ICE
            self.log += self.sitting.take(Reading(self.at, kelvin, fault))
        return self

    @property
    def calls(self) -> list[Call]:
        return [call.call for call in self.sitting.state.calls]

    @property
    def phase(self) -> PhaseKind:
        return self.sitting.state.phase

    @property
    def place(self) -> tuple[int, int, PhaseKind]:
        state = self.sitting.state
        return state.step, state.heat, state.phase


@pytest.fixture
def begin(plan: Plan) -> Callable[..., Story]:
    """Begin a sitting of the small plan, or of another one."""

    def begin(probe_on: ProbeOn | None = None, of: Plan = plan) -> Story:
        return Story(Sitting(of, probe_on))

    return begin

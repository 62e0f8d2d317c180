"""The program in this process: a command given to it, or a sitting on a stage whose clocks are set by hand."""

from __future__ import annotations

import os
import tty
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from contextlib import AbstractAsyncContextManager, asynccontextmanager, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any
from unittest.mock import patch

import pytest
from textual.css.query import NoMatches
from textual.pilot import Pilot

from devices.link_state import LinkPhase, LinkState
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan_file
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Tick, Word
from tui.app import HeatbookApp
from tui.cli.main import main
from tui.config import look_up_anew
from tui.config.folders import Folders
from tui.live.cautions import CautionsScreen
from tui.running.requests import First, RunRequest, Shelf
from tui.running.running_sitting import RunningSitting
from tui.running.sources import ClockSource
from tui.screens.opening import OpeningScreen
from tui.widgets.lines import KeyLine

PLAN = Path(__file__).with_name("draw.toml")
STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
ICE = 273.15
_QUARTER = 0.25


class StageSource(ClockSource):
    """The clock of the stage, and a probe whose link is always well."""

    def __init__(self, clock: Callable[[], float], probed: bool) -> None:
        super().__init__(clock)
        self.probed = probed
        self.trouble = ""
        self.closed = False

    def link_state(self) -> LinkState | None:
        if not self.probed:
            return None
        phase = LinkPhase.LOST if self.trouble else LinkPhase.OPEN
        rate = None if self.trouble else 4.0
        return LinkState(phase, "/dev/ttyUSB0", "USB serial", 900, 3, ("#",), rate, self.trouble)

    def close(self) -> None:
        self.closed = True


class _SilentApp(HeatbookApp):
    """Rings into a list."""

    bells: list[float]

    def bell(self) -> None:
        self.bells.append(self.clock())


class Stage:
    """An app, its clocks, and a piece of steel that warms and cools by simple rules of its own."""

    def __init__(self, home: Path, probe_on: ProbeOn | None, request: First | None, plan: Path) -> None:
        self.real = 1000.0
        self.wall = STARTED
        self.skin = 20.0 + ICE
        self.fire = 1300.0 + ICE
        self.slowness = 30.0
        """How long the fire takes to warm the steel, about a third of the way for real [s]."""
        self._chance = Random(7)
        self._probe_on = probe_on
        self.folders = Folders(home / "logbook", home / "plans", home / "probes", home / "heatbook.toml")
        self.sources: list[StageSource] = []
        first = request or RunRequest(self._source, plan=lambda: read_plan_file(plan), probe_on=probe_on)
        self.app = _SilentApp(self.folders, first, clock=lambda: self.real, now=lambda: self.wall, beating=False)
        self.app.bells = []
        self.pilot: Pilot[Any]

    def _source(self, plan: Plan) -> StageSource:
        del plan
        self.sources.append(StageSource(lambda: self.real, self._probe_on is not None))
        return self.sources[-1]

    @property
    def running(self) -> RunningSitting:
        assert self.app.running is not None
        return self.app.running

    @property
    def source(self) -> StageSource:
        return self.sources[-1]

    def later(self, seconds: float) -> None:
        """The wall clock goes on, as while the program was not running."""
        self.wall += timedelta(seconds=seconds)

    @property
    def bells(self) -> list[float]:
        """When the bell rang."""
        return self.app.bells

    def rows(self) -> list[str]:
        """The screen as text."""
        strips = self.app.screen._compositor.render_strips()
        return [strip.text for strip in strips]

    async def opened(self) -> None:
        """Wait for what is read in a thread."""
        await self.pilot.pause()
        while self.app.is_running and (self.app.in_hand.being_begun or isinstance(self.app.screen, OpeningScreen)):
            await self.app.workers.wait_for_complete()
            await self.pilot.pause()
        await self.pilot.pause()

    async def pass_time(self, seconds: float) -> None:
        """Let time pass: the steel changes, the probe speaks, the screen looks at the clock at the end."""
        for _ in range(round(seconds / _QUARTER)):
            self._go_on()
        await self.look()

    async def look(self) -> None:
        """Let the screen look at the clock."""
        self.app.beat()
        await self.pilot.pause()

    async def until(self, met: Callable[[], bool], at_most: float = 1800.0) -> None:
        """Let time pass until something holds."""
        start = self.real
        while not met():
            assert self.real - start < at_most, "it never came"
            self._go_on()
        await self.look()

    def _go_on(self) -> None:
        self.real += _QUARTER
        self._change()
        at = self.source.clock()
        said: Reading | Tick = Tick(at)
        if self._probe_on is ProbeOn.WORK and not self.source.trouble:
            said = Reading(at, self.skin + self._chance.gauss(0, 1.5))
        elif self._probe_on is ProbeOn.FIRE:
            said = Reading(at, self.fire + self._chance.gauss(0, 1.5))
        self.running.hear(said)

    async def settled(self, met: Callable[[], bool]) -> None:
        """Wait for what a thread does, without a clock of the stage; what has no widgets yet does not hold yet."""
        for _ in range(1000):
            with suppress(NoMatches):
                if met():
                    return
            await self.pilot.pause(0.005)
        raise AssertionError("it never came")

    async def read_cautions(self) -> int:
        """Page down until all of them have been seen, then space; how often that was."""
        for times in range(1, 100):
            if self.app.screen.query_one(KeyLine).keys[0][1] == "all read":
                # A resize may have left more to be read than the foot says yet: space pages on then.
                await self.pilot.press("space")
                await self.pilot.pause()
                if not isinstance(self.app.screen, CautionsScreen):
                    return times
                self.real += 1.0
            else:
                await self.pilot.press("pagedown")
                await self.pilot.pause()
        raise AssertionError("the cautions never end")

    async def press(self, *keys: str) -> None:
        """Press keys, far enough apart to count one by one."""
        for key in keys:
            self.real += 1.0
            await self.pilot.press(key)
            await self.pilot.pause()

    async def say(self, *words: Word) -> None:
        """Say words without the keys."""
        for word in words:
            self.real += 1.0
            self.app.say(word)
        self.app.beat()
        await self.pilot.pause()

    def _change(self) -> None:
        phase = self.running.sitting.state.phase
        if phase in (PhaseKind.FIRE, PhaseKind.SOAK):
            self.skin += (self.fire - self.skin) / self.slowness * _QUARTER
        else:
            chill = 1.5 if phase is PhaseKind.STRIKE else 1.0
            self.skin -= chill * 7.0 * ((self.skin / 1500) ** 4 - (293 / 1500) ** 4) * _QUARTER


StageMaker = Callable[..., AbstractAsyncContextManager[Stage]]


@pytest.fixture(autouse=True)
def nothing_looked_up() -> None:
    """What a logbook teaches is looked up once in a run of the program; each test has a logbook of its own."""
    look_up_anew()


@pytest.fixture
def probe() -> Iterator[tuple[int, str]]:
    """A real pseudo-terminal: the end that a probe writes to, and the path of the other, which is its port."""
    master, slave = os.openpty()
    tty.setraw(slave)
    yield master, os.ttyname(slave)
    os.close(master)
    os.close(slave)


@pytest.fixture
def plan() -> Plan:
    return read_plan_file(PLAN)


@pytest.fixture
def stage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> StageMaker:
    """Makes a stage: `async with stage(size=(80, 24)) as on: ...`."""
    for name in ("NO_COLOR", "COLORTERM", "TEXTUAL_COLOR_SYSTEM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    # Nobody waits here for a first screen before the sitting is begun behind it.
    monkeypatch.setattr("tui.app.in_hand.SETTLED", 0.001)
    monkeypatch.setattr("tui.shelf.screen._SETTLED", 0.001)

    @asynccontextmanager
    async def make(
        size: tuple[int, int] = (80, 24),
        probe_on: ProbeOn | None = ProbeOn.WORK,
        first: First | None = None,
        plan: Path = PLAN,
        acknowledged: bool = True,
        settings: str | None = "",
        plans: Mapping[str, str] | None = None,
        plan_text: str = "",
        edit_log: Callable[[str], str] | None = None,
        asks_first: bool = False,
    ) -> AsyncIterator[Stage]:
        if settings is not None:
            (tmp_path / "heatbook.toml").write_text(settings)
        (tmp_path / "plans").mkdir(exist_ok=True)
        for name, text in (plans or {}).items():
            (tmp_path / "plans" / f"{name}.toml").write_text(text)
        if plan_text:
            plan = tmp_path / "draw.toml"
            plan.write_text(plan_text)
        for kept in (tmp_path / "logbook" / "sittings").glob("*.json"):
            if edit_log is not None:
                kept.write_text(edit_log(kept.read_text()))
        on = Stage(tmp_path, probe_on, first, plan)
        async with on.app.run_test(size=size, notifications=True) as pilot:
            on.pilot = pilot
            if not asks_first:  # its answer is waited for in a worker
                await on.opened()
            if acknowledged and on.app.running is not None:
                await on.read_cautions()
            yield on

    return make


@pytest.fixture
def shelf() -> First:
    return Shelf()


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command left behind."""

    returncode: int
    stdout: str
    stderr: str


Ask = Callable[..., Answer]


@contextmanager
def _typed(text: str) -> Iterator[None]:
    """Standard input is a pipe that holds a text and then ends, for whoever reads it from its descriptor."""
    kept = os.dup(0)
    reading, writing = os.pipe()
    os.dup2(reading, 0)
    os.close(reading)
    with os.fdopen(writing, "wb") as typing:
        typing.write(text.encode())
    try:
        yield
    finally:
        os.dup2(kept, 0)
        os.close(kept)


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Ask:
    """Gives a command to the program, and what is typed at it: `ask("run", "normalize", input="next\\n")`."""

    def ask(*words: str, input: str = "", **environment: str) -> Answer:
        capsys.readouterr()
        with _typed(input), patch.dict(os.environ, environment):
            status = main(words)
        said = capsys.readouterr()
        return Answer(status, said.out, said.err)

    return ask

"""A plan, a sitting told by hand, a logbook in a temporary folder, a full disk, a folder that can't be written."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta, timezone
from pathlib import Path
from zlib import crc32

import pytest

import plans
from plans.logbook.book import Logbook
from plans.logbook.figures.of_a_sitting import HeatFigures, SittingFigures, StepFigures
from plans.logbook.header import Header
from plans.logbook.kept_sitting import KeptSitting, WorkedOut
from plans.logbook.log import Log
from plans.logbook.logged_sitting import work_out
from plans.logbook.summary import Progress
from plans.plan import Plan, StepKind
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Begun, Entry, Said, Tick, Word
from plans.sitting.folding import folded

TRIAL = """
heatbook = 1
title = "A trial <b>& more"
about = "Two weld heats, one to draw, normalize, look."

[[step]]
title = "Weld"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
burn_above = "1320 degC"
soak = "60 s"
heats = 2
section = "40 x 14 mm"
reach = "40 x 12 mm"

[[step]]
title = "Draw"
kind = "draw"
fire = "1200 degC"
heat_to = "1150 degC"
keep_above = "900 degC"
soak = "auto"
reach = "40 x 6 mm"
reach_length = "230 mm"

[[step]]
title = "Normalize"
kind = "normalize"
fire = ["930 degC", "875 degC"]
heat_to = ["900 degC", "845 degC"]
soak = "3 min"

[step.air]
until = "480 degC"

[[step]]
title = "Look it over"
kind = "bench"
"""
"""A small plan, as text, since the log keeps it so."""

ROOT = Path(plans.__file__).parents[1]
STARTED = datetime(2026, 11, 25, 9, 15, 2, 125000, timezone(timedelta(hours=1)))

Child = Callable[..., "subprocess.Popen[str]"]


def changed(line: bytes, old: bytes, new: bytes) -> bytes:
    """A line of a journal as a program would have written it that had told another thing."""
    told = line.rstrip(b"\n")[len('["1a2b3c4d",') : -1]
    assert told.count(old) == 1
    told = told.replace(old, new)
    return b'["%08x",%s]\n' % (crc32(told), told)


def written_long_ago(path: Path, content: bytes) -> None:
    """Put a file there that nobody is copying any more."""
    path.write_bytes(content)
    os.utime(path, (1e9, 1e9))


@pytest.fixture
def started() -> datetime:
    return STARTED


@pytest.fixture
def plan() -> Plan:
    return Plan("drawknife", "A drawknife with a laid edge", "", (), (), 'title = "A drawknife"\n# Späne: 5 % \n')


@pytest.fixture(scope="session")
def trial() -> Plan:
    return read_plan(TRIAL, "trial", "trial.toml")


@dataclass
class Telling:
    """A sitting told by hand: `say` a word, `feel` a temperature, `wait`."""

    sitting: Sitting
    at: float = 0.0
    entries: list[Entry] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.entries += self.sitting.open()

    def say(self, *words: Word | str) -> Telling:
        """Words, one after the other; a text is a note, and what is measured is 39 x 9 mm."""
        for word in words:
            text = {Word.MEASURED: "w 39 mm t 9 mm", Word.TICK: "step 1 item 1"}
            said = Said(self.at, Word.NOTE, word)
            if isinstance(word, Word):
                said = Said(self.at, word, text.get(word, ""))
            self.entries += self.sitting.take(said)
        return self

    def wait(self, seconds: float) -> Telling:
        self.at += seconds
        self.entries += self.sitting.take(Tick(self.at))
        return self

    def feel(self, celsius: float | None, seconds: float, every: float = 0.25, fault: str | None = None) -> Telling:
        """The probe says the same for so long; its first reading comes `every` seconds from now."""
        for _ in range(round(seconds / every)):
            self.at += every
            kelvin = None if celsius is None else celsius + 273.15
            self.entries += self.sitting.take(Reading(self.at, kelvin, fault))
        return self

    def kept(self, state: Progress = Progress.FINISHED) -> KeptSitting:
        """As the logbook has it afterwards."""
        plan = self.sitting.plan
        header = Header(f"20261125-091502-{plan.name}", plan.name, plan.title, plan.source, STARTED, "plain", "/dev/x")
        header = replace(header, probe_on=self.sitting.probe_on)
        log = Log(self.entries)
        worked = work_out(header, log)
        return KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)


@pytest.fixture(scope="session")
def telling() -> type[Telling]:
    return Telling


@pytest.fixture
def tell(trial: Plan) -> Callable[..., Telling]:
    """Begin to tell a sitting of the small plan, or of another one."""

    def tell(probe_on: ProbeOn | None = None, of: Plan = trial) -> Telling:
        return Telling(Sitting(of, probe_on))

    return tell


@pytest.fixture
def header(plan: Plan) -> Header:
    return Header(
        "20261125-091502-drawknife", plan.name, plan.title, plan.source, STARTED, "plain", "/dev/ttyX", ProbeOn.WORK
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data" / "logbook"


@pytest.fixture
def book(folder: Path) -> Iterator[Logbook]:
    book = Logbook(folder)
    yield book
    book.close()


@pytest.fixture
def counted() -> Callable[[Header, Log], WorkedOut]:
    """Figures that depend on the log and on nothing else: the heats that began, the calls, the notes."""

    def work_out(header: Header, log: Log) -> WorkedOut:
        state = folded(log.events)
        heats = (
            HeatFigures(number, 1.0 * number, 0.0, 0.0, 0.0, 0.0, 0.0, None, None, None, Basis.MODELLED)
            for number in sorted({event.heat for event in log.events if isinstance(event, Begun)})
        )
        steps = (StepFigures(0, header.title, StepKind.WELD, tuple(heats)),)
        figures = SittingFigures(steps, tuple(state.calls), tuple(state.notes))
        return WorkedOut(figures, log.readings, log.readings.between(0, 60))

    return work_out


@contextmanager
def _files_up_to(size: int) -> Iterator[None]:
    """No file may grow beyond `size` bytes: what is written up to there is, the rest fails, as on a full disk."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@pytest.fixture
def files_up_to() -> Callable[[int], AbstractContextManager[None]]:
    return _files_up_to


@pytest.fixture
def read_only() -> Iterator[Path]:
    """A folder that may be read and not written, for the superuser too: the test runs as nobody then."""
    place = Path(tempfile.mkdtemp(dir="/tmp"))  # nobody gets into the folders of a test
    folder = place / "logbook"
    folder.mkdir()
    place.chmod(0o755)
    folder.chmod(0o555)
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)
    try:
        yield folder
    finally:
        os.seteuid(user)
        shutil.rmtree(place)


@pytest.fixture
def child() -> Iterator[Child]:
    """Starts Python programs that import this project, talks to them through pipes, and ends them after the test."""
    running: list[subprocess.Popen[str]] = []

    def start(source: str, *arguments: object) -> subprocess.Popen[str]:
        process = subprocess.Popen(
            [sys.executable, "-c", source, *map(str, arguments)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
        )
        running.append(process)
        return process

    yield start
    for process in running:
        with process:
            process.kill()

"""A plan, a logbook in a temporary folder, a disk that fills up, and a folder that can't be written."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

import plans
from plans.logbook.book import Logbook
from plans.logbook.header import Header
from plans.logbook.kept import WorkedOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reading import ProbeOn

ROOT = Path(plans.__file__).parents[1]
STARTED = datetime(2026, 11, 25, 9, 15, 2, 125000, timezone(timedelta(hours=1)))

Child = Callable[..., "subprocess.Popen[str]"]


@pytest.fixture
def started() -> datetime:
    return STARTED


@pytest.fixture
def plan() -> Plan:
    return Plan("drawknife", "A drawknife with a laid edge", "", (), (), 'title = "A drawknife"\n# Späne: 5 % \n')


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
    """Figures that depend on the log and on nothing else: one heat for each reading, one call for each event."""

    def work_out(header: Header, log: Log) -> WorkedOut:
        figures = {
            "steps": [{"title": header.title, "heats": [{"heat": n} for n in range(len(log.readings))]}],
            "calls": [{"at_seconds": event.at} for event in log.events],
            "notes": [],
        }
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
    place = Path(tempfile.mkdtemp())
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

"""A source that obeys the test, and a logbook to begin sittings in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from devices.errors import DeviceError
from plans.logbook.book import Logbook
from plans.plan import Plan
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from tui.running.sources import ClockSource, Deliver, WatchLine


class ToldSource(ClockSource):
    """Its clock is set by hand; it writes down what is asked of it, in order."""

    def __init__(self) -> None:
        self.at = 0.0
        super().__init__(lambda: self.at)
        self.asked: list[str] = []
        self.shut = False
        """Whether its port can't be opened."""
        self.answers: list[Word] = []
        """What a rehearsal's smith would say to the next entries."""

    def watch_line(self, watch: WatchLine) -> bool:
        del watch
        self.asked.append("watch line")
        return True

    def start(self, deliver: Deliver) -> None:
        del deliver
        self.asked.append("start")
        if self.shut:
            raise DeviceError("/dev/shut", "can't be opened", "Plug it in.")

    def set_time(self, at: float) -> None:
        self.asked.append(f"set time {at:g}")
        super().set_time(at)

    def taken(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        del sitting
        while self.answers:
            hear(Said(at, self.answers.pop(0)))

    def close(self) -> None:
        self.asked.append("close")


@pytest.fixture
def source() -> ToldSource:
    return ToldSource()


@pytest.fixture
def another() -> Callable[[Plan], ToldSource]:
    """Makes sources of that kind."""
    return lambda _: ToldSource()


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    logbook = Logbook(tmp_path / "logbook")
    yield logbook
    logbook.close()

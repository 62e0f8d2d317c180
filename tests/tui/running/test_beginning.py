"""A sitting that is being begun while the smith leaves: never begun, or put away; never left behind."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from threading import Event, Thread
from typing import TYPE_CHECKING

import pytest

from plans.logbook.book import Logbook
from plans.plan import Plan
from tui.app import HeatbookApp
from tui.config.folders import Folders
from tui.config.settings import Settings
from tui.running.begin import begin_sitting
from tui.running.beginning import Beginning
from tui.running.requests import RunRequest
from tui.running.running_sitting import RunningSitting
from tui.running.sources import Deliver

if TYPE_CHECKING:
    from pathlib import Path

    from tests.tui.running.conftest import ToldSource

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
Begin = Callable[[Callable[[], None]], RunningSitting]


@pytest.fixture
def begin(book: Logbook, plan: Plan, source: ToldSource, tmp_path: Path) -> Begin:
    request = RunRequest(lambda _: source, plan=lambda: plan)
    where = book, Settings(), tmp_path / "shop.toml"
    return lambda go_ahead: begin_sitting(request, *where, lambda _: None, lambda: STARTED, go_ahead)


def test_left_before_anything_is_written_it_is_not_begun(begin: Begin, book: Logbook, source: ToldSource) -> None:
    beginning = Beginning()

    def slowly(go_ahead: Callable[[], None]) -> RunningSitting:
        assert beginning.leave() is None  # as while a port is being opened
        return begin(go_ahead)

    assert beginning.run(slowly) is None
    assert book.summaries() == []
    assert source.asked[-1] == "close"


def test_left_while_it_is_written_it_is_handed_to_whoever_leaves(begin: Begin) -> None:
    beginning, writing = Beginning(), Event()
    left: list[RunningSitting | None] = []

    def leave() -> None:
        writing.wait()
        left.append(beginning.leave())

    leaving = Thread(target=leave)
    leaving.start()

    def meanwhile(go_ahead: Callable[[], None]) -> RunningSitting:
        running = begin(go_ahead)
        writing.set()
        while not beginning._left:
            pass
        return running

    assert beginning.run(meanwhile) is None
    leaving.join()
    assert left[0] is not None
    assert left[0].untouched
    left[0].drop()


def test_not_left_it_is_begun_and_a_fault_is_told(begin: Begin) -> None:
    running = Beginning().run(begin)
    assert running is not None
    running.drop()
    with pytest.raises(ZeroDivisionError):
        Beginning().run(lambda _: 1 // 0)  # type: ignore[arg-type,return-value]


async def test_the_program_ends_while_a_port_is_being_opened_and_nothing_is_listed(
    plan: Plan, tmp_path: Path, source: ToldSource, monkeypatch: pytest.MonkeyPatch
) -> None:
    opening, opened, closed = Event(), Event(), Event()

    def open_slowly(deliver: Deliver) -> None:
        del deliver
        opening.set()
        opened.wait()

    monkeypatch.setattr(source, "start", open_slowly)
    monkeypatch.setattr(source, "close", closed.set)
    folders = Folders(tmp_path / "logbook", tmp_path / "plans", tmp_path / "probes", tmp_path / "heatbook.toml")
    app = HeatbookApp(folders, RunRequest(lambda _: source, plan=lambda: plan), beating=False)
    async with app.run_test() as pilot:
        while not opening.is_set():
            await pilot.pause()
        app.leave()
    assert (app.outcome.errors, app.outcome.status) == ((), 0)
    opened.set()
    assert closed.wait(5)
    assert Logbook(folders.logbook).summaries() == []

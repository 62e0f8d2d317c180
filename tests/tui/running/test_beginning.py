"""A sitting that is being begun while the smith leaves: never begun, or put away; never left behind."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from threading import Event, Thread
from typing import TYPE_CHECKING

import pytest
from textual.containers import VerticalScroll
from textual.events import Key
from textual.widgets import Input

from plans.logbook.book import Logbook
from plans.plan import Plan
from plans.sitting.events import Said, Word
from tui.app import HeatbookApp
from tui.config.folders import Folders
from tui.config.settings import Settings
from tui.live.cautions import CautionsScreen
from tui.running.begin import begin_sitting
from tui.running.beginning import Beginning
from tui.running.requests import RunRequest, Shelf
from tui.running.running_sitting import RunningSitting
from tui.running.sources import Deliver
from tui.screens.line import LineScreen
from tui.terminal.one_by_one import OneByOne
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from pathlib import Path

    from tests.tui.conftest import StageMaker
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


@pytest.fixture
def opening(source: ToldSource, monkeypatch: pytest.MonkeyPatch) -> Opening:
    """Has the source's port take until it is told to be open."""
    opening = Opening()

    def open_slowly(deliver: Deliver) -> None:
        del deliver
        opening.begun.set()
        opening.open.wait(5)

    monkeypatch.setattr(source, "start", open_slowly)
    monkeypatch.setattr(source, "close", opening.closed.set)
    return opening


class Opening:
    """How far the opening of a port is."""

    def __init__(self) -> None:
        self.begun, self.open, self.closed = Event(), Event(), Event()


async def test_the_program_ends_while_a_port_is_being_opened_and_nothing_is_listed(
    plan: Plan, tmp_path: Path, source: ToldSource, opening: Opening
) -> None:
    folders = Folders(tmp_path / "logbook", tmp_path / "plans", tmp_path / "probes", tmp_path / "heatbook.toml")
    app = HeatbookApp(folders, RunRequest(lambda _: source, plan=lambda: plan), beating=False)
    async with app.run_test() as pilot:
        while not opening.begun.is_set():
            await pilot.pause()
        app.leave()
    assert (app.outcome.errors, app.outcome.status) == ((), 0)
    opening.open.set()
    assert opening.closed.wait(5)
    assert Logbook(folders.logbook).summaries() == []


async def test_cautions_that_are_read_sooner_wait_for_the_sitting_and_keys_for_its_screen(
    stage: StageMaker, plan: Plan, source: ToldSource, opening: Opening
) -> None:
    request = RunRequest(lambda _: source, plan=lambda: plan)
    async with stage(first=request, asks_first=True, acknowledged=False) as on:
        await on.settled(lambda: opening.begun.is_set() and isinstance(on.app.screen, CautionsScreen))
        sheet, foot = on.app.screen, on.app.screen.query_one(KeyLine)
        while sheet.query_one(VerticalScroll).max_scroll_y > sheet.query_one(VerticalScroll).scroll_offset.y:
            await on.press("space")
        await on.press("space")
        assert on.app.running is None
        assert [does for _, does, _ in foot.keys] == ["the sitting is being begun"]
        # As from the terminal: it asks for a note, which only a sitting takes.
        typed = OneByOne(on.app, on.app.post_message)
        typed.put(Key("n", "n"))
        await on.pilot.pause()
        assert on.app.screen is sheet
        opening.open.set()
        await on.settled(lambda: isinstance(on.app.screen, LineScreen) and bool(on.app.screen.query(Input)))
        assert [one.word for one in on.running.logged.journal.log.events if isinstance(one, Said)] == [Word.ACKNOWLEDGE]
        assert on.running.sitting.state.acknowledged_at == 0.0


async def test_a_sitting_that_is_left_while_its_port_is_being_opened_was_never_there(
    stage: StageMaker, source: ToldSource, opening: Opening, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.running.requests.probe_or_clock", lambda _: source)
    async with stage(first=Shelf()) as on:
        shelf = on.app.screen
        await on.press("enter")
        await on.settled(lambda: opening.begun.is_set() and isinstance(on.app.screen, CautionsScreen))
        await on.press("q", "l")
        await on.settled(lambda: type(on.app.screen) is type(shelf))
        assert on.app.outcome.errors == ()
        assert "nothing is kept of it" in on.app.outcome.said[0]
        # The next one waits until the port has been closed again.
        await on.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, CautionsScreen))
        assert not opening.closed.is_set()
        assert on.app.running is None
        opening.open.set()
        await on.settled(lambda: on.app.running is not None)
        assert opening.closed.is_set()
        assert len(on.app.logbook.summaries()) == 1
        await on.press("ctrl+c")

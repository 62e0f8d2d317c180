"""What the program begins with: settings, logbook, speech, and what a crash left."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from threading import enumerate as enumerate_threads
from typing import NoReturn

import pytest

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.logbook.summary import Progress
from plans.plan import Plan
from plans.units import Units
from tui.config.folders import Folders
from tui.running.loading import load, open_logbook, read_log, read_shelf, recover_rehearsals

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
NAME = "20260314-091502-draw"


@pytest.fixture
def folders(tmp_path: Path) -> Folders:
    return Folders(tmp_path / "logbook", tmp_path / "plans", tmp_path / "probes", tmp_path / "heatbook.toml")


@pytest.fixture
def cut_off(book: Logbook, plan: Plan) -> None:
    """A sitting whose program was killed: its journal is there, and nobody writes in it."""
    logged = LoggedSitting.begin(book, plan, STARTED)
    journal = logged.journal.path
    content = journal.read_bytes()
    logged.put_away()
    journal.with_suffix(".json").unlink()
    journal.write_bytes(content)
    book.close()


def test_with_nothing_there_all_is_as_it_ships(folders: Folders) -> None:
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert (loaded.speech, loaded.cut_off, loaded.messages) == ((), (), ())
        assert loaded.settings.units is Units.METRIC
        assert not loaded.settings.blocks
        shelf = read_shelf(folders, loaded.logbook)
    assert "drawknife" in [plan.name for plan in shelf.plans]
    assert (shelf.summaries, shelf.messages) == ([], [])


def test_a_terminal_without_braille_has_blocks(folders: Folders, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "linux")
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert loaded.settings.blocks


def test_what_is_wrong_in_each_file_is_told_and_the_rest_holds(folders: Folders) -> None:
    folders.configuration.write_text('units = "inch"\nspeech = "no-such-command"\ncolour = 1\n')
    folders.shop.write_text("weight = 1\n")
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert loaded.settings.units is Units.INCH
        assert loaded.speech == ()
    for wrong in ("colour", "shop.toml", "no-such-command: there is no such speech command"):
        assert sum(wrong in message for message in loaded.messages) == 1


@pytest.mark.usefixtures("cut_off")
def test_a_sitting_that_was_cut_off_is_brought_back_and_said_once(folders: Folders) -> None:
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert [(one.id, one.state) for one in loaded.cut_off] == [(NAME, Progress.UNFINISHED)]
        assert loaded.messages == (f"brought back after it was cut off: Drawknife with a laid edge ({NAME})",)
        assert [one.id for one in read_log(loaded.logbook)[0]] == [NAME]
    opened = open_logbook(folders.logbook)
    with closing(opened.logbook):
        assert (opened.cut_off, opened.messages) == ((), ())


@pytest.mark.usefixtures("cut_off")
def test_what_is_wrong_with_the_logbook_is_told_once(folders: Folders) -> None:
    (journal,) = folders.logbook.rglob("*.jsonl")
    journal.write_text("not a journal\n")
    opened = open_logbook(folders.logbook)
    with closing(opened.logbook):
        assert opened.cut_off == ()
        assert "damaged" in opened.messages[0]
        assert read_log(opened.logbook) == ([], [])


@pytest.mark.usefixtures("cut_off")
def test_a_sitting_that_takes_too_long_is_put_away_without_figures_and_named(
    folders: Folders, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.running.loading._LONGEST", -1.0)
    opened = open_logbook(folders.logbook)
    with closing(opened.logbook):
        assert [(one.id, one.heats) for one in opened.cut_off] == [(NAME, None)]
        assert NAME in opened.messages[0]
        assert "takes longer than" in opened.messages[0]
        assert len(opened.logbook.load(NAME).log) > 0


@pytest.mark.usefixtures("cut_off")
def test_what_is_not_put_away_at_once_is_waited_for_no_longer(
    folders: Folders, monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*asked: Callable[[], None]) -> NoReturn:
        while True:
            asked[-1]()

    monkeypatch.setattr("plans.logbook.work_out", never)
    monkeypatch.setattr("tui.running.loading._PATIENCE", 0.0)
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert [(one.id, one.ended) for one in loaded.cut_off] == [(NAME, None)]
        assert loaded.messages == (f"cut off, and still being put away: Drawknife with a laid edge ({NAME})",)
        (thread,) = (one for one in enumerate_threads() if one.name == "recovery")
        assert LoggedSitting.go_on(loaded.logbook, NAME, STARTED).id == NAME
        thread.join(10)
        assert not thread.is_alive(), "what is gone on with is wanted no more"


@pytest.mark.usefixtures("cut_off")
def test_one_that_can_not_be_put_away_is_named_and_not_offered(folders: Folders) -> None:
    (journal,) = folders.logbook.rglob("*.jsonl")
    journal.with_suffix(".json").write_text('{"sitting":{"1":{"heatbook":99}}}')
    loaded = load(folders, look=False)
    with closing(loaded.logbook):
        assert loaded.cut_off == ()
        (message,) = loaded.messages
        assert f"{NAME}.json was written by a newer heatbook" in message


@pytest.mark.usefixtures("cut_off")
def test_where_another_program_writes_what_was_cut_off_is_no_claim(folders: Folders) -> None:
    other = Logbook(folders.logbook)
    with other._store.turn.borrow():
        opened = open_logbook(folders.logbook)
    opened.logbook.close()
    assert opened.cut_off == ()
    assert "another heatbook is writing" in opened.messages[0]


@pytest.mark.usefixtures("cut_off")
def test_nobody_hears_of_the_rehearsals_that_were_cut_off(folders: Folders, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tui.running.loading._LONGEST", -1.0)
    monkeypatch.setattr("tui.running.loading._PATIENCE", 0.0)
    rehearsals = Logbook(folders.logbook)
    with closing(rehearsals):
        recover_rehearsals(rehearsals)
        for thread in enumerate_threads():
            if thread.name == "recovery":
                thread.join(10)
        assert rehearsals.messages == []
        assert [one.id for one in rehearsals.summaries()] == [NAME]


@pytest.mark.usefixtures("cut_off")
def test_one_that_is_gone_on_with_is_not_put_away_before(folders: Folders) -> None:
    loaded = load(folders, look=False, going_on="last")
    with closing(loaded.logbook):
        assert (loaded.cut_off, loaded.messages) == ((), ())
        assert [path.stem for path in folders.logbook.rglob("*.jsonl")] == [NAME]
        assert LoggedSitting.go_on(loaded.logbook, "last", STARTED).id == NAME

"""Sittings are labelled, deleted and brought back; what is written on one lasts, and only one program writes."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.afterwards.label import Label
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.kept_sitting import WorkOut
from plans.logbook.logged_sitting import work_out
from plans.logbook.search.typed import read_search
from plans.plan import Plan
from plans.shop import FuelRate
from plans.sitting import folded
from plans.sitting.events import Said, Word
from plans.units import Units

KEPT = Path(__file__).with_name("kept")
NAME = "20261125-091500-normalize"
GIFT = Label("A blade for the shed", "gift", True)


def gift(label: Label) -> Label:
    return label.titled(" A blade\tfor the  shed ").marked("gift").put_by()


def document(path: Path) -> dict[str, Any]:
    return dict(json.loads(path.read_text())["sitting"]["1"])


@pytest.fixture
def put(folder: Path) -> Callable[[str], Path]:
    """Put a file that was kept from an earlier version into the logbook."""

    def put(kept: str) -> Path:
        path = folder / "sittings" / (NAME + Path(kept).suffix)
        path.parent.mkdir(parents=True)
        return Path(shutil.copy(KEPT / kept, path))

    return put


# What is told here was said and felt when these files were made: 100 s in the fire at 910 degC, and a note.
WORDS = "clean peak > 909 degC peak < 911 degC in fire = 100 s"


@pytest.mark.parametrize("kept", ["format-1.json", "format-1-labelled.json", "format-1.jsonl", "format-2.json"])
def test_files_of_earlier_versions_are_read(book: Logbook, folder: Path, put: Callable[[str], Path], kept: str) -> None:
    put(kept)
    if kept.endswith("l"):
        book.recover(work_out)
    labelled = GIFT if "labelled" in kept else Label()
    sitting = book.load(NAME)
    assert (sitting.misfit, sitting.label) == ("", labelled)
    assert len(sitting.log.readings) == 400
    assert sitting.figures is not None
    assert sitting.figures.heats[0].in_fire == 100.0
    search = read_search(WORDS + (" is: archived" if labelled.archived else ""))
    assert [one.id for one in search.found(book.searchable(), Units.METRIC)] == [NAME]
    (folder / "index.json").unlink(missing_ok=True)
    assert [one.label for one in book.summaries()] == [labelled], "a lost index loses nothing"
    assert [one.id for one in search.found(Logbook(folder).searchable(), Units.METRIC)] == [NAME]
    assert book.messages == []


def test_what_was_said_when_a_sitting_was_over_is_read(book: Logbook, put: Callable[[str], Path]) -> None:
    """Ticked, weighed, photographed, rated, and with a lesson, when that file was made."""
    put("format-2.json")
    kept = book.load(NAME)
    assert kept.damage == ""
    assert kept.header.shop.fuel == FuelRate(mass=1.4)
    assert folded(kept.log.events).ticked_at(0, 1) == 100.0
    assert kept.measured_later is not None
    assert [one.measured.hardness for one in kept.measured_later.standing] == [40.0]
    assert kept.photographs is not None
    assert [one.note for one in kept.photographs.standing] == ["even scale"]
    assert kept.outcome is not None
    assert kept.outcome.rating == 4
    assert [one.lesson.text for one in book.recall()[0:1]] == ["hang it by the tang"]


def test_what_is_read_out_of_old_files_once_stands_in_the_index(
    book: Logbook, folder: Path, put: Callable[[str], Path]
) -> None:
    path = put("format-1.json")
    assert book.summaries()[0].facts is None
    facts = book.searchable()[0].facts
    assert facts is not None
    path.write_text(path.read_text().replace("910", "xxx"))
    assert Logbook(folder).searchable()[0].facts == facts


def test_what_more_a_search_asks_is_read_out_of_files_that_had_less(
    book: Logbook, folder: Path, put: Callable[[str], Path]
) -> None:
    put("format-2.json")
    before = book.summaries()[0]
    assert before.facts is not None
    assert (before.is_searchable, before.facts.rating) == (False, None)
    search = read_search("rating = 4 hardness = 40 reheats = 0")
    assert [one.id for one in search.found(book.searchable(), Units.METRIC)] == [NAME]
    after = Logbook(folder).summaries()[0]
    assert after.is_searchable
    assert after.facts is not None
    # 1.4 kg in an hour, for the 100 s in the fire.
    assert after.facts.fuel_mass == pytest.approx(1.4 * 100 / 3600, abs=1e-4)


def test_a_label_changes_nothing_else_of_a_file(book: Logbook, put: Callable[[str], Path]) -> None:
    path = put("format-1.json")
    before = document(path)
    assert book.relabel("last", gift, "renamed").label == GIFT
    after = document(path)
    assert {key for key in after if after[key] != before.get(key)} == {"summary", "label"}
    assert next(iter(after)) == "summary", "a list reads only the head"
    assert book.undo() is not None
    assert document(path)["label"] == Label().to_record()
    assert book.undo() is None


def test_a_newer_file_is_left_as_it_is(book: Logbook, put: Callable[[str], Path]) -> None:
    path = put("format-1.json")
    newer = path.read_bytes().replace(b'"heatbook":1', b'"heatbook":99').replace(b'"figures"', b'"figures-2"')
    path.write_bytes(newer)
    with pytest.raises(LogbookError, match="written by a newer heatbook; read it with that one"):
        book.relabel(NAME, gift, "renamed")
    book.searchable()
    assert path.read_bytes() == newer


@pytest.mark.parametrize("damage", [b'"label":7', b'"label":{"mark":[]}', b'"label":{"archived":"no"}'])
def test_a_damaged_label_costs_nothing_but_the_label(book: Logbook, put: Callable[[str], Path], damage: bytes) -> None:
    path = put("format-1-labelled.json")
    label = b'"label":' + json.dumps(GIFT.to_record(), separators=(",", ":")).encode()
    assert path.read_bytes().count(label) == 2
    path.write_bytes(path.read_bytes().replace(label, damage))
    assert len(book.load(NAME).log.readings) == 400
    assert book.messages == [f"title and mark of sitting {NAME} can't be read; all else of it is whole"]
    assert book.relabel(NAME, gift, "renamed").label == GIFT


def test_damaged_figures_keep_nobody_from_marking_a_sitting(book: Logbook, put: Callable[[str], Path]) -> None:
    path = put("format-1.json")
    tables = json.loads(path.read_text())
    tables["sitting"]["1"]["figures"] = 7
    path.write_text(json.dumps(tables))
    assert book.relabel(NAME, gift, "renamed").label == GIFT
    tables["sitting"]["1"]["events"] = 7
    path.write_text(json.dumps({"sitting": {"1": tables["sitting"]["1"] | {"summary": 7}}}))
    os.utime(path, (0, 0))  # nobody is copying it any more
    with pytest.raises(LogbookError, match=r"can't be read, it is damaged; the damaged file is kept as .*\.bad"):
        book.relabel(NAME, gift, "renamed")


@pytest.mark.parametrize(
    ("text", "why"),
    [("two words", 'more than one word; write one, as "two-words"'), ("x" * 21, "has 21 characters and may have 20")],
)
def test_a_mark_is_one_short_word(text: str, why: str) -> None:
    with pytest.raises(LogbookError, match=why):
        Label().marked(text)


def test_a_label_that_came_in_a_file_is_plain() -> None:
    """Whoever is asked for another title has the old one in the line."""
    assert Label.from_record({"title": "a\u202e\x1b[2Jb\u2066", "mark": "\x9bx"}) == Label("a[2Jb", "x")


def test_what_is_deleted_comes_back_until_the_program_is_left(
    book: Logbook, folder: Path, put: Callable[[str], Path]
) -> None:
    path = put("format-1-labelled.json")
    content = path.read_bytes()
    assert book.delete(NAME).label == GIFT
    assert (path.exists(), book.summaries(), [one.id for one in book.deleted()]) == (False, [], [NAME])
    with pytest.raises(LogbookError, match="no sittings yet"):
        book.delete(NAME)
    assert book.undo() == ("deleted", book.summaries()[0])
    assert path.read_bytes() == content
    other = Logbook(folder)  # as a program that began before this one deleted it
    book.delete(NAME)
    other.empty_trash()
    assert book.restore("last").id == NAME
    book.delete(NAME)
    book.empty_trash()
    assert not (folder / "trash").exists()
    with pytest.raises(LogbookError, match="nothing is deleted"):
        book.restore("last")
    assert book.undo() is None


def test_what_could_not_be_brought_back_is_not_deleted(book: Logbook, folder: Path, put: Callable[[str], Path]) -> None:
    """The list knows it by the index, whatever has become of its file since."""
    path = put("format-1.json")
    whole = path.read_bytes()
    assert book.summaries()
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(LogbookError, match="still being copied"):
        book.delete(NAME)
    assert path.stat().st_size == len(whole) // 2
    path.unlink()
    path.symlink_to(folder / "nowhere")
    with pytest.raises(LogbookError, match="can't be read: it is not there, or a link to what is not"):
        book.delete(NAME)
    assert path.is_symlink()


def test_a_newer_file_in_the_trash_hides_nothing_else(book: Logbook, folder: Path, put: Callable[[str], Path]) -> None:
    put("format-2.json")
    book.delete(NAME)
    newer = (folder / "trash" / f"{NAME}.json").read_text().replace('"schema":1', '"schema":7')
    (folder / "trash" / f"{NAME}-2.json").write_text(newer)
    assert [one.id for one in book.deleted()] == [NAME]


def test_a_sitting_that_runs_is_neither_labelled_nor_deleted(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    """And while it runs, nobody else may write; gone on with, it keeps what was written on it before."""
    journal = book.open_sitting(plan, started)
    journal.event(Said(1.0, Word.NEXT))
    name = book.fold(journal, counted).id
    book.relabel(name, gift, "renamed")
    journal = book.go_on(book.take_up(name), started + timedelta(hours=1))
    other = Logbook(folder)
    for logbook in (book, other):
        with pytest.raises(LogbookError, match="runs and has not been put away yet"):
            logbook.relabel(name, gift, "renamed")
        with pytest.raises(LogbookError, match="runs and has not been put away yet"):
            logbook.delete(name)
    assert [one.label for one in other.summaries()] == [GIFT]
    journal.event(Said(2.0, Word.FINISH))
    assert book.fold(journal, counted).label == GIFT
    with pytest.raises(LogbookError, match=r"another heatbook is writing in this logbook \(process \d+\)"):
        other.delete(name)
    book.close()
    assert other.delete(name).label == GIFT

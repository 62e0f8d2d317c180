"""Lessons: what belongs to what, kept with their sitting, recalled from one file, and counted where they were said."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.logbook import (
    Logbook,
    LogbookError,
    Outcome,
    SittingLessons,
    Tie,
    WorkedOut,
    at_step,
    with_weld_said,
    work_out,
)
from plans.logbook.afterwards.outcome import Flaw, WeldOutcome
from plans.logbook.exports import export
from plans.plan import Plan, StepKind
from plans.reader import find_plan, read_plan, steels_of
from plans.reading import Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.units import Units
from tests.plans.logbook.conftest import written_long_ago
from tests.png import png

if TYPE_CHECKING:
    from plans.logbook import KeptSitting

KNIFE = """
heatbook = 1
title = "A knife"

[[bar]]
name = "edge"
steel = "C75S"
section = "25 x 5 mm"
length = "150 mm"

[[step]]
title = "Close the point"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
heats = 1

[[step]]
title = "Grind"
kind = "bench"
"""


@pytest.fixture(scope="session")
def knife() -> Plan:
    return read_plan(KNIFE, "knife", "knife.toml")


def sat(book: Logbook, plan: Plan, started: datetime, *words: Word) -> str:
    """A sitting of a plan, put away after these words; its id."""
    journal = book.open_sitting(plan, started)
    sitting = Sitting(plan)
    events = list(sitting.open())
    for number, word in enumerate((Word.ACKNOWLEDGE, *words)):
        events += sitting.take(Said(float(number), word))
    for event in events:
        assert not isinstance(event, Reading)
        journal.event(event)
    return book.fold(journal, lambda *_: WorkedOut(None)).id


def learn(book: Logbook, sitting: str, text: str, tie: Tie, now: datetime) -> None:
    def change(kept: KeptSitting) -> KeptSitting:
        return replace(kept, lessons=(kept.lessons or SittingLessons()).learned(text, tie, 0, now, kept.header.plan))

    book.amend(sitting, change)


@pytest.mark.parametrize(
    ("tie", "steps"),
    [
        (Tie(StepKind.WELD), [0]),
        (Tie(StepKind.WELD, "Close the point"), [0]),
        (Tie(StepKind.WELD, "Weld"), []),
        (Tie(steel="1.1248"), [0, 1]),  # the number that EN 10027-2 has for C75S
        (Tie(StepKind.WELD, steel="1.1248"), [0]),
        (Tie(steel="1075"), []),  # comes close, and is another steel
        (Tie(plan="A knife"), [0, 1]),
        (Tie(plan="Another"), []),
    ],
)
def test_what_belongs_to_what(tie: Tie, steps: list[int], knife: Plan) -> None:
    assert [step for step in range(len(knife.steps)) if tie.belongs(knife, step)] == steps


@pytest.mark.parametrize(
    ("name", "steels"),
    [
        ("drawknife", ("1018", "1084")),
        ("harden-1084", ("1084",)),
        ("harden-o1", ("O1",)),
        ("normalize", ()),
        ("etch", ()),
    ],
)
def test_a_lesson_on_a_steel_belongs_to_plans_that_only_harden_it_too(name: str, steels: tuple[str, ...]) -> None:
    plan = find_plan(name, None)
    assert steels_of(plan) == steels
    for steel in ("1084", "O1"):
        assert Tie(steel=steel).belongs(plan, 0) == (steel in steels)


def test_a_lesson_of_one_plan_stands_in_another_and_is_counted(
    tmp_path: Path, trial: Plan, knife: Plan, started: datetime
) -> None:
    book = Logbook(tmp_path / "logbook")
    learned_in = sat(book, trial, started, Word.FINISH)
    learn(book, learned_in, "flux  sooner", Tie(StepKind.WELD), started + timedelta(hours=1))
    learn(book, learned_in, "this step alone", Tie(StepKind.WELD, "Weld"), started + timedelta(hours=1))
    said = [one.lesson.text for one in at_step(book.recall(), knife, 0)]
    assert said == ["flux  sooner"]
    assert not at_step(book.recall(), knife, 1)
    sat(book, knife, started + timedelta(days=1), Word.FINISH)
    sat(book, knife, started + timedelta(days=2), Word.FINISH)
    assert {one.id: one.said for one in book.recall()} == {f"{learned_in}.1": 2, f"{learned_in}.2": 0}
    # A sitting from before it was written counts for nothing.
    sat(book, knife, started, Word.FINISH)
    assert book.recall()[0].said == 2
    book.close()


def test_the_file_of_all_lessons_is_made_again(tmp_path: Path, trial: Plan, started: datetime) -> None:
    book = Logbook(tmp_path / "logbook")
    name = sat(book, trial, started, Word.FINISH)
    learn(book, name, "flux sooner", Tie(StepKind.WELD), started)
    before = book.recall()
    whole = tmp_path / "logbook" / "lessons.json"
    for spoiled in (b"", b'{"lessons":{"1":{"sitting":3}}}', None):
        if spoiled is None:
            whole.unlink()
        else:
            whole.write_bytes(spoiled)
        assert book.recall() == before
        assert json.loads(whole.read_bytes())
    assert len(book.messages) == 2
    assert all("made again" in said for said in book.messages)
    # As a copy from another machine: what was learned there comes with it.
    kept = tmp_path / "logbook" / "sittings" / f"{name}.json"
    kept.with_name(f"{name}-2.json").write_bytes(kept.read_bytes())
    assert [one.id for one in book.recall()] == [f"{name}.1", f"{name}-2.1"]
    book.close()


def test_going_on_and_working_out_again_keep_what_was_said(tmp_path: Path, trial: Plan, started: datetime) -> None:
    book = Logbook(tmp_path / "logbook")
    name = sat(book, trial, started, Word.NEXT)
    learn(book, name, "flux <b>sooner", Tie(StepKind.WELD), started)
    outcome = Outcome((WeldOutcome(0, (Flaw.COLD_SHUT,)),), warp=0.002, rating=2)
    book.amend(name, lambda kept: replace(kept, outcome=outcome))
    (tmp_path / "edge.png").write_bytes(png(9))
    photographs = book.add_photograph(name, str(tmp_path / "edge.png"), now=started.replace(microsecond=0)).photographs
    journal = book.go_on(book.take_up(name), started + timedelta(hours=2))
    journal.event(Said(9000.0, Word.NOTE, "gone on"))
    summary = book.fold(journal, lambda *_: WorkedOut(None))
    kept = book.load(name, work_out)
    assert kept.figures is not None
    again = Logbook(tmp_path / "logbook").load(name)
    assert (again.outcome, again.photographs) == (outcome, photographs)
    assert again.lessons is not None
    assert [lesson.text for lesson in again.lessons.written] == ["flux <b>sooner"]
    page = export(again, "html", Units.INCH)
    assert "<li>flux &lt;b&gt;sooner (every weld step)</li>" in page
    assert "<li>warp: 5/64 in</li>" in page
    assert summary.outcome == "cold shut, warped, rated 2" == book.summaries()[0].outcome
    book.close()


def test_one_that_is_damaged_costs_nothing_else(tmp_path: Path, trial: Plan, started: datetime) -> None:
    book = Logbook(tmp_path / "logbook")
    name = sat(book, trial, started, Word.FINISH)
    learn(book, name, "flux sooner", Tie(StepKind.WELD), started)
    path = tmp_path / "logbook" / "sittings" / f"{name}.json"
    path.write_text(path.read_text().replace('"kind":"weld","step_title"', '"kind":"wed","step_title"'))
    damaged = path.read_bytes()
    assert not book.recall()
    assert "lessons of sitting" in book.messages[0]
    assert book.load(name).unread
    with pytest.raises(LogbookError, match="not written over"):
        learn(book, name, "another", Tie(StepKind.WELD), started)
    assert path.read_bytes() == damaged
    book.close()


def test_the_lessons_of_a_sitting_that_was_cut_short_are_said_on_and_that_is_told(
    tmp_path: Path, trial: Plan, started: datetime
) -> None:
    book = Logbook(tmp_path / "logbook")
    name = sat(book, trial, started, Word.FINISH)
    learn(book, name, "flux sooner", Tie(StepKind.WELD), started)
    before = book.recall()
    path = tmp_path / "logbook" / "sittings" / f"{name}.json"
    for much in (-300, 20):
        written_long_ago(path, path.read_bytes()[:much])
        reader = Logbook(tmp_path / "logbook")
        assert reader.recall() == before
        assert [str(path) in said and "it is damaged" in said for said in reader.messages] == [True]
    book.close()


def test_a_weld_is_not_sound_and_flawed_at_once(knife: Plan) -> None:
    with pytest.raises(LogbookError, match="a weld that is sound has no flaw beside that"):
        with_weld_said(Outcome(), knife, 0, "sound,burnt")


def test_a_lesson_needs_a_text_of_one_line(started: datetime) -> None:
    for text in (" \t ", "x" * 201):
        with pytest.raises(LogbookError):
            SittingLessons().learned(text, Tie(StepKind.WELD), 0, started, "a")

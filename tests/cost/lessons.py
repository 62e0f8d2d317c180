"""What the lessons of a logbook cost: those of a step in one of 1,000 sittings beside one of 10."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from plans.logbook import Logbook, SittingLessons, Tie, at_step
from plans.plan import Plan, Step, StepKind
from tests.cost.logbook import STARTED, kept_sittings, processor
from tests.cost.row import Row, by_turns

PLAN = Plan("knife", "A knife", "", (), (Step("Weld", StepKind.WELD, ()),), "")


def rows() -> Iterator[Row]:
    """The lessons found for a step; and those of a logbook without the file that has them all, beside its heads."""
    with TemporaryDirectory() as place:
        few, many = (learned(kept_sittings(Path(place) / str(count), count)) for count in (10, 1000))
        many_took, few_took = by_turns(15, lambda _: found(many), lambda _: found(few))
        yield Row("lessons for a step, in 1,000 sittings", many_took, "in 10", few_took, 40)
        whole, index = many / "lessons.json", many / "index.json"
        ours, theirs = by_turns(15, lambda _: found(many), lambda _: processor(lambda: json.loads(index.read_bytes())))
        yield Row("lessons for a step, in 1,000 sittings", ours, "json.loads of its index", theirs, 8)

        def again(_: int) -> float:
            whole.unlink()
            return found(many)

        ours, theirs = by_turns(5, again, lambda _: heads(many))
        yield Row("lessons of 1,000 sittings, put together again", ours, "read of as many heads", theirs, 8)


def learned(folder: Path) -> Path:
    """The logbook with a lesson in every fifth sitting, every other one of them on a kind of step that comes."""
    book = Logbook(folder)
    names = sorted(summary.id for summary in book.summaries())
    for number, name in enumerate(names[::5]):
        tie = Tie(StepKind.WELD if number % 2 else StepKind.HARDEN)
        lessons = SittingLessons().learned(f"lesson {number}", tie, 0, STARTED + timedelta(days=number), PLAN.name)
        book.amend(name, lambda kept, lessons=lessons: replace(kept, lessons=lessons))  # type: ignore[misc]
    assert len(book.recall()) == len(names[::5])
    book.close()
    return folder


def found(folder: Path) -> float:
    """Processor time for the lessons of a step, from the files on the disk [s]."""
    return processor(lambda: at_step(Logbook(folder).recall(), PLAN, 0))


def heads(folder: Path) -> float:
    """Processor time for reading the head of every sitting's file [s]."""

    def read() -> None:
        for path in (folder / "sittings").iterdir():
            with path.open("rb") as file:
                json.JSONDecoder().raw_decode(file.read(4096).decode().partition('"summary":')[2].lstrip())

    return processor(read)

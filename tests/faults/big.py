"""Logbooks and sittings far larger than any smith's: 10,000 notes, a note of 1 MB, 2,000 sittings.

Nothing may grow faster than what is in them: ten times as much may take little more than ten times as long.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from time import process_time

from plans.logbook import KeptSitting, Logbook, Timeline, work_out
from plans.logbook.exports import export
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.log import Log
from plans.reader import find_plan
from plans.sitting import Said, Sitting, Word
from plans.units import Units
from tui.cli.sitting_text import sitting_text
from tui.review.review_data import read_review
from tui.review.rows import review_options

STARTED = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
LONGEST = 5.0
"""What takes more of a processor hangs [s]."""
_GROWTH = 25.0
"""Ten times as much may take so many times as long: caches are left behind, but it is far below a hundred."""

Look = Callable[[Logbook], object]


def _kept(logbook: Logbook) -> KeptSitting:
    return logbook.load("last", work_out)


LOOKS: dict[str, Look] = {
    "list": Logbook.summaries,
    "show": lambda logbook: sitting_text(_kept(logbook), Units.METRIC),
    "review": lambda logbook: review_options(read_review(logbook, "last"), Units.METRIC),
    "timeline": lambda logbook: Timeline.of(_kept(logbook)),
    "csv": lambda logbook: export(_kept(logbook), "csv"),
    "json": lambda logbook: export(_kept(logbook), "json"),
    "html": lambda logbook: export(_kept(logbook), "html"),
}


def noted(folder: Path, notes: int, length: int) -> Logbook:
    """A logbook with one sitting of so many notes, each of so many characters, that a crash cut off."""
    plan = find_plan("normalize", None)
    sitting = Sitting(plan)
    entries = sitting.open() + sitting.take(Said(0.0, Word.NEXT))
    for number in range(notes):
        entries += sitting.take(Said(number / 20, Word.NOTE, f"{number} ".ljust(length, "x")))
    header = Header("20261125-091502-normalize", plan.name, plan.title, plan.source, STARTED)
    Journal.create(folder / "sittings", header, Log(entries)).close()
    logbook = Logbook(folder)
    logbook.recover(work_out)
    return logbook


def many_notes(folder: Path, notes: int = 10_000) -> Iterator[str | None]:
    """Each look at a sitting of many notes, beside one of a tenth."""
    yield from _compared(noted(folder / "few", notes // 10, 60), noted(folder / "many", notes, 60), f"{notes} notes")


def long_note(folder: Path, length: int = 1_000_000) -> Iterator[str | None]:
    """Each look at a sitting with one note of 1 MB, beside one of a tenth."""
    few, many = (noted(folder / name, 1, count) for name, count in (("short", length // 10), ("long", length)))
    yield from _compared(few, many, f"a note of {length} characters")
    text = sitting_text(_kept(many), Units.METRIC)
    yield None if "x" * (length - 2) in text else f"a note of {length} characters is not whole in `log show`"


def many_sittings(folder: Path, sittings: int = 2000) -> Iterator[str | None]:
    """The list of many sittings, beside one of a tenth: with an index, without one, and once more."""
    few, many = (_sittings(folder / name, count) for name, count in (("few", sittings // 10), ("many", sittings)))
    yield from _compared(few, many, f"{sittings} sittings", {"list": Logbook.summaries})
    for logbook in (few, many):
        (logbook.folder / "index.json").unlink()
    _, first = _spent(few, Logbook.summaries), _spent(many, Logbook.summaries)
    yield None if first < LONGEST / 5 else f"{sittings} sittings without an index: listed in {first:.2f} s"
    yield None if (many.folder / "index.json").exists() else f"{sittings} sittings: the index was not mended"
    yield None if len(many.summaries()) == sittings else "sittings are missing in the list"


def _sittings(folder: Path, count: int) -> Logbook:
    with closing(noted(folder, 5, 60)) as logbook:
        (first,) = logbook.summaries()
        path = folder / "sittings" / f"{first.id}.json"
        for number in range(1, count):
            stamp = f"{STARTED + timedelta(hours=number):%Y%m%d-%H%M%S}"
            path.with_name(f"{stamp}-normalize.json").write_bytes(path.read_bytes())
        assert len(logbook.summaries()) == count
    return Logbook(folder)


def _compared(few: Logbook, many: Logbook, what: str, looks: dict[str, Look] = LOOKS) -> Iterator[str | None]:
    for name, look in looks.items():
        _spent(few, look)  # what is loaded for it is loaded then
        little, much = _spent(few, look), _spent(many, look)
        if much > LONGEST:
            yield f"{what}, {name}: took {much:.1f} s"
        elif much > max(0.2, _GROWTH * little):
            yield f"{what}, {name}: {much:.2f} s, and {little:.3f} s with a tenth of it"
        else:
            yield None
    few.close()
    many.close()


def _spent(logbook: Logbook, look: Look) -> float:
    """Processor time that a look takes [s]."""
    begun = process_time()
    look(logbook)
    return process_time() - begun

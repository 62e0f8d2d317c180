"""What trends cost beside reading sittings whole, and what comparing costs beside reading those that are compared."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from plans.logbook import KeptSitting, Logbook, Timeline, work_out
from plans.logbook.comparing import Moment, habits_told, lay_heats, occasions, points_of, side_by_side
from plans.logbook.exports import export, to_beside_page
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Said, Sitting, Word
from tests.cost.logbook import STARTED, processor
from tests.cost.row import Row, by_turns

PLAN = """
heatbook = 1
title = "A bar"

[[step]]
title = "Weld"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
soak = "60 s"
heats = 24
section = "40 x 14 mm"
"""


def rows() -> Iterator[Row]:
    """Trends of 1,000 sittings beside those of 100, and beside reading these whole."""
    with TemporaryDirectory() as place:
        many, few = (sat(Path(place) / str(count), count) for count in (1000, 100))
        ours, theirs = by_turns(5, lambda _: trends(many), lambda _: trends(few))
        yield Row("trends of 1,000 sittings of two hours", ours, "of 100", theirs, 15)
        ours, theirs = by_turns(3, lambda _: trends(few), lambda _: whole(few, 10))
        yield Row("trends of 100 sittings of two hours", ours, "reading 10 of them whole", theirs, 1)
        two = [few.load(summary.id) for summary in few.summaries()[:2]]
        ours, theirs = by_turns(5, lambda _: compared(two), lambda _: whole(few, 2))
        yield Row("two sittings beside one another, one heat laid over", ours, "reading both", theirs, 3)
        ours, theirs = by_turns(3, lambda _: compared_page(two), lambda _: pages(two))
        yield Row("their page", ours, "the pages of both", theirs, 2)


def sat(folder: Path, count: int) -> Logbook:
    """A logbook with this many sittings of two hours at 1 Hz: weld heats of five minutes."""
    logbook = Logbook(folder)
    plan = read_plan(PLAN, "bar", "bar.toml")
    sitting = Sitting(plan, ProbeOn.WORK)
    entries = [*sitting.open(), *sitting.take(Said(0.0, Word.ACKNOWLEDGE))]
    for second in range(7200):
        if second % 300 in (0, 240):  # into the fire, and out of it
            entries += sitting.take(Said(float(second), Word.NEXT))
        entries += sitting.take(Reading(second + 0.5, 1523.15 if second % 300 < 240 else 1453.15))
    entries += sitting.take(Said(7200.0, Word.FINISH))
    journal = logbook.open_sitting(plan, STARTED, probe_on=ProbeOn.WORK)
    for entry in entries:
        if isinstance(entry, Reading):
            journal.reading(entry)
        else:
            journal.event(entry)
    first = folder / "sittings" / f"{logbook.fold(journal, work_out).id}.json"
    for number in range(1, count):
        first.with_name(f"{STARTED + timedelta(hours=3 * number):%Y%m%d-%H%M%S}-bar.json").write_bytes(
            first.read_bytes()
        )
    assert len(logbook.summaries()) == count  # which enters the copies in the index
    return logbook


def trends(logbook: Logbook) -> float:
    """Processor time of trends and habits [s]."""

    def told() -> None:
        found = list(occasions(logbook))
        assert all(point.heats > 20 for point in points_of(found))
        assert habits_told(found).sittings == 0

    return processor(told)


def whole(logbook: Logbook, count: int) -> float:
    """Processor time of reading so many sittings whole [s]."""
    return processor(lambda: [logbook.load(summary.id) for summary in logbook.summaries()[:count]])


def compared(two: list[KeptSitting]) -> float:
    """Processor time of figures side by side, and of one heat of each from when it went into the fire [s]."""

    def told() -> None:
        parts = side_by_side(two)
        laid = lay_heats([Timeline.of(kept) for kept in two], Moment.FIRE, parts[1].steps, 1)
        assert None not in laid

    return processor(told)


def compared_page(two: list[KeptSitting]) -> float:
    """Processor time of their page, with a picture of each heat [s]."""

    def told() -> None:
        assert to_beside_page(two).count("<figure>") > 20

    return processor(told)


def pages(two: list[KeptSitting]) -> float:
    """Processor time of the page of each [s]."""
    return processor(lambda: [export(kept, "html") for kept in two])

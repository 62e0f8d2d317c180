"""What trends cost, beside listing the same logbook: reading of each sitting what they need, and no more."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from plans.logbook import Logbook
from plans.logbook.comparing import habits_told, occasions, points_of
from tests.cost.logbook import kept_sittings, processor
from tests.cost.row import Row, by_turns


def rows() -> Iterator[Row]:
    """Trends of 1,000 sittings beside those of 100, and beside reading as many sittings whole."""
    with TemporaryDirectory() as place:
        many, few = (Logbook(kept_sittings(Path(place) / str(count), count)) for count in (1000, 100))
        ours, theirs = by_turns(5, lambda _: trends(many), lambda _: trends(few))
        yield Row("trends of 1,000 sittings", ours, "of 100", theirs, 15)
        ours, theirs = by_turns(5, lambda _: trends(few), lambda _: whole(few))
        yield Row("trends of 100 sittings, of five minutes each", ours, "reading these whole", theirs, 0.5)


def trends(logbook: Logbook) -> float:
    """Processor time of trends and habits [s]."""

    def told() -> None:
        found = list(occasions(logbook))
        assert points_of(found)
        assert habits_told(found).sittings == 0

    return processor(told)


def whole(logbook: Logbook) -> float:
    """Processor time of reading every sitting whole [s]."""
    return processor(lambda: [logbook.load(summary.id) for summary in logbook.summaries()])

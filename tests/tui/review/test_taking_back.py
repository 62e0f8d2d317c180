"""Taking back what was said of a sitting that is over: that alone, and only while nothing else of its kind was said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from plans.logbook import KeptSitting, Logbook, LogbookError, Outcome, SittingLessons, Tie, as_said_before, measured_at
from plans.plan import StepKind
from plans.sitting import Word
from plans.units import Units
from tests.png import png
from tests.tui.review.test_afterwards import finished
from tui.review.amended import Amended, amended

NOW = datetime(2026, 3, 20, 9, 0, tzinfo=UTC)
TIE = Tie(StepKind.WELD)
Change = Callable[[KeptSitting], KeptSitting]


@pytest.fixture
def book(tmp_path: Path) -> Logbook:
    finished(tmp_path / "logbook", Word.ACKNOWLEDGE, Word.NEXT)
    return Logbook(tmp_path / "logbook")


def measured(text: str, units: Units = Units.METRIC) -> Change:
    return lambda kept: measured_at(kept, 1, text, units, NOW)


def learned(text: str) -> Change:
    return lambda kept: replace(
        kept, lessons=(kept.lessons or SittingLessons()).learned(text, TIE, 1, NOW, kept.header.plan)
    )


def back(book: Logbook, said: Amended) -> KeptSitting:
    return book.amend("last", as_said_before(said.before, said.after, NOW))


def words(kept: KeptSitting) -> list[str]:
    return [] if kept.measured_later is None else [one.as_word for one in kept.measured_later.standing]


@pytest.mark.parametrize(("text", "units"), [("w 30 t 18", Units.METRIC), ("w 1 5/32 t 11/64 l 6 1/3", Units.INCH)])
def test_a_figure_is_taken_back_in_any_units_and_its_number_is_not_given_again(
    book: Logbook, text: str, units: Units
) -> None:
    said = amended(book, "last", measured(text, units))
    assert len(words(book.load("last"))) == 1
    assert words(back(book, said)) == []
    again = amended(book, "last", measured("l 150")).after.measured_later
    assert again is not None
    assert [one.number for one in again.standing] == [2]


def test_what_another_terminal_said_stays(book: Logbook) -> None:
    said = amended(book, "last", measured("w 30 t 18"))
    amended(book, "last", learned("flux sooner"))
    kept = back(book, said)
    assert words(kept) == []
    assert kept.lessons is not None
    assert [one.text for one in kept.lessons.written] == ["flux sooner"]


def test_where_more_was_said_of_it_nothing_is_taken_back(book: Logbook) -> None:
    said = amended(book, "last", measured("w 30"))
    amended(book, "last", measured("t 18"))
    with pytest.raises(LogbookError, match="more was said"):
        back(book, said)
    assert len(words(book.load("last"))) == 2


def test_a_lesson_is_gone_and_its_number_too(book: Logbook) -> None:
    said = amended(book, "last", learned("flux sooner"))
    kept = back(book, said)
    assert kept.lessons is not None
    assert kept.lessons.written == ()
    lessons = amended(book, "last", learned("brush it")).after.lessons
    assert lessons is not None
    assert [one.number for one in lessons.written] == [2]
    assert book.load("last").lessons == lessons


def test_an_outcome_in_inches_is_taken_back(book: Logbook) -> None:
    warped = Outcome(warp=0.0254 / 64 * 3, changed=NOW)
    said = amended(book, "last", lambda kept: replace(kept, outcome=warped))
    assert (back(book, said).outcome or Outcome()).warp is None


def test_a_photograph_counts_no_longer(book: Logbook, tmp_path: Path) -> None:
    picture = tmp_path / "edge.png"
    picture.write_bytes(png(4))
    before = book.load("last")
    after = book.add_photograph("last", str(picture), step=1, note="", copied=False, now=NOW)
    kept = back(book, Amended(before, after))
    assert kept.photographs is not None
    assert kept.photographs.standing == ()
    assert len(kept.photographs.kept) == 1

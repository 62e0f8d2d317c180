"""A sitting that runs: words, readings and time in, and whoever hears of it told."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.logbook.summary import Progress
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Begun, Event, Said, Tick, Word
from plans.sitting.words import WordError
from tui.running.running_sitting import RunningSitting
from tui.running.sources import RehearsalSource

if TYPE_CHECKING:
    from tests.tui.running.conftest import ToldSource

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
ICE = 273.15


@pytest.fixture
def running(book: Logbook, plan: Plan, source: ToldSource) -> RunningSitting:
    return RunningSitting(LoggedSitting.begin(book, plan, STARTED, ProbeOn.WORK), source)


@pytest.fixture
def told(running: RunningSitting) -> list[Event]:
    """What was told of the running sitting."""
    told: list[Event] = []
    running.heard_by = told.extend
    return told


def words(events: list[Event]) -> list[Word]:
    return [event.word for event in events if isinstance(event, Said)]


def test_whoever_hears_of_it_is_told_what_came_of_each_entry(
    running: RunningSitting, source: ToldSource, told: list[Event]
) -> None:
    running.hear(Reading(1.0, 20 + ICE))
    assert told == []
    source.at = 2.0
    events = running.say(Word.NEXT)
    assert told == events
    assert words(events) == [Word.NEXT]
    assert [(event.at, event.step) for event in events if isinstance(event, Begun)] == [(2.0, 1)]


def test_what_is_told_is_logged_already(running: RunningSitting) -> None:
    logged: list[bool] = []
    running.heard_by = lambda events: logged.append(running.logged.journal.log.events[-len(events) :] == events)
    running.say(Word.NEXT)
    assert logged == [True]


def test_a_rehearsals_smith_is_heard_like_any_other_and_refused_without_a_word(
    running: RunningSitting, source: ToldSource, told: list[Event]
) -> None:
    source.answers = [Word.OUT, Word.NEXT]
    events = running.hear(Tick(3.0))
    assert words(events) == words(told) == [Word.NEXT]


def test_the_first_word_says_that_cautions_that_were_printed_have_been_read(
    running: RunningSitting, told: list[Event]
) -> None:
    running.cautions_printed = True
    running.say(Word.NEXT)
    running.say(Word.NEXT)
    assert words(told) == [Word.ACKNOWLEDGE, Word.NEXT, Word.NEXT]


def test_they_have_been_read_though_the_first_word_was_refused(running: RunningSitting, told: list[Event]) -> None:
    running.cautions_printed = True
    with pytest.raises(WordError, match="not in the fire"):
        running.say(Word.OUT)
    assert words(told) == [Word.ACKNOWLEDGE]


def test_on_the_screen_no_other_word_acknowledges(running: RunningSitting, told: list[Event]) -> None:
    running.say(Word.NEXT)
    assert words(told) == [Word.NEXT]
    assert running.sitting.state.acknowledged_at is None


def test_once_it_is_finished_the_newest_reading_waits_until_the_end_is_taken_back(
    running: RunningSitting, source: ToldSource
) -> None:
    source.at = 10.0
    running.say(Word.FINISH)
    for at in (11.0, 12.0):
        assert running.hear(Reading(at, 500 + ICE)) == []
    assert running.tick() == []
    assert len(running.sitting.measured) == 0
    source.at = 13.0
    running.say(Word.NOTE, "scale came off")
    assert len(running.sitting.measured) == 0
    running.say(Word.UNDO)
    assert not running.sitting.state.finished
    assert running.sitting.measured.kelvins[-1:] == pytest.approx([500 + ICE], abs=0.1)
    assert len(running.sitting.measured) == 1


def test_a_program_that_stood_still_lets_the_time_run_on_and_says_so(
    running: RunningSitting, source: ToldSource, told: list[Event]
) -> None:
    """Stopped, or on a machine asleep: the clock leaps, and no soak is stretched by that."""
    running.say(Word.NEXT)
    running.say(Word.NEXT)
    state = running.sitting.state
    assert state.phase is PhaseKind.FIRE
    for at in (20.0, 40.0, 60.5):
        source.at = at
        running.tick()
        assert len(running.news()) == (at == 60.5)
    assert (state.elapsed(60.5), state.paused, state.asks(60.5)) == (60.5, False, None)
    source.at = 86.5
    running.say(Word.PAUSE)
    (news,) = running.news()
    assert news.startswith("heatbook stood still for 26 s; the time ran on, and the work counts as in the fire")
    source.at = 200.0
    running.tick()
    assert running.news() == []
    assert words(told) == [Word.NEXT, Word.NEXT, Word.PAUSE]


def test_how_it_looks_is_made_anew_only_when_something_was_taken(running: RunningSitting, source: ToldSource) -> None:
    before = running.seen
    assert running.seen is before
    source.at = 5.0
    running.tick()
    assert running.seen is not before
    assert running.seen.at == 5.0


def test_put_away_once_whatever_fails_on_the_way(
    book: Logbook, plan: Plan, source: ToldSource, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail() -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(source, "close", fail)
    lifted: list[bool] = []
    running = RunningSitting(LoggedSitting.begin(book, plan, STARTED), source, lambda: lifted.append(True))
    running.say(Word.NOTE, "begun")
    summary = running.put_away()
    assert summary is not None
    assert running.put_away() is summary
    assert summary.state is Progress.UNFINISHED
    assert lifted == [True]
    assert [one.id for one in book.summaries()] == [running.id]


def test_one_that_nothing_was_said_to_is_not_kept(book: Logbook, plan: Plan, source: ToldSource) -> None:
    running = RunningSitting(LoggedSitting.begin(book, plan, STARTED), source)
    assert running.put_away() is None
    assert running.put_away() is None
    assert book.summaries() == []
    assert list(book.folder.rglob("*.json*")) == []


def test_only_a_rehearsal_has_a_speed(running: RunningSitting, book: Logbook, plan: Plan) -> None:
    assert running.speed is None
    assert not running.change_speed(2.0)
    running.put_away()
    rehearsed = RunningSitting(LoggedSitting.begin(book, plan, STARTED, seed=1), RehearsalSource(plan, 1, 10.0))
    changed: Callable[[float], bool] = rehearsed.change_speed
    assert changed(2.0)
    assert rehearsed.speed == 20.0
    assert changed(1000.0)
    assert rehearsed.speed == 256.0
    rehearsed.put_away()


def test_a_forecast_is_counted_on_for_a_second_unless_something_happens(
    running: RunningSitting, source: ToldSource
) -> None:
    """In the fire the time until heat goes down with the clock until it is forecast anew."""
    for second, word in enumerate((Word.NEXT, Word.NEXT)):
        source.at = float(second)
        running.say(word)
    for tenth in range(20, 100):
        running.hear(Reading(tenth / 10, 1100.0))
    anew: list[float] = []
    first = running.seen
    for tenth in range(100, 160):
        running.hear(Reading(tenth / 10, 1100.0 + (tenth - 100)))
        seen = running.seen
        assert first.figure.seconds is not None
        assert seen.figure.seconds is not None
        gone = seen.at - first.at
        if first.figure.seconds - seen.figure.seconds != pytest.approx(gone):
            anew.append(tenth / 10)
            first = seen
    # Once a second at most, though the work warms far more quickly than was forecast.
    assert 2 <= len(anew) <= 6
    assert min(later - sooner for sooner, later in pairwise([9.9, *anew])) > 0.95
    source.at = 16.1
    running.say(Word.OUT)
    assert running.seen.figure.kind is not first.figure.kind

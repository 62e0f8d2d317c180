"""The phases of a sitting, each from its beginning to its end."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.sitting.calls import Call
from plans.sitting.events import Begun, Called, Cause, Ended, Event, Said, Word
from plans.sitting.folding import folded
from plans.sitting.phase_span import PhaseSpan, phase_spans, spans_by_model

READY, FIRE, SOAK, STRIKE = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE


def spans(until: float, *events: Event) -> list[PhaseSpan]:
    return phase_spans(folded(events), until)


def test_each_phase_ends_where_the_next_begins_and_the_last_one_goes_on() -> None:
    assert spans(75.0, Begun(0.0, 0, 1, READY), Begun(10.0, 0, 1, FIRE), Begun(70.0, 1, 2, SOAK)) == [
        PhaseSpan(0, 1, READY, 0.0, 10.0, 10.0),
        PhaseSpan(0, 1, FIRE, 10.0, 70.0, 60.0),
        PhaseSpan(1, 2, SOAK, 70.0, 75.0, 5.0),
    ]


def test_a_sitting_that_ended_goes_on_no_longer() -> None:
    assert spans(500.0, Begun(0.0, 0, 1, READY), Ended(30.0)) == [PhaseSpan(0, 1, READY, 0.0, 30.0, 30.0)]


def test_what_was_known_later_parts_the_phases_where_it_really_was() -> None:
    fire, strike = Begun(0.0, 0, 1, FIRE), Begun(60.0, 0, 1, STRIKE, Cause.PROBE, happened=56.0)
    assert [(span.began, span.ended) for span in spans(70.0, fire, strike)] == [(0.0, 56.0), (56.0, 70.0)]


def test_a_pause_lengthens_the_span_of_its_phase_and_not_its_seconds() -> None:
    paused: list[Event] = [Begun(0.0, 0, 1, FIRE), Said(20.0, Word.PAUSE), Said(50.0, Word.RESUME)]
    assert spans(100.0, *paused) == [PhaseSpan(0, 1, FIRE, 0.0, 100.0, 70.0)]
    assert [span.seconds for span in spans(110.0, *paused, Begun(100.0, 0, 1, SOAK))] == [70.0, 10.0]


def test_a_pause_that_goes_on_counts_as_far_as_it_has_come() -> None:
    assert spans(90.0, Begun(0.0, 0, 1, FIRE), Said(20.0, Word.PAUSE)) == [PhaseSpan(0, 1, FIRE, 0.0, 90.0, 20.0)]
    ended = spans(90.0, Begun(0.0, 0, 1, FIRE), Said(20.0, Word.PAUSE), Ended(60.0))
    assert ended == [PhaseSpan(0, 1, FIRE, 0.0, 60.0, 20.0)]


def test_a_phase_that_is_taken_back_has_no_span() -> None:
    back: list[Event] = [Begun(0.0, 0, 1, FIRE), Said(10.0, Word.OUT), Begun(10.0, 0, 1, STRIKE), Said(12.0, Word.UNDO)]
    assert spans(15.0, *back) == [PhaseSpan(0, 1, FIRE, 0.0, 15.0, 15.0)]


def test_before_anything_has_begun_there_is_none() -> None:
    assert spans(10.0) == []


def test_what_a_word_says_was_the_beginning_of_something_else_was_nothing_itself() -> None:
    """The probe felt the work go in at 50 s, and the smith says 5 s later that this is the next step."""
    strike, felt = Begun(20.0, 0, 1, STRIKE), Begun(55.0, 0, 2, FIRE, Cause.PROBE, happened=50.0)
    found = spans(90.0, strike, felt, Said(58.0, Word.ON), Begun(58.0, 1, 1, FIRE, happened=50.0))
    assert found == [PhaseSpan(0, 1, STRIKE, 20.0, 50.0, 30.0), PhaseSpan(1, 1, FIRE, 50.0, 90.0, 40.0)]


def test_a_strike_by_the_model_is_the_one_in_which_the_probe_was_called_too_slow() -> None:
    events: list[Event] = []
    for heat, at in ((1, 0.0), (2, 100.0)):
        events += [Begun(at, 0, heat, FIRE), Begun(at + 60.0, 0, heat, STRIKE, Cause.PROBE, happened=at + 57.0)]
    events.insert(2, Called(60.0, Call.PROBE_SLOW, 0, 1, 1500.0))
    assert spans_by_model(folded(events), 200.0) == [(57.0, 100.0)]
    assert spans_by_model(folded(events[:2]), 200.0) == []

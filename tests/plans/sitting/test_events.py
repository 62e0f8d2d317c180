"""Events as the log keeps them."""

from __future__ import annotations

import json
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.event_record import event_from_record, event_to_record
from plans.sitting.events import (
    Basis,
    Begun,
    Called,
    Cause,
    Eased,
    Ended,
    Event,
    LeftFire,
    Said,
    WentOn,
    Word,
)

RECORDS: list[tuple[Event, dict[str, Any]]] = [
    (Said(1.0, Word.NEXT), {"at_seconds": 1.0, "event": "word", "word": "next"}),
    (Said(1.0, Word.NOTE, "it [took]"), {"at_seconds": 1.0, "event": "word", "word": "note", "text": "it [took]"}),
    (
        Begun(2.5, 0, 1, PhaseKind.SOAK, Cause.TEMPERATURE),
        {"at_seconds": 2.5, "event": "phase", "step": 1, "heat": 1, "phase": "soak", "by": "temperature"},
    ),
    (
        Begun(9.0, 3, 2, PhaseKind.STRIKE, Cause.PROBE, happened=6.25),
        {"at_seconds": 9.0, "event": "phase", "step": 4, "heat": 2, "phase": "strike", "by": "probe"}
        | {"happened_seconds": 6.25},
    ),
    (
        Called(3.0, Call.TOO_COLD, 1, 2, 1000.0 + 273.15, Basis.MEASURED),
        {"at_seconds": 3.0, "event": "call", "call": "too cold", "step": 2, "heat": 2}
        | {"celsius": 1000.0, "basis": "measured"},
    ),
    (
        Called(3.0, Call.PROBE_LOST, 0, 1),
        {"at_seconds": 3.0, "event": "call", "call": "probe lost", "step": 1, "heat": 1}
        | {"celsius": None, "basis": "modelled"},
    ),
    (Eased(4.0, Call.TOO_HOT), {"at_seconds": 4.0, "event": "eased", "call": "too hot"}),
    (WentOn(5.0), {"at_seconds": 5.0, "event": "went on", "probe_on": None}),
    (
        WentOn(5.0, ProbeOn.FIRE, paused_since=3.5),
        {"at_seconds": 5.0, "event": "went on", "probe_on": "fire", "stood_since_seconds": 3.5},
    ),
    (Ended(6.0), {"at_seconds": 6.0, "event": "ended"}),
    (LeftFire(7.0), {"at_seconds": 7.0, "event": "left fire"}),
    (LeftFire(7.0, happened=5.5), {"at_seconds": 7.0, "event": "left fire", "happened_seconds": 5.5}),
]
"""Steps count from 1 in a record, temperatures are in degC, and what is not known has no key or null."""


@pytest.mark.parametrize(("event", "record"), RECORDS)
def test_an_event_is_kept_as_a_record_and_comes_back_from_it(event: Event, record: dict[str, Any]) -> None:
    assert event_to_record(event) == record
    assert event_from_record(json.loads(json.dumps(record))) == event


def test_times_are_kept_to_the_millisecond_and_temperatures_to_the_hundredth() -> None:
    record = event_to_record(Called(1.23456, Call.TOO_COLD, 0, 1, 273.15 + 987.654321, happened=0.98765))
    assert (record["at_seconds"], record["celsius"], record["happened_seconds"]) == (1.235, 987.65, 0.988)


@pytest.mark.parametrize(
    ("record", "error"),
    [
        ({"at_seconds": 1.0, "event": "sneeze"}, ValueError),
        ({"at_seconds": 1.0, "event": "word", "word": "hurry"}, ValueError),
        ({"at_seconds": 1.0, "event": "eased", "call": "too loud"}, ValueError),
        ({"at_seconds": "soon", "event": "ended"}, TypeError),
        ({"at_seconds": -1.0, "event": "ended"}, ValueError),
        ({"at_seconds": 1e15, "event": "ended"}, ValueError),
        ({"at_seconds": 1.0, "event": "word", "word": "note", "text": 3}, TypeError),
        ({"at_seconds": 1.0, "event": "word", "word": "earlier", "text": "nan"}, ValueError),
        ({"at_seconds": 1.0, "event": "phase", "step": 0, "heat": 1, "phase": "fire", "by": "word"}, ValueError),
        ({"at_seconds": None, "event": "ended"}, TypeError),
        ({"event": "ended"}, KeyError),
        ({"at_seconds": 1.0, "event": "phase", "step": 1}, KeyError),
    ],
)
def test_what_is_no_record_of_an_event_is_refused(record: dict[str, Any], error: type[Exception]) -> None:
    with pytest.raises(error):
        event_from_record(record)


@pytest.mark.parametrize("word", Word)
def test_only_notes_and_cautions_read_say_nothing_of_the_work(word: Word) -> None:
    assert word.is_aside is (word in {Word.NOTE, Word.MEASURED, Word.TICK, Word.ACKNOWLEDGE})


@pytest.mark.parametrize("cause", Cause)
def test_all_but_a_word_comes_about_by_itself(cause: Cause) -> None:
    assert cause.by_itself is (cause not in (Cause.WORD, Cause.COLDER))


def test_a_phase_began_when_it_happened_and_else_when_it_was_known() -> None:
    assert Begun(9.0, 0, 1, PhaseKind.STRIKE).began == 9.0
    assert Begun(9.0, 0, 1, PhaseKind.STRIKE, Cause.PROBE, happened=6.0).began == 6.0

"""Figures as files keep them: what earlier versions wrote is read, and what nobody wrote is refused."""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.document import to_document
from plans.logbook.figures.kept import figures_from_record, figures_to_record
from plans.logbook.figures.of_a_sitting import Factor, Forecast, HeatEnd
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.logged_sitting import work_out
from plans.plan import StepKind
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Word

FIRST: dict[str, Any] = {
    "steps": [
        {
            "step": 1,
            "title": "Weld",
            "kind": "weld",
            "heats": [
                {
                    "heat": 1,
                    "in_fire_seconds": 160.0,
                    "soak_seconds": 60.0,
                    "strike_seconds": 16.0,
                    "air_seconds": 0,
                    "hold_seconds": 0,
                    "too_cold_seconds": 5.25,
                    "peak_celsius": 1240.1,
                    "leaving_celsius": 1239.9,
                    "lowest_struck_celsius": None,
                    "basis": "measured",
                }
            ],
        },
        {"step": 2, "title": "Look", "kind": "bench", "heats": []},
    ],
    "calls": [{"at_seconds": 171.0, "call": "too cold", "step": 1, "heat": 1}],
    "notes": [{"at_seconds": 172.5, "text": "slipped", "step": 1, "heat": 1}],
}
"""The first version's: without cost and without what was learned."""

LATER: dict[str, Any] = FIRST | {
    "steel": {
        "basis": "modelled",
        "carbon_percent": 0.84,
        "decarb_mm": {"value": 0.1613, "least": 0.0807, "most": 0.3226},
        "scale_loss_mm": {"value": 0.0721, "least": None, "most": None},
        "layers": {"layer_mm": 0.12, "difference_left": 0.4, "least": 0.2, "most": 0.7, "validity": "rough"},
    },
    "learned": {
        "cooling_factor": 1.213,
        "cooling_factor_standard_error": None,
        "cooling_factor_in_force": 1.0,
        "stays_fitted": 1,
        "stays": [
            {
                "step": 1,
                "heat": 1,
                "phase": "strike",
                "at_seconds": 160.0,
                "cooling_factor": 1.213,
                "hammer_time_forecast_seconds": 14.2,
                "hammer_time_measured_seconds": None,
            }
        ],
    },
}
"""One factor for air and anvil, and no ranges."""

NOW: dict[str, Any] = LATER | {
    "learned": {
        "cooling_factor": 1.213,
        "cooling_factor_standard_error": 0.02,
        "cooling_factor_in_force": 1.0,
        "stays_fitted": 2,
        "contact_factor": 1.9,
        "contact_factor_standard_error": 0.3,
        "contact_factor_in_force": 1.1,
        "contact_stays_fitted": 3,
        "stays": [
            {
                "step": 1,
                "heat": 1,
                "phase": "strike",
                "at_seconds": 160.0,
                "cooling_factor": None,
                "contact_factor": 2.1,
                "hammer_time_forecast_seconds": 14.2,
                "hammer_time_forecast_least_seconds": 9.1,
                "hammer_time_forecast_most_seconds": None,
                "hammer_time_measured_seconds": 12.0,
            },
            {
                "step": 2,
                "heat": 1,
                "phase": "air",
                "at_seconds": 260.0,
                "cooling_factor": 1.2,
                "contact_factor": None,
                "hammer_time_forecast_seconds": None,
                "hammer_time_forecast_least_seconds": None,
                "hammer_time_forecast_most_seconds": None,
                "hammer_time_measured_seconds": None,
            },
        ],
    },
}

RECORDS = {"first": FIRST, "later": LATER, "now": NOW, "nothing learned": LATER | {"learned": None}}


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_what_was_written_is_read_and_written_again_as_it_was(record: dict[str, Any]) -> None:
    again = json.loads(json.dumps(figures_to_record(figures_from_record(record))))
    # What the first versions did not keep of a heat and of a call is told as far as it is known.
    again["steps"][0]["heats"][0].pop("end")
    again["calls"][0] = {key: again["calls"][0][key] for key in record["calls"][0]}
    assert again == record


def test_a_call_is_kept_with_all_that_the_log_has_of_it() -> None:
    called = Called(171.0, Call.TOO_COLD, 0, 1, 1400.0, Basis.MEASURED, 170.25)
    found = figures_from_record(
        json.loads(json.dumps(figures_to_record(replace(figures_from_record(FIRST), calls=(called,)))))
    )
    assert found.calls == (called,)


@pytest.mark.parametrize(
    ("seconds", "end"),
    [
        ({}, HeatEnd.DONE),
        ({"strike_seconds": 0}, HeatEnd.CUT_OFF),
        ({"strike_seconds": 0, "air_seconds": 5.0}, HeatEnd.DONE),
        ({"in_fire_seconds": 0, "strike_seconds": 0, "hold_seconds": 5.0}, HeatEnd.DONE),
    ],
)
def test_how_a_heat_ended_that_an_earlier_version_kept(seconds: dict[str, float], end: HeatEnd) -> None:
    record = deepcopy(FIRST)
    record["steps"][0]["heats"][0] |= seconds
    assert figures_from_record(record).heats[0].end is end


def test_what_was_learned_is_told_apart_where_it_was() -> None:
    both, one = figures_from_record(NOW).learned, figures_from_record(LATER).learned
    assert both is not None
    assert both.cooling == Factor(1.213, 0.02, 1.0, 2)
    assert both.contact == Factor(1.9, 0.3, 1.1, 3)
    assert [stay.factor for stay in both.stays] == [2.1, 1.2]
    assert both.stays[0].forecast == Forecast(14.2, 9.1, None)
    assert one is not None
    assert (one.cooling, one.contact) == (Factor(1.213, None, 1.0, 1), None)
    assert [stay.factor for stay in one.stays] == [1.213]
    assert one.stays[0].forecast == Forecast(14.2)


def test_in_si() -> None:
    found = figures_from_record(LATER)
    (heat,) = found.heats
    assert (heat.peak, heat.lowest_struck) == (pytest.approx(1240.1 + 273.15), None)
    assert (heat.basis, found.steps[1].kind, found.calls[0].call) == (Basis.MEASURED, StepKind.BENCH, Call.TOO_COLD)
    assert found.cost is not None
    assert found.cost.decarb is not None
    assert found.cost.decarb.value == pytest.approx(0.1613e-3)
    assert (found.calls[0].step, found.notes[0].step) == (0, 0), "steps count from 0 inside"
    assert (figures_from_record(FIRST).learning_done, found.learning_done) == (False, True)


def _spoil(*path: str | int, value: Any) -> dict[str, Any]:
    record = deepcopy(NOW)
    place: Any = record
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return record


SPOILED = {
    "no list of steps": _spoil("steps", value={}),
    "a step from 0": _spoil("steps", 0, "step", value=0),
    "a title that is none": _spoil("steps", 0, "title", value=3),
    "a kind that is none": _spoil("steps", 0, "kind", value="knit"),
    "a time in words": _spoil("steps", 0, "heats", 0, "in_fire_seconds", value="long"),
    "a temperature in words": _spoil("steps", 0, "heats", 0, "peak_celsius", value="hot"),
    "a truth for a number": _spoil("steps", 0, "heats", 0, "too_cold_seconds", value=True),
    "a call that is none": _spoil("calls", 0, "call", value="hey"),
    "a note of numbers": _spoil("notes", 0, "text", value=[1]),
    "a cost that is none": _spoil("steel", value=3),
    "a depth without a value": _spoil("steel", "decarb_mm", "value", value=None),
    "a factor in words": _spoil("learned", "cooling_factor", value="1.2"),
    "a contact factor in words": _spoil("learned", "contact_factor", value="1.2"),
    "a contact factor in force that is none": _spoil("learned", "contact_factor_in_force", value=None),
    "half a stay": _spoil("learned", "contact_stays_fitted", value=0.5),
    "a range in words": _spoil("learned", "stays", 0, "hammer_time_forecast_least_seconds", value="short"),
    "stays that are none": _spoil("learned", "stays", value="many"),
}


@pytest.mark.parametrize("record", SPOILED.values(), ids=SPOILED.keys())
def test_what_is_no_figure_is_refused(record: dict[str, Any]) -> None:
    with pytest.raises((TypeError, ValueError, KeyError, AttributeError)):
        figures_from_record(record)


MISFITS: dict[str, tuple[tuple[str | int, ...], Any, str]] = {
    "a title that is none": (("figures", "steps", 0, "title"), 3, "a text was expected"),
    "a heat that never was": (("figures", "steps", 0, "heats", 0, "heat"), 9, "they have heats that never were"),
    "a peak beyond any": (("figures", "steps", 0, "heats", 0, "peak_celsius"), 1e300, "a number from -1e+06 to 1e+06"),
    "a note that is gone": (("figures", "notes"), [], "they have other notes"),
    "no cost": (("figures", "steel"), {}, "layers is missing"),
    "a model that goes back": (("modelled", "skin", 0, "every_seconds"), -1, "a number from 0 to 1e+09"),
    "a model beyond any steel": (("modelled", "skin", 0, "celsius_tenths", 0), 10**6, "none of steel"),
}


@pytest.mark.parametrize(("path", "value", "why"), MISFITS.values(), ids=MISFITS.keys())
def test_figures_that_are_not_of_the_log_are_worked_out_again(
    book: Logbook, folder: Path, tell: Callable[..., Any], path: tuple[str | int, ...], value: Any, why: str
) -> None:
    told = tell().say(Word.NEXT).wait(3).say("a line")
    journal = book.open_sitting(told.sitting.plan, told.kept().header.started)
    for entry in told.entries:
        journal.event(entry)
    book.fold(journal, work_out)
    right = book.load("last", work_out)
    assert book.messages == []
    file = folder / "sittings" / f"{journal.header.id}.json"
    whole = json.loads(file.read_text())
    place = whole["sitting"]["1"]
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    file.write_text(json.dumps(whole))
    again = book.load("last", work_out)
    assert again.figures == right.figures
    assert to_document(again) == to_document(right)
    (message,) = book.messages
    assert f"the figures of sitting {journal.header.id} do not fit its log" in message
    assert why in message
    assert book.load("last").figures == right.figures, "the next look need not work them out"


def test_figures_that_took_too_long_are_worked_out_at_the_first_look(book: Logbook, tell: Callable[..., Any]) -> None:
    told = tell().say(Word.NEXT).wait(3).say("a line")
    journal = book.open_sitting(told.sitting.plan, told.kept().header.started)
    for entry in told.entries:
        journal.event(entry)
    book.close()
    book.recover(lambda *_: WorkedOut(None))
    assert book.load("last").figures is None
    figures = book.load("last", work_out).figures
    assert figures is not None
    assert book.load("last").figures == figures
    assert book.summaries()[0].heats == figures.done
    assert not book._store.lock.held


def test_where_another_program_writes_figures_are_worked_out_and_not_written(
    book: Logbook, folder: Path, tell: Callable[..., Any]
) -> None:
    told = tell().say(Word.NEXT)
    book.fold(book.open_sitting(told.sitting.plan, told.kept().header.started), lambda *_: WorkedOut(None))
    book.close()
    index = folder / "index.json"
    before = index.stat().st_ino, index.stat().st_mtime_ns
    with Logbook(folder)._store.turn.borrow():
        assert book.load("last", work_out).figures is not None
    assert book.load("last").figures is None
    assert (index.stat().st_ino, index.stat().st_mtime_ns) == before

"""A sitting as the JSON object that its file keeps, written and read; what is read is checked whole.

An object whose log can't be so is refused. Where only what was worked out of the log does not fit it, that is left out
and said: it can be worked out again.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from plans.logbook import header as headers
from plans.logbook.afterwards import (
    Label,
    LaterMeasurements,
    Outcome,
    Photographs,
    SittingLessons,
    lessons_from_record,
    measured_later_from_record,
    outcome_from_record,
    photographs_from_record,
)
from plans.logbook.disk import UNREADABLE
from plans.logbook.facts import Facts
from plans.logbook.figures import SittingFigures, figures_from_record
from plans.logbook.journal import check_log
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import (
    LESSONS,
    MEASURED_LATER,
    OUTCOME,
    PHOTOGRAPHS,
    KeptSitting,
    figures_record,
    said_afterwards,
)
from plans.logbook.log import Log
from plans.logbook.summary import Progress, stamp
from plans.logbook.teaching import Teaches
from plans.logbook.trace_segments import decode, encode
from plans.plan import Plan
from plans.record import record
from plans.record_values import Record, count_of, record_of, records_of
from plans.sitting import Begun, State, event_from_record, event_to_record
from plans.trace import Trace

SUMMARY = "summary"
"""The key that stands first, with the sitting in one line, so that a list need not read further."""
LABEL = "label"
"""The key of what the smith has written on it."""
_Part = TypeVar("_Part")
_HOTTEST_WORK = 1e4
"""No warm model has work hotter than this [K]."""


def to_document(kept: KeptSitting) -> Record:
    """The sitting as JSON would have it: in front what lists and lessons need, so that they need read no further.

    Each event says how many readings came before it, so that order is kept.
    """
    return (
        {SUMMARY: kept.summary.to_record()}
        | said_afterwards(kept)
        | headers.to_record(kept.header)
        | {
            "ended": stamp(kept.ended),
            "state": kept.state.value,
            "events": [
                event_to_record(event) | {"readings_before": kept.log.readings_before(index)}
                for index, event in enumerate(kept.log.events)
            ],
            "measured": encode(kept.log.readings),
            "modelled": {"skin": encode(kept.skin), "middle": encode(kept.middle)},
            "figures": figures_record(kept.figures),
        }
        | ({} if kept.label is None else {LABEL: kept.label.to_record()})
    )


def found_in(document: Mapping[str, Any]) -> tuple[Facts, Teaches]:
    """What the sitting of a JSON object is found by, and what it teaches, as this version knows them.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError, AttributeError, OverflowError: it is no sitting.
    """
    summary = from_document(document).summary
    assert summary.facts is not None
    assert summary.teaches is not None
    return summary.facts, summary.teaches


def label_of(document: Mapping[str, Any]) -> Label | None:
    """What the smith has written on the sitting of a JSON object; None where that can't be read."""
    try:
        return Label.from_record(record_of(document.get(LABEL, {})))
    except UNREADABLE:
        return None


def from_document(document: Mapping[str, Any]) -> KeptSitting:
    """The sitting from a JSON object that `to_document` made.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError, AttributeError, OverflowError: it is no sitting.
    """
    header = headers.from_record(document)
    headers.check_years(header)
    progress = Progress(document["state"])
    if progress is Progress.RUNNING:
        raise ValueError("a sitting that runs is not put away")
    records = records_of(document["events"])
    readings = decode(document["measured"])
    log = Log.of(
        [event_from_record(record) for record in records],
        readings,
        [count_of(record["readings_before"], 0, len(readings)) for record in records],
    )
    plan = plan_if_known(header)
    said = said_of(document)
    kept = KeptSitting(
        header,
        log,
        progress,
        outcome=said.outcome,
        lessons=said.lessons,
        unread=said.unread,
        label=label_of(document),
        measured_later=said.measured_later,
        photographs=said.photographs,
    )
    state = check_log(log, plan)
    try:
        return _with_what_was_worked_out(kept, document, state, plan)
    except UNREADABLE as error:
        return replace(kept, misfit=f"{error.args[0]} is missing" if isinstance(error, KeyError) else str(error))


@record
class SaidAfterwards:
    """What its smith said of a sitting when it was over; each is None where there is none, or it can't be read."""

    outcome: Outcome | None = None
    """What came of it."""
    lessons: SittingLessons | None = None
    """What was learned in it, and what was said to its smith."""
    measured_later: LaterMeasurements | None = None
    """What was measured since."""
    photographs: Photographs | None = None
    """The photographs of its work."""
    unread: str = ""
    """Why one of them can't be read; empty where all can."""


def said_of(document: Mapping[str, Any]) -> SaidAfterwards:
    """What its smith said of a sitting when it was over; one part that is damaged takes none of the others along.

    Raises:
        NewerFormat: a newer heatbook wrote them.
    """
    unread: list[str] = []

    def part(key: str, read: Callable[[Record], _Part]) -> _Part | None:
        try:
            return read(document[key]) if key in document else None
        except UNREADABLE as error:
            unread.append(f"{error.args[0]} is missing" if isinstance(error, KeyError) else str(error))
            return None

    outcome, lessons = part(OUTCOME, outcome_from_record), part(LESSONS, lessons_from_record)
    measured = part(MEASURED_LATER, measured_later_from_record)
    photographs = part(PHOTOGRAPHS, photographs_from_record)
    return SaidAfterwards(outcome, lessons, measured, photographs, "; ".join(unread))


def _with_what_was_worked_out(
    kept: KeptSitting, document: Mapping[str, Any], state: State, plan: Plan | None
) -> KeptSitting:
    """The sitting with its figures and its modelled traces.

    Raises:
        ValueError, KeyError, TypeError, AttributeError, OverflowError: they are none, or are not of this log.
    """
    modelled = record_of(document["modelled"])
    skin, middle = (decode(modelled[part]) for part in ("skin", "middle"))
    for trace in (skin, middle):
        _check_modelled(trace)
    record = record_of(document["figures"])
    figures = figures_from_record(record) if record else None
    if figures is not None:
        _check_figures(figures, kept.log, state, plan)
    return replace(kept, figures=figures, skin=skin, middle=middle)


def _check_modelled(trace: Trace) -> None:
    if not trace.in_order:
        raise ValueError("the modelled trace goes back in time")
    if any(kelvin < 0 or kelvin > _HOTTEST_WORK for kelvin in trace.kelvins):
        raise ValueError("a modelled temperature is none of steel")


def _check_figures(figures: SittingFigures, log: Log, state: State, plan: Plan | None) -> None:
    """Refuse figures of another log: heats that never began, other calls or notes.

    Raises:
        ValueError: they are.
    """
    begun = {(event.step, event.heat) for event in log.events if isinstance(event, Begun)}
    named = [(step.step, heat.heat) for step in figures.steps for heat in step.heats]
    named += [(stay.step, stay.heat) for stay in (() if figures.learned is None else figures.learned.stays)]
    if not begun.issuperset(named) or len({step.step for step in figures.steps}) != len(figures.steps):
        raise ValueError("they have heats that never were")
    if plan is not None and any(step.step >= len(plan.steps) for step in figures.steps):
        raise ValueError("they have steps that the plan does not have")
    if [(call.at, call.call) for call in figures.calls] != [(call.at, call.call) for call in state.calls]:
        raise ValueError("they have other calls")
    if [(note.at, note.text) for note in figures.notes] != [(note.at, note.text) for note in state.notes]:
        raise ValueError("they have other notes")

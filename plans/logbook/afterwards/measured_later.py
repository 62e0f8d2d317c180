"""What was measured of a sitting's work when the sitting was over: kept in its file, figure by figure, each with when.

A later figure of a step stands over an earlier one, and both are kept; one that was taken back is kept too, and counts
no longer.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any, Final

from plans.logbook.afterwards.lessons import check_schema
from plans.logbook.afterwards.numbered import next_number, read_numbered, standing, with_taken_back
from plans.logbook.measured_record import figures_from_record, figures_record
from plans.measured import Measured, written_measured
from plans.record import record
from plans.record_values import MOST_OF_ALL, Record, check_year, count_of, maybe_moment, maybe_stamp, moment_of, step_of
from plans.sitting import Entry, Measurement, Said, State, WentOn, Word

_SCHEMA: Final = 1


@record
class MeasuredLater:
    """What was measured once, after the sitting."""

    number: int
    """Counted from 1 in its sitting; never given to another."""
    step: int
    """The step that the work had come to, from 0."""
    measured: Measured
    """The figures; they say no step themselves."""
    added: datetime
    """When it was added: wall time with its offset."""
    taken_back: datetime | None = None
    """Since when it counts no longer, as it was taken back, or as the log of the sitting has it since it was gone on
    with; None where it counts."""

    @property
    def as_word(self) -> str:
        """What the word "measured" says of it, as the log keeps it."""
        return written_measured(replace(self.measured, step=self.step))


@record
class LaterMeasurements:
    """All that was measured of one sitting's work when it was over, in the order in which it was added."""

    found: tuple[MeasuredLater, ...] = ()
    """Each, those that were taken back among them."""
    damaged: tuple[object, ...] = ()
    """What can't be read of them, as it stands in the file: it is written there again as it is."""

    @property
    def standing(self) -> tuple[MeasuredLater, ...]:
        """Those that were not taken back."""
        return standing(self.found)

    def added(
        self, step: int, measured: Measured, now: datetime, instead: MeasuredLater | None = None
    ) -> LaterMeasurements:
        """Make measurements of these and one more.

        Args:
            step: the step that the work had come to, from 0
            measured: the figures
            now: wall time with its offset
            instead: one of these that it mends: it stands behind it, and what was measured after that still stands
                over both; None for none
        """
        number = next_number(self.found, self.damaged)
        place = len(self.found) if instead is None else self.found.index(instead) + 1
        one = MeasuredLater(number, step, replace(measured, step=None), now)
        return replace(self, found=(*self.found[:place], one, *self.found[place:]))

    def without(self, number: int, now: datetime) -> LaterMeasurements:
        """Make measurements of these in which one is taken back.

        Raises:
            LogbookError: none has that number, or it was taken back before.
        """
        return replace(self, found=with_taken_back(self.found, number, now, "nothing that was measured later"))


def not_in_log(later: LaterMeasurements | None, events: Iterable[Entry]) -> tuple[MeasuredLater, ...]:
    """What still counts of what was measured later, and the log does not have as words.

    Args:
        later: what was measured; None where nothing was
        events: of the log, in order
    """
    if later is None or not later.standing:
        return ()
    words = _said_as_gone_on(events)
    return tuple(one for one in later.standing if one.as_word not in words)


def given_to_log(later: LaterMeasurements | None, events: Iterable[Entry], when: datetime) -> LaterMeasurements | None:
    """What was measured later, when the log has some of it: as words, said as the sitting was gone on with.

    Args:
        later: what was measured; None where nothing was
        events: of the log, in order
        when: it was gone on with; from then on they count no longer
    """
    if later is None or not later.standing:
        return later
    words = _said_as_gone_on(events)
    return replace(
        later,
        found=tuple(
            replace(one, taken_back=when) if one.taken_back is None and one.as_word in words else one
            for one in later.found
        ),
    )


def _said_as_gone_on(events: Iterable[Entry]) -> set[str]:
    words: set[str] = set()
    gone_on_at: float | None = None
    for event in events:
        if isinstance(event, WentOn):
            gone_on_at = event.at
        elif isinstance(event, Said) and event.word is Word.MEASURED and event.at == gone_on_at:
            words.add(event.text)
    return words


def with_later(state: State, later: LaterMeasurements | None) -> State:
    """Where a sitting stood in the end, with what was measured later as if at the end of the steps that it is of.

    Args:
        state: where it stood; it is not changed
        later: what was measured when it was over; None where nothing was
    """
    if later is None or not later.standing:
        return state
    return replace(state, measurements=(*state.measurements, *(as_measurement(one, state) for one in later.standing)))


def as_measurement(one: MeasuredLater, state: State) -> Measurement:
    """What was measured later, as if it had been said as the sitting ended."""
    return Measurement(state.at, *state.worked_on(one.step), one.measured)


def later_record(later: LaterMeasurements) -> Record:
    """What was measured later as a JSON object, units in the key names; steps are counted from 1."""
    return {"schema": _SCHEMA, "found": [*map(_record, later.found), *later.damaged]}


def measured_later_from_record(record: Mapping[str, Any]) -> LaterMeasurements:
    """What was measured later from a JSON object that `later_record` made; one that is damaged costs none of the rest.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError: it is none.
    """
    check_schema(record, _SCHEMA)
    return LaterMeasurements(*read_numbered(record["found"], _one))


def _record(one: MeasuredLater) -> Record:
    about: Record = {"number": one.number, "step": one.step + 1}
    about |= {"added": maybe_stamp(one.added), "taken_back": maybe_stamp(one.taken_back)}
    return about | figures_record(one.measured)


def _one(item: Record) -> MeasuredLater:
    return MeasuredLater(
        count_of(item["number"], 1, MOST_OF_ALL),
        step_of(item["step"]),
        figures_from_record(item),
        check_year(moment_of(item["added"])),
        maybe_moment(item["taken_back"]),
    )

"""Measuring the work of a sitting that is over: what is typed is kept with it, or refused as it is at the step."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import LaterMeasurements
from plans.logbook.errors import LogbookError
from plans.logbook.kept_sitting import KeptSitting
from plans.measured import MeasuredError, read_measured
from plans.sitting import State, folded
from plans.units import Units


def measured_at(
    kept: KeptSitting, step: int | None, text: str, units: Units, now: datetime, instead: int | None = None
) -> KeptSitting:
    """Make a sitting of which something more was measured.

    Args:
        kept: the sitting as it is kept
        step: the step that the work had come to, from 0, where the line does not say it; None for the one that was
            worked on last
        text: what was typed: "w 31.5 t 18", "step 3 hrc 61"
        units: those that are set, of which a bare number is
        now: wall time with its offset
        instead: the number of what it mends, which counts no longer; None for none

    Raises:
        LogbookError: it can't be read, none has that number, or the sitting did not come to that step; the text says
            what would be right.
    """
    try:
        measured = read_measured(text, units)
    except MeasuredError as error:
        raise LogbookError(str(error)) from None
    state = folded(kept.log.events)
    if measured.step is not None:
        step = measured.step
    elif step is None:
        step, _ = state.worked_on()
    check_come_to(state, step)
    later = kept.measured_later or LaterMeasurements()
    if instead is not None:
        later = later.without(instead, now)
    mended = next((one for one in later.found if one.number == instead), None)
    return replace(kept, measured_later=later.added(step, measured, now, mended))


def check_come_to(state: State, step: int) -> None:
    """Refuse a step, from 0, that a sitting did not come to; `state` is where it stood in the end.

    Raises:
        LogbookError: it did not; the text says how far it came.
    """
    if not state.begins:
        raise LogbookError("no step was begun in this sitting: there is nothing to measure or to see of one")
    furthest = max(begun.step for begun in state.begins)
    if not 0 <= step <= furthest:
        only = "only to step 1" if furthest == 0 else f"to steps 1 to {furthest + 1}"
        raise LogbookError(f"the sitting did not come to step {step + 1}; it came {only}")


def measured_taken_back(kept: KeptSitting, number: int, now: datetime) -> KeptSitting:
    """Make a sitting of which something that was measured later counts no longer; it is kept.

    Raises:
        LogbookError: nothing that was measured later has that number.
    """
    return replace(kept, measured_later=(kept.measured_later or LaterMeasurements()).without(number, now))

"""Measuring the work when its sitting is over: asked for by the step that the review stands on."""

from __future__ import annotations

import asyncio

from plans.errors import PlansError
from plans.logbook import KeptSitting, MeasuredLater, measured_at, measured_taken_back, plan_if_known
from plans.logbook.lines import MeasuredLine, measured_lines
from plans.measured import written_measured
from plans.sitting import folded
from plans.units import Units
from tui.review.amended import Amended, amended
from tui.screens import Host, logbook_of, measured_line


async def ask_measured_later(host: Host, kept: KeptSitting, step: int, number: int | None = None) -> Amended | None:
    """Ask for what was measured, and keep it with the sitting.

    Args:
        host: asks
        kept: the sitting
        step: the step that it is of, from 0, where the line does not say another
        number: of what was measured later and is looked at again: it stands there to be mended, and what is left empty
            is taken back; None for something more

    Returns:
        the sitting before and after; None where nothing was said, or it can't be kept, which has been told
    """
    units = host.settings.units
    now = host.now().replace(microsecond=0)
    before = next((one for one in _standing(kept) if one.number == number), None)
    value = "" if before is None else written_measured(before.measured)

    def changed(kept: KeptSitting, text: str) -> KeptSitting:
        if text:
            return measured_at(kept, step, text, units, now, None if before is None else before.number)
        return kept if before is None else measured_taken_back(kept, before.number, now)

    def read(text: str, _: int) -> str:
        changed(kept, text)  # refuses it while the line still stands there to be mended
        return text

    def doubt(text: str) -> str:
        line = _new_line(kept, changed(kept, text), units) if text else None
        return "" if line is None else line.doubt

    title = f"Measured of step {step + 1}"
    text = await host.push_screen_wait(measured_line(units, title=title, value=value, read=read, doubt=doubt))
    if text is None or text == value != "":
        return None
    logbook = logbook_of(host, kept.header.rehearsal)
    try:
        said = await asyncio.to_thread(amended, logbook, kept.header.id, lambda kept: changed(kept, text))
    except PlansError as error:
        host.say_aside(str(error), wrong=True)
        return None
    line = _new_line(said.before, said.after, units)
    host.say_aside(f"taken back: {value}" if line is None else f"kept: {line.text}")
    return said


def _new_line(before: KeptSitting, after: KeptSitting, units: Units) -> MeasuredLine | None:
    """The line of what was measured since; None where nothing was."""
    new = {one.number for one in _standing(after)} - {one.number for one in _standing(before)}
    state, plan = folded(after.log.events), plan_if_known(after.header)
    lines = measured_lines(state, plan, units, after.measured_later, after.cost)
    return next((line for line in lines if line.number in new), None)


def _standing(kept: KeptSitting) -> tuple[MeasuredLater, ...]:
    return () if kept.measured_later is None else kept.measured_later.standing

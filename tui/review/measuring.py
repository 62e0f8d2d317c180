"""Measuring the work when its sitting is over: asked for by the step that the review stands on."""

from __future__ import annotations

import asyncio

from plans.errors import PlansError
from plans.logbook import KeptSitting, measured_at, measured_taken_back
from plans.measured import written_measured
from tui.screens import Host, logbook_of, measured_line


async def ask_measured_later(host: Host, kept: KeptSitting, step: int, number: int | None = None) -> KeptSitting | None:
    """Ask for what was measured, and keep it with the sitting.

    Args:
        host: asks
        kept: the sitting
        step: the step that it is of, from 0, where the line does not say another
        number: of what was measured later and is looked at again: it stands there to be mended, and what is left empty
            is taken back; None for something more

    Returns:
        the sitting as it is kept now; None where nothing was said, or it can't be kept, which has been told
    """
    units = host.settings.units
    now = host.now().replace(microsecond=0)
    found = () if kept.measured_later is None else kept.measured_later.standing
    before = next((one for one in found if one.number == number), None)
    value = "" if before is None else written_measured(before.measured)

    def changed(kept: KeptSitting, text: str) -> KeptSitting:
        if text:
            return measured_at(kept, step, text, units, now, None if before is None else before.number)
        return kept if before is None else measured_taken_back(kept, before.number, now)

    def read(text: str, _: int) -> str:
        changed(kept, text)  # refuses it while the line still stands there to be mended
        return text

    title = f"Measured of step {step + 1}"
    text = await host.push_screen_wait(measured_line(units, title=title, value=value, read=read))
    if text is None or text == value != "":
        return None
    logbook = logbook_of(host, kept.header.rehearsal)
    try:
        return await asyncio.to_thread(logbook.amend, kept.header.id, lambda kept: changed(kept, text))
    except PlansError as error:
        host.say_aside(str(error), wrong=True)
        return None

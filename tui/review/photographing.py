"""Adding a photograph to a sitting that is over: asked for by the step that the review stands on."""

from __future__ import annotations

import asyncio
import os
import shlex
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from plans.errors import PlansError
from plans.logbook import LONGEST_NOTE, KeptSitting, Logbook, Photograph, photograph_taken_back, read_picture
from tui.review.amended import Amended
from tui.screens import Choice, Host, LineScreen, QuestionScreen, logbook_of

_LONGEST_NAME = 1000
"""So much is typed or pasted of a file's name [characters]."""
_COPY = Choice("copy", "c", "copy it beside the log: packed with it, and in its page")
_NAME = Choice("name", "n", "keep its name alone")


async def ask_photograph(host: Host, kept: KeptSitting, step: int | None, number: int | None = None) -> Amended | None:
    """Ask for a photograph, or what shall become of one, and keep it with the sitting.

    Args:
        host: asks
        kept: the sitting
        step: the step that it shows, from 0; None for the sitting as a whole
        number: of the photograph that is looked at; None for another

    Returns:
        the sitting before and after; None where nothing was said, or it can't be kept, which has been told
    """
    found = () if kept.photographs is None else kept.photographs.standing
    before = next((one for one in found if one.number == number), None)
    if before is None:
        return await _ask_for_one(host, kept, step)
    choices = [
        Choice("other", "p", "another photograph"),
        *([_COPY] if before.copy is None else []),
        Choice("back", "t", "take it back"),
    ]
    answer = await host.push_screen_wait(QuestionScreen(before.name, choices))
    if answer == "other":
        return await _ask_for_one(host, kept, step)
    if answer == "copy":
        return await _add(host, kept, before.path, before.step, "", copied=True)
    return await _take_back(host, kept, before) if answer == "back" else None


async def _ask_for_one(host: Host, kept: KeptSitting, step: int | None) -> Amended | None:
    given = await _ask_for_file(host, "Photograph" if step is None else f"Photograph of step {step + 1}")
    if given is None:
        return None
    how = await host.push_screen_wait(QuestionScreen(Path(given).name, [_NAME, _COPY]))
    if how is None:
        return None
    line = LineScreen("What it shows", longest=LONGEST_NOTE, hint="empty for no note, ", may_be_empty=True)
    note = await host.push_screen_wait(line)
    return None if note is None else await _add(host, kept, given, step, note, copied=how == "copy")


async def _ask_for_file(host: Host, title: str) -> str | None:
    """The name of a picture that can be read; what can't stands there to be mended."""
    given, wrong = "", ""
    while True:
        line = LineScreen(title, given, _LONGEST_NAME, legend=wrong, example="~/Pictures/blade.jpg")
        typed = await host.push_screen_wait(line)
        if typed is None:
            return None
        given = await asyncio.to_thread(_named, typed)
        try:
            await asyncio.to_thread(read_picture, given)
        except PlansError as error:
            wrong = str(error)
        else:
            return given


def _named(typed: str) -> str:
    """The file that was meant: one that a terminal was given by dragging it there comes as a shell would have it."""
    if os.name == "nt":
        return typed.strip('"')
    try:
        parts = shlex.split(typed)
    except ValueError:
        return typed
    return parts[0] if len(parts) == 1 and not os.path.lexists(Path(typed)) else typed


async def _add(
    host: Host, kept: KeptSitting, given: str, step: int | None, note: str, *, copied: bool
) -> Amended | None:
    now = host.now().replace(microsecond=0)

    def add(logbook: Logbook) -> KeptSitting:
        return logbook.add_photograph(kept.header.id, given, step=step, note=note, copied=copied, now=now)

    return await _done(host, kept, add)


async def _take_back(host: Host, kept: KeptSitting, one: Photograph) -> Amended | None:
    change = photograph_taken_back(one.number, host.now().replace(microsecond=0))
    return await _done(host, kept, lambda logbook: logbook.amend(kept.header.id, change))


async def _done(host: Host, kept: KeptSitting, do: Callable[[Logbook], KeptSitting]) -> Amended | None:
    """The sitting before and after; None where it can't be kept, which is told."""
    logbook = logbook_of(host, kept.header.rehearsal)

    def done() -> Amended:
        before, after = logbook.load(kept.header.id), do(logbook)
        return Amended(replace(after, photographs=before.photographs), after)

    try:
        return await asyncio.to_thread(done)
    except PlansError as error:
        host.say_aside(str(error), wrong=True)
        return None

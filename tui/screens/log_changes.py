"""What is done to a sitting in the list of those that were kept: a title, a mark, archived, deleted, and back."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from typing import Final, TypeVar

from plans.logbook import Label, Logbook, LogbookError, Summary
from plans.logbook.lines import lessons_gone_with
from tui.screens.host import Host
from tui.screens.line import LineScreen, as_typed
from tui.screens.listing import title

_Found = TypeVar("_Found")
Took = Callable[[Summary, bool], None]
"""Told of a sitting that was changed, and whether it is still in the logbook."""


_LONGEST: Final = 200
"""So much may be typed [characters], more than a label may have: what is too long is told, and can be mended."""


def _read(fitting: Callable[[str], str]) -> Callable[[str, int], str]:
    """The answer of a line by what is allowed on a label; what was pasted and found no room counts with the rest."""
    return lambda text, left_out: fitting(as_typed(text + "." * left_out, 0))


class LogChanges:
    """Changes sittings of a logbook, in a thread, and says what came of it.

    Args:
        host: shows the questions and what is said
        logbook: has the sittings
        took: told of each change
        refused: waited for when something can't be done, as where another heatbook was at work
    """

    def __init__(self, host: Host, logbook: Logbook, took: Took, refused: Callable[[], Awaitable[None]]) -> None:
        self._host, self._logbook, self._took, self._refused = host, logbook, took, refused
        self._busy = False

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back."""
        return self._logbook.can_undo

    async def rename(self, chosen: Summary) -> None:
        """Ask for a title, and give it to a sitting."""
        text = chosen.label.title or title(chosen, self._host.settings.units)
        hint = "left empty, as its plan; "
        # What stands there to begin with is the plan's, and may be as long as that has it.
        read = _read(lambda typed: typed if typed == text else Label().titled(typed).title)
        asked = LineScreen("Call this sitting", text, _LONGEST, hint=hint, may_be_empty=True, read=read)
        if (answer := await self._host.push_screen_wait(asked)) is not None and answer != text:
            await self._relabel(chosen, lambda label: label.titled(answer), "renamed")

    async def mark(self, chosen: Summary) -> None:
        """Ask for a mark, and put it on a sitting."""
        hint = "a word, as gift, or none; "
        read = _read(lambda typed: Label().marked(typed).mark)
        asked = LineScreen("Mark this sitting", chosen.label.mark, _LONGEST, hint=hint, may_be_empty=True, read=read)
        if (answer := await self._host.push_screen_wait(asked)) is not None:
            await self._relabel(chosen, lambda label: label.marked(answer), "marked")

    async def archive(self, chosen: Summary) -> None:
        """Leave a sitting out of lists, or have it in them again."""
        out = not chosen.label.archived
        told = "archived; search for is: archived to see it" if out else "in the list again"
        if await self._relabel(chosen, lambda label: label.put_by(out), "archived" if out else "listed again"):
            self._host.say_aside(f"{title(chosen, self._host.settings.units)}: {told}")

    async def delete(self, chosen: Summary) -> None:
        """Delete a sitting."""

        def delete() -> tuple[Summary, int]:
            lessons = self._logbook.lessons_said_of(chosen.id)
            return self._logbook.delete(chosen.id), lessons

        if (done := await self._done(delete)) is not None:
            gone, lessons = done
            self._took(gone, False)
            named = title(gone, self._host.settings.units)
            them = lessons_gone_with(lessons)
            self._host.say_aside(f"{named}: deleted{them}; undo brings it back, until you leave heatbook")

    async def undo(self) -> None:
        """Take the last change back."""
        if (found := await self._done(self._logbook.undo)) is not None:
            what, summary = found
            self._took(summary, True)
            self._host.say_aside(f"{title(summary, self._host.settings.units)}: no longer {what}")

    async def _relabel(self, chosen: Summary, change: Callable[[Label], Label], what: str) -> bool:
        summary = await self._done(lambda: self._logbook.relabel(chosen.id, change, what))
        if summary is not None:
            self._took(summary, True)
        return summary is not None

    async def _done(self, work: Callable[[], _Found]) -> _Found | None:
        """What it comes to; None where it can't be done, which is said, or while the last change is still written."""
        if self._busy:
            return None
        self._busy = True
        try:
            return await asyncio.to_thread(work)
        except LogbookError as error:
            self._host.say_aside(str(error), wrong=True)
        finally:
            self._busy = False
        await self._refused()
        return None

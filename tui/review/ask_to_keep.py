"""The question before the factors that were learned go into the shop file."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from plans.errors import PlansError
from plans.logbook import KeptSitting
from plans.logbook.lines import factor_lines
from tui.config import UsageError, keep, learned_of, read_shop, to_keep
from tui.screens import Choice, Host, QuestionScreen


async def ask_to_keep(app: Host, kept: KeptSitting, done: Callable[[], None]) -> None:
    """Ask whether what was learned is to be kept, and do it; or say why there is nothing to keep.

    Args:
        app: the app
        kept: the sitting
        done: called when the shop file was written
    """
    path = app.folders.shop
    try:
        # One from before there was such a thing is worked out now, which may take its time.
        learned = to_keep(kept, await asyncio.to_thread(learned_of, kept))
    except PlansError as error:
        app.say_aside(str(error))
        return

    async def answered(answer: str | None) -> None:
        if answer != "keep":
            return
        try:
            said = await asyncio.to_thread(keep, kept, learned, path)
        except (UsageError, OSError) as error:
            app.say_aside(_why(error), wrong=True)
            return
        app.say_aside(said)
        done()

    told = ". ".join(line.capitalize() for line in factor_lines(learned, read_shop(path)[0]))
    await app.push_screen(
        QuestionScreen(
            f"Keep this for the sittings that come? {told}",
            [Choice("leave", "n", "no, the shop file stays as it is"), Choice("keep", "y", "yes, into the shop file")],
        ),
        answered,
    )


def _why(error: UsageError | OSError) -> str:
    if isinstance(error, OSError) and error.filename:
        return f"{error.filename}: {error.strerror or error}; the shop file is as it was"
    return str(error)

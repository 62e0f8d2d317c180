"""Opening: each thing that can be asked for has its screen, and where it can't be opened, that is said."""

from __future__ import annotations

from collections.abc import Coroutine
from typing import TYPE_CHECKING, Any

from tui.running import (
    CompareRequest,
    First,
    LogList,
    Maker,
    Outcome,
    Reckoner,
    ReviewRequest,
    RunRequest,
    Shelf,
    TaughtList,
    TrendsRequest,
)

if TYPE_CHECKING:
    from tui.app.in_hand import SittingInHand
    from tui.app.shell import Shell


class Opening:
    """Shows what is asked for, at the start and later.

    Args:
        app: where it is shown
        in_hand: has the sitting that is begun
    """

    def __init__(self, app: Shell, in_hand: SittingInHand) -> None:
        self._app, self._in_hand = app, in_hand

    async def open(self, what: First) -> None:
        """Show what is asked for; where that can't be, say why."""
        await or_say_why(self._app, self._show(what))

    async def _show(self, what: First) -> None:
        match what:
            case RunRequest(seed=None):
                await self._in_hand.begin(what)
            case RunRequest():
                await self._introduce(what)
            case ReviewRequest(id=name, rehearsal=rehearsal):
                from tui.review import open_review

                await open_review(self._app, name, rehearsal)
            case CompareRequest(ids=ids, rehearsal=rehearsal):
                from tui.comparing import open_comparing

                await open_comparing(self._app, ids, rehearsal)
            case TrendsRequest():
                from tui.comparing import open_trends

                await open_trends(self._app, what)
            case TaughtList():
                from tui.taught import open_taught

                await open_taught(self._app)
            case LogList(rehearsals=rehearsals):
                from tui.screens import open_log

                await open_log(self._app, rehearsals)
            case Reckoner():
                from tui.reckoner import open_reckoner

                await open_reckoner(self._app)
            case Maker():
                from tui.maker import open_maker

                await open_maker(self._app, what)
            case Shelf():
                from tui.shelf import open_shelf

                await open_shelf(self._app)
                await self._in_hand.stand_by()

    async def _introduce(self, request: RunRequest) -> None:
        """Say what a rehearsal is, then begin it."""
        from tui.screens import RehearsalScreen

        async def answered(begin: bool | None) -> None:
            if begin:
                await or_say_why(self._app, self._in_hand.begin(request))
            elif len(self._app.screen_stack) == 1:
                self._app.exit(self._app.outcome)

        await self._app.push_screen(RehearsalScreen(request.speed), answered)


async def or_say_why(app: Shell, opening: Coroutine[Any, Any, None]) -> None:
    """Open something; where that can't be, say why, on the shelf or, when it was all that was asked for, on leaving."""
    from devices import DeviceError
    from plans.errors import PlansError

    try:
        await opening
    except (PlansError, DeviceError, OSError) as error:
        if len(app.screen_stack) > 1:
            app.say_aside(str(error), wrong=True)
            return
        app.outcome = Outcome(errors=(str(error),), status=1)
        app.exit(app.outcome)

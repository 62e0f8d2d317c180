"""A plan that is asked for again after its last sitting was cut off."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import TYPE_CHECKING

from plans.errors import PlansError
from tui.running import RunRequest, left_of
from tui.screens.listing import title, when
from tui.screens.question import Choice, QuestionScreen

if TYPE_CHECKING:
    from tui.screens.host import Host


async def or_go_on(app: Host, request: RunRequest) -> RunRequest:
    """Ask whoever wants a plan whose last sitting was cut off whether to go on with that, as he mostly wants to.

    Args:
        app: asks
        request: what was asked for

    Returns:
        the request, with its plan read; or one to go on with the last sitting of this plan, which was cut off
    """
    if request.plan is None or request.seed is not None:
        return request
    try:
        plan = await asyncio.to_thread(request.plan)
    except PlansError:
        return request  # to be said where it is read again
    left = await asyncio.to_thread(left_of, app.logbook, plan.name)
    request = replace(request, plan=lambda: plan)
    if left is None:
        return request
    asked = f"{title(left, app.settings.units)}, begun {when(left.started)}, was cut off. Go on with it?"
    choices = [Choice("go on", "g", "go on where it was left"), Choice("anew", "a", "begin anew; it stays in the log")]
    if await app.push_screen_wait(QuestionScreen(asked, choices)) == "go on":
        return replace(request, plan=None, go_on=left.id)
    return request

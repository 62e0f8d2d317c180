"""A plan that is asked for again after it was cut off."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from plans.errors import PlansError
from plans.logbook import Progress
from tui.running import RunRequest
from tui.screens.listing import title, when
from tui.screens.question import Choice, QuestionScreen

if TYPE_CHECKING:
    from plans.logbook import Summary
    from tui.screens.host import Host


async def or_go_on(app: Host, request: RunRequest, cut_off: Sequence[Summary]) -> RunRequest:
    """Ask whoever wants a plan that was cut off whether to go on with that sitting, as he mostly wants to.

    Args:
        app: asks
        request: what was asked for
        cut_off: sittings that a crash cut off, the oldest first

    Returns:
        the request as it was, or one to go on with the sitting of this plan that was cut off last
    """
    if request.plan is None or request.seed is not None or not cut_off:
        return request
    try:
        plan = await asyncio.to_thread(request.plan)
    except PlansError:
        return request  # to be said where it is read again
    left = next((one for one in reversed(cut_off) if one.plan == plan.name and _can_be_gone_on_with(one)), None)
    if left is None:
        return request
    asked = f"{title(left, app.settings.units)}, begun {when(left.started)}, was cut off. Go on with it?"
    choices = [Choice("go on", "g", "go on where it was left"), Choice("anew", "a", "begin anew; it stays in the log")]
    if await app.push_screen_wait(QuestionScreen(asked, choices)) == "go on":
        return replace(request, plan=None, go_on=left.id)
    return request


def _can_be_gone_on_with(one: Summary) -> bool:
    return one.state is not Progress.FINISHED and not one.rehearsal

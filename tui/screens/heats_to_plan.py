"""Putting the heats that a sitting took into a copy of its plan."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping

from plans.errors import PlansError
from plans.plan import Plan
from tui.screens.host import Host


async def keep_heats(app: Host, plan: Plan, heats: Mapping[int, int]) -> None:
    """Write a copy of a plan with other heats, in a thread, and say where it lies; or why there is none.

    Args:
        app: the app
        plan: the plan
        heats: how many heats each step shall have, by its number from 0, as `plans.sitting.heats_as_done` gives it
    """
    from tui.config import copy_with_heats

    if not heats:
        app.say_aside("no step took other heats than planned: nothing to put into the plan")
        return
    try:
        app.say_aside(await asyncio.to_thread(copy_with_heats, plan, heats, app.folders.plans))
    except (PlansError, OSError) as error:
        why = error.strerror or str(error) if isinstance(error, OSError) else str(error)
        app.say_aside(f"no copy of the plan was written: {why}", wrong=True)

"""The plans that ship, rehearsed to their ends."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.phase import WARMING, PhaseKind
from plans.sitting.calls import Call
from tests.devices.rehearsal.any_plan import check
from tests.shelf_plans import shelf_plans

pytestmark = pytest.mark.slow

_OUT_OF_THE_FIRE = (PhaseKind.STRIKE, PhaseKind.AIR, PhaseKind.QUENCH)


@pytest.mark.parametrize("name", [one.name for one in shelf_plans(None)])
def test_is_got_through_heat_by_heat(name: str, play: Callable[..., Any]) -> None:
    """Without a probe, so that the work's true warmth as it comes out tells what the warm model and the plan's figures
    are worth in a world that shares nothing with them."""
    plan = next(one.plan for one in shelf_plans(None) if one.name == name)
    assert plan is not None
    played = play(plan, 0, give_up=7 * 86400.0, blind=True)
    check(plan, played)
    calls = [(called.call, called.step, called.heat) for called in played.sitting.state.calls]
    off = []
    for (lay, _), (out, skin), (after, _) in zip(played.begun, played.begun[1:], played.begun[2:], strict=False):
        if lay.phase not in WARMING or out.phase not in _OUT_OF_THE_FIRE:
            continue
        if (after.phase, after.step, after.heat) == (lay.phase, lay.step, lay.heat):
            continue  # out too soon, and taken back
        # Every heat is called out of the fire by its own soak, as the middle or the clock has it, or as too hot.
        told = {call for call, step, heat in calls if (step, heat) == (lay.step, lay.heat)}
        assert lay.phase is not PhaseKind.SOAK or told & {Call.SOAK_DONE, Call.TOO_HOT}
        target = plan.steps[lay.step].target(lay.heat)
        assert target is not None
        off.append(skin - target.heat_to)
    # The fire wanders, is chilled by what is laid in, and now and then is too hot by some 50 K.
    assert all(-150.0 < kelvin < 150.0 for kelvin in off)
    assert not off or -30.0 < sum(off) / len(off) < 60.0

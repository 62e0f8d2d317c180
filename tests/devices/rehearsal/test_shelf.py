"""The plans that ship, rehearsed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.reader import find_plan
from plans.sitting.calls import Call
from plans.sitting.events import Begun

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("name", ["drawknife", "kitchen-billet", "normalize"])
def test_is_got_through_heat_by_heat_in_the_time_that_such_work_takes(name: str, play: Callable[..., Any]) -> None:
    plan = find_plan(name, None)
    played = play(plan, 0)
    assert played.sitting.state.finished
    # Bench work is shortened; what is left is minutes a heat, not seconds and not hours.
    assert 30 * 60.0 < played.at < 150 * 60.0
    begun = [entry for entry in played.entries if isinstance(entry, Begun)]
    for number, step in enumerate(plan.steps):
        kinds = {phase.kind for phase in step.phases}
        assert {entry.phase for entry in begun if entry.step == number} >= kinds
        heats = {entry.heat for entry in begun if entry.step == number}
        assert heats >= set(range(1, step.heats + 1))
        # Every heat is called out of the fire by its own soak, as the middle and the clock have it.
        if PhaseKind.SOAK in kinds:
            called = {call.heat for call in played.sitting.state.calls if call.step == number}
            assert called >= set(range(1, step.heats + 1))
    cold = sum(call.call is Call.TOO_COLD for call in played.sitting.state.calls)
    strikes = any(phase.kind is PhaseKind.STRIKE for step in plan.steps for phase in step.phases)
    assert cold >= (2 if strikes else 0)

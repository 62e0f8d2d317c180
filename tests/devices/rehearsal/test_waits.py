"""Long waits of a rehearsal: run through, and nothing lost by it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from devices.rehearsal.waits import MOMENT
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting.calls import Call
from tests.devices.rehearsal.any_plan import plan_of

pytestmark = pytest.mark.slow

Play = Callable[..., Any]
_HOLD = """
[[step]]
title = "Hold"
kind = "temper"
phases = ["oven"]
oven = {{ at = "200 degC", for = "{0}" }}
section = "20 x 5 mm"
"""


def moments(played: Any) -> int:
    """How many moments it took: each takes a quarter of a second, over the speed, to watch."""
    return len(played.moments)


def test_two_hours_in_the_oven_are_watched_in_a_minute_at_the_pace_of_the_clock(play: Play, tmp_path: Path) -> None:
    short, long = (
        play(plan_of(_HOLD.format(hold), tmp_path), 1, give_up=1e6, blind=True, as_watched=True)
        for hold in ("2 min", "2 h")
    )
    assert long.at - short.at > 7000.0
    assert (moments(long) - moments(short)) * MOMENT < 120.0
    (called,) = [called for called in long.sitting.state.calls if called.call is Call.TIME_UP]
    (begun,) = [begun for begun, _ in long.begun if begun.phase is PhaseKind.OVEN]
    assert called.at - begun.at == 7200.0


def test_its_probe_is_not_lost_for_speaking_seldom(play: Play, tmp_path: Path) -> None:
    """But for the one silence that each rehearsal has."""
    calls = [called.call for called in play(plan_of(_HOLD.format("40 min"), tmp_path), 4).sitting.state.calls]
    assert calls.count(Call.PROBE_LOST) == calls.count(Call.PROBE_BACK) <= 1
    assert calls.count(Call.TIME_UP) == 1


def test_a_heat_is_shown_as_it_goes(short: Plan, play: Play) -> None:
    """Fire, soak and strike of a usual bar: nothing of them is run through."""
    played = play(short, 3, give_up=500.0)
    hot = [length for length, phase in played.moments if phase in (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE)]
    assert len(hot) > 1500
    assert set(hot) == {MOMENT}

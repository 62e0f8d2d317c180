"""Whatever plan the reader takes can be rehearsed to its end."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings, strategies as st

from devices.rehearsal.smithy import Smithy
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Tick, Word
from plans.sitting.hands import Hands, HandsFree
from tests.devices.rehearsal.any_plan import HARD, check, plan_of, plans

pytestmark = pytest.mark.slow

Play = Callable[..., Any]
_DAYS = 3 * 86400.0
# Each example is a whole rehearsal.
_FEWER = settings().max_examples // 5


@pytest.fixture(scope="module")
def hard(play: Play, tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], tuple[Plan, Any]]:
    """A hard plan, and its rehearsal without a probe; each is played once."""

    @cache
    def played(name: str) -> tuple[Plan, Any]:
        plan = plan_of(HARD[name], tmp_path_factory.getbasetemp())
        return plan, play(plan, 2, give_up=_DAYS, blind=True)

    return played


@pytest.mark.parametrize("name", HARD)
def test_a_hard_plan_is_got_through(name: str, hard: Callable[[str], tuple[Plan, Any]]) -> None:
    check(*hard(name))


@settings(max_examples=_FEWER)
@given(text=plans(), seed=st.integers(0, 1000), blind=st.booleans(), asks=st.booleans())
def test_any_plan_is_got_through(
    text: str, seed: int, blind: bool, asks: bool, play: Play, tmp_path_factory: pytest.TempPathFactory
) -> None:
    plan = plan_of(text, tmp_path_factory.getbasetemp())
    check(plan, play(plan, seed, give_up=_DAYS, blind=blind, hands=Hands(HandsFree.THERMAL, asks=asks)))


def test_it_is_hardened_in_time_and_tempered_for_its_hours(hard: Callable[[str], tuple[Plan, Any]]) -> None:
    """By a careful smith: out by its own word, in the oil within the plan's 3 s, in the oven within its 2 h."""
    _, played = hard("harden, temper twice, etch with three dips")
    (out,) = [said.at for said in played.said if said.word is Word.OUT]
    quenched = next(begun for begun, _ in played.begun if begun.phase is PhaseKind.QUENCH)
    assert 0.0 < quenched.at - out <= 3.0
    late = {Call.QUENCH_LATE, Call.TEMPER_LATE, Call.HOLD_SHORT, Call.SOAK_SHORT, Call.SOAKED_TOO_LONG}
    assert not late & {called.call for called in played.sitting.state.calls}
    begun = [begun for begun, _ in played.begun]
    held = [after.at - hold.at for hold, after in pairwise(begun) if hold.phase is PhaseKind.OVEN]
    assert len(held) == 2
    assert all(7200.0 <= seconds < 7240.0 for seconds in held)


def test_in_every_heat_that_is_fluxed_the_work_comes_out_and_goes_back(
    hard: Callable[[str], tuple[Plan, Any]],
) -> None:
    _, played = hard("no soak, flux, a thin tip, a press, an end by the smith's word")
    calls = [(called.call, called.heat) for called in played.sitting.state.calls if called.step == 0]
    fluxed = [heat for call, heat in calls if call is Call.FLUX_NOW]
    assert fluxed
    assert fluxed == [heat for call, heat in calls if call is Call.LOOKED]
    out = [end - since for since, end in played.sitting.state.looks]
    assert len(out) == len(fluxed)
    assert all(6.0 <= seconds <= 18.0 for seconds in out)


def test_work_that_is_out_for_flux_or_carried_to_the_quench_lies_in_no_fire(tmp_path: Path) -> None:
    text = """
[[step]]
title = "Harden, fluxed"
kind = "harden"
phases = ["fire", "soak", "quench"]
fire = "1000 degC"
flux_at = "750 degC"
soak = "5 s"
section = "12 x 4 mm"
quench = { medium = "oil", for = "5 s", within = "3 s" }
"""
    plan = plan_of(text, tmp_path)
    smithy, sitting = Smithy(plan, 1), Sitting(plan)
    sitting.open()
    out: dict[float, list[float]] = {}
    while not sitting.state.finished and smithy.at < 3600.0:
        smithy.on()
        sitting.take(Tick(smithy.at))
        smithy.answer(smithy.at, sitting, sitting.take)
        since = sitting.state.left_fire_at or sitting.state.looked_since
        if since is not None:
            out.setdefault(since, []).append(smithy.forge.bar.skin)
    fluxed, carried = out.values()
    assert fluxed[0] - fluxed[-1] > 60.0
    assert carried[0] - carried[-1] > 5.0


def test_now_and_then_he_dawdles_on_the_way_to_the_quench(play: Play, tmp_path: Path) -> None:
    text = """
[[step]]
title = "Harden four pieces"
kind = "harden"
heats = 4
fire = "840 degC"
soak = "1 s"
section = "6 x 3 mm"
quench = { medium = "oil", for = "1 s", within = "2 s" }
"""
    plan = plan_of(text, tmp_path)
    late = []
    for seed in range(5):
        calls = [called.call for called in play(plan, seed, blind=True).sitting.state.calls]
        late.append(calls.count(Call.QUENCH_LATE))
    assert set(late) == {0, 1}

"""What each phase is to reach, before it begins and while it goes on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Tick, Word
from plans.sitting.glance import glance_at
from plans.units import Units
from tui.live.aim import Aim, aim_of
from tui.live.foot import keys_of
from tui.live.minding import caution_line

PLAN = """
heatbook = 1
title = "From the last heat to the etch"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
heats = 2
section = "31 x 18 mm"
length = "153 mm"
reach = "32 x 8 mm"
reach_length = "313 mm"

[[step]]
title = "Normalize"
kind = "normalize"
fire = "860 degC"
heat_to = "845 degC"
section = "32 x 8 mm"
[step.air]
until = "480 degC"

[[step]]
title = "Harden"
kind = "harden"
fire = "830 degC"
heat_to = "800 degC"
section = "32 x 4 mm"
[step.quench]
medium = "canola oil at 55 degC"
for = "30 s"
within = "3 s"

[[step]]
title = "Temper twice"
kind = "temper"
heats = 2
oven = { at = "200 degC", for = "2 h", within = "1 h" }

[[step]]
title = "Etch"
kind = "etch"
heats = 2
dip = { medium = "ferric chloride, 1 part to 4 of water", for = "12 min" }
"""


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(PLAN, "aims", "aims.toml")


class Told:
    """A sitting that goes step by step, without a probe."""

    def __init__(self, plan: Plan) -> None:
        self.sitting = Sitting(plan)
        self.sitting.open()
        self.at = 0.0

    def say(self, *words: Word) -> Told:
        for word in words:
            self.at += 1.0
            self.sitting.take(Said(self.at, word))
        return self

    def wait(self, seconds: float) -> Told:
        self.at += seconds
        self.sitting.take(Tick(self.at))
        return self

    def aim(self, units: Units = Units.METRIC) -> Aim:
        return aim_of(self.sitting, glance_at(self.sitting, self.at), units)

    @property
    def caution(self) -> str:
        return caution_line(self.sitting, self.at, Units.METRIC)


def at_step(plan: Plan, step: int) -> Told:
    return Told(plan).say(*[Word.ON] * step)


def test_a_heat_is_for_section_and_length_from_before_the_fire_to_the_last_blow(plan: Plan) -> None:
    told = at_step(plan, 0)
    for _ in range(4):
        aim = told.aim()
        assert (aim.lead, aim.large) == ("reach", ("32 x 8 mm, 313 mm", "32 x 8 mm"))
        told.say(Word.NEXT)
    assert told.aim().rest == ("fire 1160, heat to 1130 degC",)


def test_a_cycle_is_for_its_heat_and_then_for_black(plan: Plan) -> None:
    told = at_step(plan, 1).say(Word.NEXT)
    assert told.aim() == Aim("heat to", ("845 degC",), ("fire 860 degC",))
    assert told.say(Word.OUT).aim() == Aim("cool to", ("480 degC",))


def test_the_quench_is_told_before_on_the_way_and_in_it(plan: Plan) -> None:
    told = at_step(plan, 2)
    for _ in range(2):
        assert told.aim().text == "heat to 800 degC; fire 830 degC; then into canola oil at 55 degC within 3 s"
        told.say(Word.NEXT)
    told.say(Word.NEXT)
    assert told.sitting.state.phase is PhaseKind.QUENCH
    assert told.aim() == Aim("into", ("canola oil at 55 degC, 30 s", "canola oil at 55 degC"))


def test_oven_and_bath_are_told_before_and_during_with_what_lies_between_two_dips(plan: Plan) -> None:
    told = at_step(plan, 3)
    assert told.aim() == Aim("oven at", ("200 degC, 2 h", "200 degC"), ("within 1 h",))
    assert told.say(Word.NEXT).aim() == Aim("oven at", ("200 degC, 2 h", "200 degC"))
    # 200 degC * 9/5 + 32 = 392 degF
    assert told.aim(Units.INCH).large[0] == "392 degF, 2 h"
    told.say(Word.ON)
    for _ in range(2):
        aim = told.aim()
        assert aim.lead == "into"
        assert aim.large[0] == "ferric chloride, 1 part to 4 of water, 12 min"
        assert "ferric chloride, 12 min" in aim.large
        told.say(Word.NEXT)
    assert told.sitting.state.phase is PhaseKind.BENCH
    assert told.aim().text == "rinse, brush, look; then dip 2 of 2"
    assert told.say(Word.NEXT, Word.NEXT).aim().rest == ("that was the last",)


def test_what_the_plan_does_not_say_is_not_made_up(plan: Plan) -> None:
    step = plan.steps[1]
    bare = replace(step, phases=tuple(replace(phase, until=None) for phase in step.phases))
    told = at_step(replace(plan, steps=(bare,)), 0).say(Word.NEXT, Word.OUT)
    assert told.sitting.state.phase is PhaseKind.AIR
    assert told.aim() == Aim()


def test_each_danger_is_told_when_it_begins_and_once(plan: Plan) -> None:
    told = at_step(plan, 0)
    assert told.caution == ""
    assert told.say(Word.NEXT).caution.startswith("mind: carbon monoxide, gas, burns, eyes")
    assert told.wait(13.0).caution == ""
    assert told.say(Word.OUT).caution == "mind: press and hammer"
    # The fire of another step is no news.
    assert told.say(Word.ON, Word.NEXT).caution == ""
    told.say(Word.ON, Word.NEXT, Word.NEXT, Word.NEXT)
    assert told.sitting.state.phase is PhaseKind.QUENCH
    assert told.caution == "mind: oil, hard and brittle"
    assert "oven" in told.say(Word.ON, Word.NEXT).caution
    assert told.say(Word.ON, Word.NEXT).caution == "mind: acid and etchant"


@pytest.mark.parametrize("phase", PhaseKind)
def test_the_keys_at_the_foot_begin_with_space_and_never_lose_what_is_always_wanted(phase: PhaseKind) -> None:
    keys = keys_of(phase)
    assert keys[0] == "next"
    assert len(set(keys)) == len(keys)
    assert {"undo", "pause", "note", "leave", "far"} <= set(keys)
    assert "pause" not in keys_of(phase, paused=True)


def test_what_a_phase_needs_comes_before_what_is_always_there() -> None:
    for phase, first in ((PhaseKind.FIRE, "out"), (PhaseKind.SOAK, "out"), (PhaseKind.STRIKE, "repeat")):
        keys = keys_of(phase)
        assert keys.index(first) < keys.index("undo")
    assert {"repeat", "on"} <= set(keys_of(PhaseKind.STRIKE))

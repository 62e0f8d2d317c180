"""What the live screen says at one moment, without a screen."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from devices.link_state import LinkPhase, LinkState
from plans.phase import PhaseKind
from plans.plan import Plan, Target
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import PASSING, Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Called, Cause, Said, Tick, Word
from plans.sitting.folding import fold
from plans.sitting.glance import glance_at
from plans.sitting.hands import Hands, HandsFree
from plans.units import Units, kelvin
from plans.warmth import HeatNames
from tui.live.showing import Showing, by_itself, hands_line, probe_line, said, showing
from tui.widgets import FINISHED, PAUSED, call_mark, phase_mark

PLAN = """
heatbook = 1
title = "A trial"

[[step]]
title = "Weld"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
burn_above = "1320 degC"
soak = "60 s"
heats = 2
section = "40 x 14 mm"
reach = "40 x 12 mm"

[[step]]
title = "Look it over"
kind = "bench"
"""


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(PLAN, "trial", "trial.toml")


class Told:
    """A sitting told by hand, and what the screen says of it."""

    def __init__(self, plan: Plan, probe_on: ProbeOn | None = ProbeOn.WORK) -> None:
        self.sitting = Sitting(plan, probe_on)
        self.sitting.open()
        self.at = 0.0

    def say(self, *words: Word) -> Told:
        for word in words:
            self.sitting.take(Said(self.at, word))
        return self

    def feel(self, celsius: float, seconds: float) -> Told:
        for _ in range(round(seconds / 0.25)):
            self.at += 0.25
            self.sitting.take(Reading(self.at, kelvin(celsius)))
        return self

    def wait(self, seconds: float) -> Told:
        self.at += seconds
        self.sitting.take(Tick(self.at))
        return self

    def shown(self, units: Units = Units.METRIC) -> Showing:
        return showing(self.sitting, glance_at(self.sitting, self.at), "probe on work", units)


def test_before_the_first_heat_it_says_what_this_step_is_and_no_heat_is_under_way(plan: Plan) -> None:
    shown = Told(plan).shown()
    assert (shown.step, shown.heat, shown.tally) == ("1/2  Weld", "heat 1 of 2", (0, 2, False))
    assert (shown.word, shown.clock, shown.probe) == ("READY", "0:00", "probe on work")
    assert (shown.alarm, shown.word_is_big, shown.mark) == (False, False, phase_mark(PhaseKind.READY))
    assert shown.aim.text == "reach 40 x 12 mm; fire 1290, heat to 1250 degC"


def test_in_the_fire_the_skin_is_told_as_measured_with_its_limits_on_the_scale(plan: Plan) -> None:
    told = Told(plan).say(Word.NEXT).feel(1000.0, 30.0)
    shown = told.shown()
    assert (shown.word, shown.tally, shown.clock) == ("HEAT", (0, 2, True), "0:30")
    assert "skin 1000 measured, " in shown.work
    assert shown.glow is not None
    assert shown.scale.skin == pytest.approx(kelvin(1000.0))
    assert "skin 1000 measured 3 s ago, " in told.wait(3.0).shown().work


def test_every_figure_follows_the_units_that_are_set(plan: Plan) -> None:
    """1290 degC = 2354 degF, 1250 degC = 2282 degF, 1000 degC = 1832 degF."""
    shown = Told(plan).say(Word.NEXT).feel(1000.0, 30.0).shown(Units.INCH)
    assert shown.aim.rest == ("fire 2354, heat to 2282 degF",)
    assert shown.aim.large[0].endswith(" in")
    assert "skin 1832 measured" in shown.work


def test_a_heat_is_named_by_the_chart_that_is_set_with_its_range_where_there_is_room(plan: Plan) -> None:
    """1000 degC is orange, 982 to 1092, in Chapman's chart, and yellow in White and Taylor's."""
    told = Told(plan).say(Word.NEXT).feel(1000.0, 30.0)
    seen = glance_at(told.sitting, told.at)
    for names, columns, begins in (
        (HeatNames.CHAPMAN, 120, "orange 980-1095, skin 1000"),
        (HeatNames.TAYLOR, 120, "yellow 970-1040, skin 1000"),
        (HeatNames.CHAPMAN, 40, "orange, skin 1000"),
    ):
        shown = showing(told.sitting, seen, "", Units.METRIC, names, columns=columns)
        assert shown.work.startswith(begins)


def test_an_alarm_takes_the_large_place_and_its_advice_the_line(plan: Plan) -> None:
    """Struck at 1100 degC, where the cold limit is 1150."""
    told = Told(plan).say(Word.NEXT).feel(1260.0, 30.0).say(Word.OUT).feel(1100.0, 10.0)
    shown = told.shown()
    assert (shown.word, shown.alarm, shown.word_is_big) == ("TOO COLD", True, True)
    assert shown.mark == shown.foot_mark == call_mark(Call.TOO_COLD)
    assert shown.call.endswith("too cold: stop striking, back in the fire")
    paused = told.say(Word.PAUSE).shown()
    assert (paused.alarm, paused.word_is_big, paused.mark, paused.space) == (False, False, PAUSED, "go on")


def test_what_was_called_in_the_phase_before_is_no_instruction_any_more(plan: Plan) -> None:
    told = Told(plan).say(Word.NEXT).feel(1260.0, 30.0).say(Word.OUT).feel(1100.0, 10.0).say(Word.NEXT)
    assert "too cold" not in told.shown().call


def test_what_only_tells_what_was_is_shown_for_a_minute_and_no_longer_than_its_phase(plan: Plan) -> None:
    passing = Call.ARREST
    assert passing in PASSING
    for gone, next_phase, shown in ((59.0, False, True), (61.0, False, False), (1.0, False, True), (1.0, True, False)):
        told = Told(plan, None).say(Word.NEXT).wait(5.0)
        fold(told.sitting.state, Called(told.at, passing, 0, 1))
        told.wait(gone)
        if next_phase:
            told.say(Word.NEXT)
        assert (passing.value in told.shown().call) is shown


def test_a_lost_probe_has_its_mark_at_the_foot_and_leaves_the_phase_its_own(plan: Plan) -> None:
    told = Told(plan).say(Word.NEXT).feel(1000.0, 30.0).wait(20.0)
    shown = told.shown()
    assert Call.PROBE_LOST in told.sitting.state.alarms
    assert (shown.mark, shown.foot_mark) == (phase_mark(PhaseKind.FIRE), call_mark(Call.PROBE_LOST))
    assert "modelled" in shown.work
    assert not shown.alarm


def test_a_finished_sitting_stands_still(plan: Plan) -> None:
    told = Told(plan).say(Word.NEXT).feel(1000.0, 30.0).say(Word.FINISH).wait(600.0)
    shown = told.shown()
    assert (shown.clock, shown.mark, shown.then, shown.glow) == ("0:30", FINISHED, "", None)
    assert shown.word_is_big


def test_the_bench_counts_no_heats(plan: Plan) -> None:
    assert Told(plan).say(Word.ON).shown().heat == ""


@pytest.mark.parametrize(
    ("hands", "probe_on", "line"),
    [
        (Hands(HandsFree.NEVER), ProbeOn.WORK, "nothing begins by itself"),
        (Hands(HandsFree.NEVER, grace=20.0), None, "nothing begins by itself"),
        (Hands(HandsFree.ALL), ProbeOn.WORK, "in and out are felt"),
        (Hands(HandsFree.ALL), ProbeOn.FIRE, "soak begins by itself"),
        (Hands(HandsFree.ALL, grace=20.0), ProbeOn.FIRE, "goes on by itself 20 s after a call"),
        (Hands(HandsFree.ALL, grace=20.0), ProbeOn.WORK, "in and out are felt"),
        (Hands(HandsFree.THERMAL, grace=20.0), ProbeOn.WORK, "soak begins by itself"),
    ],
)
def test_what_may_end_a_phase_by_itself(hands: Hands, probe_on: ProbeOn | None, line: str) -> None:
    assert hands_line(hands, probe_on) == line


@pytest.mark.parametrize("cause", Cause)
def test_what_began_without_a_word_is_told_with_the_key_that_takes_it_back(cause: Cause) -> None:
    told = by_itself(Begun(1.0, 0, 1, PhaseKind.SOAK, cause), "u")
    assert told == "" if cause is Cause.WORD else told.endswith(": soak; u takes it back")


def link(trouble: str = "", rate: float | None = 4.0, junk: int = 0, thinned_to: float | None = None) -> LinkState:
    return LinkState(LinkPhase.OPEN, "/dev/ttyUSB0", "", 100, junk, (), rate, trouble, thinned_to=thinned_to)


@pytest.mark.parametrize(
    ("probe_on", "of", "more", "line"),
    [
        (None, None, {}, "no probe: modelled"),
        (ProbeOn.WORK, None, {}, "no probe now: modelled"),
        (ProbeOn.WORK, link(), {}, "probe on work, ttyUSB0, 4.0/s"),
        (ProbeOn.FIRE, link(rate=None), {}, "probe on fire, ttyUSB0"),
        (ProbeOn.WORK, link(junk=1), {}, "probe on work, ttyUSB0, 4.0/s, 1 junk line"),
        (ProbeOn.WORK, link(junk=2), {"short": True}, "probe on work, 4.0/s"),
        (
            ProbeOn.WORK,
            link(rate=1603.2, thinned_to=20.0),
            {"short": True},
            "probe on work, 1603/s, the median of every 80 counts",
        ),
        (
            ProbeOn.WORK,
            link(rate=25.2, thinned_to=22.0),
            {"short": True},
            "probe on work, 25/s, thinned to 22/s",
        ),
        (ProbeOn.WORK, link(trouble="unplugged"), {}, "probe lost: unplugged"),
        (ProbeOn.WORK, link(), {"lost": True}, "probe lost: it says nothing"),
        (ProbeOn.WORK, link(), {"speed": 8.0}, "rehearsal 8 x, probe on work, 4.0/s"),
        (ProbeOn.WORK, link(), {"speed": 8.0, "short": True}, "rehearsal 8 x"),
        (
            ProbeOn.WORK,
            link(),
            {"speed": 8.0, "short": True, "hurries": True},
            "rehearsal 8 x, faster through this wait",
        ),
    ],
)
def test_how_it_stands_with_the_probe(
    probe_on: ProbeOn | None, of: LinkState | None, more: dict[str, Any], line: str
) -> None:
    assert probe_line(probe_on, of, **({"lost": False} | more)) == line


def test_a_call_is_a_line_with_its_time_and_by_how_much_it_was_missed(plan: Plan) -> None:
    step = replace(plan.steps[0], targets=(Target(1143.15, 1118.15),))

    def line(called: Called) -> str:
        return said(called, step, Units.METRIC)

    assert line(Called(75.0, Call.SOAK_DONE, 0, 1)) == "1:15 soak done: take it out"
    assert line(Called(75.0, Call.OVER_HEAT, 0, 1, 1188.15)).startswith("1:15 too hot for this heat 915, wanted 845: ")
    assert line(Called(75.0, Call.SOAK_SHORT, 0, 1, took=21.0, wanted=300.0)).startswith(
        "1:15 soak cut short 0:21 of 5:00: "
    )

"""Calls that nobody answers: when they are repeated, how urgently, and what ends it, in real sittings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Phase, Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import ALARMS, PROMPTS, Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Called, Event, LeftFire, Said, Tick, WentOn, Word
from plans.sitting.glance import glance_at
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.repeating import Repeating, Unanswered, strokes, urgency_of
from plans.sitting.saying import Volume
from plans.sitting.spoken.talk import Talk

ICE = 273.15
FIVE_MINUTES = 300.0
OVER_THE_LIMIT, UNDER_IT = 1335.0, 1290.0
"""What the probe says above and below the weld's burn limit of 1320 [degC]."""

# The rule, as the README states it: how long after the call it is repeated [s].
PROMPT_MARKS = [*range(10, 70, 20), *range(70, 130, 15), *range(130, 300, 10)]
ALARM_MARKS = [*range(5, 300, 5)]


class Shop:
    """A sitting, a probe that says the same every second, and what is repeated of its calls."""

    def __init__(self, plan: Plan, repeat_for: float = FIVE_MINUTES, probe_on: ProbeOn | None = None) -> None:
        self.sitting = Sitting(plan, probe_on, Hands(HandsFree.ALL if probe_on is None else HandsFree.NEVER))
        self.repeating = Repeating(repeat_for)
        self.talk = Talk(Volume.FEW)
        self.at = 0.0
        self.celsius: float | None = None
        self.began, self.look_every = 0.0, 1.0
        self.repeated: list[tuple[float, Unanswered]] = []
        self.said: list[str] = []
        self.hear(self.sitting.open())

    def hear(self, entries: Sequence[Any]) -> None:
        events: list[Event] = [entry for entry in entries if not isinstance(entry, Reading)]
        seen = glance_at(self.sitting, self.at)
        again = self.repeating.hear(events, seen)
        if again is not None:
            self.repeated.append((self.at, again))
        self.said += [saying.text for saying in self.talk.hear(events, seen, again)]

    def say(self, word: Word, text: str = "") -> Shop:
        self.hear(self.sitting.take(Said(self.at, word, text)))
        return self

    def wait(self, seconds: float) -> Shop:
        for _ in range(round(seconds)):
            self._pass_second()
        return self

    def _pass_second(self) -> None:
        entries = self._go_on()
        if (self.at - self.began) % self.look_every == 0 or any(not isinstance(entry, Reading) for entry in entries):
            self.hear(entries)

    def _go_on(self) -> list[Any]:
        self.at += 1.0
        said = Tick(self.at) if self.celsius is None else Reading(self.at, self.celsius + ICE)
        return [*self.sitting.take(said)]

    def until(self, call: Call) -> Shop:
        """Wait for a call, and forget what was repeated before it."""
        while call not in self.sitting.state.alarms:
            assert self.at < 8000
            self._pass_second()
        return self.forget()

    def forget(self) -> Shop:
        self.began = self.at
        self.repeated, self.said = [], []
        return self

    def leap(self, seconds: float) -> Shop:
        """Nobody looks for so long, as while the machine sleeps."""
        self.at += seconds - 1
        return self.wait(1)

    @property
    def marks(self) -> list[float]:
        """When calls were repeated, from when they were made [s]."""
        return [at - self.began for at, _ in self.repeated]

    @property
    def calls(self) -> set[Call]:
        return {again.call for _, again in self.repeated}


@pytest.fixture
def soak(plan: Plan) -> Plan:
    """One weld heat whose soak is short, and may last."""
    phases = (Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, seconds=2.0, at_most=7200.0), Phase(PhaseKind.STRIKE))
    return replace(plan, steps=(replace(plan.steps[0], phases=phases),))


@pytest.fixture
def soaked(soak: Plan) -> Shop:
    """The soak has just been called done."""
    return soaking(soak).until(Call.SOAK_DONE)


@pytest.fixture
def cold(soak: Plan) -> Shop:
    """It is struck, and has just been called too cold."""
    return soaking(soak).until(Call.SOAK_DONE).say(Word.NEXT).until(Call.TOO_COLD)


def soaking(plan: Plan, repeat_for: float = FIVE_MINUTES) -> Shop:
    """The smith says that it is at heat."""
    return Shop(plan, repeat_for).say(Word.NEXT).say(Word.NEXT)


@pytest.fixture
def hot(plan: Plan) -> Shop:
    """A probe on the work in the fire says that it is above the burn limit, and it has been called too hot."""
    shop = Shop(plan, probe_on=ProbeOn.WORK)
    shop.celsius, shop.look_every = OVER_THE_LIMIT, 5.0  # a glance is dear where a probe leads
    return shop.say(Word.NEXT).until(Call.TOO_HOT)


# The rule


def test_a_prompt_is_repeated_more_often_until_its_time_is_over(soaked: Shop) -> None:
    assert soaked.wait(360).marks == PROMPT_MARKS
    assert soaked.calls == {Call.SOAK_DONE}
    by_mark = {mark: again.urgency for mark, (_, again) in zip(soaked.marks, soaked.repeated, strict=True)}
    assert by_mark == {mark: 1 if mark < 70 else 2 if mark < 130 else 3 for mark in PROMPT_MARKS}


def test_an_alarm_is_repeated_every_five_seconds(cold: Shop) -> None:
    assert cold.wait(360).marks == ALARM_MARKS
    assert cold.calls == {Call.TOO_COLD}
    by_mark = {mark: again.urgency for mark, (_, again) in zip(cold.marks, cold.repeated, strict=True)}
    assert by_mark == {mark: 1 if mark < 20 else 2 if mark < 60 else 3 for mark in ALARM_MARKS}


def test_a_burn_limit_is_repeated_as_long_as_it_holds(hot: Shop) -> None:
    assert hot.wait(360).marks == [*range(5, 365, 5)]
    assert hot.calls == {Call.TOO_HOT}
    hot.celsius = UNDER_IT
    hot.wait(60).forget()
    assert Call.TOO_HOT not in hot.sitting.state.alarms
    hot.wait(60)
    assert Call.TOO_HOT not in hot.calls


@pytest.mark.parametrize("call", sorted(PROMPTS | ALARMS))
def test_every_prompt_and_alarm_grows_more_urgent(call: Call) -> None:
    grades = [urgency_of(call, float(seconds)) for seconds in range(301)]
    assert grades == sorted(grades)
    assert (grades[0], grades[-1]) == (0, 3)


def test_what_only_tells_is_never_urgent() -> None:
    assert {urgency_of(call, 3600.0) for call in set(Call) - PROMPTS - ALARMS} == {0}


def test_every_stroke_more_leaves_the_call_its_own_sound() -> None:
    rung = {(call, urgency): strokes(call, urgency) for call in PROMPTS | ALARMS for urgency in range(4)}
    for (call, urgency), times in rung.items():
        assert times[: len(call.row.bell)] == call.row.bell
        assert len(times) == len(call.row.bell) + 2 * urgency
        assert list(times) == sorted(set(times))
        assert times[-1] < 5.0, "it is rung out before the call is repeated"
    assert len(set(rung.values())) == len(rung), "no two sound alike"


@pytest.mark.parametrize(("repeat_for", "marks"), [(0.0, []), (60.0, [10.0, 30.0, 50.0])])
def test_how_long_is_as_it_is_set(soak: Plan, repeat_for: float, marks: list[float]) -> None:
    shop = soaking(soak, repeat_for).until(Call.SOAK_DONE)
    assert shop.wait(120).marks == marks


def test_a_burn_limit_is_repeated_though_nothing_else_is(plan: Plan) -> None:
    shop = Shop(plan, 0.0, ProbeOn.WORK)
    shop.celsius, shop.look_every = OVER_THE_LIMIT, 5.0
    shop.say(Word.NEXT).until(Call.TOO_HOT).wait(60)
    assert shop.marks == [*range(5, 65, 5)]


# What answers


@pytest.mark.parametrize("word", [Word.REPEAT, Word.PAUSE])
def test_a_word_answers_though_the_call_still_holds(soaked: Shop, word: Word) -> None:
    soaked.wait(5).say(word)
    assert Call.SOAK_DONE in soaked.sitting.state.alarms
    assert soaked.wait(120).marks == []
    assert soaked.repeating.unanswered is None


def test_the_next_phase_answers(soaked: Shop) -> None:
    soaked.wait(5).say(Word.NEXT).wait(10)
    assert soaked.sitting.state.phase is PhaseKind.STRIKE
    assert soaked.marks == []


@pytest.mark.parametrize("word", [Word.NOTE, Word.ACKNOWLEDGE])
def test_an_aside_answers_nothing(soaked: Shop, word: Word) -> None:
    soaked.wait(5).say(word, "sparks" if word is Word.NOTE else "")
    assert soaked.wait(30).marks == [10, 30]


def test_work_that_leaves_for_the_quench_has_answered(soaked: Shop) -> None:
    soaked.wait(5)
    # As where a probe felt it, and no word was said: an alarm of the soak holds until the phase ends.
    soaked.hear([LeftFire(soaked.at, soaked.at)])
    assert soaked.wait(60).marks == []


@pytest.mark.parametrize("word", [Word.REPEAT, Word.NOTE])
def test_no_word_answers_a_burn_limit(hot: Shop, word: Word) -> None:
    hot.say(word, "sparks" if word is Word.NOTE else "").wait(30)
    assert hot.calls == {Call.TOO_HOT}
    assert len(hot.marks) == 6


# What stands still, and what is no news


def test_a_burn_limit_is_repeated_in_a_pause_only_while_it_burns(hot: Shop) -> None:
    hot.say(Word.PAUSE).wait(30)
    assert len(hot.marks) == 6
    hot.celsius = UNDER_IT
    hot.wait(30).forget()
    assert hot.wait(60).marks == []


def test_what_undo_brings_back_is_called_anew(soaked: Shop) -> None:
    soaked.wait(100).say(Word.NEXT).wait(2).forget().say(Word.UNDO)
    assert soaked.said == ["soak done, take it out"]
    assert soaked.wait(60).marks == [10, 30, 50]


def test_undo_brings_a_call_back_from_a_phase_that_has_called_the_same(plan: Plan) -> None:
    phases = (Phase(PhaseKind.OVEN, seconds=2.0, at=200 + ICE), Phase(PhaseKind.AIR, seconds=2.0))
    shop = Shop(replace(plan, steps=(replace(plan.steps[4], phases=phases),))).say(Word.NEXT).until(Call.TIME_UP)
    shop.say(Word.NEXT).until(Call.TIME_UP).say(Word.UNDO)
    assert shop.sitting.state.phase is PhaseKind.OVEN
    assert shop.wait(30).marks == [10, 30]


def test_what_fell_due_while_the_machine_slept_is_said_once(cold: Shop) -> None:
    cold.wait(7).forget().leap(90).wait(20)
    assert len(cold.repeated) == 1 + 4
    assert cold.repeated[0][1].urgency == 3


def test_after_a_long_sleep_nothing_is_caught_up(cold: Shop) -> None:
    cold.wait(12).forget().leap(3600).wait(120)
    assert Call.TOO_COLD in cold.sitting.state.alarms
    assert cold.marks == []


@pytest.mark.parametrize(("stood", "marks"), [(None, [10, 30, 50]), (200.0, [])])
def test_gone_on_with_a_call_is_new_but_not_in_a_pause(soaked: Shop, stood: float | None, marks: list[float]) -> None:
    again = Shop(soaked.sitting.plan)
    again.sitting = soaked.sitting
    again.at = soaked.at + 1800
    again.hear(again.sitting.take(WentOn(again.at, None, stood)))
    assert "soak done, take it out" in again.said
    assert again.forget().wait(60).marks == marks


# Which of several


def test_an_alarm_goes_before_a_prompt_which_catches_nothing_up(plan: Plan) -> None:
    phases = (Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, seconds=30.0, at_most=75.0), Phase(PhaseKind.STRIKE))
    shop = soaking(replace(plan, steps=(replace(plan.steps[0], phases=phases),))).until(Call.SOAK_DONE)
    shop.wait(60)
    # The alarm came 45 s after the prompt, and has the word from then on.
    assert [(mark, again.call) for mark, (_, again) in zip(shop.marks, shop.repeated, strict=True)] == [
        (10, Call.SOAK_DONE),
        (30, Call.SOAK_DONE),
        (50, Call.SOAKED_TOO_LONG),
        (55, Call.SOAKED_TOO_LONG),
        (60, Call.SOAKED_TOO_LONG),
    ]
    assert shop.repeating.unanswered == Unanswered(Call.SOAKED_TOO_LONG, 15.0)


def test_the_screen_is_told_how_long_and_still_when_it_is_silent(soaked: Shop) -> None:
    assert soaked.repeating.unanswered == Unanswered(Call.SOAK_DONE, 0.0)
    soaked.wait(400)
    assert soaked.repeating.unanswered == Unanswered(Call.SOAK_DONE, 400.0)
    soaked.say(Word.NEXT)
    assert soaked.repeating.unanswered is None


# What is said


def test_a_prompt_says_that_it_still_waits_and_an_alarm_the_same_again(soaked: Shop, cold: Shop) -> None:
    soaked.wait(130)
    assert soaked.said == ["soak done, take it out"] * 3 + ["still waiting, soak done, take it out"] * 5
    cold.wait(60)
    assert cold.said == ["back in the fire, too cold"] * 12


def test_of_two_limits_passed_at_once_the_more_urgent_is_said(hot: Shop) -> None:
    state = hot.sitting.state
    seen = replace(glance_at(hot.sitting, hot.at), alarms=frozenset({Call.TOO_HOT, Call.SOAKED_TOO_LONG}))
    told = Talk(Volume.FEW).hear([Called(hot.at, Call.SOAKED_TOO_LONG, state.step, state.heat)], seen)
    assert [saying.text for saying in told if saying.through_mute] == ["too hot, out of the fire"]

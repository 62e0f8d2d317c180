"""What is said aloud while sittings go on: real sittings, second by second."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Begun, Called, Cause, Eased, Event, Said, Tick, WentOn, Word
from plans.sitting.glance import glance_at
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.saying import Kind, Saying, Urgency, Volume, number, spelled_out
from plans.sitting.spoken import phrases
from plans.sitting.spoken.talk import Talk
from plans.units import Units

FEW, NORMAL, ALL = Volume
ICE = 273.15
FIRE, SOAK, STRIKE, AIR, READY = PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE, PhaseKind.AIR, PhaseKind.READY


KNOWN = Shop(cooling_spread=0.001, contact_spread=0.001)
"""A shop whose figures a probe has told, so that a hammer time has a narrow range."""


class Listener:
    """A sitting and one who hears it: at each word, each reading, every `pace` [s], oftener while it is struck."""

    pace = 2.0

    def __init__(self, plan: Plan, volume: Volume = NORMAL, probe_on: ProbeOn | None = None, **hands: Any) -> None:
        self.sitting = Sitting(plan, probe_on, Hands(**hands), KNOWN)
        self.talk = Talk(volume)
        self.at = 0.0
        self.heard: list[tuple[float, Saying]] = []
        self._take_in(self.sitting.open())

    def _take_in(self, entries: list[Any]) -> None:
        events = [entry for entry in entries if not isinstance(entry, Reading)]
        sayings = self.talk.hear(events, glance_at(self.sitting, self.at))
        self.heard += [(self.at, saying) for saying in sayings]

    def say(self, word: Word, text: str = "") -> Listener:
        self._take_in(self.sitting.take(Said(self.at, word, text)))
        return self

    def wait(self, seconds: float) -> Listener:
        end = self.at + seconds
        while self.at < end:
            self.at = min(end, self.at + self._step)
            self._take_in(self.sitting.take(Tick(self.at)))
        return self

    def until(self, there: Callable[[], bool]) -> Listener:
        give_up = self.at + 8000
        while not there():
            assert self.at < give_up
            self.wait(self._step)
        return self

    def wait_for(self, phase_or_call: PhaseKind | Call) -> Listener:
        state = self.sitting.state
        return self.until(lambda: state.phase is phase_or_call or phase_or_call in state.called)

    def play(self, rows: list[tuple[float, float | None]]) -> Listener:
        for at, celsius in rows:
            self.at = at
            kelvin = None if celsius is None else celsius + ICE
            self._take_in(self.sitting.take(Reading(at, kelvin, None if kelvin else "missing")))
        return self

    @property
    def _step(self) -> float:
        return 0.25 if self.sitting.state.phase is STRIKE else self.pace

    def hush(self) -> Listener:
        """Forget what was heard."""
        self.heard.clear()
        return self

    @property
    def texts(self) -> list[str]:
        return [saying.text for _, saying in self.heard]


def only(plan: Plan, step: int, **changes: Any) -> Plan:
    """A plan of one step alone."""
    return replace(plan, steps=(replace(plan.steps[step], **changes),))


def thick(plan: Plan, **changes: Any) -> Plan:
    """Drawing out a bar that stays warm for more than a minute."""
    return only(plan, 1, section=Section(0.080, 0.040), reach=Section(0.080, 0.036), **changes)


def striking(plan: Plan, volume: Volume = NORMAL) -> Listener:
    """At the first blow of a heat, with nothing heard yet."""
    listener = Listener(plan, volume).say(Word.NEXT).wait_for(Call.SOAK_DONE)
    return listener.say(Word.NEXT).hush()


# The countdown


def test_hammer_time_is_counted_down_each_mark_once(plan: Plan) -> None:
    listener = striking(thick(plan)).wait_for(Call.TOO_COLD)
    assert listener.texts == [
        "30 seconds of hammer time",
        "twenty seconds of hammer time",
        "ten seconds of hammer time",
        "five seconds of hammer time",
        "corner is cold",
        "back in the fire, too cold",
    ]
    times = [at for at, _ in listener.heard]
    # By the short end of what the plan's section leaves open: a little too early.
    for at, mark in zip(times, (30, 20, 10, 5), strict=False):
        assert mark - 0.5 < times[4] - at < 1.5 * mark + 6.0


def test_another_heat_is_counted_down_anew(plan: Plan) -> None:
    listener = striking(thick(plan, heats=2)).wait_for(Call.TOO_COLD).say(Word.NEXT).wait_for(Call.SOAK_DONE)
    listener.say(Word.NEXT).hush().wait_for(Call.TOO_COLD)
    assert listener.texts.count("ten seconds of hammer time") == 1


def test_it_stands_still_in_a_pause(plan: Plan) -> None:
    listener = striking(thick(plan))
    listener.until(lambda: "twenty seconds of hammer time" in listener.texts)
    listener.say(Word.PAUSE).hush().wait(60)
    assert listener.texts == []


def test_a_mark_leapt_over_is_told_as_what_is_left(plan: Plan) -> None:
    def left() -> float:
        return glance_at(listener.sitting, listener.at).figure.least or 0.0

    listener = striking(thick(plan))
    listener.until(lambda: left() < 32)
    # Nothing is heard until 11 s are left; 10 s would be said at once after it.
    at = listener.at
    while left() > 11.25:
        listener.sitting.take(Tick(listener.at))
        listener.at += 0.25
    assert listener.at - at > 15
    listener._take_in(listener.sitting.take(Tick(listener.at)))
    listener.wait_for(Call.TOO_COLD)
    assert listener.texts == [
        "eleven seconds of hammer time",
        "five seconds of hammer time",
        "corner is cold",
        "back in the fire, too cold",
    ]


def test_time_struck_is_no_countdown_where_there_is_no_cold_limit(plan: Plan) -> None:
    listener = striking(only(plan, 0, keep_above=None))
    assert listener.wait(70).texts == []


@pytest.mark.parametrize(("volume", "expected"), [(FEW, []), (ALL, ["30 seconds of hammer time", "twenty seconds"])])
def test_the_volume_decides_about_the_countdown(plan: Plan, volume: Volume, expected: list[str]) -> None:
    listener = striking(thick(plan), volume)
    listener.wait_for(Call.TOO_COLD)
    marks = [saying.text for _, saying in listener.heard if saying.kind is Kind.COUNTDOWN]
    assert [text[: len(wanted)] for text, wanted in zip(marks, expected, strict=False)] == expected
    assert bool(marks) is bool(expected)


def test_a_thin_part_is_counted_down_before_the_whole(plan: Plan) -> None:
    listener = striking(thick(plan, thin=Section(0.040, 0.020), thin_name="edge")).wait_for(Call.TOO_COLD)
    assert listener.texts == [
        "30 seconds of hammer time, edge",
        "twenty seconds of hammer time, edge",
        "ten seconds of hammer time, edge",
        "five seconds of hammer time, edge",
        "edge is cold",
        "ten seconds of hammer time",
        "five seconds of hammer time",
        "corner is cold",
        "back in the fire, too cold",
    ]


# What to do


def test_a_weld_heat_from_the_shelf_to_the_anvil(plan: Plan) -> None:
    listener = Listener(plan)
    assert listener.texts == ["step one, weld"]
    listener.say(Word.NEXT)
    assert listener.texts[1:] == ["heat one of two"]
    listener.wait_for(SOAK).wait_for(Call.SOAK_DONE)
    # At heat and even through at once: it is not told to let it soak.
    assert listener.texts[2:] == ["soak done, take it out"]
    listener.hush().say(Word.NEXT).wait_for(Call.TOO_COLD).say(Word.NEXT)
    assert listener.texts[-2:] == ["back in the fire, too cold", "heat two of two"]


def test_few_says_only_what_calls_for_a_hand(plan: Plan) -> None:
    listener = Listener(plan, FEW).say(Word.NEXT).wait_for(Call.SOAK_DONE).say(Word.NEXT)
    listener.wait_for(Call.TOO_COLD).say(Word.NEXT)
    assert listener.texts == ["soak done, take it out", "back in the fire, too cold"]


def test_three_calls_of_a_normalizing_cycle_with_no_word_said(plan: Plan) -> None:
    listener = Listener(only(plan, 2), free=HandsFree.ALL, grace=20.0).say(Word.NEXT)
    listener.wait(2000)
    assert listener.texts == [
        "step one, normalize",
        "cycle one of two",
        "at heat, let it soak",
        "soak done, take it out",
        "out, let it cool",
        "cold enough, back in the fire",
        "cycle two of two",
        "in the fire",
        "at heat, let it soak",
        "soak done, take it out",
        "out, let it cool",
        "cold enough, that was the last cycle",
    ]


@pytest.mark.parametrize(
    ("call", "celsius", "text"),
    [
        (Call.ARREST, 690.0, "possible arrest"),
        (Call.PEAK_MISSED, 850.0, "that cycle stayed too cold"),
        (Call.PEAK_MISSED, 990.0, "that cycle went too hot"),
        (Call.PEAK_MISSED, None, "that cycle missed its heat"),
        (Call.FIRE_FELL, 1150.0, "the fire fell"),
    ],
)
def test_what_passes_is_told_once(plan: Plan, call: Call, celsius: float | None, text: str) -> None:
    listener = Listener(only(plan, 2)).say(Word.NEXT).say(Word.NEXT).say(Word.NEXT).hush()
    kelvin = None if celsius is None else celsius + ICE
    listener._take_in([Called(0.0, call, 0, 1, kelvin, Basis.MEASURED)])
    assert listener.wait(30).texts == [text]


def test_hardening_and_tempering(plan: Plan) -> None:
    listener = Listener(replace(plan, steps=plan.steps[3:5]), FEW).say(Word.NEXT).wait_for(Call.SOAK_DONE)
    listener.say(Word.OUT).wait(4.0).say(Word.NEXT).wait_for(Call.TIME_UP)
    assert listener.texts == ["soak done, into the quench", "quench now", "late into the quench", "out of the quench"]
    urgencies = {saying.text: saying.urgency for _, saying in listener.heard}
    assert urgencies["quench now"] is Urgency.ALARM
    listener.hush().say(Word.NEXT).wait_for(Call.TEMPER_LATE)
    assert listener.texts == ["temper it now"]
    listener.hush().say(Word.NEXT).wait_for(Call.TIME_UP).say(Word.NEXT)
    assert listener.texts == ["out of the oven"]
    listener.wait_for(Call.TIME_UP)
    assert listener.texts[-1] == "time is up, back in the oven"


def test_dips(plan: Plan) -> None:
    listener = Listener(only(plan, 5)).say(Word.NEXT).wait_for(Call.TIME_UP).say(Word.NEXT).say(Word.NEXT)
    assert listener.texts == ["step one, etch", "dip one of two", "out of the bath", "dip two of two"]


def test_at_heat_where_only_the_smith_begins_the_soak(plan: Plan) -> None:
    listener = Listener(plan, FEW, free=HandsFree.NEVER).say(Word.NEXT).wait_for(Call.AT_HEAT)
    assert listener.texts == ["at heat"]


def test_too_hot_and_no_longer(plan: Plan) -> None:
    listener = Listener(plan, ALL, ProbeOn.WORK).say(Word.NEXT).hush()
    listener.play([(index / 4, 1335.0) for index in range(4, 40)])
    assert "too hot, out of the fire" in listener.texts
    listener.hush().play([(10 + index / 4, 1290.0) for index in range(60)])
    assert "no longer too hot" in listener.texts


def test_the_probe_lost_and_back(plan: Plan) -> None:
    listener = Listener(plan, NORMAL, ProbeOn.WORK).say(Word.NEXT).hush()
    listener.play([(1.0, 600.0), (2.0, 620.0)]).wait(60).play([(100.0, 700.0), (101.0, 700.0)])
    assert listener.texts == ["probe lost, going by the model"]
    listener.play([(102.0, 700.0)])
    assert listener.texts == ["probe lost, going by the model", "probe back"]


# Words of the smith, and what he can't see


def test_what_he_said_himself_is_repeated_only_when_all_is_said(plan: Plan) -> None:
    assert "out, strike" not in Listener(plan).say(Word.NEXT).hush().say(Word.OUT).texts
    assert "out, strike" in Listener(plan, ALL).say(Word.NEXT).hush().say(Word.OUT).texts


@pytest.mark.parametrize("cause", [Cause.PROBE, Cause.CLOCK])
def test_what_began_by_itself_is_told(plan: Plan, cause: Cause) -> None:
    listener = Listener(plan).say(Word.NEXT).hush()
    begun = Begun(0.0, 0, 1, STRIKE, cause)
    listener.sitting.replay([begun])
    listener._take_in([begun])
    assert listener.texts == ["out, strike"]


def test_undo_and_back_tell_where_one_stands(plan: Plan) -> None:
    listener = striking(plan).say(Word.UNDO)
    assert listener.texts == ["soak done, take it out", "taken back"]
    listener.hush().say(Word.BACK)
    assert listener.texts == ["in the fire"]


def test_pause_repeat_and_finish(plan: Plan) -> None:
    listener = striking(plan).say(Word.PAUSE).say(Word.RESUME).say(Word.REPEAT)
    assert listener.texts == ["paused", "going on", "one heat more"]
    listener.hush().say(Word.FINISH).wait(5)
    assert listener.texts == ["finished"]


def test_notes_are_acknowledged_only_when_all_is_said(plan: Plan) -> None:
    assert striking(plan).say(Word.NOTE, "sparks").texts == []
    assert striking(plan, ALL).say(Word.NOTE, "sparks").texts == ["noted"]


def test_after_a_restart_it_says_where_it_goes_on(plan: Plan) -> None:
    sitting = Sitting(plan)
    log = [*sitting.open(), *sitting.take(Said(1.0, Word.NEXT)), *sitting.take(Tick(260.0))]
    again = Sitting(plan)
    again.replay(log)
    events = [entry for entry in again.take(WentOn(261.0)) if isinstance(entry, WentOn)]
    said = [saying.text for saying in Talk().hear(events, glance_at(again, 261.0))]
    assert said[0] == "soak done, take it out"
    assert set(said[1:]) == {
        "going on where it was left",
        "step one, weld",
        "heat one of two",
    }


# More and less


def test_all_tells_the_target(plan: Plan) -> None:
    listener = Listener(plan, ALL).say(Word.NEXT)
    assert "heat to 1250 degrees" in listener.texts
    inch = Talk(ALL, Units.INCH)
    sitting = Sitting(plan)
    events: Any = [*sitting.open(), *sitting.take(Said(1.0, Word.NEXT))]
    assert "heat to 2282 degrees" in [saying.text for saying in inch.hear(events, glance_at(sitting, 1.0))]


def test_all_counts_the_soak_down(plan: Plan) -> None:
    listener = Listener(only(plan, 2), ALL)
    listener.pace = 0.5
    listener.say(Word.NEXT).wait_for(Call.SOAK_DONE)
    assert [text for text in listener.texts if "of soak" in text] == [
        "60 seconds of soak left",
        "ten seconds of soak left",
    ]


def test_the_cadence_sounds_while_it_is_struck(plan: Plan) -> None:
    listener = striking(thick(plan, turn_every=6.0), FEW)
    began = listener.at
    listener.wait_for(Call.TOO_COLD)
    turns = [at - began for at, saying in listener.heard if saying.kind is Kind.CADENCE]
    assert turns == [6.0 * count for count in range(1, len(turns) + 1)]
    # The last one may fall together with the alarm, which has the word.
    assert 0 <= (listener.at - began) / 6 - len(turns) <= 1
    assert listener.hush().wait(20).texts == []


def test_the_cadence_leaves_a_pause_out_and_is_not_made_up_for(plan: Plan) -> None:
    listener = striking(thick(plan, turn_every=6.0)).wait(4).say(Word.PAUSE).wait(60).say(Word.RESUME).hush()
    listener.wait(1.75)
    assert listener.texts == []
    listener.wait(0.25)
    assert listener.texts == ["turn"]
    listener.at += 15
    listener._take_in(listener.sitting.take(Tick(listener.at)))
    assert listener.texts[1:].count("turn") == 1


# Order, and what is no news


def test_the_most_urgent_comes_first_and_the_newest_of_a_kind_alone(plan: Plan) -> None:
    sitting = Sitting(plan)
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    seen = replace(glance_at(sitting, 1.0), alarms=frozenset({Call.TOO_HOT, Call.PROBE_LOST}))
    events: list[Event] = [
        Called(1.0, Call.PEAK_MISSED, 0, 1, 1600.0, Basis.MEASURED),
        Called(1.0, Call.QUENCH_LATE, 0, 1),
        Said(1.0, Word.PAUSE),
        Said(1.0, Word.RESUME),
    ]
    said = Talk().hear(events, seen)
    assert [saying.text for saying in said] == [
        "too hot, out of the fire",
        "late into the quench",
        "going on",
        "probe lost, going by the model",
        "step one, weld",
        "heat one of two",
    ]
    assert [saying.urgency for saying in said] == sorted((saying.urgency for saying in said), reverse=True)


def test_a_probe_that_is_gone_again_is_not_said_to_be_back(plan: Plan) -> None:
    sitting = Sitting(plan, ProbeOn.WORK)
    sitting.open()
    seen = replace(glance_at(sitting, 5.0), alarms=frozenset({Call.PROBE_LOST}))
    texts = [saying.text for saying in Talk().hear([Called(5.0, Call.PROBE_BACK, 0, 1)], seen)]
    assert "probe back" not in texts
    assert "probe lost, going by the model" in texts


def test_what_happened_while_the_machine_slept_is_no_news(plan: Plan) -> None:
    sitting = Sitting(plan)
    sitting.open()
    talk = Talk()
    talk.hear([], glance_at(sitting, 0.0))
    fell, eased = Called(20.0, Call.FIRE_FELL, 0, 1), Eased(20.0, Call.TOO_HOT)
    events: list[Event] = [Begun(10.0, 0, 1, FIRE, Cause.PROBE), fell, eased]
    assert talk.hear(events, glance_at(sitting, 3600.0)) == []


def test_the_same_log_gives_the_same_words(plan: Plan) -> None:
    def told() -> list[tuple[float, Saying]]:
        return striking(plan, ALL).wait_for(Call.TOO_COLD).say(Word.NEXT).heard

    assert told() == told()


# Numbers


def test_numbers_are_words_up_to_twenty() -> None:
    assert [number(count) for count in (0, 1, 11, 19.6, 20, 21)] == ["zero", "one", "eleven", "twenty", "twenty", "21"]
    assert [spelled_out(count, "second") for count in (1, 2, 45)] == ["one second", "two seconds", "45 seconds"]


def test_every_sentence_is_short_and_plain(plan: Plan) -> None:
    """Nothing that one speech program reads as a sign or a command, and nothing to listen to for long."""
    texts = {
        text
        for volume in Volume
        for text in Listener(plan, volume, free=HandsFree.ALL, grace=20.0).say(Word.NEXT).wait(2000).texts
    }
    assert len(texts) > 8
    for text in texts:
        assert text.replace(",", "").replace(" ", "").isalnum()
        assert len(text.split()) <= 7


@pytest.mark.parametrize(("outer", "inner", "covered"), [(FEW, NORMAL, False), (NORMAL, FEW, True), (ALL, ALL, True)])
def test_a_greater_volume_covers_a_smaller(outer: Volume, inner: Volume, covered: bool) -> None:
    assert outer.covers(inner) is covered


# What the probe tells by itself


def test_a_cycle_that_goes_on_and_a_step_that_waits_are_told_by_their_numbers(plan: Plan) -> None:
    seen = glance_at(Listener(only(plan, 2)).say(Word.NEXT).sitting, 1.0)
    goes_on = phrases.passing(Called(1.0, Call.GOES_ON, 0, 1, 1100.0), seen)
    waits = phrases.passing(Called(1.0, Call.AWAITS_WORD, 0, 1, 400.0), seen)
    assert goes_on is not None
    assert goes_on.text == "back in before the arrest, cycle one goes on"
    assert waits is not None
    assert waits.text == "step one is waiting for your word"


def test_that_the_probe_is_slow_is_said_once(plan: Plan) -> None:
    listener = Listener(plan, probe_on=ProbeOn.WORK)
    listener.sitting.lag = 20.0
    listener.say(Word.NEXT).play([(at / 2, 1255.0) for at in range(1, 60)])
    for heat in (1, 2):
        listener.say(Word.OUT).play([(listener.at + at / 2, 1240.0) for at in range(1, 8)])
        assert listener.sitting.state.heat == heat
        assert listener.sitting.state.strikes_by_model
        listener.say(Word.NEXT).play([(listener.at + at / 2, 1255.0) for at in range(1, 60)])
    assert sum("too slow" in text for text in listener.texts) == 1

"""A call that nobody answers, as it is heard: each stroke of the bell and each sentence over six minutes."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from pathlib import Path
from time import monotonic
from typing import Any

import pytest

from devices.voice import Voice
from plans.phase import PhaseKind
from plans.reader import read_plan_file
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Called, Event, Said, Word
from plans.sitting.glance import glance_at
from plans.sitting.saying import Saying, Volume
from plans.units import Units
from tests.terminal import Terminal, environment
from tui.config.settings import Settings
from tui.running.bell import Bell
from tui.running.sound import Aloud
from tui.running.voices import bell_and_voice

PLAN = Path(__file__).parents[1] / "draw.toml"
BEAT = 0.25
SIX_MINUTES = 360.0
CALL_AT = 10.0

# The rule as the README states it: how long after the call it is repeated [s], and how many strokes more that rings.
PROMPT = [*range(10, 70, 20), *range(70, 130, 15), *range(130, 300, 10)]
ALARM = [*range(5, 300, 5)]
BURNS = [*range(5, 361, 5)]


def more_of_prompt(mark: float) -> int:
    return 0 if mark < 10 else 2 if mark < 70 else 4 if mark < 130 else 6


def more_of_alarm(mark: float) -> int:
    return 0 if mark < 5 else 2 if mark < 20 else 4 if mark < 60 else 6


class Mouth(Voice):
    """A voice whose speech command takes no time; all before it, thread and muting, is as it is."""

    def __init__(self, clock: Callable[[], float]) -> None:
        super().__init__(["speak"], clock)
        self.said: list[tuple[float, str]] = []

    def _speak(self, text: str, saying: Saying) -> None:
        del saying
        self.said.append((self._clock(), text))


@dataclass
class Timer:
    """Something that is to ring."""

    stopped: bool = False

    def stop(self) -> None:
        self.stopped = True


@dataclass
class Heard:
    """A sitting in which nothing changes but the time, and all that is heard of it, by the time since its call [s]."""

    call: Call
    volume: Volume | None = Volume.NORMAL
    repeat_for: float = 300.0
    at: float = CALL_AT
    strokes: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._timers: list[tuple[float, int, Timer]] = []
        self.mouth = Mouth(lambda: self.at)
        bell = Bell(lambda: self.strokes.append(round(self.at - CALL_AT, 2)), self._later)
        self.aloud = Aloud(bell, self.mouth, self.volume, Units.METRIC, self.repeat_for)
        self._sitting = Sitting(read_plan_file(PLAN))
        self._sitting.open()
        phase = PhaseKind.STRIKE if self.call is Call.TOO_COLD else PhaseKind.SOAK
        self._happens(Begun(0.0, 1, 1, phase))

    def _later(self, after: float, ring: Callable[[], None]) -> Timer:
        del ring
        timer = Timer()
        heappush(self._timers, (self.at + after, len(self.strokes), timer))
        return timer

    def _happens(self, *events: Event) -> None:
        self._sitting.replay(events)
        self._seen = replace(glance_at(self._sitting, self.at), at=self.at)
        self._hear(*events)

    def _hear(self, *events: Event) -> None:
        self.aloud.hear(events, replace(self._seen, at=self.at))
        self.mouth.finish(5.0)

    def calls(self) -> Heard:
        """What has been said of the phase is forgotten; the call is made."""
        self.mouth.said.clear()
        self._happens(Called(self.at, self.call, 1, 1))
        return self

    def says(self, word: Word, text: str = "") -> Heard:
        self._happens(Said(self.at, word, text))
        return self

    def until(self, mark: float) -> Heard:
        """Let time pass until so long after the call [s]."""
        end = CALL_AT + mark
        while self.at < end:
            beat = self.at + BEAT
            while self._timers and self._timers[0][0] < beat:
                self.at, _, timer = heappop(self._timers)
                if not timer.stopped:
                    self.strokes.append(round(self.at - CALL_AT, 2))
            self.at = beat
            self._hear()
        return self

    @property
    def sentences(self) -> list[tuple[float, str]]:
        return [(at - CALL_AT, text) for at, text in self.mouth.said]


@pytest.fixture
def heard() -> Iterator[Callable[..., Heard]]:
    made: list[Heard] = []

    def make(call: Call, **more: Any) -> Heard:
        made.append(Heard(call, **more))
        return made[-1]

    yield make
    for one in made:
        one.aloud.close()


def rings(call: Call, marks: list[int], more: Callable[[float], int]) -> list[float]:
    """When the bell rings by the rule: the call's own pattern, after 0.6 s the first stroke more, then every 0.2 s."""
    own = call.row.bell
    times = [mark + stroke for mark in (0, *marks) for stroke in own]
    times += [mark + own[-1] + 0.6 + 0.2 * count for mark in marks for count in range(more(mark))]
    return sorted(round(time, 2) for time in times)


UNANSWERED = [
    (Call.SOAK_DONE, PROMPT, more_of_prompt, "soak done, take it out"),
    (Call.TOO_COLD, ALARM, more_of_alarm, "back in the fire, too cold"),
    (Call.TOO_HOT, BURNS, more_of_alarm, "too hot, out of the fire"),
]


@pytest.mark.parametrize(("call", "marks", "more", "sentence"), UNANSWERED, ids=[str(row[0]) for row in UNANSWERED])
@pytest.mark.parametrize("muted", [False, True], ids=["heard", "muted"])
def test_six_minutes_without_an_answer(
    heard: Callable[..., Heard],
    call: Call,
    marks: list[int],
    more: Callable[[float], int],
    sentence: str,
    muted: bool,
) -> None:
    one = heard(call)
    one.aloud.muted = muted
    one.calls().until(SIX_MINUTES)
    if muted and call is not Call.TOO_HOT:
        assert (one.strokes, one.sentences) == ([], [])
        return
    assert one.strokes == [stroke for stroke in rings(call, marks, more) if stroke <= SIX_MINUTES]
    waits = "still waiting, "
    prompt = call is Call.SOAK_DONE
    said = [(mark, f"{waits if prompt and mark >= 70 else ''}{sentence}") for mark in (0, *marks)]
    assert one.sentences == said


@pytest.mark.parametrize(
    ("volume", "sentences"), [(Volume.ALL, 4), (Volume.NORMAL, 4), (Volume.FEW, 4), (None, 0)], ids=str
)
def test_repeats_are_said_at_every_volume_but_nothing(
    heard: Callable[..., Heard], volume: Volume | None, sentences: int
) -> None:
    one = heard(Call.SOAK_DONE, volume=volume).calls().until(60)
    assert len([text for _, text in one.sentences if text.startswith("soak done")]) == sentences
    assert one.strokes == rings(Call.SOAK_DONE, [10, 30, 50], more_of_prompt)


def test_muted_on_the_way_and_heard_again_it_keeps_its_time(heard: Callable[..., Heard]) -> None:
    one = heard(Call.SOAK_DONE).calls().until(20)
    one.aloud.muted = True
    one.until(60)
    one.aloud.muted = False
    one.until(80)
    assert [at for at, _ in one.sentences] == [0, 10, 70]
    assert [at for at in one.strokes if at in (10, 30, 50, 70)] == [10, 70]


def test_muting_stops_what_rings_but_not_for_a_burn_limit(heard: Callable[..., Heard]) -> None:
    cold, hot = heard(Call.TOO_COLD).calls(), heard(Call.TOO_HOT).calls()
    for one in (cold, hot):
        one.aloud.muted = True
        one.until(4)
    assert cold.strokes == [0.0]
    assert hot.strokes == list(Call.TOO_HOT.row.bell)


def test_a_note_stops_the_strokes_and_a_word_the_repeats(heard: Callable[..., Heard]) -> None:
    one = heard(Call.SOAK_DONE).calls().until(5).says(Word.NOTE, "sparks").until(15)
    assert [at for at, _ in one.sentences] == [0, 10]
    assert one.aloud.unanswered is not None
    one.says(Word.REPEAT).until(60)
    assert one.sentences[2:] == [(15, "one heat more")]
    assert one.aloud.unanswered is None
    assert max(one.strokes) < 15


def test_a_bell_that_is_off_does_not_ring_for_a_burn_limit_either(heard: Callable[..., Heard]) -> None:
    one, rung = heard(Call.TOO_HOT), []
    for bell in (False, True):
        settings = Settings(bell=bell, repeat_for=0.0)
        aloud = bell_and_voice(settings, (), lambda: one.at, lambda: rung.append(one.at), one._later)
        aloud.hear([Called(one.at, Call.TOO_HOT, 1, 1)], one._seen)
        assert rung == ([CALL_AT] if bell else [])


# The real terminal

TOLD = """
import sys, time
from pathlib import Path
from plans.phase import PhaseKind
from plans.reader import read_plan_file
from plans.sitting import Word
from tui.app import HeatbookApp
from tui.config.folders import user_folders
from tui.running.requests import RunRequest
from tui.running.sources import ClockSource

class Told(HeatbookApp):
    def beat(self):
        if self.running is not None and self.running.sitting.state.phase is PhaseKind.READY:
            self.say(Word.NEXT)
        super().beat()

clock = lambda: 40 * time.monotonic()
plan = read_plan_file(Path(sys.argv[1]))
Told(user_folders(), RunRequest(lambda plan: ClockSource(clock), plan=lambda: plan), clock=clock).run()
"""
"""The program, told to put the work in the oven, on a clock that goes forty times as fast."""
TRIAL = """
heatbook = 1
title = "A hold in the oven"
about = "Short, so that a test need not wait."

[[step]]
title = "Hold"
kind = "temper"

[step.oven]
at = "200 degC"
for = "10 s"
"""


@pytest.mark.slow
def test_a_terminal_is_rung_again(tmp_path: Path) -> None:
    plan = tmp_path / "hold.toml"
    plan.write_text(TRIAL)
    (tmp_path / "heatbook.toml").write_text('talk = "nothing"\n')
    program = [sys.executable, "-c", TOLD, str(plan)]
    with closing(Terminal(program, environment=environment(HEATBOOK_HOME=str(tmp_path)))) as terminal:
        give_up = monotonic() + 30
        # The call alone rings twice.
        while bells(terminal.written) <= len(Call.TIME_UP.row.bell):
            assert monotonic() < give_up
            terminal.read(1.0)


def bells(written: bytearray) -> int:
    """How often the terminal was rung; a command to it ends with the same character."""
    return re.sub(rb"\x1b\][^\x07]*\x07", b"", written).count(b"\x07")

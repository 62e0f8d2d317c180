"""The rehearsal in lock-step with the real link, over a real pseudo-terminal."""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest

from devices.link import Link
from devices.rehearsal import MOMENT, PROFILE, Rehearsal
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Called, Entry, Said, Tick, Word

pytestmark = pytest.mark.slow


class Program:
    """What the program does with a rehearsal: readings and ticks through one queue, one thread that takes them."""

    def __init__(
        self, plan: Plan, seed: int, speed: float | None = None, dawdle: Callable[[], None] | None = None
    ) -> None:
        self.sitting = Sitting(plan, ProbeOn.WORK)
        self.log: list[Entry] = self.sitting.open()
        self.rehearsal = Rehearsal(plan, seed, speed)
        self.waiting: queue.SimpleQueue[Reading | Tick] = queue.SimpleQueue()
        self.link = Link(self.rehearsal.port, PROFILE, self.waiting.put, self.rehearsal.clock)
        self._dawdle = dawdle

    def start(self) -> None:
        self.link.start()
        self.rehearsal.start(lambda at: self.waiting.put(Tick(at)))

    def take_one(self, patience: float = 20.0) -> Reading | Tick:
        entry = self.waiting.get(timeout=patience)
        if self._dawdle:
            self._dawdle()
        self.log += self.sitting.take(entry)
        self.rehearsal.answer(entry.at, self.sitting, self.hear)
        return entry

    def hear(self, said: Said) -> None:
        self.log += self.sitting.take(said)

    def run(self, until: float = 1e9) -> list[Entry]:
        while not self.sitting.state.finished and self.take_one().at < until:
            pass
        return self.log

    def close(self) -> None:
        self.link.close()
        self.rehearsal.close()


@contextmanager
def running(*args: Any, **kwargs: Any) -> Iterator[Program]:
    with closing(Program(*args, **kwargs)) as program:
        program.start()
        yield program


@pytest.fixture(scope="module")
def whole(plan: Plan) -> list[Entry]:
    """The log of a rehearsal with seed 3, played to its end."""
    with running(plan, 3) as program:
        return program.run()


def test_plays_the_whole_plan_through_the_link_the_same_twice(plan: Plan, whole: list[Entry]) -> None:
    with running(plan, 3) as again:
        again.run()
    assert again.sitting.state.finished
    assert again.log == whole
    assert again.link.state.junk > 0


def test_another_seed_goes_otherwise(plan: Plan) -> None:
    logs = []
    for seed in (1, 2):
        with running(plan, seed) as program:
            logs.append(program.run(until=200.0))
    assert logs[0] != logs[1]


def test_a_slow_program_hears_and_sees_the_same(plan: Plan) -> None:
    """Slow and fast by turns, with readings, ticks and the link's thread falling differently each time."""
    naps = iter([0.0, 0.002, 0.0, 0.0, 0.01, 0.001] * 10_000)
    with running(plan, 5) as quick:
        quick.run(until=90.0)
    with running(plan, 5, dawdle=lambda: time.sleep(next(naps))) as slow:
        slow.run(until=90.0)
    assert slow.log == quick.log


def test_goes_as_it_goes_without_threads_and_a_port(plan: Plan, play: Callable[..., Any]) -> None:
    """So that what is found by playing without a port holds with one."""
    played = play(plan, 11, give_up=900.0)
    with running(plan, 11) as program:
        program.run(until=900.0)

    def events(log: list[Entry]) -> list[Entry]:
        return [entry for entry in log if not isinstance(entry, Reading)]

    assert events(program.log) == events(played.entries)
    sent = {entry.at: entry.kelvin for entry in played.entries if isinstance(entry, Reading)}
    heard = {entry.at: entry.kelvin for entry in program.log if isinstance(entry, Reading)}
    assert heard.keys() == sent.keys()
    # The link withholds the temperature of what it can't believe.
    believed = [at for at, kelvin in heard.items() if kelvin is not None]
    assert len(believed) > 0.99 * len(heard)
    assert [heard[at] for at in believed] == pytest.approx([sent[at] for at in believed])


def test_every_moment_is_told_once_and_in_order(plan: Plan) -> None:
    with running(plan, 4) as program:
        moments = [program.take_one().at for _ in range(2000)]
    assert moments == [MOMENT * n for n in range(1, 2001)]


def test_loses_the_probe_once_and_finds_it_again(whole: list[Entry]) -> None:
    calls = [(entry.call, entry.at) for entry in whole if isinstance(entry, Called)]
    (lost,) = [at for call, at in calls if call is Call.PROBE_LOST]
    (back,) = [at for call, at in calls if call is Call.PROBE_BACK]
    assert 3.0 < back - lost < 16.0


def test_the_work_goes_where_the_sitting_has_it_whoever_said_so(plan: Plan) -> None:
    """A human takes the work out of the fire early: it cools, though the simulated smith said nothing."""
    with running(plan, 8) as program:
        program.run(until=400.0)
        hot = program.rehearsal.forge.bar.skin
        program.hear(Said(program.sitting.now, Word.PAUSE))
        program.run(until=430.0)
        assert program.rehearsal.forge.bar.skin < hot - 50.0


def test_keeps_to_its_speed(plan: Plan) -> None:
    """Fifty seconds at 250 to one take a fifth of a second at least; the machine may take longer, never less."""
    began = time.monotonic()
    with running(plan, 1, speed=250.0) as program:
        program.run(until=50.0)
    assert time.monotonic() - began >= 0.19


def test_the_speed_may_change_while_it_waits(plan: Plan) -> None:
    with running(plan, 1, speed=0.001) as program:
        program.rehearsal.speed = None
        assert program.run(until=20.0)
        program.rehearsal.speed = 0.001
        program.rehearsal.speed = 1000.0
        program.run(until=30.0)
    assert program.sitting.now >= 30.0
    with pytest.raises(ValueError, match="above zero"):
        program.rehearsal.speed = 0.0


def test_an_answer_out_of_turn_does_nothing(plan: Plan) -> None:
    with running(plan, 2) as program:
        program.run(until=30.0)
        words: list[Said] = []
        program.rehearsal.answer(1.0, program.sitting, words.append)
        for _ in range(20):
            at = program.take_one().at
            program.rehearsal.answer(at - MOMENT, program.sitting, words.append)
    assert not words


_FILES = Path("/proc/self/fd")


def _open_files() -> set[str]:
    return {file.name for file in _FILES.iterdir()}


@pytest.mark.skipif(not _FILES.is_dir(), reason="counts open files in /proc")
@pytest.mark.parametrize("answered", [True, False])
def test_closing_leaves_no_thread_and_no_open_file(plan: Plan, answered: bool) -> None:
    files, threads = _open_files(), set(threading.enumerate())
    with running(plan, 1) as program:
        if answered:
            program.run(until=5.0)
        else:
            # The program dies between a reading and its answer.
            program.waiting.get(timeout=20.0)
        began = time.monotonic()
    assert time.monotonic() - began < 5.0
    assert set(threading.enumerate()) == threads
    assert _open_files() == files


def test_may_be_closed_before_it_has_begun_and_twice(plan: Plan) -> None:
    rehearsal = Rehearsal(plan, 1)
    assert Path(rehearsal.port).exists()
    rehearsal.close()
    rehearsal.close()


def test_may_be_closed_from_a_quiet_moment(plan: Plan) -> None:
    """A program that ends in the very call that tells it the time."""
    with closing(Rehearsal(plan, 1, None)) as rehearsal:
        sitting = Sitting(plan, ProbeOn.WORK)
        sitting.open()
        with Link(
            rehearsal.port,
            PROFILE,
            lambda reading: rehearsal.answer(reading.at, sitting, sitting.take),
            rehearsal.clock,
        ):
            closed = threading.Event()

            def close(_: float) -> None:
                rehearsal.close()
                closed.set()

            rehearsal.start(close)
            assert closed.wait(20.0)


def test_without_a_queue_the_callbacks_may_do_it_all(plan: Plan, whole: list[Entry]) -> None:
    """The two callbacks never run at once, so a program without a loop of its own needs no queue."""
    rehearsal, sitting = Rehearsal(plan, 3, None), Sitting(plan, ProbeOn.WORK)
    log = sitting.open()
    over = threading.Event()

    def hear(entry: Reading | Tick | Said) -> None:
        log.extend(sitting.take(entry))

    def moment(entry: Reading | Tick) -> None:
        hear(entry)
        if entry.at >= 1000.0:
            over.set()
        else:
            rehearsal.answer(entry.at, sitting, hear)

    link = Link(rehearsal.port, PROFILE, moment, rehearsal.clock)
    with closing(rehearsal), link:
        rehearsal.start(lambda at: moment(Tick(at)))
        assert over.wait(60.0)
    assert len(log) > 3900
    assert log == whole[: len(log)]

"""Being told to end: heard in the loop, and past it where it is held up."""

from __future__ import annotations

import asyncio
import os
import signal
from queue import SimpleQueue
from threading import Event

import pytest

from tui.terminal import signals
from tui.terminal.signals import end_within, hear, interrupt, told_to_end


def nothing() -> None:
    """Done last."""


TOLD = [signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGQUIT]


@pytest.fixture
def ended(monkeypatch: pytest.MonkeyPatch) -> SimpleQueue[int]:
    """The statuses with which the program would have ended, by now."""
    statuses: SimpleQueue[int] = SimpleQueue()
    monkeypatch.setattr(os, "_exit", statuses.put)
    monkeypatch.setattr(signals, "_AT_MOST", 0.0)
    return statuses


@pytest.mark.parametrize("number", TOLD)
async def test_it_is_heard_at_once_though_the_loop_is_held_up(number: int, ended: SimpleQueue[int]) -> None:
    left, done = asyncio.Event(), Event()
    stop = hear(left.set, {signal.SIGWINCH: nothing}, done.set)
    signal.raise_signal(number)
    assert ended.get(timeout=5) == 1  # the loop is held up by this line
    assert done.is_set()
    assert not left.is_set()
    await asyncio.wait_for(left.wait(), 5)
    stop()


async def test_another_signal_ends_nothing(ended: SimpleQueue[int]) -> None:
    resized = asyncio.Event()
    stop = hear(nothing, {signal.SIGWINCH: resized.set}, nothing)
    signal.raise_signal(signal.SIGWINCH)
    await asyncio.wait_for(resized.wait(), 5)
    stop()
    assert ended.empty()


@pytest.mark.parametrize("number", TOLD)
async def test_pressed_once_more_when_the_screen_has_gone_it_only_ends_in_time(
    number: int, ended: SimpleQueue[int]
) -> None:
    left = []
    hear(lambda: left.append(number), {}, nothing)()
    signal.raise_signal(number)  # would end this process, or raise
    assert ended.get(timeout=5) == 1
    assert not left


@pytest.mark.parametrize("number", TOLD)
def test_without_a_screen_it_leaves_once_and_is_not_stopped_by_being_told_again(
    number: int, ended: SimpleQueue[int]
) -> None:
    left = []
    with told_to_end(lambda: left.append(number)):
        signal.raise_signal(number)
        signal.raise_signal(number)
    signal.raise_signal(number)  # what there is to say is being said
    assert (left, ended.get(timeout=5)) == ([number], 1)


def test_what_is_over_is_not_left(ended: SimpleQueue[int]) -> None:
    with told_to_end(interrupt) as nothing_to_leave:
        nothing_to_leave()
        signal.raise_signal(signal.SIGINT)
    assert ended.get(timeout=5) == 1


def test_not_told_all_is_as_before(ended: SimpleQueue[int]) -> None:
    with told_to_end(nothing):
        pass
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)
    assert ended.empty()


def test_the_end_comes_when_nothing_else_does_though_the_last_step_fails(ended: SimpleQueue[int]) -> None:
    def last() -> None:
        raise OSError("the terminal has gone")

    end_within(0.01, 3, last)
    assert ended.get(timeout=5) == 3

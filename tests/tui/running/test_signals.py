"""Being told to end: heard in the loop, and past it where it is held up."""

from __future__ import annotations

import asyncio
import os
import signal
from queue import SimpleQueue
from threading import Event

import pytest

from tui.running import signals
from tui.running.signals import end_within, leave_on_signals


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
async def test_it_is_heard_at_once_though_the_loop_is_held_up(number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    heard, left = Event(), asyncio.Event()
    monkeypatch.setattr(signals, "end_within", lambda _: heard.set())
    leave_on_signals(left.set)
    signal.raise_signal(number)
    assert heard.wait(5)  # the loop is held up by this line
    assert not left.is_set()
    await asyncio.wait_for(left.wait(), 5)


async def test_another_signal_ends_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    ended: list[float] = []
    resized = asyncio.Event()
    monkeypatch.setattr(signals, "end_within", ended.append)
    asyncio.get_running_loop().add_signal_handler(signal.SIGWINCH, resized.set)
    leave_on_signals(lambda: ended.append(0.0))
    signal.raise_signal(signal.SIGWINCH)
    await asyncio.wait_for(resized.wait(), 5)
    assert ended == []


def test_the_end_comes_when_nothing_else_does(monkeypatch: pytest.MonkeyPatch) -> None:
    told: SimpleQueue[int] = SimpleQueue()
    monkeypatch.setattr(os, "_exit", told.put)
    end_within(0.01, 3)
    assert told.get(timeout=5) == 3

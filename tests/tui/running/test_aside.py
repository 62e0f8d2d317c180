"""What is done aside: it comes back as from any thread, and nobody waits for what does not."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import suppress
from threading import Event
from typing import Any

import pytest

from tui.running.aside import Aside


async def _aside(work: Callable[[], Any]) -> Any:
    asyncio.get_running_loop().set_default_executor(Aside())
    return await asyncio.to_thread(work)


def test_it_gives_back_what_was_worked_out_and_raises_what_was_raised() -> None:
    assert asyncio.run(_aside(lambda: 6 * 7)) == 42
    with pytest.raises(ZeroDivisionError):
        asyncio.run(_aside(lambda: 1 // 0))


def test_a_loop_ends_without_waiting_for_it(caplog: pytest.LogCaptureFixture) -> None:
    begun, enough, done = Event(), Event(), Event()

    def long() -> None:
        begun.set()
        enough.wait()
        done.set()

    async def leaving() -> None:
        working = asyncio.create_task(_aside(long))
        while not begun.is_set():
            await asyncio.sleep(0)
        working.cancel()
        with suppress(asyncio.CancelledError):
            await working

    asyncio.run(leaving())
    assert not done.is_set()
    enough.set()
    assert done.wait(5)
    assert caplog.records == []

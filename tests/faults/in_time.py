"""What may not hang: stopped, and told of, once it has used too much of a processor."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def in_time(seconds: float) -> Iterator[None]:
    """Let what is done inside use so much processor time, of this process and in its main thread.

    Args:
        seconds: the most that it may use [s]

    Raises:
        TimeoutError: it used more.
    """

    def stop(number: int, frame: FrameType | None) -> None:
        del number, frame
        raise TimeoutError(f"not done after {seconds:g} s of processor")

    before = signal.signal(signal.SIGVTALRM, stop)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)

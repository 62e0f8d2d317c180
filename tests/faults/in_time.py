"""What may not hang: broken off, and told of, once it has taken too long."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


class TooLong(BaseException):
    """What was done took too long; the text says where it was."""


@contextmanager
def in_time(processor: float, clock: float = 30.0) -> Iterator[None]:
    """Let what is done inside, in the main thread, take so long.

    Args:
        processor: the most that it may use of a processor, of this process [s]
        clock: the most that it may take: what takes longer waits for something that does not come, since a busy machine
            slows what works [s]

    Raises:
        TooLong: it took more.
    """

    def stop(_number: int, frame: FrameType | None) -> None:
        where = "" if frame is None else f", in {frame.f_code.co_filename}:{frame.f_lineno}"
        raise TooLong(f"not done after {processor:g} s of processor or {clock:g} s{where}")

    timers = ((signal.SIGPROF, signal.ITIMER_PROF, processor), (signal.SIGALRM, signal.ITIMER_REAL, clock))
    before = [signal.signal(number, stop) for number, _, _ in timers]
    for _, timer, seconds in timers:
        signal.setitimer(timer, seconds)
    try:
        yield
    finally:
        for (number, timer, _), handler in zip(timers, before, strict=True):
            signal.setitimer(timer, 0)
            signal.signal(number, handler)

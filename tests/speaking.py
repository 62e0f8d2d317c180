"""A probe at the far end of a pseudo-terminal that says one thing again and again, as probes do."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Thread


@contextmanager
def speaking(master: int, line: bytes) -> Iterator[None]:
    """The same line ten times a second for as long as this lasts: what a probe says must stand to be believed.

    Args:
        master: the end of the pseudo-terminal to write to
        line: with its end
    """
    enough = Event()

    def speak() -> None:
        while not enough.wait(0.1):
            os.write(master, line)

    speaker = Thread(target=speak)
    speaker.start()
    try:
        yield
    finally:
        enough.set()
        speaker.join()

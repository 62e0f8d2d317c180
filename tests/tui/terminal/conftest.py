"""A test that is told to end goes on to hear of it as all others do."""

from __future__ import annotations

import signal
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def as_before() -> Iterator[None]:
    """What answers a signal stays, once the program was told to end: not beyond a test."""
    numbers = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGQUIT)
    before = [(number, signal.getsignal(number)) for number in numbers]
    yield
    for number, handler in before:
        signal.signal(number, handler)

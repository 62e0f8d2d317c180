"""Presses that count each, however brisk, and a key that is held."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from devices.debounce import HELD, Debounce


class Fingers:
    """Presses keys each after a wait, and has timers that go by the same clock."""

    def __init__(self) -> None:
        self.now = 10.0
        self.presses = Debounce(lambda: self.now)
        self.timers: list[tuple[float, Callable[[], None]]] = []
        self.done: list[tuple[str, float]] = []

    def later(self, seconds: float, act: Callable[[], None]) -> None:
        self.timers.append((self.now + seconds, act))

    def press(self, *keys: tuple[float, str]) -> list[tuple[str, float]]:
        """What was done for which key, and when."""
        for wait, key in (*keys, (1.0, "")):
            until = self.now + wait
            while self.timers and self.timers[0][0] <= until:
                self.now, act = self.timers.pop(0)
                act()
            self.now = until
            if key:
                self.presses.key(key, until)
                self.presses.briskly(lambda key=key: self.done.append((key, round(self.now, 2))), self.later)  # type: ignore[misc]
        return self.done


@pytest.mark.parametrize("first", [0.25, 0.5, 0.66])
@pytest.mark.parametrize("rate", [0.03, 0.1])
def test_a_held_key_counts_once(first: float, rate: float) -> None:
    """First waits and rates as usual settings of keyboards have them; from memory, no source."""
    assert Fingers().press((0.0, "u"), (first, "u"), *[(rate, "u")] * 50) == [("u", 10.0)]


@pytest.mark.parametrize("wait", [0.15, 0.2, 0.35, 0.5, 0.9])
def test_each_brisk_press_counts(wait: float) -> None:
    done = Fingers().press((0.0, "u"), *[(wait, "u")] * 4)
    assert len(done) == 5
    assert all(at - (10.0 + number * wait) <= HELD + 0.01 for number, (_, at) in enumerate(done))


def test_what_waits_is_done_before_the_next_key() -> None:
    assert Fingers().press((0.0, "u"), (0.5, "u"), (0.05, "r")) == [("u", 10.0), ("u", 10.55), ("r", 10.55)]

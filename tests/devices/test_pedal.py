"""Keys that bounce, and switches."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, strategies as st

from devices.debounce import BOUNCE, Debounce
from devices.pedal import Switch
from devices.pedal_line import POLL_EVERY
from plans.sitting.events import Word

NEXT, BACK = Word.NEXT, Word.BACK


# A key


def counted(clock: Any, times: list[float], key: str = "f9") -> list[float]:
    """Which of these arrivals count."""
    debounce = Debounce(clock)
    found = []
    for at in times:
        clock.now = at
        if debounce.counts(key):
            found.append(at)
    return found


@pytest.mark.parametrize("first_wait", [0.25, 0.5, 0.66])
def test_a_key_that_is_held_counts_once(clock: Any, first_wait: float) -> None:
    """Waits before a held key repeats, as consoles and desktops set them; from memory."""
    held = [10.0] + [10.0 + first_wait + count * 0.03 for count in range(200)]
    assert counted(clock, held) == [10.0]


def test_a_key_that_bounces_counts_once(clock: Any) -> None:
    assert counted(clock, [1.0, 1.01, 1.03, 1.2, 1.34]) == [1.0]


def test_presses_a_second_apart_all_count(clock: Any) -> None:
    assert counted(clock, [1.0, 2.0, 3.0, 3.02, 4.0]) == [1.0, 2.0, 3.0, 4.0]


def test_a_key_counts_again_once_it_was_let_go(clock: Any) -> None:
    held = [1.0 + count * 0.03 for count in range(100)]
    assert counted(clock, [*held, held[-1] + BOUNCE + 0.01]) == [1.0, held[-1] + BOUNCE + 0.01]


def test_another_key_is_another_press(clock: Any) -> None:
    debounce = Debounce(clock)
    assert [debounce.counts(key) for key in ("f9", "f10", "f9", "f10")] == [True, True, False, False]


@pytest.mark.parametrize("first_wait", [0.25, 0.66])
def test_a_key_that_is_held_presses_nothing_of_what_it_has_led_to(clock: Any, first_wait: float) -> None:
    debounce = Debounce(clock)
    debounce.key("enter", 10.0)
    assert debounce.counts("begin")
    for count in range(100):
        at = 10.0 + first_wait + count * 0.03
        clock.now = max(at, 11.0)  # the screen that comes takes a second, and keys wait for it
        debounce.key("enter", at)
        assert not debounce.counts("next")
    clock.now = 20.0
    debounce.key("space", 20.0)
    assert debounce.counts("next")


def test_a_click_is_no_key_that_is_held(clock: Any) -> None:
    debounce = Debounce(clock)
    for at in (1.0, 1.1):
        debounce.key("down", at)
    debounce.click()
    assert debounce.counts("next")


# A switch


def said(spans: list[tuple[float, bool]], every: float = POLL_EVERY) -> list[tuple[float, Word]]:
    """What is heard of a switch that stays so long open or closed, looked at so often."""
    switch = Switch()
    found = []
    start = look = 0.0
    for seconds, closed in spans:
        while look < start + seconds - 1e-9:
            word = switch.see(look, closed)
            if word is not None:
                found.append((round(look, 3), word))
            look += every
        start += seconds
    return found


def words(spans: list[tuple[float, bool]], every: float = POLL_EVERY) -> list[Word]:
    return [word for _, word in said(spans, every)]


REST = (1.0, False)


def test_a_short_press_is_next_when_it_is_let_go() -> None:
    assert said([REST, (0.2, True), REST]) == [(1.24, NEXT)]


def test_a_long_hold_is_back_while_it_is_held_and_once() -> None:
    assert said([REST, (5.0, True), REST]) == [(1.8, BACK)]


@pytest.mark.parametrize(("seconds", "word"), [(0.06, NEXT), (0.78, NEXT), (0.84, BACK)])
def test_what_is_short_and_what_is_long(seconds: float, word: Word) -> None:
    assert words([REST, (seconds, True), REST]) == [word]


def test_a_hold_that_is_seen_seldom_is_still_one() -> None:
    assert words([REST, (0.9, True), (2.0, False)], every=0.45) == [BACK]


def test_bouncing_at_either_end_is_one_press() -> None:
    bounce = [(0.02, True), (0.02, False)] * 3
    assert words([REST, *bounce, (0.3, True), *bounce[::-1], REST]) == [NEXT]
    assert words([REST, *bounce, REST]) == []


def test_a_second_press_at_once_is_the_same_and_a_later_one_is_not() -> None:
    assert words([REST, (0.1, True), (0.1, False), (0.1, True), REST]) == [NEXT]
    assert words([REST, (0.1, True), (0.5, False), (0.1, True), REST]) == [NEXT, NEXT]


def test_closed_from_the_start_it_says_nothing_before_it_was_open() -> None:
    assert words([(3.0, True), REST]) == []
    assert words([(3.0, True), REST, (0.2, True), REST]) == [NEXT]


def test_what_the_foot_did_while_nobody_looked_is_not_guessed() -> None:
    switch = Switch()
    for count in range(10):
        assert switch.see(count * 0.02, count >= 5) is None
    # The machine slept; the foot is still there, or there again.
    for count in range(100):
        assert switch.see(3600 + count * 0.02, True) is None
    for count in range(100):
        assert switch.see(3603 + count * 0.02, False) is None


@given(st.lists(st.floats(0.0, 2.0), max_size=80))
def test_what_never_settles_says_nothing(waits: list[float]) -> None:
    """Noise that turns over at every look, however often that is."""
    switch = Switch()
    at = 0.0
    for count, wait in enumerate(waits):
        at += wait
        assert switch.see(at, count % 2 == 0) is None

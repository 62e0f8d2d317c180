"""A pace that a sitting can use, whatever the probe's."""

from __future__ import annotations

from itertools import groupby
from random import Random
from statistics import median_low

import pytest

from devices.slots import AT_ONCE, PER_SECOND, Slots
from plans.reading import Reading


def handed_on(readings: list[Reading]) -> list[tuple[float, Reading]]:
    """What is handed on when, by somebody who looks whenever something comes [s]."""
    slots = Slots()
    found: list[tuple[float, Reading]] = []
    for at, together in groupby(readings, lambda one: one.at):
        slots.hold(together)
        found += [(at, one) for one in slots.due(at)]
    return found + [(readings[-1].at, one) for one in slots.rest()]


@pytest.mark.parametrize("rate", [0.2, 4.0, 10.0, 20.0])
def test_what_a_slow_probe_says_is_handed_on_at_once_and_as_it_is(rate: float) -> None:
    random = Random(1)
    readings = [Reading((n + random.uniform(-0.4, 0.4)) / rate, 1000.0 + n) for n in range(1, 200)]
    assert handed_on(readings) == [(one.at, one) for one in readings]


def test_a_few_that_come_in_one_packet_are_handed_on_as_they_are() -> None:
    readings = [Reading(float(second), 900.0 + n) for second in range(9) for n in range(AT_ONCE)]
    assert [one for _, one in handed_on(readings)] == readings


@pytest.mark.parametrize("rate", [30, 100, 1600, 5000])
def test_of_a_fast_probe_about_twenty_a_second_are_handed_on(rate: int) -> None:
    readings = [Reading(n / rate, 1000.0 + n) for n in range(2 * rate)]
    found = handed_on(readings)
    assert 20 * 2 <= len(found) <= PER_SECOND * 2 + AT_ONCE + 1
    kept = [one for _, one in found]
    assert kept == sorted(kept, key=lambda one: one.at), "in order"
    assert max(at - one.at for at, one in found) < 0.05, "none is old"
    assert set(kept) <= set(readings)


def test_of_those_that_come_together_the_median_counts() -> None:
    kelvins = [1000.0 + value for value in (3, 900, 1, 4, 2, -800, 5)]
    (_, only), *more = handed_on([Reading(1.0, kelvin) for kelvin in kelvins])
    assert only.kelvin == median_low(kelvins)
    assert more == []


def test_each_fault_among_them_is_handed_on_once_and_in_its_place() -> None:
    said = [Reading(1.0, None, "open circuit"), *[Reading(1.0, 1000.0 + n) for n in range(9)]]
    said += [Reading(1.0, None, "out of range")] * 2
    assert [one for _, one in handed_on(said)] == [said[0], said[5], said[-1]]


def test_nothing_but_faults_are_faults() -> None:
    assert [one.fault for _, one in handed_on([Reading(1.0, None, "open circuit")] * 50)] == ["open circuit"]


def test_the_last_ones_wait_no_longer_than_until_there_is_room() -> None:
    slots = Slots()
    assert slots.wait is None
    slots.hold([Reading(1.0, 1000.0)] * (AT_ONCE + 1))
    slots.due(1.0)
    at = 1.0
    for _ in range(AT_ONCE):
        slots.hold([Reading(at, 900.0)])
        if wait := slots.wait:
            at += wait + 1e-9
        assert slots.due(at)
        assert slots.wait is None
    assert at <= 1.0 + 2 / PER_SECOND


def test_a_clock_that_is_set_back_stops_nothing() -> None:
    slots = Slots()
    slots.due(1000.0)
    for n in range(100):
        slots.hold([Reading(n / 10, 900.0)])
        assert slots.due(n / 10)

"""The clock of readings."""

from __future__ import annotations

import time

import pytest

from devices.clock import through_sleep


def test_it_counts_suspended_time_where_the_machine_can() -> None:
    if not hasattr(time, "CLOCK_BOOTTIME"):
        pytest.skip("no such clock here")
    before = time.clock_gettime(time.CLOCK_BOOTTIME)
    now = through_sleep()()
    assert before <= now <= time.clock_gettime(time.CLOCK_BOOTTIME)


def test_elsewhere_it_is_the_steady_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(time, "CLOCK_BOOTTIME", raising=False)
    assert through_sleep() is time.monotonic

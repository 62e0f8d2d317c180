"""A probe watched by itself."""

from __future__ import annotations

import json
import os
import re
import threading
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from typing import Any

import pytest

from devices.errors import DeviceError
from devices.profile import Profile
from devices.profile_reader import find_profile
from devices.watch import watch_probe


@pytest.fixture
def send_when_open(probe: Any) -> Iterator[Callable[[bytes], None]]:
    """Sends again and again until the watcher has opened the port: what comes before that is lost."""
    stop = threading.Event()
    threads: list[threading.Thread] = []

    def run(data: bytes) -> None:
        while not stop.wait(0.02):
            try:
                probe.send(data)
            except OSError:
                return

    def begin(data: bytes) -> None:
        os.set_blocking(probe.master, False)
        threads.append(threading.Thread(target=run, args=(data,)))
        threads[-1].start()

    yield begin
    stop.set()
    for thread in threads:
        thread.join()


def test_records(probe: Any, send_when_open: Callable[[bytes], None], bare: Profile) -> None:
    records = watch_probe(probe.path, bare)
    send_when_open(b"20.125\n9999\n")
    before = datetime.now(UTC)
    seen = [next(records) for _ in range(4)]
    records.close()
    assert sorted({(record["celsius"], record["fault"]) for record in seen}, key=str) == [
        (20.125, None),
        (None, "out of range"),
    ]
    for record in seen:
        assert json.loads(json.dumps(record)) == record
        assert list(record) == ["at", "celsius", "fault", "stands_for"]
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", record["at"])
        assert abs((datetime.fromisoformat(record["at"]) - before).total_seconds()) < 20
    assert not [thread for thread in threading.enumerate() if thread.name == "probe reader"]


def test_lines_that_cannot_be_read_are_shown(probe: Any, send_when_open: Callable[[bytes], None]) -> None:
    profile = find_profile("labelled")
    records = watch_probe(probe.path, type(profile)("quick", "t", profile.unit, pattern=profile.pattern, silence=0.5))
    send_when_open(b"T=20\x1b\n")
    assert next(records)["fault"] == 'lost: unreadable for 0.5 s, such as "T=20?"'
    records.close()


def test_a_port_that_cannot_be_opened(tmp_path: Any, bare: Profile) -> None:
    with pytest.raises(DeviceError, match="there is no such port"):
        next(watch_probe(str(tmp_path / "absent"), bare))


def test_what_a_fast_probe_says_stands_for_all_that_was_taken_together(
    probe: Any, send_when_open: Callable[[bytes], None], bare: Profile
) -> None:
    records = watch_probe(probe.path, bare)
    send_when_open(b"900.5\n" * 100)
    seen = [next(records) for _ in range(8)]
    records.close()
    assert {record["celsius"] for record in seen} == {900.5}
    assert max(record["stands_for"] for record in seen) >= 100

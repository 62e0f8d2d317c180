"""What feeds a sitting: only the clock, a probe on a port, a recording, or a rehearsal."""

from __future__ import annotations

import os
from pathlib import Path
from queue import SimpleQueue

import pytest

from devices.errors import DeviceError
from devices.profile_reader import find_profile
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Said, Tick, Word
from tui.running.sources import ClockSource, Delivered, ProbeSource, RecordingSource, RehearsalSource, Source

PATIENCE = 20.0
"""Longer than any wait should take, even on a busy machine [s]; reached only by a test that fails."""


def test_the_clock_begins_with_the_source_and_can_be_set_to_where_the_sitting_stands() -> None:
    now = [100.0]
    source = ClockSource(lambda: now[0])
    assert source.clock() == 0.0
    now[0] += 5.0
    assert source.clock() == 5.0
    source.set_time(3600.0)
    now[0] += 1.0
    assert source.clock() == 3601.0


def first_reading(inbox: SimpleQueue[Delivered]) -> Reading:
    while not isinstance(item := inbox.get(timeout=PATIENCE), Reading):
        pass
    return item


def test_a_probe_delivers_what_it_says_until_it_is_closed(probe: tuple[int, str]) -> None:
    master, path = probe
    inbox: SimpleQueue[Delivered] = SimpleQueue()
    source = ProbeSource(lambda: 7.0, path, find_profile("bare-celsius"))
    assert source.link_state() is None
    source.start(inbox.put)
    try:
        os.write(master, b"905.0\r\n" * 2)
        assert first_reading(inbox) == Reading(0.0, 905.0 + 273.15)
        state = source.link_state()
        assert state is not None
        assert state.port == path
    finally:
        source.close()
    source.close()


def test_a_port_that_is_not_there_is_told_at_the_start(tmp_path: Path) -> None:
    source = ProbeSource(lambda: 0.0, str(tmp_path / "none"), find_profile("bare-celsius"))
    with pytest.raises(DeviceError, match="none"):
        source.start(lambda _: None)
    source.close()


def recording(folder: Path, *rows: str) -> RecordingSource:
    path = folder / "heats.csv"
    path.write_text("\n".join(["seconds,celsius,word", *rows]) + "\n")
    return RecordingSource(path)


def test_the_clock_of_a_recording_goes_on_with_its_rows(tmp_path: Path) -> None:
    source = recording(tmp_path, "0,,next", "2.5,20,", "9,,out")
    delivered: list[Delivered] = []
    source.start(delivered.append)
    assert source.clock() == 0.0
    rows = [(source.clock(), entry) for entry in source.entries()]
    assert rows == [
        (0.0, Said(0.0, Word.NEXT)),
        (2.5, Reading(2.5, 20 + 273.15)),
        (9.0, Said(9.0, Word.OUT)),
    ]
    assert delivered == []


def test_a_recording_knows_whether_it_has_readings(tmp_path: Path) -> None:
    assert not recording(tmp_path, "1,,next", "9,,out").has_readings()
    assert recording(tmp_path, "1,,next", "9,20,").has_readings()


def test_a_recording_says_how_many_of_its_readings_are_none(tmp_path: Path) -> None:
    source = recording(tmp_path, "0,20,", "5,nan,", "6,,out", "61,1e308,", "70,-500,", "75,open,")
    assert source.unread == ""
    source.start(lambda _: None)
    told = "4 of 5 readings are no temperatures (2 out of range, 1 missing, 1 open), the first at 0:05"
    assert source.unread == f"{source.path}: {told}; the log has them as such"
    whole = recording(tmp_path, "0,20,")
    whole.start(lambda _: None)
    assert whole.unread == ""


def test_a_row_that_is_wrong_is_found_out_at_the_start(tmp_path: Path) -> None:
    source = recording(tmp_path, "1,20,", "0,21,")
    with pytest.raises(DeviceError, match=r"heats\.csv:3"):
        source.start(lambda _: None)


def test_a_rehearsal_delivers_readings_and_time(plan: Plan) -> None:
    inbox: SimpleQueue[Delivered] = SimpleQueue()
    source = RehearsalSource(plan, 1, None)
    source.start(inbox.put)
    try:
        assert isinstance(inbox.get(timeout=PATIENCE), Reading | Tick)
        assert source.link_state() is not None
    finally:
        source.close()
    source.close()


def test_only_a_probe_has_a_line_to_be_looked_at(plan: Plan, tmp_path: Path) -> None:
    probe = ProbeSource(lambda: 0.0, "/dev/none", find_profile("bare-celsius"))
    others: list[Source] = [ClockSource(lambda: 0.0), recording(tmp_path, "1,20,"), RehearsalSource(plan, 1, None)]
    assert probe.watch_line(lambda _: None)
    assert [source.watch_line(lambda _: None) for source in others] == [False] * 3
    for source in others:
        source.close()

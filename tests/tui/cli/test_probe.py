"""`heatbook probe`: what is there, and what one says, on a real pseudo-terminal."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import threading
import tty
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

Heatbook = Callable[..., Any]
Watch = Callable[..., "subprocess.Popen[str]"]


class Talking:
    """A probe that says the same again and again, as one does that nobody asks."""

    def __init__(self, says: bytes) -> None:
        self.master, self._slave = os.openpty()
        tty.setraw(self._slave)
        os.set_blocking(self.master, False)
        self.port = os.ttyname(self._slave)
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._talk, args=(says,))
        self._thread.start()

    def _talk(self, says: bytes) -> None:
        while not self._stop.wait(0.02):
            try:
                os.write(self.master, says)
            except BlockingIOError:
                continue

    def close(self) -> None:
        self._stop.set()
        self._thread.join()
        os.close(self.master)
        os.close(self._slave)


@pytest.fixture
def talking() -> Iterator[Callable[[bytes], Talking]]:
    probes: list[Talking] = []

    def begin(says: bytes) -> Talking:
        probes.append(Talking(says))
        return probes[-1]

    yield begin
    for probe in probes:
        probe.close()


@pytest.fixture
def watch(home: Path) -> Iterator[Watch]:
    """Starts `probe watch`; it is ended with the test."""
    started: list[subprocess.Popen[str]] = []

    def begin(*arguments: str) -> subprocess.Popen[str]:
        started.append(
            subprocess.Popen(
                [sys.executable, "-m", "tui.cli", "probe", "watch", *arguments],
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                text=True,
                env=os.environ | {"HEATBOOK_HOME": str(home)},
            )
        )
        return started[-1]

    yield begin
    for process in started:
        process.kill()
        process.communicate()


def read(process: subprocess.Popen[str], count: int) -> list[str]:
    assert process.stdout
    return [process.stdout.readline() for _ in range(count)]


def test_list_as_json(heatbook: Heatbook) -> None:
    done = heatbook("probe", "list", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    found = json.loads(done.stdout)
    assert found.keys() == {"ports", "profiles"}
    profiles = {profile["name"]: profile for profile in found["profiles"]}
    assert {"bare-celsius", "bare-fahrenheit", "labelled", "second-column", "stamped"} <= profiles.keys()
    assert all(profile["good"] and profile["title"] and profile["example"] for profile in profiles.values())


def test_a_profile_that_cannot_be_used_hides_no_other(heatbook: Heatbook, home: Path) -> None:
    (home / "probes").mkdir(parents=True)
    (home / "probes" / "spoiled.toml").write_text("title = 1\n")
    done = heatbook("probe", "list")
    assert (done.returncode, done.stderr) == (0, "")
    assert "bare-celsius" in done.stdout
    assert "spoiled.toml" in done.stdout
    found = json.loads(heatbook("probe", "list", "--json").stdout)["profiles"]
    spoiled = next(profile for profile in found if profile["name"] == "spoiled")
    assert (spoiled["good"], "spoiled.toml" in spoiled["fault"]) == (False, True)


def test_a_line_a_reading(watch: Watch, talking: Any) -> None:
    process = watch("--port", talking(b"1023.5\n9999\n").port, "--json")
    records = [json.loads(line) for line in read(process, 6)]
    assert {(record["celsius"], record["fault"]) for record in records} == {(1023.5, None), (None, "open circuit")}
    for record in records:
        assert list(record) == ["at", "celsius", "fault", "stands_for"]
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", record["at"])


def test_for_people(watch: Watch, talking: Any) -> None:
    process = watch("--port", talking(b"t: 125.745 C\n").port, "--probe", "labelled")
    for line in read(process, 2):
        assert re.fullmatch(r"\S+Z  125\.7 degC\n", line)


def test_for_people_who_work_in_inches(watch: Watch, talking: Any, home: Path) -> None:
    """125.745 degC are 258.341 degF."""
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text('units = "inch"\n')
    port = talking(b"t: 125.745 C\n").port
    (line,) = read(watch("--port", port, "--probe", "labelled"), 1)
    assert re.fullmatch(r"\S+Z  258\.3 degF(, the median of \d+)?\n", line)


def test_junk_is_passed_over_and_never_reaches_the_terminal_raw(watch: Watch, talking: Any) -> None:
    process = watch("--port", talking(b"\x1b[2J\x07garbage\n20.5\n\xff\xfe\x00\n").port, "--json")
    assert {json.loads(line)["celsius"] for line in read(process, 5)} == {20.5}


def test_only_junk_is_told_as_a_fault(watch: Watch, talking: Any, tmp_path: Path) -> None:
    profile = tmp_path / "hasty.toml"
    profile.write_text('title = "A number a line"\nunit = "degC"\nsilence = "0.5 s"\n')
    process = watch("--port", talking(b"\x1b[31mhello\n").port, "--probe", str(profile), "--json")
    (line,) = read(process, 1)
    record = json.loads(line)
    assert record["celsius"] is None
    assert record["fault"].startswith("lost: unreadable")
    assert "?[31mhello" in record["fault"]
    assert "\\u001b" not in line


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_it_goes_on_until_it_is_told_to_end(watch: Watch, talking: Any, number: signal.Signals) -> None:
    process = watch("--port", talking(b"20.5\n").port, "--json")
    read(process, 1)
    process.send_signal(number)
    rest, errors = process.communicate(timeout=30)
    assert (process.returncode, errors) == (0, "")
    assert all(json.loads(line)["celsius"] == 20.5 for line in rest.splitlines()), "whole lines to the end"


def test_it_ends_when_nobody_listens(watch: Watch, talking: Any) -> None:
    process = watch("--port", talking(b"20.5\n").port)
    read(process, 1)
    assert process.stdout
    process.stdout.close()
    assert process.stderr
    assert process.stderr.read() == ""
    assert process.wait(30) == 1


def test_a_port_that_is_not_there(heatbook: Heatbook, tmp_path: Path) -> None:
    done = heatbook("probe", "watch", "--port", str(tmp_path / "absent"), "--json")
    assert (done.returncode, done.stdout) == (1, "")
    assert f"{tmp_path / 'absent'}: there is no such port" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_port_that_another_program_has(watch: Watch, talking: Any, heatbook: Heatbook) -> None:
    probe = talking(b"20.5\n")
    read(watch("--port", probe.port), 1)
    done = heatbook("probe", "watch", "--port", probe.port)
    assert (done.returncode, done.stdout) == (1, "")
    assert probe.port in done.stderr
    assert "Traceback" not in done.stderr


def test_a_profile_that_is_not_there(heatbook: Heatbook) -> None:
    done = heatbook("probe", "watch", "--port", "/dev/null", "--probe", "nothing")
    assert (done.returncode, done.stdout) == (1, "")
    assert "bare-celsius" in done.stderr, "what there is"

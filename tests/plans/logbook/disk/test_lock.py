from __future__ import annotations

import fcntl
import signal
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from plans.logbook.disk.lock import Lock
from plans.logbook.errors import LogbookError

Child = Callable[..., "subprocess.Popen[str]"]

HOLD = """
import sys; from pathlib import Path; from plans.logbook.disk.lock import Lock
lock = Lock(Path(sys.argv[1])); lock.take(); print("held", flush=True); sys.stdin.read()
"""

HOLD_AND_FORK = """
import os, sys; from pathlib import Path; from plans.logbook.disk.lock import Lock
lock = Lock(Path(sys.argv[1])); lock.take()
if os.fork() == 0:
    print("child", lock.held, flush=True)
sys.stdin.read()
"""

HOLD_AND_RUN = """
import subprocess, sys; from pathlib import Path; from plans.logbook.disk.lock import Lock
lock = Lock(Path(sys.argv[1])); lock.take()
subprocess.Popen([sys.executable, "-c", "import sys; print('child', flush=True); sys.stdin.read()"], close_fds=False)
sys.stdin.read()
"""


def heard(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    return process.stdout.readline().strip()


def test_a_second_process_is_told_who_holds_it(tmp_path: Path, child: Child) -> None:
    process = child(HOLD, tmp_path / "lock")
    assert heard(process) == "held"
    lock = Lock(tmp_path / "lock")
    with pytest.raises(LogbookError, match=rf"process {process.pid}\b.*HEATBOOK_HOME"):
        lock.take()
    assert not lock.held
    assert lock.taken()


def test_it_frees_itself_when_its_holder_is_killed(tmp_path: Path, child: Child) -> None:
    process = child(HOLD, tmp_path / "lock")
    assert heard(process) == "held"
    process.send_signal(signal.SIGKILL)
    process.wait()
    lock = Lock(tmp_path / "lock")
    assert not lock.taken()
    lock.take()
    assert lock.held


@pytest.mark.parametrize(("source", "says"), [(HOLD_AND_FORK, "child False"), (HOLD_AND_RUN, "child")])
def test_a_child_does_not_keep_it(tmp_path: Path, child: Child, source: str, says: str) -> None:
    process = child(source, tmp_path / "lock")
    assert heard(process) == says
    assert Lock(tmp_path / "lock").taken()
    process.send_signal(signal.SIGKILL)
    process.wait()  # its child still waits for the end of its input
    Lock(tmp_path / "lock").take()


def test_two_of_one_process_exclude_each_other_too(tmp_path: Path) -> None:
    first, second = Lock(tmp_path / "lock"), Lock(tmp_path / "lock")
    first.take()
    first.take()
    with pytest.raises(LogbookError):
        second.take()
    first.release()
    second.take()
    assert second.held


def test_asking_makes_no_file_and_takes_nothing(tmp_path: Path) -> None:
    assert not Lock(tmp_path / "lock").taken()
    assert list(tmp_path.iterdir()) == []


def test_a_lock_file_that_was_removed_does_not_let_two_in(tmp_path: Path) -> None:
    first, second, third = (Lock(tmp_path / "lock") for _ in range(3))
    first.take()
    (tmp_path / "lock").unlink()
    second.take()
    with pytest.raises(LogbookError):
        third.take()


def test_a_lock_file_that_is_removed_while_it_is_taken_is_taken_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "lock"
    removed: list[int] = []

    def grab(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if not removed:
            path.unlink()
            removed.append(descriptor)

    monkeypatch.setattr("plans.logbook.disk.lock._grab", grab)
    first, second = Lock(path), Lock(path)
    first.take()
    with pytest.raises(LogbookError):
        second.take()


def test_a_missing_folder_is_made(tmp_path: Path) -> None:
    lock = Lock(tmp_path / "a" / "b" / "lock")
    lock.take()
    assert lock.held

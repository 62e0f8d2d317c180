"""Whatever goes wrong ends in a line that says what, and in an exit status."""

from __future__ import annotations

import errno
import os
import re
import resource
import signal
import sys
import tempfile
import weakref
from collections.abc import Callable
from io import TextIOWrapper
from pathlib import Path

import pytest

from devices.errors import DeviceError
from plans.logbook.errors import LogbookError
from tui.cli.guard import guarded, interrupted_at_once
from tui.cli.new_file import write_new
from tui.config.errors import UsageError

Capture = pytest.CaptureFixture[str]


def failing(error: BaseException) -> Callable[[], int]:
    def work() -> int:
        raise error

    return work


@pytest.mark.parametrize(
    ("error", "status", "said"),
    [
        (UsageError("this goes not with that"), 2, "heatbook: this goes not with that\n"),
        (LogbookError("no such sitting"), 1, "heatbook: no such sitting\n"),
        (DeviceError("/dev/x", "is taken", "Free it."), 1, "heatbook: /dev/x: is taken. Free it.\n"),
        (KeyboardInterrupt(), 1, "heatbook: interrupted\n"),
        (OSError(errno.ENOSPC, "No space left", "/a/b"), 1, "heatbook: /a/b: No space left\n"),
        (OSError(errno.EIO, "Input/output error"), 1, "heatbook: Input/output error\n"),
        (LogbookError("line one\nline \x1b[2J two"), 1, "heatbook: line one\nline ?[2J two\n"),
        (SystemExit(2), 2, ""),
        (SystemExit(None), 0, ""),
    ],
)
def test_what_a_person_can_mend_is_said(error: BaseException, status: int, said: str, capsys: Capture) -> None:
    assert guarded(failing(error)) == status
    assert capsys.readouterr() == ("", said)


def test_a_fault_of_the_program_is_kept_in_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert guarded(failing(ZeroDivisionError("by zero"))) == 1
    said = capsys.readouterr().err
    assert "ZeroDivisionError: by zero" in said
    assert "report it" in said
    assert "Traceback" not in said
    (kept,) = tmp_path.iterdir()
    assert str(kept) in said
    assert "Traceback (most recent call last)" in kept.read_text()


def test_a_fault_that_cannot_be_kept_is_said_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "nowhere"))
    assert guarded(failing(RuntimeError("odd"))) == 1
    assert re.fullmatch(r"heatbook: .*odd.*please report it\.\n", capsys.readouterr().err)


def test_a_status_is_handed_on() -> None:
    assert [guarded(lambda: 0), guarded(lambda: 1)] == [0, 1]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("lines", [1, 10_000])
@pytest.mark.parametrize("buffering", [0, -1])
def test_that_output_has_no_room_is_said_once_and_of_output(
    lines: int, buffering: int, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    with TextIOWrapper(Path("/dev/full").open("wb", buffering), write_through=not buffering) as full:
        for name in ("stdout", "__stdout__"):
            monkeypatch.setattr(sys, name, full)
        assert guarded(lambda: print("said\n" * lines) or 0) == 1
    assert capsys.readouterr().err == "heatbook: standard output: No space left on device\n"


def test_an_interruption_is_not_lost_where_no_exception_comes_out(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """As while Python lets go of the lock of a module that it has imported."""
    ended: list[int] = []
    monkeypatch.setattr(os, "_exit", ended.append)
    before = signal.getsignal(signal.SIGINT)
    with interrupted_at_once():
        let_go = set[str]()
        watched = weakref.ref(let_go, lambda _: signal.raise_signal(signal.SIGINT))
        del let_go
        assert watched() is None
    assert ended == [1]
    assert capfd.readouterr().err == "heatbook: interrupted\n"
    assert signal.getsignal(signal.SIGINT) is before


# A new file, or none


def test_a_new_file_in_utf_8_with_its_newlines_as_they_are(tmp_path: Path) -> None:
    write_new(tmp_path / "a.csv", "ä\r\nb\n")
    assert (tmp_path / "a.csv").read_bytes() == b"\xc3\xa4\r\nb\n"


@pytest.mark.parametrize("there", ["file", "folder", "dangling link"])
def test_what_stands_there_is_left_as_it_is(tmp_path: Path, there: str) -> None:
    path = tmp_path / "mine"
    if there == "file":
        path.write_text("mine")
    elif there == "folder":
        path.mkdir()
    else:
        path.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(UsageError, match="name another file"):
        write_new(path, "new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["mine"]
    assert there != "file" or path.read_text() == "mine"


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for folder in ("nowhere", "file"):
        with pytest.raises(UsageError, match="there is no folder"):
            write_new(tmp_path / folder / "a.csv", "")


def test_half_a_file_does_not_stay(tmp_path: Path) -> None:
    """No file may grow beyond 1000 bytes here, as on a disk that is full."""
    path = tmp_path / "a.csv"
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, hard))
    try:
        with pytest.raises(OSError, match=re.escape(os.strerror(errno.EFBIG))) as caught:
            write_new(path, "x" * 5000)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert caught.value.filename == str(path)
    assert not path.exists()

"""Only ordinary files are opened."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from plans.regular import NoOrdinaryFileError, open_regular


def open_files() -> set[str]:
    return {entry.name for entry in Path("/proc/self/fd").iterdir()}


def test_a_file_and_a_link_to_it_are_opened(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"one\r\ntwo\n")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    for name in "ab":
        with open_regular(tmp_path / name) as file:
            assert file.read() == b"one\r\ntwo\n"


@pytest.mark.parametrize("kind", ["folder", "pipe", "socket", "device"])
def test_nothing_else_is_opened_or_waited_for(tmp_path: Path, kind: str) -> None:
    path = tmp_path / "it"
    if kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "device":
        path.symlink_to("/dev/zero")
    with socket.socket(socket.AF_UNIX) as listening:
        if kind == "socket":
            listening.bind(os.path.relpath(path))
        before = open_files()
        with pytest.raises(NoOrdinaryFileError) as caught:
            open_regular(path)
        assert (caught.value.strerror, caught.value.filename) == (f"it is a {kind}, no ordinary file", str(path))
        assert open_files() == before


def test_a_pipe_that_takes_the_place_of_a_file_is_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between the look and the opening another program may put something else there."""
    path = tmp_path / "it"
    path.write_text("")
    look = Path.stat

    def look_too_early(self: Path) -> os.stat_result:
        seen = look(self)
        path.unlink()
        os.mkfifo(path)
        return seen

    monkeypatch.setattr(Path, "stat", look_too_early)
    with pytest.raises(NoOrdinaryFileError, match="it is a pipe"):
        open_regular(path)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        open_regular(tmp_path / "none")
    with pytest.raises(ValueError, match="null"):
        open_regular(Path("a\0b"))

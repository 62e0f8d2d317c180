"""Several programs at one file of the smith's own: what each of them writes is there in the end."""

from __future__ import annotations

import fcntl
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest

import tui
from plans.toml import TomlText, changed
from plans.units import Units
from tui.config import ShopText, UsageError, alone_in, forget
from tui.config.own_file import change_own_file
from tui.taught.changes import ShopChanges

ROOT = Path(tui.__file__).parents[1]
WRITER = """
import sys
from pathlib import Path
from plans.toml import changed
from tui.config.own_file import change_own_file

path, name = Path(sys.argv[1]), sys.argv[2]
print("ready", flush=True)
sys.stdin.readline()
for count in range(20):
    change_own_file(path, lambda toml: changed(toml, (f"{name}_{count}",), count), "it")
"""
NOON = datetime(2026, 11, 27, 12, tzinfo=UTC)


@pytest.mark.slow
def test_what_two_programs_write_at_once_is_all_there(tmp_path: Path) -> None:
    path = tmp_path / "not yet" / "shop.toml"
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path), name],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
        )
        for name in ("one", "other")
    ]
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
    for writer in writers:
        assert writer.stdin is not None
        writer.stdin.write("go\n")
        writer.stdin.flush()
    assert [(writer.communicate()[1], writer.returncode) for writer in writers] == [("", 0), ("", 0)]
    expected = {f"{name}_{count} = {count}" for name in ("one", "other") for count in range(20)}
    assert set(path.read_text().splitlines()) == expected
    assert [one.name for one in path.parent.iterdir()] == ["shop.toml"]


def test_what_an_editor_saves_meanwhile_is_read_again_first(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("scale_factor = 0.5\n")

    def change(toml: TomlText) -> str:
        if "rich" not in toml.text:
            path.write_text('scale_factor = 0.5\nfire = "rich"\n')
        return changed(toml, ("cooling_factor",), 1.1)

    before = change_own_file(path, change, "cooling_factor = 1.1")
    assert before.values == {"scale_factor": 0.5, "fire": "rich"}
    assert path.read_text() == 'cooling_factor = 1.1\nscale_factor = 0.5\nfire = "rich"\n'


def test_a_file_that_another_program_writes_on_and_on_is_left_to_it(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"

    def change(toml: TomlText) -> str:
        path.write_text(f"{toml.text}# once more\n")
        return changed(toml, ("cooling_factor",), 1.1)

    with pytest.raises(UsageError, match=r"shop\.toml is being changed by another program, and left to that"):
        change_own_file(path, change, "cooling_factor = 1.1")
    assert set(path.read_text().splitlines()) == {"# once more"}
    assert [one.name for one in tmp_path.iterdir()] == ["shop.toml"]


@contextmanager
def _another_has(folder: Path) -> Iterator[None]:
    """Another program has a folder to itself: a second opening of it counts as one."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX)
        yield
    finally:
        os.close(descriptor)


def test_another_that_stands_still_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("scale_factor = 0.5\n")
    with _another_has(tmp_path), pytest.raises(UsageError, match="another heatbook is writing there"):
        forget(path, "cooling-factor", "cooling_factor", NOON)
    assert path.read_text() == "scale_factor = 0.5\n"
    with alone_in(tmp_path) as alone, alone_in(tmp_path) as still:
        assert (alone, still) == (True, True)
        forget(path, "cooling-factor", "cooling_factor", NOON)
    assert "cooling-factor" in path.read_text()


def test_taking_back_takes_nothing_back_that_another_wrote(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text("[forgotten]\ncooling-factor = 2026-11-27T10:15:00+01:00\n")
    changes = ShopChanges(path, Units.METRIC)
    changes.recall("cooling-factor")
    forget(path, "contact-factor", "contact_factor", NOON)
    by_another = ShopText.read(path)
    with pytest.raises(UsageError, match="was changed since; nothing was taken back"):
        changes.undo()
    assert ShopText.read(path) == by_another

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import AbstractContextManager
from math import nan
from pathlib import Path

import pytest
from tinydb import TinyDB, where

from plans.logbook.disk.atomic_json import AtomicJSONStorage
from plans.logbook.disk.whole_files import UNREADABLE, set_aside
from plans.writing import make_folder, write_new

FilesUpTo = Callable[[int], AbstractContextManager[None]]


def test_documents_come_back(tmp_path: Path) -> None:
    with TinyDB(tmp_path / "a.json", storage=AtomicJSONStorage) as tables:
        tables.insert({"name": "Späne", "half": "\udc80"})
    with TinyDB(tmp_path / "a.json", storage=AtomicJSONStorage) as tables:
        assert tables.all() == [{"name": "Späne", "half": "\udc80"}]
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]


def test_opening_makes_no_file(tmp_path: Path) -> None:
    with TinyDB(tmp_path / "a.json", storage=AtomicJSONStorage) as tables:
        assert tables.all() == []
    assert list(tmp_path.iterdir()) == []


def test_after_a_failed_write_the_old_file_counts_on_disk_and_in_memory(tmp_path: Path, files_up_to: FilesUpTo) -> None:
    path = tmp_path / "a.json"
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        tables.insert({"name": "first", "parts": [1]})
        before = path.read_bytes()
        assert tables.search(where("name") == "first")
        with files_up_to(20), pytest.raises(OSError, match="File too large"):
            tables.insert({"name": "second"})
        with files_up_to(20), pytest.raises(OSError, match="File too large"):
            tables.update({"parts": [2]}, where("name") == "first")
        assert tables.all() == [{"name": "first", "parts": [1]}]
        assert tables.search(where("name") == "first") == [{"name": "first", "parts": [1]}]
        assert path.read_bytes() == before
        assert list(tmp_path.iterdir()) == [path]
        tables.insert({"name": "third"})
        assert [row["name"] for row in tables.all()] == ["first", "third"]


def test_a_file_is_synced_before_it_takes_the_old_ones_place_and_its_folder_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A kill can't show this, the system keeps what was written; a power cut would."""
    path = tmp_path / "a.json"
    real = os.fsync
    synced = []

    def fsync(descriptor: int) -> None:
        real(descriptor)
        is_folder = os.path.samestat(os.fstat(descriptor), tmp_path.stat())
        synced.append(("folder" if is_folder else os.fstat(descriptor).st_size, path.exists()))

    monkeypatch.setattr(os, "fsync", fsync)
    AtomicJSONStorage(path).write({"_default": {"1": {}}})
    assert synced == [(path.stat().st_size, False), ("folder", True)]


def test_what_is_no_json_is_refused_and_nothing_is_touched(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        tables.insert({"seconds": 1.0})
        before = path.read_bytes()
        with pytest.raises(ValueError, match="Out of range"):
            tables.insert({"seconds": nan})
        assert path.read_bytes() == before


def test_permissions_and_links_are_kept(tmp_path: Path) -> None:
    real, link = tmp_path / "real.json", tmp_path / "link.json"
    real.write_text("{}")
    real.chmod(0o640)
    link.symlink_to(real)
    AtomicJSONStorage(link).write({"_default": {}})
    assert link.is_symlink()
    assert real.read_text() == '{"_default":{}}'
    assert real.stat().st_mode & 0o777 == 0o640


def test_what_is_new_is_its_owners_alone(tmp_path: Path) -> None:
    before = os.umask(0o022)
    try:
        make_folder(tmp_path / "a" / "b")
        AtomicJSONStorage(tmp_path / "a" / "b" / "c.json").write({})
        write_new(tmp_path / "d.txt", [b"mine"])
    finally:
        os.umask(before)
    modes = {str(path.relative_to(tmp_path)): path.stat().st_mode & 0o777 for path in tmp_path.rglob("*")}
    assert modes == {"a": 0o700, "a/b": 0o700, "a/b/c.json": 0o600, "d.txt": 0o600}


def test_new_folders_last_through_a_power_cut(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    synced: list[Path] = []
    monkeypatch.setattr("plans.writing.sync_folder", synced.append)
    make_folder(tmp_path / "a" / "b" / "c")
    assert synced == [tmp_path, tmp_path / "a", tmp_path / "a" / "b"]
    make_folder(tmp_path / "a" / "b" / "c")
    assert len(synced) == 3


def test_a_new_file_takes_no_others_place(tmp_path: Path) -> None:
    """A link that somebody planted is not followed, whether it leads anywhere or not."""
    (tmp_path / "victim").write_text("mine")
    for name, target in (("file", None), ("link", "victim"), ("dangling", "nowhere")):
        path = tmp_path / name
        path.write_text("mine") if target is None else path.symlink_to(tmp_path / target)
        with pytest.raises(FileExistsError):
            write_new(path, [b"theirs"])
    assert (tmp_path / "victim").read_text() == (tmp_path / "file").read_text() == "mine"
    assert not (tmp_path / "nowhere").exists()


def test_what_a_kill_left_beside_is_in_nobodys_way(tmp_path: Path) -> None:
    left, elsewhere = tmp_path / "a.json.new", tmp_path / "elsewhere"
    elsewhere.write_text("mine")
    left.symlink_to(elsewhere)
    AtomicJSONStorage(tmp_path / "a.json").write({"_default": {}})
    assert AtomicJSONStorage(tmp_path / "a.json").read() == {"_default": {}}
    assert elsewhere.read_text() == "mine"
    assert not left.is_symlink()


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"  \n",
        b"{",
        b'{"_default": {"1": {"a": 1}',
        b"\xff\xfe",
        b"[1, 2]",
        b"7",
        b'{"_default": 3}',
        b'{"_default": [1]}',
        b'{"_default": {"one": {}}}',
        b'{"_default": {"1": 4}}',
        b'{"_default": {"1": {"a": NaN}}}',
        b"[" * 100_000,
    ],
    ids=lambda content: repr(content[:20]),
)
def test_every_kind_of_corrupt_file_is_noticed_and_left_alone(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "a.json"
    path.write_bytes(content)
    with TinyDB(path, storage=AtomicJSONStorage) as tables, pytest.raises(UNREADABLE):
        tables.all()
    assert path.read_bytes() == content


def test_setting_aside_never_overwrites(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    for content in ("one", "two", "three"):
        path.write_text(content)
        set_aside(path)
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {
        "a.json.bad": "one",
        "a.json.2.bad": "two",
        "a.json.3.bad": "three",
    }

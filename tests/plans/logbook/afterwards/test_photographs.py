"""Photographs beside a sitting: kept by name or copied, damaged, deleted and brought back, and in its page."""

from __future__ import annotations

import base64
import os
import re
import shutil
from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from pathlib import Path
from tempfile import NamedTemporaryFile

import pytest

from plans.logbook import KeptSitting, photograph_taken_back
from plans.logbook.book import Logbook
from plans.logbook.document import from_document, to_document
from plans.logbook.errors import LogbookError
from plans.logbook.exports import export
from plans.logbook.lines import photograph_lines
from plans.logbook.logged_sitting import work_out
from plans.logbook.photo_files import Picture, copy_into, is_whole, kind_of, read_picture
from plans.logbook.photographing import with_photograph
from tests.png import png

KEPT = Path(__file__).parents[1] / "kept" / "format-1.json"
NAME = "20261125-091500-normalize"
NOW = datetime(2026, 12, 3, 10, tzinfo=UTC)
Limit = Callable[[int], AbstractContextManager[None]]


@pytest.fixture(autouse=True)
def sitting(folder: Path) -> Path:
    """The file of a sitting that an earlier version kept; nobody has added a photograph to it."""
    path = folder / "sittings" / f"{NAME}.json"
    path.parent.mkdir(parents=True)
    return Path(shutil.copy(KEPT, path))


@pytest.fixture
def copies(folder: Path) -> Path:
    return folder / "sittings" / NAME


@pytest.fixture
def blade(tmp_path: Path) -> Path:
    path = tmp_path / "blade <1>.PNG"
    path.write_bytes(png(90))
    return path


def add(book: Logbook, path: Path, step: int | None = None, note: str = "", copied: bool = True) -> KeptSitting:
    return book.add_photograph(NAME, str(path), step=step, note=note, copied=copied, now=NOW)


def told(kept: KeptSitting, folder: Path) -> list[str]:
    return [line.text for line in photograph_lines(kept.photographs, folder)]


def test_one_is_kept_by_name_then_copied_once_and_taken_back(
    book: Logbook, copies: Path, blade: Path, sitting: Path
) -> None:
    kept = add(book, blade, 1, " even\tscale ", copied=False)
    assert told(kept, copies) == ["step 2: blade <1>.PNG, even scale; by name"]
    assert not copies.exists()
    kept = add(book, blade)
    assert told(kept, copies) == ["step 2: blade <1>.PNG, even scale; copied"], "what was said of it stays"
    [copy] = copies.iterdir()
    assert copy.read_bytes() == blade.read_bytes()
    assert (copy.stat().st_mode & 0o777, copies.stat().st_mode & 0o777) == (0o600, 0o700)
    with pytest.raises(LogbookError, match="it is photograph 2"):
        add(book, blade)
    other = blade.with_name("the same.png")
    other.write_bytes(blade.read_bytes())
    assert told(add(book, other, 0), copies) == ["step 1: the same.png, even scale; copied"]
    assert list(copies.iterdir()) == [copy]
    kept = book.amend(NAME, photograph_taken_back(3, NOW))
    assert told(kept, copies) == []
    assert kept.photographs is not None
    assert [one.number for one in kept.photographs.kept] == [1, 2, 3], "all are kept"
    assert copy.exists()
    assert book.load(NAME).photographs == kept.photographs == from_document(to_document(kept)).photographs
    assert sitting.read_bytes().startswith(b'{"sitting":{"1":{"summary":')
    assert book.summaries()[0].id == NAME


@pytest.mark.parametrize(
    "spoilt",
    [
        {"path": ""},
        {"path": "a\0b.png"},
        {"copy": "../../blade.png"},
        {"copy": "0123456789abcdef.png"},
        {"sha256": "../x"},
        {"size_bytes": 26 << 20},
        {"note": "two\nlines"},
        {"step": 0},
        {"added": "yesterday"},
        {"number": 1.5},
        {"taken_back": 7},
    ],
)
def test_a_damaged_one_costs_none_of_the_others_and_stays_in_the_file(
    book: Logbook, blade: Path, spoilt: dict[str, object]
) -> None:
    kept = with_photograph(book.load(NAME), read_picture(str(blade)), step=1, note="", copied=True, now=NOW)
    blade.write_bytes(png(91))
    document = to_document(with_photograph(kept, read_picture(str(blade)), step=None, note="", copied=False, now=NOW))
    document["photographs"]["kept"][0] |= spoilt
    read = from_document(document)
    assert read.photographs is not None
    assert [one.number for one in read.photographs.kept] == [2]
    assert (read.unread, read.damage) == ("", "1 photograph")
    assert document["photographs"]["kept"][0] in to_document(read)["photographs"]["kept"]
    document["photographs"] = [1]
    assert from_document(document).photographs is None


def test_a_name_that_no_file_can_have_is_only_not_there(book: Logbook, copies: Path, blade: Path) -> None:
    kept = add(book, blade, copied=False)
    document = to_document(kept)
    document["photographs"]["kept"][0] |= {"path": f"/home/{'x' * 300}.png"}
    [line] = told(from_document(document), copies)
    assert line.endswith("by name, but it is not there now")


def test_what_is_no_picture_is_refused_and_nothing_is_left(
    book: Logbook, copies: Path, tmp_path: Path, sitting: Path
) -> None:
    (tmp_path / "folder.png").mkdir()
    os.mkfifo(tmp_path / "pipe.png")
    (tmp_path / "text.png").write_text("not a picture")
    (tmp_path / "empty.png").touch()
    with (tmp_path / "large.png").open("wb") as file:
        file.write(png(1))
        file.truncate((25 << 20) + 1)
    (tmp_path / "note.txt").write_bytes(png(1))
    before = sitting.read_bytes()
    for name, why in (
        ("none.png", "is not there"),
        ("folder.png", "it is a folder"),
        ("pipe.png", "it is a pipe"),
        ("text.png", "holds no picture"),
        ("empty.png", "is empty"),
        ("large.png", "larger than 25 MB"),
        ("note.txt", "ends in .jpg"),
    ):
        with pytest.raises(LogbookError, match=why):
            add(book, tmp_path / name)
    (tmp_path / "good.png").write_bytes(png(1))
    for step, note, why in ((8, "", "only to step 1|to steps 1 to 2"), (0, "x" * 201, "at most 200 characters")):
        with pytest.raises(LogbookError, match=why):
            add(book, tmp_path / "good.png", step, note)
    assert not copies.exists()
    assert sitting.read_bytes() == before


def test_a_folder_or_a_picture_that_is_not_ones_own_is_told(read_only: Path) -> None:
    """The test runs as nobody, who may write nothing there."""
    book = Logbook(read_only)
    with pytest.raises(LogbookError, match="no permission"):
        copy_into(book.photographs(NAME), Picture(Path("x.png"), png(1), "png", "0" * 64))
    with NamedTemporaryFile(suffix=".png", dir="/tmp") as file:
        os.fchmod(file.fileno(), 0)
        with pytest.raises(LogbookError, match="no permission; let yourself read it"):
            read_picture(file.name)


@pytest.mark.parametrize("size", [40, 1000])
def test_a_full_disk_leaves_neither_half_a_copy_nor_half_a_sitting(
    book: Logbook, copies: Path, blade: Path, sitting: Path, files_up_to: Limit, size: int
) -> None:
    """With 40 bytes the copy finds no room, with 1000 it does and the sitting's file does not."""
    before = sitting.read_bytes()
    assert 40 < blade.stat().st_size < 1000 < len(before)
    with files_up_to(size), pytest.raises(LogbookError, match="larger than the system lets it be"):
        add(book, blade)
    assert sitting.read_bytes() == before
    assert not copies.exists()
    assert told(add(book, blade), copies) == ["blade <1>.PNG; copied"]


def test_what_stands_in_the_way_of_a_copy_stays(book: Logbook, copies: Path, blade: Path, sitting: Path) -> None:
    before = sitting.read_bytes()
    copies.write_text("a file in the folder's place")
    with pytest.raises(LogbookError, match="a file stands where a folder should be"):
        add(book, blade)
    copies.unlink()
    copies.mkdir()
    other = copies / read_picture(str(blade)).copy_name
    other.write_bytes(b"another")
    with pytest.raises(LogbookError, match="is another file"):
        add(book, blade)
    assert (other.read_bytes(), sitting.read_bytes()) == (b"another", before)


def test_killed_between_copy_and_sitting_it_is_found_the_next_time(book: Logbook, copies: Path, blade: Path) -> None:
    picture = read_picture(str(blade))
    assert copy_into(copies, picture)
    (copies / f"{picture.copy_name}.new").write_bytes(b"half")
    (copies / "of my own.new").write_bytes(b"mine")
    book.recover(work_out)
    assert sorted(path.name for path in copies.iterdir()) == sorted([picture.copy_name, "of my own.new"])
    assert [summary.id for summary in book.summaries()] == [NAME]
    assert book.messages == []
    assert told(add(book, blade), copies) == ["blade <1>.PNG; copied"]


def test_they_go_into_the_trash_and_come_back_with_their_sitting(
    book: Logbook, folder: Path, copies: Path, blade: Path
) -> None:
    add(book, blade)
    [copy] = copies.iterdir()
    trash = folder / "trash"
    book.delete(NAME)
    assert (not copies.exists(), (trash / NAME / copy.name).read_bytes()) == (True, png(90))
    assert book.undo() is not None
    assert told(book.load(NAME), copies) == ["blade <1>.PNG; copied"]
    assert not (trash / NAME).exists()
    # Killed when the sitting was moved out and they were not, which is as when they were moved back and it was not:
    book.delete(NAME)
    (trash / NAME).rename(copies)
    assert Logbook(folder).restore(NAME).id == NAME
    assert told(book.load(NAME), copies) == ["blade <1>.PNG; copied"]
    # Photographs that lie on both sides are put together.
    book.delete(NAME)
    shutil.copytree(trash / NAME, copies)
    (copies / copy.name).rename(copies / "of my own.png")
    book.restore(NAME)
    assert sorted(path.name for path in copies.iterdir()) == sorted([copy.name, "of my own.png"])
    (copies / "of my own.png").unlink()
    book.delete(NAME)
    (trash / NAME).rename(copies)
    book.empty_trash()
    assert not copies.exists(), "gone for good with its sitting, wherever the deletion left them"
    assert not trash.exists()


def test_a_page_has_the_copies_within_it_and_the_rest_by_name(
    book: Logbook, copies: Path, blade: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "img-src" not in export(book.load(NAME), "html", photographs=copies)
    add(book, blade, 1, 'no "crack" <b>')
    phone = tmp_path / "phone.heic"
    phone.write_bytes(b"\0\0\0\x18ftypheic")
    large, last, named = (tmp_path / f"{name}.png" for name in ("large", "last", "named"))
    for grey, path in enumerate((large, last, named)):
        path.write_bytes(png(grey))
    with large.open("ab") as file:
        file.write(bytes(5000))
    for path in (phone, large, last):
        add(book, path)
    kept = add(book, named, copied=False)
    monkeypatch.setattr("plans.logbook.exports.photographs._LARGEST", 4000)
    monkeypatch.setattr("plans.logbook.exports.photographs._LARGEST_OF_ALL", len(png(90)) + 10)
    page = export(kept, "html", photographs=copies)
    assert "img-src data:" in page
    [(source, alt)] = re.findall(r'<img src="data:image/png;base64,([^"]+)" alt="([^"]*)"', page)
    assert base64.b64decode(source) == png(90)
    assert alt == "Step 2, Normalize three heats: no &quot;crack&quot; &lt;b&gt;"
    for name, why in (
        ("phone.heic", "of a kind that few browsers show"),
        ("large.png", "too large for this page"),
        ("last.png", "too large for this page"),
        ("named.png", "not copied"),
    ):
        assert f"<figcaption>{name} ({why})</figcaption>" in page
    assert str(tmp_path) not in page, "where they lay is nobody's business"
    (copies / read_picture(str(blade)).copy_name).write_bytes(png(91))
    assert "its copy is damaged" in export(kept, "html", photographs=copies)
    assert '"size_bytes"' in export(kept, "json")


def test_a_picture_is_what_its_first_bytes_say() -> None:
    """File signatures: ISO 10918-1 and JFIF, PNG (W3C), GIF89a, WebP container (RFC 9649), ISO/IEC 23008-12."""
    assert kind_of(b"\xff\xd8\xff\xe0\0\x10JFIF") == "jpg"
    assert kind_of(b"GIF89a") == "gif"
    assert kind_of(b"RIFF\x24\0\0\0WEBPVP8 ") == "webp"
    assert kind_of(b"\0\0\0\x18ftypmif1") == "heic"
    assert kind_of(b"<svg xmlns='http://www.w3.org/2000/svg'>") is None
    assert not is_whole("../x.png", png(1))

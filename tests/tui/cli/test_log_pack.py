"""`heatbook log pack`, `unpack`, `import`: out of one home and into another, the same to the last byte."""

from __future__ import annotations

import json
import os
import re
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.logbook.archive.file import write_archive
from tests.png import png

if TYPE_CHECKING:
    from tests.tui.conftest import Ask

SHELF = Path(__file__).parents[3] / "plans" / "shelf"
PICTURE = "0123456789abcdef.png"
"""What the copy of a photograph may be called."""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ask: Ask) -> Path:
    """A home with a sitting that left a lesson, a plan of one's own, one that is not done, and a shop file."""
    home = tmp_path / "home"
    monkeypatch.setenv("HEATBOOK_HOME", str(home))
    rows = [f"{second / 4},{20 + 3.1 * second:.1f}," for second in range(80)]
    rows[30], rows[31], rows[-1] = "7.5,,", "7.75,rubbish,", "19.75,264.9,finish"
    (tmp_path / "made.csv").write_text("\n".join(["seconds,celsius,word", "0,20,next", *rows, ""]))
    said = ask("run", "normalize", "--no-screen", "--readings", str(tmp_path / "made.csv"))
    assert said.returncode == 0, said.stderr
    assert ask("log", "lesson", "add", "last", "sooner", "--step", "1").returncode == 0
    (home / "plans").mkdir()
    (home / "plans" / "my own.toml").write_bytes((SHELF / "normalize.toml").read_bytes())
    (home / "plans" / "not-done.toml").write_text('heatbook = 1\ntitle = "Later"\n')
    (home / "shop.toml").write_text("cooling_factor = 1.1\n")
    return home


def kept(home: Path) -> dict[str, bytes]:
    """What of a home a packed logbook holds, by its name in there."""
    files = [*(home / "logbook" / "sittings").rglob("*"), *(home / "plans").glob("*"), home / "shop.toml"]
    return {path.name: path.read_bytes() for path in files if path.is_file()}


def test_a_packed_logbook_comes_out_the_same_and_stands_beside_what_is_there(
    home: Path, tmp_path: Path, ask: Ask
) -> None:
    packed, other = tmp_path / "all.zip", tmp_path / "other"
    said = ask("log", "pack", str(packed))
    assert (said.returncode, said.stderr) == (0, "")
    assert "1 sitting, 2 plans of your own, and the shop file" in said.stdout
    before = packed.read_bytes()
    assert "stands there already" in ask("log", "pack", str(packed)).stderr
    assert packed.read_bytes() == before
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert "4 files taken in" in said.stdout
    assert "plans/not-done.toml" in said.stderr  # the smith's own, done or not; what is wrong with it is told
    assert kept(other) == kept(home)
    assert "sooner" in ask("log", "lesson", "list", HEATBOOK_HOME=str(other)).stdout
    assert ask("log", "pack", str(tmp_path / "again.zip"), HEATBOOK_HOME=str(other)).returncode == 0
    assert (tmp_path / "again.zip").read_bytes() == before

    (other / "shop.toml").write_text("cooling_factor = 1.2\n")
    (other / "plans" / "my own.toml").unlink()
    sitting = next((other / "logbook" / "sittings").glob("*.json"))
    sitting.unlink()
    (tmp_path / "elsewhere").write_bytes(b"another's")
    sitting.symlink_to(tmp_path / "elsewhere")
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert (said.returncode, said.stdout) == (1, "1 file taken in, 1 there already and the same, 2 refused\n")
    assert said.stderr.count("there already and is another") == 2
    assert (other / "shop.toml").read_text() == "cooling_factor = 1.2\n"
    assert (tmp_path / "elsewhere").read_bytes() == b"another's"


def _with(
    name: str, data: bytes = b"x", mode: int = 0o100600, squeezed: int = zipfile.ZIP_DEFLATED
) -> Callable[[zipfile.ZipFile], None]:
    def add(archive: zipfile.ZipFile) -> None:
        entry = zipfile.ZipInfo(name)
        entry.external_attr = mode << 16
        archive.writestr(entry, data, squeezed)

    return add


@pytest.mark.parametrize(
    ("spoil", "why"),
    [
        (_with("../../out.toml"), "holds ../../out.toml"),
        (_with("plans/../out.toml"), "holds plans/../out.toml"),
        (_with("/out.toml"), "holds /out.toml"),
        (_with("plans/..\\out.toml"), "which no archive"),
        (_with("sittings/link.json", b"/etc/passwd", 0o120777), "not what its list says"),
        (_with("SHOP.toml"), "which no archive"),
        (_with("sittings/bomb.json", bytes(65 << 20)), "larger than any file"),
        (_with(f"photographs/a/{PICTURE}"), "squeezed, or larger"),
        (_with(f"photographs/../{PICTURE}"), "which no archive"),
        (_with(f"photographs/a/../{PICTURE}"), "which no archive"),
        (_with(f"photographs/{PICTURE}"), "which no archive"),
        (_with("photographs/a/blade.png"), "which no archive"),
        (_with(f"photographs/a/{PICTURE}", b"/etc/passwd", 0o120777, zipfile.ZIP_STORED), "not what its list says"),
    ],
)
def test_an_archive_that_leads_elsewhere_or_holds_too_much_is_refused_whole(
    home: Path, tmp_path: Path, ask: Ask, spoil: Callable[[zipfile.ZipFile], None], why: str
) -> None:
    packed, other = tmp_path / "all.zip", tmp_path / "other"
    write_archive(packed, {"shop.toml": home / "shop.toml"})
    with zipfile.ZipFile(packed, "a") as archive:
        spoil(archive)
    before = {path for path in tmp_path.rglob("*") if other not in path.parents}
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert said.returncode == 1
    assert why in said.stderr
    assert "nothing of it is taken" in said.stderr
    assert kept(other) == {}
    assert {path for path in tmp_path.rglob("*") if other not in path.parents} - {other} == before - {other}


def test_photographs_go_along_and_come_only_with_their_sitting_and_as_what_they_are(
    home: Path, tmp_path: Path, ask: Ask
) -> None:
    packed, other = tmp_path / "all.zip", tmp_path / "other"
    (tmp_path / "blade.png").write_bytes(png(9))
    (tmp_path / "edge.png").write_bytes(png(8))
    for name, options in (("blade.png", ["--copy", "--step", "1", "--note", "even scale"]), ("edge.png", [])):
        assert ask("log", "photo", "last", str(tmp_path / name), *options).returncode == 0
    said = ask("log", "photo", "last", "--json")
    found = json.loads(said.stdout)
    assert [(one["copy"] is None, one["step"]) for one in found["photographs"]["kept"]] == [(False, 1), (True, None)]
    [copy] = Path(found["folder"]).iterdir()
    (copy.parent / "0123456789abcdef.png").write_bytes(png(7))
    said = ask("log", "pack", str(packed))
    assert "1 sitting, 1 photograph, 2 plans" in said.stdout
    assert "0123456789abcdef.png is damaged, and left out" in said.stderr
    (copy.parent / "0123456789abcdef.png").unlink()
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert (said.returncode, "5 files taken in" in said.stdout) == (0, True)
    assert kept(other) == kept(home)
    assert copy.name in kept(other)
    shown = ask("log", "show", "last", HEATBOOK_HOME=str(other)).stdout
    assert f"step 1: blade.png, even scale; copied: {other}" in shown
    assert f"edge.png; by name: {tmp_path / 'edge.png'}" in shown

    third = str(tmp_path / "third")
    [sitting] = (home / "logbook" / "sittings").glob("*.json")
    alone = ask("log", "import", str(sitting), "--yes", HEATBOOK_HOME=third)
    assert "without 1 photograph that only a packed logbook brings: blade.png" in alone.stdout
    assert "copied, but it is not there now" in ask("log", "photo", "last", HEATBOOK_HOME=third).stdout
    inside = f"photographs/{sitting.stem}"
    write_archive(tmp_path / "b.zip", {f"sittings/{sitting.name}": sitting, f"{inside}/{PICTURE}": copy})
    said = ask("log", "unpack", str(tmp_path / "b.zip"), HEATBOOK_HOME=third)
    assert "is not the picture that it is named by" in said.stderr
    write_archive(tmp_path / "c.zip", {f"{inside}/{copy.name}": copy})
    assert "as its sitting is not" in ask("log", "unpack", str(tmp_path / "c.zip"), HEATBOOK_HOME=third).stderr
    assert list(kept(tmp_path / "third")) == [sitting.name]
    assert "5 files taken in" not in ask("log", "unpack", str(packed), HEATBOOK_HOME=third).stdout
    assert kept(tmp_path / "third") == kept(home)


def test_a_photograph_is_taken_back_and_what_is_asked_for_wrongly_is_told(home: Path, tmp_path: Path, ask: Ask) -> None:
    (home / "blade.png").write_bytes(png(9))
    assert ask("log", "photo", "last").stdout == "there are no photographs\n"
    assert ask("log", "photo", "last", str(home / "blade.png"), "--copy").returncode == 0
    said = ask("log", "photo", "last", "--take-back", "1")
    assert said.stdout.startswith("its copy stays until you remove it: ")
    for words, why in (
        (["--take-back", "1"], "no photograph has the number 1"),
        (["--step", "1"], "--step: name the photograph's file"),
        ([str(tmp_path / "none.png")], "is not there"),
        ([str(home / "blade.png"), "--take-back", "1"], "leave one of them out"),
        ([str(home / "blade.png"), "--step", "9"], "only to step|to steps 1 to"),
    ):
        said = ask("log", "photo", "last", *words)
        assert (said.returncode != 0, said.stdout) == (True, "")
        assert re.search(why, said.stderr)


def _again(home: Path, last: str) -> Path:
    """The home's sitting once more, under an id of its own."""
    [sitting] = (home / "logbook" / "sittings").glob("*-normalize.json")
    other = sitting.with_stem(sitting.stem + last)
    other.write_bytes(sitting.read_bytes().replace(sitting.stem.encode(), other.stem.encode()))
    return other


def test_a_damaged_sitting_is_packed_as_it_is_and_named(home: Path, tmp_path: Path, ask: Ask) -> None:
    packed, other = tmp_path / "all.zip", tmp_path / "other"
    cut, newer, folder = _again(home, "-cut"), _again(home, "-newer"), _again(home, "-folder")
    cut.write_bytes(cut.read_bytes()[:4000])
    os.utime(cut, (1e9, 1e9))
    coming = _again(home, "-coming")
    coming.write_bytes(coming.read_bytes()[:4000])
    newer.write_text(newer.read_text().replace('"heatbook":', '"heatbook":9', 1))
    folder.unlink()
    folder.mkdir()
    said = ask("log", "pack", str(packed))
    assert said.returncode == 1
    assert "3 sittings, 2 plans" in said.stdout
    assert said.stdout.endswith("; read back, and the same, but for 2 sittings that can't be read\n")
    assert f"{cut} is damaged, and packed as it is: if you have a copy, put that in its place" in said.stderr
    assert f"{newer} was written by a newer heatbook, and packed as it is: unpack it with that one" in said.stderr
    assert f"{folder} can't be read, and is left out" in said.stderr
    assert f"{coming} is still being copied" in said.stderr
    with zipfile.ZipFile(packed) as archive:
        assert archive.read(f"sittings/{cut.name}") == cut.read_bytes()
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert (said.returncode, "4 files taken in" in said.stdout) == (1, True)
    assert f"sittings/{cut.name} was damaged before" in said.stderr
    assert f"sittings/{newer.name} was written by a newer heatbook" in said.stderr


@pytest.mark.parametrize("by", ["unpack", "import"])
def test_a_good_copy_takes_the_place_of_a_damaged_sitting_which_is_kept(
    home: Path, tmp_path: Path, ask: Ask, by: str
) -> None:
    [sitting] = (home / "logbook" / "sittings").glob("*-normalize.json")
    whole, packed, alone = sitting.read_bytes(), tmp_path / "all.zip", tmp_path / sitting.name
    assert ask("log", "pack", str(packed)).returncode == 0
    alone.write_bytes(whole)
    sitting.write_bytes(whole[:4000])
    coming = ask("log", by, str(packed if by == "unpack" else alone), *(["--yes"] if by == "import" else []))
    assert coming.returncode == 1, "it may be on its way yet"
    assert sitting.read_bytes() == whole[:4000]
    os.utime(sitting, (1e9, 1e9))
    assert "damaged" in ask("log", "list").stdout
    said = ask("log", by, str(packed if by == "unpack" else alone), *(["--yes"] if by == "import" else []))
    assert said.returncode == 0, said.stderr
    assert "was damaged, and a good copy takes its place" in said.stderr
    assert sitting.read_bytes() == whole
    assert [path.read_bytes() for path in sitting.parent.glob("*.bad*")] == [whole[:4000]]
    assert "damaged" not in ask("log", "list").stdout


def test_a_file_that_was_damaged_in_the_archive_is_named_and_the_others_come(
    home: Path, tmp_path: Path, ask: Ask
) -> None:
    packed, other = tmp_path / "all.zip", tmp_path / "other"
    files = {"plans/a.toml": SHELF / "normalize.toml", "shop.toml": home / "shop.toml"}
    write_archive(packed, files)
    data = bytearray(packed.read_bytes())
    data[data.index(b"plans/a.toml") + 100] ^= 1  # within what the plan was squeezed into
    packed.write_bytes(data)
    said = ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other))
    assert (said.returncode, said.stdout) == (1, "1 file taken in, 0 there already and the same, 1 refused\n")
    assert "plans/a.toml is damaged" in said.stderr
    packed.write_bytes(data[: len(data) // 2])
    assert "not copied whole" in ask("log", "unpack", str(packed), HEATBOOK_HOME=str(other)).stderr


def test_a_sitting_that_was_written_out_is_taken_in_as_it_was(home: Path, tmp_path: Path, ask: Ask) -> None:
    out, other = tmp_path / "out.json", str(tmp_path / "other")
    assert ask("log", "export", "last", "--to", "json", "--out", str(out)).returncode == 0
    value = json.loads(out.read_text())
    assert len(value["measured_seconds_celsius"]) > len(value["measured_faults"]) > 0
    said = ask("log", "import", str(out), HEATBOOK_HOME=other)
    assert "say --yes" in said.stderr
    assert kept(tmp_path / "other") == {}
    assert "with 1 lesson" in ask("log", "import", str(out), "--yes", HEATBOOK_HOME=other).stdout
    sitting = next((home / "logbook" / "sittings").glob("*.json"))
    assert kept(tmp_path / "other") == {sitting.name: sitting.read_bytes()}
    assert "there already, the same" in ask("log", "import", str(sitting), "--yes", HEATBOOK_HOME=other).stdout
    assert ask("log", "outcome", "last", "--rating", "4").returncode == 0
    assert "is another" in ask("log", "import", str(sitting), "--yes", HEATBOOK_HOME=other).stderr
    unread = json.loads(sitting.read_text())
    unread["sitting"]["1"]["plan"] |= {"source": "", "title": "x" * 1000}
    (tmp_path / "unread.json").write_text(json.dumps(unread))
    told = ask("log", "import", str(tmp_path / "unread.json"), HEATBOOK_HOME=other).stdout
    assert "its plan is none that this version reads" in told
    assert "x" * 201 not in told
    out.write_text(out.read_text().replace('"readings_before": 0', '"readings_before": 9', 1))
    assert "holds no sitting that can be read" in ask("log", "import", str(out), "--yes", HEATBOOK_HOME=other).stderr
    assert (
        "on your shelf now"
        in ask("log", "import", str(home / "plans" / "my own.toml"), "--yes", HEATBOOK_HOME=other).stdout
    )
    assert "my own" in ask("plan", "list", HEATBOOK_HOME=other).stdout


def test_what_calls_itself_what_leads_elsewhere_is_refused_before_it_is_asked_about(
    home: Path, tmp_path: Path, ask: Ask
) -> None:
    out = tmp_path / "out.json"
    assert ask("log", "export", "last", "--to", "json", "--out", str(out)).returncode == 0
    out.write_text(json.dumps(json.loads(out.read_text()) | {"id": "../../x\x1b[2J"}))
    plan = tmp_path / "x\x1b[2J.toml"
    plan.write_bytes((home / "plans" / "my own.toml").read_bytes())
    for file, why in ((out, "no id of one"), (plan, "call it anew"), (tmp_path / "all.zip", "`heatbook log unpack`")):
        answer = ask("log", "import", str(file))
        assert why in answer.stderr
        assert "\x1b" not in answer.stdout + answer.stderr
        assert answer.stdout == ""

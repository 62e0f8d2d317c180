"""What goes out and comes back: an archive, a document, rows, a page, of a sitting that has all that there can be."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from plans.logbook import KeptSitting, Logbook, measured_at
from plans.logbook.afterwards.label import Label
from plans.logbook.afterwards.lessons import Lesson, SittingLessons, Tie
from plans.logbook.afterwards.outcome import Flaw, Grain, Outcome, WeldOutcome
from plans.logbook.archive.file import open_archive
from plans.logbook.exports import export, read_exported
from plans.logbook.sitting_files import put_sitting
from plans.plan import StepKind
from plans.reading import ProbeOn
from plans.sitting import Word
from plans.units import Units
from tests.plans.logbook.exports.parsed import Page, rows

NOW = datetime(2026, 12, 3, 10, tzinfo=UTC)


@pytest.fixture
def full(eventful: Any) -> KeptSitting:
    """The eventful sitting, with a label, an outcome, lessons, and what was measured a week on."""
    lessons = (
        Lesson(1, "flux <sooner> & brush", Tie(kind=StepKind.WELD), 0, NOW),
        Lesson(2, "gone", Tie(title="Weld"), 0, NOW, changed=NOW, retired=NOW, put_into=("a-copy",)),
    )
    kept = replace(
        eventful.kept(),
        label=Label("Für Ansel", "gift", archived=True),
        outcome=Outcome((WeldOutcome(0, (Flaw.COLD_SHUT,)),), 0.002, 1.5, False, Grain.FINE, 4, NOW),
        lessons=SittingLessons(lessons, ("20250101-080000-x.1",)),
    )
    return measured_at(kept, 0, "w 39 t 11.5 l 205", Units.METRIC, NOW)


@pytest.fixture
def logbook(full: KeptSitting, tmp_path: Path) -> Iterator[Logbook]:
    """Three sittings; one of them is deleted, and beside one lies what was set aside."""
    folder = tmp_path / "logbook"
    (folder / "sittings").mkdir(parents=True)
    for day in (25, 26, 27):
        kept = replace(full, header=replace(full.header, id=f"202611{day}-091502-trial"))
        put_sitting(folder / "sittings" / f"{kept.header.id}.json", kept)
    (folder / "sittings" / "20261128-091502-trial.json.bad").write_bytes(b'{"sitting": {"1": {"sum')
    with closing(Logbook(folder)) as logbook:
        logbook.delete("20261127")
        yield logbook


def files_of(folder: Path) -> dict[str, bytes]:
    kept = [path for place in ("sittings", "trash") for path in (folder / place).glob("*")]
    return {str(path.relative_to(folder)): path.read_bytes() for path in kept}


def test_an_archive_brings_back_every_byte_and_takes_neither_trash_nor_what_was_set_aside(
    logbook: Logbook, full: KeptSitting, tmp_path: Path
) -> None:
    before, packed, other = files_of(tmp_path / "logbook"), tmp_path / "all.zip", tmp_path / "other"
    assert logbook.pack(tmp_path / "plans", tmp_path / "shop.toml", packed).sittings == 2
    assert files_of(tmp_path / "logbook") == before, "neither lost"
    with open_archive(packed) as archive:
        assert list(archive.listed) == [f"sittings/202611{day}-091502-trial.json" for day in (25, 26)]
    with closing(Logbook(other)) as another:
        took = another.unpack(tmp_path / "its-plans", tmp_path / "its-shop.toml", packed, lambda _: [])
        assert (len(took.new), took.refused) == (2, ())
        assert files_of(other) == {name: before[name] for name in took.new}
        back = another.load("20261125")
        assert back.label == full.label
        assert back.outcome == full.outcome
        assert back.lessons == full.lessons
        assert back.measured_later == full.measured_later
        assert another.deleted() == []


def test_what_was_written_out_as_json_is_taken_in_as_the_same_sitting(full: KeptSitting, tmp_path: Path) -> None:
    out, its_file = tmp_path / "sitting.json", tmp_path / f"{full.header.id}.json"
    put_sitting(its_file, full)
    out.write_text(export(full, "json"), encoding="utf-8")
    kept, data = read_exported(out)
    assert json.loads(data) == json.loads(its_file.read_bytes())
    assert (kept.misfit, kept.unread) == ("", "")
    assert export(kept, "json") == out.read_text(encoding="utf-8")


def test_rows_have_every_reading_of_the_log_and_no_other(tell: Callable[..., Any]) -> None:
    """Times to the millisecond, temperatures to the tenth of a degree."""
    story = tell(ProbeOn.WORK).wait(0.3).say(Word.NEXT).feel(1001.26, 2, 0.3).feel(None, 1, fault="open circuit")
    kept = story.feel(-3.14, 1).say(Word.FINISH).kept()
    told = [row for row in rows(kept) if row["celsius"]]
    readings = list(kept.log.readings)
    assert len(told) == len(readings) == 7 + 4 + 4
    for row, reading in zip(told, readings, strict=True):
        assert float(row["seconds"]) == pytest.approx(reading.at, abs=0.0005)
        if reading.kelvin is None:
            assert row["celsius"] == reading.fault
        else:
            assert float(row["celsius"]) == pytest.approx(reading.kelvin - 273.15, abs=0.051)


def test_a_page_is_whole_and_says_the_figures_of_the_document(full: KeptSitting) -> None:
    page, told = Page(export(full, "html")), json.loads(export(full, "json"))
    ids = Counter(attributes["id"] for _, attributes in page.tags if "id" in attributes)
    assert set(ids.values()) == {1}
    used = {(attributes.get("href") or "").removeprefix("#") for tag, attributes in page.tags if tag == "a"}
    used |= {
        (attributes["clip-path"] or "")[len("url(#") : -1] for _, attributes in page.tags if "clip-path" in attributes
    }
    assert used == set(ids), "each leads somewhere, and nothing is marked that nothing leads to"
    cells = page.texts["td"]
    heats = [heat for step in told["steps"] for heat in step["heats"]]
    assert len(heats) == 2
    places = count()
    for heat in heats:
        number = next(place for place in places if cells[place] == str(heat["heat"]))
        shown = cells[number : number + 10]
        for key in ("leaving_celsius", "peak_celsius"):
            assert f"{heat[key]:.0f} °C" in shown, key
        minutes, seconds = divmod(round(heat["in_fire_seconds"]), 60)
        assert f"{minutes}:{seconds:02d}" in shown
    assert [text.partition(" at ")[0] for text in page.texts["a"]] == [
        one["text"].replace("degC", "°C") for one in told["stands_out"]
    ]
    body = page.texts["body"][0]
    assert page.texts["h1"] == ["Für Ansel"]
    for said in ("cold shut", "warp: 2 mm", "rating: 4 of 5", "flux <sooner> & brush", "39 x 11.5 mm"):
        assert said in body

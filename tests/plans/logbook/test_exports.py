"""Sittings written out: rows that run again, a document, and a page that harms nobody."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, strategies as st

from devices.recording import read_recording
from plans.logbook.exports import document, export
from plans.logbook.exports.rows import COLUMNS
from plans.logbook.exports.style import DARK, LIGHT, PRINT
from plans.logbook.figures_record import to_record
from plans.logbook.heats import heat_figures
from plans.logbook.kept_sitting import KeptSitting, Progress
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Called, Said, Tick, WentOn, Word
from plans.sitting.words import WordError, parse_word
from plans.text import plain
from plans.trace import Trace

Tell = Callable[..., Any]
NEXT, OUT, UNDO, FINISH = Word.NEXT, Word.OUT, Word.UNDO, Word.FINISH
WORK = ProbeOn.WORK
HOSTILE = '</pre><script>alert(1)</script><img src=x onerror="a()">&lt; \x1b[2J \u202e "quoted" \'so\' \ud800'


def rows(kept: KeptSitting) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(export(kept, "csv"))))


@pytest.fixture
def eventful(tell: Tell) -> Any:
    """Two weld heats with everything that can happen: notes, undo, a pause, faults, a spell without the probe."""
    story = tell(WORK).say(NEXT).feel(1000, 10).feel(1260, 70).say('tongs slip, "again"\n=SUM(A1)', OUT)
    story.feel(1200, 4).feel(1120, 6).say(UNDO, OUT).feel(1100, 3).feel(None, 1, fault="open circuit").say(NEXT)
    story.feel(1260, 20).say(Word.PAUSE).wait(5).say(Word.RESUME).wait(30).feel(None, 0.25, fault="lost: unplugged")
    return story.feel(1255, 10).say(NEXT).feel(1180, 5).say(FINISH, "took well")


# Rows


def test_rows_by_hand(tell: Tell) -> None:
    story = tell(WORK).feel(20.04, 0.5).say(NEXT).feel(21, 0.25).feel(None, 0.25, fault="open").say("hot, and =1+1")
    text = export(story.kept(Progress.UNFINISHED), "csv")
    assert text.splitlines() == [
        "seconds,celsius,word,step,heat,phase,call,skin_celsius,middle_celsius",
        "0,,,1,1,ready,,,",
        "0.25,20,,1,1,ready,,,",
        "0.5,20,,1,1,ready,,,",
        "0.5,,next,1,1,ready,,,",
        "0.5,,,1,1,fire,,,",
        "0.75,21,,1,1,fire,,,",
        "1,open,,1,1,fire,,20,20",
        '1,,"note hot, and =1+1",1,1,fire,,20,20',
    ]
    assert text.endswith("\n")
    assert "\r" not in text


def test_a_call_stands_in_its_own_row_and_undo_in_the_phase_in_which_it_was_said(eventful: Any) -> None:
    found = rows(eventful.kept())
    # 1120 from 84.25 on is below the limit of 1150 once three of five are, and has been seen to be three times.
    called = [row for row in found if row["call"] == "too cold"]
    assert len(called) == 2
    assert 85 < float(called[0]["seconds"]) < 89
    assert (called[0]["heat"], called[0]["phase"], called[0]["word"]) == ("1", "strike", "")
    undone = next(index for index, row in enumerate(found) if row["word"] == "undo")
    assert (found[undone]["phase"], found[undone + 1]["word"], found[undone + 1]["phase"]) == ("strike", "out", "soak")


def test_every_row_has_every_column_and_none_begins_like_a_formula(eventful: Any) -> None:
    for fault in ("=cmd|' /C calc'!A0", "+1", "-1+1", "@SUM(A1)", "\t=1", "9.9E37", "NaN", "", "ß"):
        eventful.sitting.state.ended_at = None
        eventful.feel(None, 0.25, fault=fault).say(f"{fault} seen")
    text = export(eventful.kept(), "csv")
    for row in csv.reader(StringIO(text)):
        assert len(row) == len(COLUMNS)
        for cell in row:
            assert re.fullmatch(r"(-?[0-9.]+|[A-Za-z].*)?", cell), cell
    assert text.count("\n") == len(rows(eventful.kept())) + 1, "a row a line, whatever a note holds"


def test_faults_are_read_again_as_faults(eventful: Any, tmp_path: Path) -> None:
    faults = ["lost: unplugged", "=1+1", "9.9E37", "NaN", "none", "", "open\ncircuit"]
    for fault in faults:
        eventful.feel(None, 0.25, fault=fault)
    path = tmp_path / "sitting.csv"
    path.write_text(export(eventful.kept(), "csv"), encoding="utf-8")
    again = [entry for entry in read_recording(path) if isinstance(entry, Reading)]
    measured = eventful.sitting.measured
    assert [(entry.at, entry.kelvin is None) for entry in again] == [(one.at, one.kelvin is None) for one in measured]
    shown = ["lost: unplugged", "fault =1+1", "fault 9.9E37", "fault NaN", "fault none", "missing", "open circuit"]
    assert [entry.fault for entry in again[-len(faults) :]] == shown


def test_without_a_probe_the_warm_model_has_a_row_a_second_while_it_changes(tell: Tell) -> None:
    found = rows(tell().wait(30).say(NEXT).wait(100).say(OUT).wait(0.3).say(FINISH).kept())
    own = [row for row in found if not row["word"] and 30.5 < float(row["seconds"]) < 129.5]
    assert [float(row["seconds"]) for row in own] == [*range(31, 130)]
    skins = [float(row["skin_celsius"]) for row in own]
    assert skins == sorted(skins)
    assert all(row["celsius"] == "" for row in found)
    # Nothing changes before the fire but that the model begins.
    assert len([row for row in found if 1 <= float(row["seconds"]) < 30]) == 1


def test_the_warm_model_speaks_up_where_the_probe_is_silent(tell: Tell) -> None:
    found = rows(tell(WORK).say(NEXT).feel(1000, 20).wait(15).feel(1000, 5).say(FINISH).kept())
    own = [float(row["seconds"]) for row in found if row["seconds"] != "0" and not (row["celsius"] or row["call"])]
    assert own[:-1] == [26.0, 27.0, 28.0, 29.0, 30.0, 31.0, 32.0, 33.0, 34.0, 35.0]


def test_an_unfinished_sitting_is_told_to_its_last_second(tell: Tell) -> None:
    """The warm model of a running sitting has come further than its last entry."""
    kept = tell().say(NEXT, Word.ON, Word.ON, Word.ON).kept(Progress.UNFINISHED)
    trace = Trace(Reading(at, 293.15) for at in (1.0, 2.0, 3.0, 40.0))
    assert [row["seconds"] for row in rows(replace(kept, skin=trace, middle=trace))][-2:] == ["1", "40"]


GAPS = st.one_of(st.floats(0.0, 3.0), st.floats(0.0, 200.0), st.sampled_from([0.0, 0.25, 0.5, 1.0, 5.0]))
FAULTS = st.sampled_from(["open", "lost: unplugged", "out of range", "=1", "missing"])
STREAMS = st.lists(
    st.tuples(
        GAPS,
        st.one_of(
            st.sampled_from([word for word in Word if word is not Word.NOTE]),
            st.just(NEXT),
            st.text('ab ,;"=\n\r\x1b', min_size=1, max_size=8).filter(str.strip),
            st.tuples(st.floats(20.0, 1400.0), st.integers(1, 60)),
            FAULTS.map(lambda fault: (fault, 1)),
        ),
    ),
    max_size=30,
)


@given(stream=STREAMS, probe_on=st.sampled_from([None, ProbeOn.WORK, ProbeOn.FIRE]))
def test_rows_run_again_give_the_same_heats_and_calls(
    trial: Plan, telling: Any, tmp_path_factory: Any, stream: list[tuple[float, Any]], probe_on: ProbeOn | None
) -> None:
    story = telling(Sitting(trial, probe_on))
    for gap, what in stream:
        story.wait(gap)
        try:
            if isinstance(what, tuple):
                value, count = what
                spoken = (None, value) if isinstance(value, str) else (value, None)
                if probe_on is not None:
                    story.feel(spoken[0], count * 0.25, fault=spoken[1])
            else:
                story.say(what)
        except WordError:
            story.wait(0)
    if not story.sitting.state.finished:
        story.say(FINISH)

    path = tmp_path_factory.mktemp("rows") / "sitting.csv"
    path.write_text(export(story.kept(), "csv"), encoding="utf-8", newline="")
    again = Sitting(trial, probe_on)
    again.open()
    for entry in read_recording(path):
        again.take(entry)
    first, second = heat_figures(story.sitting), heat_figures(again)
    assert second.steps == first.steps
    assert again.state.calls == story.sitting.state.calls
    assert [note.at for note in second.notes] == [note.at for note in first.notes]
    assert again.measured.times == story.sitting.measured.times


@given(typed=st.text(st.characters(codec=None, categories=None), max_size=40).filter(lambda text: plain(text).strip()))
def test_a_note_in_the_rows_is_read_again_as_it_was_kept(
    trial: Plan, telling: Any, tmp_path_factory: Any, typed: str
) -> None:
    """Typed on the screen, typed on a line, or written out and read: one rule says what becomes of it."""
    kept = telling(Sitting(trial, None)).say(plain(typed).strip()).kept(Progress.UNFINISHED)
    path = tmp_path_factory.mktemp("rows") / "sitting.csv"
    path.write_text(export(kept, "csv"), encoding="utf-8", newline="")
    again = [entry for entry in read_recording(path) if isinstance(entry, Said) and entry.word is Word.NOTE]
    assert [said.text for said in again] == [plain(typed).strip()]
    assert parse_word(f"note {typed}", 0.0).text == plain(typed).strip()


# The document


def test_the_document_is_what_log_show_prints_and_more(eventful: Any) -> None:
    kept = eventful.kept()
    told = json.loads(export(kept, "json"))
    assert kept.outline().items() <= told.items()
    assert told["plan_source"] == kept.header.source
    events = [event["event"] for event in told["events"]]
    assert events.count("word") == sum(isinstance(event, Said) for event in kept.log.events)
    readings = told["measured_seconds_celsius"]
    assert readings[0] == [0.25, 1000.0]
    assert len(readings) == len(kept.log.readings)
    lost = [fault for fault in told["measured_faults"] if fault["fault"].startswith("lost")]
    assert lost
    assert [lost[0]["at_seconds"], None] in readings
    skin = told["modelled_skin_seconds_celsius"]
    assert [at for at, _ in skin[:3]] == [1.0, 2.0, 3.0]
    assert all(20 <= celsius <= 1300 for _, celsius in skin)


def test_every_key_of_the_document_is_described(eventful: Any) -> None:
    text = export(eventful.kept(), "json")
    for key in json.loads(text):
        assert f"`{key}`" in (document.__doc__ or "")
    assert text.isascii()
    long = [line for line in text.splitlines() if len(line) > 2000]
    assert len(long) == 3, "each trace on a line of its own"


def test_where_no_section_is_known_the_model_has_no_temperature(tell: Tell) -> None:
    bench = read_plan('heatbook = 1\ntitle = "B"\n[[step]]\ntitle = "Look"\nkind = "bench"\n', "bench", "bench.toml")
    kept = tell(None, bench).wait(3).say(FINISH).kept()
    told = json.loads(export(kept, "json"))
    assert told["modelled_skin_seconds_celsius"] == [[1.0, None], [2.0, None], [3.0, None]]
    assert {row["skin_celsius"] for row in rows(kept)} == {""}
    assert "curve" not in {element.get("class") for element in pictures(export(kept, "html"))[0].iter()}


# The page


class _Page(HTMLParser):
    """Notes what a browser would see; void elements end by themselves."""

    VOID = frozenset({"meta"})

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.texts: dict[str, list[str]] = {}
        self.feed(text)
        self.close()
        assert self.open == [], "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)
            self.texts.setdefault(tag, []).append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in set(self.open):
            self.texts[tag][-1] += data

    def classes(self, name: str) -> int:
        return sum(name in (attrs.get("class") or "").split() for _, attrs in self.tags)


def pictures(text: str) -> list[ElementTree.Element]:
    found = re.search(r'<div class="strips">(.*?)</div>', text, re.DOTALL)
    assert found
    return list(ElementTree.fromstring(f"<all>{found[1]}</all>"))


def test_the_page_tells_the_sitting(eventful: Any) -> None:
    kept = eventful.kept()
    page = _Page(export(kept, "html"))
    assert page.texts["h1"] == ["A trial <b>& more"]
    assert page.texts["title"][0] == "A trial <b>& more, 2026-11-25"
    body = page.texts["body"][0]
    assert "25 November 2026, 09:15" in body
    assert "finished" in body
    assert page.texts["pre"][0].strip() == kept.header.source.strip()
    assert 'tongs slip, "again"\n=SUM(A1)' in page.texts["td"]
    assert page.texts["h2"] == ["Trace", "Heats", "How the work cooled", "Calls", "Notes", "Plan"]
    assert page.texts["h3"] == ["1 Weld"]
    heats = to_record(heat_figures(eventful.sitting))["steps"][0]["heats"]
    assert f"{heats[0]['leaving_celsius']:.0f} °C" in page.texts["td"]
    assert page.texts["td"].count("too cold") == 2


def test_the_trace_has_its_heats_limits_calls_and_notes(eventful: Any) -> None:
    (strip,) = pictures(export(eventful.kept(), "html"))
    kinds = [element.get("class") for element in strip.iter()]
    assert kinds.count("heat") == 2, "two stays in the fire; what was undone has none of its own"
    # One line for each limit as long as it counts, as on the live trace: through the whole step, all three;
    # and its name where it begins.
    assert (kinds.count("limit cold"), kinds.count("limit burn"), kinds.count("limit heat-to")) == (2, 2, 2)
    assert kinds.count("alarm cold") == 2
    assert kinds.count("curve measured") >= 1
    assert kinds.count("note") == 4, "a circle and a number each"
    for place in strip.iter("rect"):
        assert float(place.get("width", "0")) > 0


@pytest.mark.parametrize("call", list(Call))
def test_every_call_has_its_mark_on_the_trace_and_in_its_legend(tell: Tell, call: Call) -> None:
    kept = tell(WORK).say(NEXT).feel(1000, 20).kept(Progress.UNFINISHED)
    log = Log([*kept.log, Called(20.0, call, 0, 1, 1273.15, Basis.MEASURED)])
    page = _Page(export(replace(kept, log=log), "html"))
    assert any(f"0:20 {call.value}, 1000 °C measured" in text for text in page.texts["title"])
    assert call.value in page.texts["figcaption"][0]


def test_the_page_tells_what_came_of_the_forecasts(tell: Tell) -> None:
    kept = tell(WORK).say(NEXT).feel(1240, 100).say(OUT).feel(1200, 6).feel(1140, 8).say(NEXT).feel(1240, 60).kept()
    (stay,) = kept.figures.learned.stays
    # Of five readings four times a second round 6.25 s, the third is the first of 1140: half of the way to 1150 on.
    assert stay.happened == pytest.approx(6.2, abs=0.06)
    text = _Page(export(kept, "html"))
    assert "How the work cooled" in text.texts["h2"]
    cells = text.texts["td"]
    assert f"{stay.forecast:.0f} s" in cells
    assert "6 s" in cells
    none = replace(kept, figures=replace(kept.figures, learned=None))
    assert "How the work cooled" not in export(none, "html")


def test_nothing_is_fetched_run_or_let_out_of_its_place(tell: Tell) -> None:
    kept = tell(WORK).say(HOSTILE, NEXT).feel(1000, 20).say(FINISH).kept()
    head = replace(kept.header, title=HOSTILE, source=HOSTILE, profile=HOSTILE, port=HOSTILE)
    steps = tuple(replace(step, title=HOSTILE) for step in kept.figures.steps)
    kept = replace(kept, header=head, figures=replace(kept.figures, steps=steps))
    text = export(kept, "html")
    text.encode("utf-8")
    assert all(char.isprintable() or char == "\n" for char in text)
    page = _Page(text)
    assert not {tag for tag, _ in page.tags} & {"script", "img", "link", "iframe", "a", "object", "form", "base"}
    for _, attributes in page.tags:
        assert not [name for name in attributes if name.startswith("on") or name in ("href", "src", "xlink:href")]
    assert not re.search(r"@import|url\((?!#)|https?:", page.texts["style"][0])
    shown = HOSTILE.replace("\x1b", "\ufffd").replace("\u202e", "\ufffd").replace("\ud800", "\ufffd")
    assert page.texts["h1"] == [shown]
    assert shown in page.texts["td"]
    assert page.texts["h3"] == [f"1 {shown}"]
    assert page.texts["pre"] == [shown]


def test_a_plan_that_cannot_be_read_any_more_costs_limits_and_titles_only(eventful: Any) -> None:
    kept = eventful.kept()
    kept = replace(kept, header=replace(kept.header, source="no plan"), figures=None)
    text = export(kept, "html")
    assert "could not be worked out" in text
    (strip,) = pictures(text)
    kinds = [element.get("class") for element in strip.iter()]
    assert (kinds.count("heat"), kinds.count("limit cold")) == (2, 0)


def test_hours_between_two_halves_are_left_out_of_the_drawing(tell: Tell) -> None:
    story = tell().say(NEXT).wait(600).say(OUT)
    away = 3 * 3600.0
    story.at += away
    story.entries += story.sitting.take(WentOn(story.at))
    story.say(NEXT).wait(300).say(FINISH)
    kept = story.kept()
    kept = replace(kept, header=kept.header.gone_on(600 + away, kept.header.started + timedelta(hours=4)))
    strips = pictures(export(kept, "html"))
    assert len(strips) == 2
    titles = [strip.findtext("title") or "" for strip in strips]
    assert titles[0].startswith("Trace from 0 s to 10 min"), "with the call that came when nobody was there any more"
    assert titles[1] == "Trace from 3 h 10 min to 3 h 15 min, begun at 13:15"
    clocks = [text.text for text in strips[1].iter("text") if text.get("class") == "clock"]
    assert clocks[0] == "3:10:00"


def test_a_long_sitting_is_cut_into_strips_on_one_scale(tell: Tell) -> None:
    story = tell().say(NEXT)
    for _ in range(8):
        story.wait(600)
    strips = pictures(export(story.say(FINISH).kept(), "html"))
    assert [strip.findtext("title") for strip in strips] == [
        "Trace from 0 s to 40 min, begun at 09:15",
        "Trace from 40 min to 1 h 20 min, begun at 09:55",
    ]
    assert len({strip.get("viewBox") for strip in strips}) == 1


def test_a_sitting_that_was_left_at_once_has_a_page_too(tell: Tell) -> None:
    for kept in (tell().kept(Progress.UNFINISHED), replace(tell().kept(Progress.UNFINISHED), log=Log())):
        page = _Page(export(kept, "html"))
        assert "unfinished" in page.texts["body"][0]
        assert page.texts["h2"] == ["Trace", "Heats", "Plan"]


def _luminance(colour: str) -> float:
    channels = [int(colour[index : index + 2], 16) / 255 for index in (1, 3, 5)]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in channels]
    return sum(weight * share for weight, share in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize("colours", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])
def test_all_that_is_written_is_legible(colours: dict[str, str]) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    for paper in ("paper", "heat"):
        for ink in ("ink", "quiet", "ember", "cold", "burn"):
            dark, light = sorted((_luminance(colours[paper]), _luminance(colours[ink])))
            assert (light + 0.05) / (dark + 0.05) >= 4.5, (paper, ink)


def test_there_is_no_other_form(eventful: Any) -> None:
    with pytest.raises(ValueError, match="csv, json, html"):
        export(eventful.kept(), "pdf")


def test_ticks_and_words_are_all_that_rows_without_a_temperature_are(eventful: Any, tmp_path: Path) -> None:
    path = tmp_path / "sitting.csv"
    path.write_text(export(eventful.kept(), "csv"), encoding="utf-8")
    entries = list(read_recording(path))
    assert {type(entry) for entry in entries} == {Reading, Said, Tick}
    assert sum(isinstance(entry, Reading) for entry in entries) == len(eventful.sitting.measured)

"""The tables of a page."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.exports import export
from plans.logbook.exports.tables import call_table, cooling_table, heat_tables, note_table
from plans.logbook.figures.of_a_sitting import Factor, Learned
from plans.logbook.log import Log
from plans.logbook.reviewing.looking_back import LookingBack
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.summary import Progress
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Word
from plans.units import Units, kelvin
from tests.plans.logbook.exports.parsed import Page

Tell = Callable[..., Any]
NEXT, OUT, FINISH = Word.NEXT, Word.OUT, Word.FINISH
WORK = ProbeOn.WORK


def test_the_page_tells_what_came_of_the_forecasts(tell: Tell) -> None:
    kept = tell(WORK).say(NEXT).feel(1240, 100).say(OUT).feel(1200, 6).feel(1140, 8).say(NEXT).feel(1240, 60).kept()
    (stay,) = kept.figures.learned.stays
    # Of five readings four times a second round 6.25 s, the third is the first of 1140: half of the way to 1150 on.
    assert stay.happened == pytest.approx(6.2, abs=0.06)
    text = Page(export(kept, "html"))
    assert "How the skin cooled" in text.texts["h2"]
    cells = text.texts["td"]
    told = stay.forecast
    assert told.least < told.likely < told.most
    assert f"{told.likely:.0f} s ({told.least:.0f} to {told.most:.0f})" in cells
    assert "6 s" in cells
    none = replace(kept, figures=replace(kept.figures, learned=None))
    assert "How the skin cooled" not in export(none, "html")


def test_a_page_tells_both_factors(tell: Tell) -> None:
    kept = tell(WORK).say(NEXT).kept()
    learned = Learned(Factor(1.2, 0.03, 1.0, 4), Factor(1.8, None, 1.1, 1), ())
    told = "".join(cooling_table(Timeline.of(replace(kept, figures=replace(kept.figures, learned=learned)))))
    assert (
        "Cooling factor 1.20 ± 0.03 from 4 stays outside the fire, fitted to the probe; the sitting went by 1.00"
        in told
    )
    assert "Contact factor 1.80 from one stay outside the fire, fitted to the probe; the sitting went by 1.10" in told


def cells(markup: Iterable[str]) -> list[list[str]]:
    return [
        re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", row, re.DOTALL)
        for row in "".join(markup).split("</tr>")
        if "<td" in row and "<thead" not in row
    ]


def test_a_note_is_numbered_and_says_where_it_was_left(tell: Tell) -> None:
    story = tell().wait(5).say("cold & <b>early</b>", NEXT, OUT).wait(60).say(NEXT).wait(10).say("second")
    assert cells(note_table(Timeline.of(story.kept(Progress.UNFINISHED)))) == [
        ["1", "0:05", "1", "1", "cold &amp; &lt;b&gt;early&lt;/b&gt;"],
        ["2", "1:15", "1", "2", "second"],
    ]


def test_a_call_has_its_temperature_in_the_units_that_are_set_and_none_where_it_is_about_none(tell: Tell) -> None:
    kept = tell(WORK).say(NEXT).kept(Progress.UNFINISHED)
    calls = [Called(61.0, Call.TOO_COLD, 0, 2, kelvin(1000.0), Basis.MEASURED), Called(62.0, Call.PROBE_LOST, 1, 1)]
    timeline = Timeline.of(replace(kept, log=Log([*kept.log, *calls])))
    # 1000 degC * 9/5 + 32 = 1832 degF
    for units, shown in ((Units.METRIC, "1000 °C"), (Units.INCH, "1832 °F")):
        assert cells(call_table(timeline, units)) == [
            ["1:01", "too cold", "1", "2", f"{shown}, measured"],
            ["1:02", "probe lost", "2", "1", ""],
        ]


def test_where_nothing_was_called_or_noted_there_is_no_table(tell: Tell) -> None:
    timeline = Timeline.of(tell().kept(Progress.UNFINISHED))
    assert [*call_table(timeline, Units.METRIC), *note_table(timeline), *cooling_table(timeline)] == []


def test_a_step_has_what_it_was_to_reach_beside_what_came_of_it(tell: Tell) -> None:
    """The plan: weld to 40 x 12 mm, draw to 40 x 6 mm and 230 mm of length."""
    story = tell().say(NEXT).wait(60).say(OUT, Word.ON).wait(60).say(OUT, FINISH)
    told = cells(heat_tables(LookingBack.of(Timeline.of(story.kept())), Units.METRIC))
    nobody_measured = "not measured, taken as planned"
    assert [row for row in told if row[0] in ("section", "length")] == [
        ["section", "40 x 12 mm", nobody_measured],
        ["section", "40 x 6 mm", nobody_measured],
        ["length", "230 mm", nobody_measured],
    ]

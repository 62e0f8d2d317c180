"""The strips that a page cuts a sitting into."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest

from plans.logbook.exports import export
from plans.logbook.exports.strips import limit_stretches, strips
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.summary import Progress
from plans.reader import read_plan
from plans.sitting.events import WentOn, Word
from plans.units import celsius
from tests.plans.logbook.exports.parsed import Page, pictures

Tell = Callable[..., Any]
NEXT, OUT, FINISH = Word.NEXT, Word.OUT, Word.FINISH


def test_hours_between_two_halves_are_left_out_of_the_drawing(tell: Tell) -> None:
    story = tell().say(NEXT).wait(600).say(OUT)
    away = 3 * 3600.0
    story.at += away
    story.entries += story.sitting.take(WentOn(story.at, away_since=600.0))
    story.say(NEXT).wait(300).say(FINISH)
    kept = story.kept()
    kept = replace(kept, header=kept.header.gone_on(600 + away, kept.header.started + timedelta(hours=4)))
    drawn = pictures(export(kept, "html"))
    assert len(drawn) == 2
    titles = [strip.findtext("title") or "" for strip in drawn]
    assert titles[0].startswith("Trace from 0 s to 10 min")
    assert titles[1] == "Trace from 10 min to 15 min, begun at 13:15"
    clocks = [text.text for text in drawn[1].iter("text") if text.get("class") == "clock"]
    assert clocks[0] == "10:00"
    page = Page(export(kept, "html"))
    assert "At 10:00 gone on with after 3 h 50 min, on 2026-11-25 at 13:15" in page.texts["p"]
    assert "15:00" in page.texts["dd"], "the whole sitting"


def test_a_long_sitting_is_cut_into_strips_on_one_scale(tell: Tell) -> None:
    story = tell().say(NEXT)
    for _ in range(8):
        story.wait(600)
    drawn = pictures(export(story.say(FINISH).kept(), "html"))
    assert [strip.findtext("title") for strip in drawn] == [
        "Trace from 0 s to 30 min, begun at 09:15",
        "Trace from 30 min to 1 h, begun at 09:45",
        "Trace from 1 h to 1 h 20 min, begun at 10:15",
    ]
    clocks = [
        [float(text.get("x", "")) for text in strip.iter("text") if text.get("class") == "clock"] for strip in drawn
    ]
    assert [len(places) for places in clocks] == [7, 7, 5], "one every five minutes"
    apart = clocks[0][1] - clocks[0][0]
    assert all(right - left == pytest.approx(apart, abs=0.2) for places in clocks for left, right in pairwise(places))


def test_the_drawing_is_cut_where_nobody_stood_at_the_work_and_goes_on_where_time_did(tell: Tell) -> None:
    """Nothing shorter than a minute is drawn."""
    story = tell().say(NEXT).wait(100).say("a note")
    for away_since in (None, 749.0):
        story.at += 599.0
        story.entries += story.sitting.take(WentOn(story.at, away_since=away_since))
        story.wait(50).say("a note")
    timeline = Timeline.of(story.kept(Progress.UNFINISHED))
    # Note at 100 s; back at 699 s, note at 749 s; back at 1348 s, note at 1398 s.
    parts, longest = strips(timeline)
    assert parts == [(0.0, 749.0), (1348.0, 1408.0)]
    assert longest >= 749.0


def test_a_limit_is_one_stretch_through_fire_soak_and_anvil_and_none_where_the_smith_is_awaited(tell: Tell) -> None:
    """The plan's first step: cold limit 1150, heat to 1250, burn limit 1320 degC."""
    story = tell().wait(10).say(NEXT).wait(20).say(NEXT).wait(30).say(OUT).wait(5).say(FINISH)
    found = limit_stretches(Timeline.of(story.kept()))
    assert {(limit.name.value, round(celsius(limit.kelvin)), limit.began, limit.ended) for limit in found} == {
        ("cold", 1150, 10.0, 65.0),
        ("heat to", 1250, 10.0, 65.0),
        ("burn", 1320, 10.0, 65.0),
    }


TEMPER = """
heatbook = 1
title = "Temper"

[[step]]
title = "Temper"
kind = "temper"
section = "30 x 4 mm"
heats = 1

[step.oven]
at = "200 degC"
for = "2 h"
"""


def test_hours_in_an_oven_in_which_nothing_happens_are_said_and_not_drawn(tell: Tell) -> None:
    plan = read_plan(TEMPER, "temper", "temper.toml")
    calm = tell(None, plan).say(NEXT).wait(7100).say(NEXT, FINISH).kept()
    page = export(calm, "html")
    [(times, least, most)] = re.findall(r'<p class="about">(.*) in the oven, (\d+) to (\d+) °C: not drawn</p>', page)
    assert times == "20:00 to 1:53:20", "from 20 min after it went in to 5 min before it came out"
    assert 195 <= int(least) <= int(most) == 200
    drawn = [element for element in pictures(page) if element.tag == "svg"]
    assert [strip.findtext("title") for strip in drawn] == [
        "Trace from 0 s to 20 min, begun at 09:15",
        "Trace from 1 h 53 min 20 s to 1 h 58 min 20 s, begun at 11:08",
    ]
    noted = tell(None, plan).say(NEXT).wait(2500).say("smells").wait(2500).say("sooty").wait(2100).say(NEXT, FINISH)
    assert "not drawn" not in export(noted.kept(), "html"), "no long stretch without an event is left"

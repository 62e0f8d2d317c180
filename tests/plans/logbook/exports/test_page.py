"""A sitting as a page that harms nobody."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from plans.logbook.exports import export
from plans.logbook.figures.heats import heat_figures
from plans.logbook.figures.kept import figures_to_record
from plans.logbook.log import Log
from plans.logbook.summary import Progress
from plans.reading import ProbeOn
from plans.sitting.events import Word
from tests.plans.logbook.exports.parsed import Page, pictures

Tell = Callable[..., Any]
NEXT, FINISH = Word.NEXT, Word.FINISH
WORK = ProbeOn.WORK
HOSTILE = '</pre><script>alert(1)</script><img src=x onerror="a()">&lt; \x1b[2J \u202e "quoted" \'so\' \ud800'


def test_the_page_tells_the_sitting(eventful: Any) -> None:
    kept = eventful.kept()
    page = Page(export(kept, "html"))
    assert page.texts["h1"] == ["A trial <b>& more"]
    assert page.texts["title"][0] == "A trial <b>& more, 2026-11-25"
    body = page.texts["body"][0]
    assert "25 November 2026, 09:15" in body
    assert "finished" in body
    assert page.texts["pre"][0].strip() == kept.header.source.strip()
    assert 'tongs slip, "again"\n=SUM(A1)' in page.texts["td"]
    assert page.texts["h2"] == ["What stands out", "Trace", "Heats", "How the skin cooled", "Calls", "Notes", "Plan"]
    leads_to = [attributes["href"] for tag, attributes in page.tags if tag == "a"]
    places = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert leads_to
    assert all(places.count((place or "").removeprefix("#")) == 1 for place in leads_to), (
        "each to its mark on the trace"
    )
    assert page.texts["h3"] == ["1 Weld"]
    heats = figures_to_record(heat_figures(eventful.sitting))["steps"][0]["heats"]
    assert f"{heats[0]['leaving_celsius']:.0f} °C" in page.texts["td"]
    assert page.texts["td"].count("too cold") == 2


def test_nothing_is_fetched_run_or_let_out_of_its_place(tell: Tell) -> None:
    kept = tell(WORK).say(HOSTILE, NEXT).feel(1000, 20).say(FINISH).kept()
    head = replace(kept.header, title=HOSTILE, source=HOSTILE, profile=HOSTILE, port=HOSTILE)
    steps = tuple(replace(step, title=HOSTILE) for step in kept.figures.steps)
    kept = replace(kept, header=head, figures=replace(kept.figures, steps=steps))
    text = export(kept, "html")
    text.encode("utf-8")
    assert all(char.isprintable() or char == "\n" for char in text)
    page = Page(text)
    assert not {tag for tag, _ in page.tags} & {"script", "img", "link", "iframe", "object", "form", "base"}
    for _, attributes in page.tags:
        assert not [name for name in attributes if name.startswith("on") or name in ("src", "xlink:href")]
        assert (attributes.get("href") or "#").startswith("#")
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


def test_a_sitting_that_was_left_at_once_has_a_page_too(tell: Tell) -> None:
    for kept in (tell().kept(Progress.UNFINISHED), replace(tell().kept(Progress.UNFINISHED), log=Log())):
        page = Page(export(kept, "html"))
        assert "unfinished" in page.texts["body"][0]
        assert page.texts["h2"] == ["Trace", "Heats", "Plan"]

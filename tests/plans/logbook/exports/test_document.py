"""A sitting as one document."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from plans.logbook.exports import document, export
from plans.reader import read_plan
from plans.sitting.events import Said, Word
from tests.plans.logbook.exports.parsed import pictures, rows

Tell = Callable[..., Any]
FINISH = Word.FINISH


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

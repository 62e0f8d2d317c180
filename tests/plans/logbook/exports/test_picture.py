"""The pictures of a page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.exports import export
from plans.logbook.log import Log
from plans.logbook.summary import Progress
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Word
from tests.plans.logbook.exports.parsed import Page, pictures

Tell = Callable[..., Any]
NEXT = Word.NEXT
WORK = ProbeOn.WORK


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
    page = Page(export(replace(kept, log=log), "html"))
    assert any(f"0:20 {call.value}, 1000 °C, measured" in text for text in page.texts["title"])
    assert call.value in page.texts["figcaption"][0]

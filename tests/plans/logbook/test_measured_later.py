"""What is measured when a sitting is over: kept, damaged, held against the plan; and what a shop learns of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from math import sqrt
from typing import Any

import pytest

from plans.logbook import KeptSitting, LogbookError, Timeline, measured_at, measured_taken_back
from plans.logbook.beside import planned_beside_done
from plans.logbook.document import found_in, from_document, to_document
from plans.logbook.measured_losses import width_at
from plans.reader import read_plan
from plans.shapes import Section
from plans.sitting import Sitting, Word
from plans.units import Units

NOW = datetime(2026, 12, 3, 10, tzinfo=UTC)
SOURCE = """
heatbook = 1
title = "Draw a bar"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
soak = "30 s"
heats = 2
section = "40 x 12 mm"
length = "200 mm"
reach = "40 x 6 mm"
"""


@pytest.fixture
def kept(telling: Any) -> KeptSitting:
    """Two heats of drawing, with nothing measured in the sitting but the bar before the first: 40 x 12 x 200 mm."""
    story = telling(Sitting(read_plan(SOURCE, "draw", "draw.toml")))
    for heat in (1, 2):
        story.say(Word.NEXT).wait(1).say(Word.NEXT).wait(1).say(Word.NEXT).wait(1)
        assert story.sitting.state.heat == heat
    kept: KeptSitting = story.say(Word.FINISH).kept()
    return kept


def said(kept: KeptSitting, text: str) -> KeptSitting:
    return measured_at(kept, None, text, Units.METRIC, NOW)


def test_section_length_and_steel_stand_beside_the_plan_and_the_later_figure_over_the_earlier(
    kept: KeptSitting,
) -> None:
    # 96 cm3 less 2 % a heat in two heats are 92.2 cm3 (plans/stock); 40 x 6 x 353 mm are 84.7 cm3: 8 % are missing.
    twice = said(said(kept, "w 41 t 7 l 353"), "w 40 t 6")
    [beside] = planned_beside_done(Timeline.of(twice))
    rows = {name: (planned, done) for name, planned, done in beside.rows(Units.METRIC)}
    assert rows["section"] == ("40 x 6 mm", "40 x 6 mm")
    assert rows["length"] == ("", "353 mm")
    assert rows["steel"][1].endswith("8 % missing")
    assert beside.to_record()["steel_missing_fraction"] == pytest.approx(0.081, abs=0.001)
    back = measured_taken_back(twice, 2, NOW)
    [beside] = planned_beside_done(Timeline.of(back))
    assert ("section", "40 x 6 mm", "41 x 7 mm") in beside.rows(Units.METRIC)
    assert from_document(to_document(back)).measured_later == back.measured_later, "both are kept"


@pytest.mark.parametrize(
    ("typed", "why"), [("31 x 18", "not said what"), ("hrc 99", "up to 75"), ("step 2 t 9", "only to step 1")]
)
def test_what_can_not_be_is_refused_as_at_the_step(kept: KeptSitting, typed: str, why: str) -> None:
    with pytest.raises(LogbookError, match=why):
        said(kept, typed)
    with pytest.raises(LogbookError, match="has the number 3"):
        measured_taken_back(said(kept, "t 9"), 3, NOW)


@pytest.mark.parametrize(
    "spoilt",
    [
        {"width_mm": -3},
        {"width_mm": "40"},
        {"width_mm": 1e6},
        {"file": "sings"},
        {"added": "yesterday"},
        {"step": 0},
        {"number": 1.5},
        {"hardness_hrc": 99},
        {"taken_back": 7},
    ],
)
def test_a_damaged_one_costs_none_of_the_others_and_stays_in_the_file(
    kept: KeptSitting, spoilt: dict[str, object]
) -> None:
    document = to_document(said(said(kept, "w 40 t 6"), "l 353"))
    document["measured_later"]["found"][0] |= spoilt
    read = from_document(document)
    assert read.measured_later is not None
    assert [one.measured.length for one in read.measured_later.found] == [0.353]
    assert read.unread == "1 measurement of those that came later"
    assert document["measured_later"]["found"][0] in to_document(read)["measured_later"]["found"]
    document["measured_later"] = [1]
    assert from_document(document).measured_later is None


def test_a_sitting_tells_what_its_heats_took(kept: KeptSitting) -> None:
    state = Timeline.of(kept).state
    assert state.worked_on() == (0, 2)
    # The bar is weighed before the first heat: 753.6 g at 7850 kg/m3; and after two heats that took 2 % each: 723.8 g.
    words = replace(kept, log=_weighed_first(kept))
    teaches = said(words, "m 723.8 g w 42 t 6").summary.teaches
    assert teaches is not None
    [lost] = teaches.lost
    assert (lost.heats, lost.a_heat) == (2, pytest.approx(0.02, abs=1e-4))
    # The plan keeps 40 mm of width down to 6 mm; the work is 42 mm wide there.
    assert teaches.wider == pytest.approx([0.05])
    read = found_in(to_document(said(words, "m 723.8 g w 42 t 6")))[1]
    assert read == teaches, "as of a sitting that an earlier version kept"
    hardly = said(words, "hrc 61").summary.teaches
    assert hardly is not None
    assert (hardly.lost, hardly.wider) == ((), ())


def _weighed_first(kept: KeptSitting) -> Any:
    """Its log with the bar weighed before it first went into the fire."""
    from plans.logbook import Log
    from plans.sitting import Said

    entries = list(kept.log)
    return Log([entries[0], Said(entries[0].at, Word.MEASURED, "m 753.6 g"), *entries[1:]])


def test_the_width_of_the_plan_at_a_thickness() -> None:
    begins, reach = Section(0.040, 0.016), Section(0.044, 0.004)
    assert width_at(begins, reach, 0.008) == pytest.approx(sqrt(0.040 * 0.044)), "half of the way, by thickness"
    assert width_at(begins, reach, 0.015) is None, "hardly drawn yet"
    assert width_at(Section.round(0.02), reach, 0.008) is None

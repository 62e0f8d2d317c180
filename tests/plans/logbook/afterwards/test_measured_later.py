"""What is measured when a sitting is over: kept, damaged, held against the plan."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from plans.logbook import KeptSitting, LogbookError, Timeline, measured_at, measured_taken_back
from plans.logbook.afterwards.measured_later import with_later
from plans.logbook.comparing import row_name, row_texts, side_by_side, what_differs
from plans.logbook.document import from_document, to_document
from plans.logbook.exports import export
from plans.logbook.reviewing.beside import planned_beside_done
from plans.measured import Measured
from plans.reader import read_plan
from plans.sitting import Sitting, Word, measured_after
from plans.units import Units
from tests.plans.logbook.drawing import DRAW

NOW = datetime(2026, 12, 3, 10, tzinfo=UTC)


@pytest.fixture
def kept(telling: Any) -> KeptSitting:
    """Two heats of drawing, with nothing measured in the sitting but the bar before the first: 40 x 12 x 200 mm."""
    story = telling(Sitting(read_plan(DRAW, "draw", "draw.toml")))
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


def test_what_was_measured_stands_beside_that_of_another_sitting(kept: KeptSitting) -> None:
    first = said(kept, "w 40 t 6 l 353 m 640 hrc 58 decarb 0.2 file skates")
    other = said(said(kept, "w 40.5 t 7 l 355 m 630 hrc 62 decarb 0.22 file bites"), "t 6.5")
    _, step = side_by_side([first, other, kept])
    rows = {
        row_name(row, Units.METRIC): list(row_texts(row, Units.METRIC)) for row in step.rows if "measured" in row.name
    } | {row.name: list(row_texts(row, Units.METRIC)) for row in step.rows if row.name == "a file"}
    no = ("-", False)
    assert rows == {
        # 0.5 mm of 40.5 are less than 2 %, and 0.5 of 6.5 are more; the later of two figures stands.
        "measured width, mm": [("40", False), ("40.5", False), no],
        "measured thickness, mm": [("6", False), ("6.5", True), no],
        "measured length, mm": [("353", False), ("355", False), no],
        # 10 g of 640 are more than 1 %; 4 HRC are more than two testers may differ by.
        "measured weight": [("640 g", False), ("630 g", True), no],
        "measured hardness, HRC": [("58", False), ("62", True), no],
        "measured decarb, mm": [("0.20", False), ("0.22", False), no],
        "a file": [("skates", False), ("bites", True), no],
    }
    assert row_name(step.rows[-1], Units.INCH) == "measured decarb, in"
    assert "by hand" in what_differs([step], Units.METRIC)
    assert "by hand" not in what_differs(side_by_side([kept, kept]), Units.METRIC)


TEMPER = """
heatbook = 1
title = "Temper"

[[bar]]
name = "blade"
steel = "1084"
section = "30 x 4 mm"
length = "200 mm"

[[step]]
title = "Temper it"
kind = "temper"
heats = 1
section = "wedge 30 x 4 mm to 0.5 mm bevel 12 mm"
length = "200 mm"
[step.oven]
at = "200 degC"
for = "2 h"
[step.air]
until = "50 degC"
"""


def test_a_temper_stands_beside_its_oven_its_cooling_its_hardness_and_its_bevels(telling: Any) -> None:
    story = telling(Sitting(read_plan(TEMPER, "temper", "temper.toml")))
    # The oven for 2 h 5 min, and four minutes in the air.
    story.say(Word.NEXT).wait(7500).say(Word.NEXT).wait(240).say(Word.NEXT).wait(1)
    [beside] = planned_beside_done(Timeline.of(said(story.kept(), "hrc 60 b 13 l 200")))
    rows = {name: (planned, done) for name, planned, done in beside.rows(Units.METRIC)}
    assert rows["oven"][0] == "200 degC"
    assert (rows["held"], rows["air"]) == (("2:00:00", "2:05:00"), ("until 50 degC", "4:00"))
    assert rows["bevel"] == ("12 mm", "13 mm")
    assert rows["length"] == ("200 mm", "200 mm")
    assert rows["hardness"][1] == "HRC 60"
    record = beside.to_record()
    assert (record["oven_planned_celsius"], record["air_planned_until_celsius"]) == (200.0, 50.0)
    # 1084 after 200 degC: 59 to 61 HRC is common practice, no source; the model is right to 2.5.
    assert record["hardness_modelled_hrc"] == pytest.approx(60, abs=2.5)


def test_the_rows_have_later_figures_as_words_at_the_end_with_what_is_missing(kept: KeptSitting) -> None:
    # 40 x 12 x 200 mm less 2 % a heat in two heats are 92.198 cm3; 40 x 6 x 353 mm are 84.72: 0.0811 of it is missing.
    # Weighed at 665 g, at 7.85 g/cm3 (Machinery's Handbook, from memory), 84.713 cm3.
    found = export(said(said(kept, "w 40 t 6 l 353"), "m 665 g"), "csv").splitlines()
    last = [row.split(",") for row in found[-2:]]
    assert [row[2] for row in last] == ["measured step 1 w 40 mm t 6 mm l 353 mm", "measured step 1 m 665 g"]
    assert [row[-1] for row in last] == ["0.0811", "0.0812"]
    assert found[:-2] == export(kept, "csv").splitlines()


def test_what_is_mended_stands_where_it_stood_and_no_number_is_given_again(kept: KeptSitting) -> None:
    twice = said(said(kept, "w 42"), "w 40")
    mended = measured_at(twice, None, "w 41 t 7", Units.METRIC, NOW, instead=1)
    later = mended.measured_later
    assert later is not None
    assert [(one.number, one.measured.width) for one in later.standing] == [(3, 0.041), (2, 0.040)]
    assert measured_after(with_later(Timeline.of(kept).state, later))[0, 2] == Measured(0.040, 0.007), "2 is the later"
    document = to_document(twice)
    document["measured_later"]["found"][1]["width_mm"] = "40"
    again = said(from_document(document), "t 6").measured_later
    assert again is not None
    assert [one.number for one in again.found] == [1, 3]


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
    assert (read.unread, read.damage) == ("", "1 later measurement")
    assert document["measured_later"]["found"][0] in to_document(read)["measured_later"]["found"]
    document["measured_later"] = [1]
    assert from_document(document).measured_later is None

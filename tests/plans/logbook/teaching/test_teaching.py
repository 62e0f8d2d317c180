"""What one sitting teaches of its shop: by what was measured in it, sums beside it, and by what came of its welds."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from math import sqrt
from typing import Any

import pytest

from plans.logbook import KeptSitting, measured_at
from plans.logbook.afterwards.outcome import Flaw, Outcome, WeldOutcome
from plans.logbook.document import found_in, to_document
from plans.logbook.figures.of_a_sitting import Factor, Learned
from plans.logbook.summary import Summary
from plans.logbook.teaching.losses import width_at
from plans.logbook.teaching.teaches import FactorTaught, Teaches, WeldSoaked
from plans.reader import read_plan
from plans.shapes import Section
from plans.sitting import Said, Sitting, Word
from plans.units import Units
from tests.plans.logbook.drawing import DRAW

NOW = datetime(2026, 12, 3, 10, tzinfo=UTC)
TRIM = """
[[step]]
title = "Saw a third off"
kind = "bench"
section = "40 x 6 mm"
length = "130 mm"
"""


def drawn(telling: Any, first: str, last: str, heats: int = 2, more: str = "") -> KeptSitting:
    """Draw for so many heats, with figures said before the first heat and at the end; empty for none."""
    story = telling(Sitting(read_plan(DRAW + more, "draw", "draw.toml")))

    def measure(text: str) -> None:
        if text:
            story.entries += story.sitting.take(Said(story.at, Word.MEASURED, text))

    measure(first)
    for _ in range(heats):
        story.say(Word.NEXT).wait(1).say(Word.NEXT).wait(1).say(Word.NEXT).wait(1)
    if more:
        story.say(Word.ON).wait(1)
    measure(last)
    kept: KeptSitting = story.say(Word.FINISH).kept()
    return kept


def teaches(kept: KeptSitting) -> Teaches:
    found = kept.summary.teaches
    assert found is not None
    assert found_in(to_document(kept))[1] == found, "as of a sitting that an earlier version kept"
    return found


def test_what_two_heats_took_is_told_by_the_scale_or_by_the_caliper(telling: Any) -> None:
    # 40 x 12 x 200 mm are 753.6 g at 7850 kg/m3; after two heats that took 2 % each: 723.8 g.
    [lost] = teaches(drawn(telling, "m 753.6 g", "m 723.8 g w 42 t 6")).lost
    assert (lost.heats, lost.a_heat) == (2, pytest.approx(0.02, abs=1e-4))
    # 96 cm3, and then 40 x 6 x 384.16 mm.
    [lost] = teaches(drawn(telling, "w 40 t 12 l 200", "w 40 t 6 l 384.16")).lost
    assert lost.a_heat == pytest.approx(0.02, abs=1e-4)
    assert teaches(drawn(telling, "m 753.6 g", "w 40 t 6 l 384.16")).lost == (), "a scale here, a caliper there"
    assert teaches(drawn(telling, "m 753.6 g", "hrc 61")).lost == ()
    assert teaches(drawn(telling, "m 753.6 g", "m 480 g", more=TRIM)).lost == (), "a third was sawn off"


def test_what_is_measured_later_tells_of_sections_and_not_of_scale(telling: Any) -> None:
    kept = drawn(telling, "m 753.6 g", "")
    # The plan keeps 40 mm of width down to 6 mm; the work is 42 mm wide there. The grinder may have been at it.
    later = teaches(measured_at(kept, None, "m 640 g w 42 t 6", Units.METRIC, NOW))
    assert (later.lost, later.wider) == ((), (pytest.approx(0.05),))
    assert [step.measured for step in later.drawn] == [True]


def test_of_a_step_that_was_ended_early_only_a_measured_section_tells(telling: Any) -> None:
    assert teaches(drawn(telling, "", "", heats=1)).drawn == ()
    [step] = teaches(drawn(telling, "", "")).drawn
    assert (step.heats, step.measured) == (2, False)
    assert (step.before, step.after) == (pytest.approx(480e-6), pytest.approx(240e-6))
    [step] = teaches(drawn(telling, "", "w 40 t 9", heats=1)).drawn
    assert (step.heats, step.after, step.measured) == (1, pytest.approx(360e-6), True)


@pytest.mark.parametrize("typed", ["w 400 t 6", "w 4000 t 9 l 130", "w 9000 t 9000", "w 40 t 0.6"])
def test_a_mistyped_figure_teaches_nothing_and_is_no_damage(telling: Any, typed: str) -> None:
    kept = measured_at(drawn(telling, "", ""), None, typed, Units.METRIC, NOW)
    found = teaches(kept)
    assert (found.drawn, found.wider, found.lost) == ((), (), ())
    assert Summary.from_record(kept.summary.to_record()) == kept.summary


def test_the_width_of_the_plan_at_a_thickness() -> None:
    begins, reach = Section(0.040, 0.016), Section(0.044, 0.004)
    assert width_at(begins, reach, 0.008) == pytest.approx(sqrt(0.040 * 0.044)), "half of the way, by thickness"
    assert width_at(begins, reach, 0.015) is None, "hardly drawn yet"
    assert width_at(Section.round(0.02), reach, 0.008) is None


def test_factors_and_soaks_of_welds_are_told_with_what_came_of_them(tell: Any) -> None:
    """Two weld heats that soaked 40 and 25 s, and one that was cut off after 5 s of soak."""
    story = tell()
    for soak in (40, 25):
        story.say(Word.NEXT).wait(1).say(Word.NEXT).wait(soak).say(Word.OUT).wait(10)
    kept = story.say(Word.REPEAT, Word.NEXT).wait(1).say(Word.NEXT).wait(5).say(Word.FINISH).kept()
    learned = Learned(Factor(1.2, 0.05, 1.0, 4), Factor(0.8, None, 1.0, 1), ())
    kept = replace(kept, figures=replace(kept.figures, learned=learned))
    assert teaches(kept).welds == (), "nobody has looked at it yet"
    flawed = teaches(replace(kept, outcome=Outcome(welds=(WeldOutcome(0, (Flaw.COLD_SHUT,)),))))
    assert flawed.welds == (WeldSoaked("40 x 14 mm", 25.0, flawed=True),)
    assert (flawed.cooling, flawed.contact) == (FactorTaught(1.2, 0.05, 4), FactorTaught(0.8, None, 1))
    sound = teaches(replace(kept, outcome=Outcome(welds=(WeldOutcome(0),))))
    assert [weld.flawed for weld in sound.welds] == [False]
    together = replace(kept, figures=replace(kept.figures, learned=replace(learned, contact=None)))
    assert teaches(together).cooling is None, "the first versions' one factor is neither"

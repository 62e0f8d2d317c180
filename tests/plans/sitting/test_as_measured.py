"""What was measured by hand: the next step begins with it, a replay too; undo takes it back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.measured import MeasuredError, read_measured, shown_measured, written_measured
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan
from plans.shapes import Form, Section
from plans.sitting import (
    Begun,
    Event,
    Said,
    Sitting,
    Tick,
    Word,
    WordError,
    folded,
    last_word,
    measured_of,
    plan_as_measured,
    taken_back,
)
from plans.units import Units
from tests.plans.sitting.bench_between import BENCH_BETWEEN

NEXT = Word.NEXT


@pytest.mark.parametrize(
    ("typed", "units", "kept"),
    [
        ("w 31.5 t 18", Units.METRIC, "w 31.5 mm t 18 mm"),
        ("T18 w31.5mm", Units.METRIC, "w 31.5 mm t 18 mm"),
        ("w 1 1/4 t 3/8", Units.INCH, "w 31.75 mm t 9.525 mm"),
        ("w 1 1/4 in t 10 mm", Units.METRIC, "w 31.75 mm t 10 mm"),
        ("l 0.22 m m 312 g", Units.METRIC, "l 220 mm m 312 g"),
        ("m 1", Units.INCH, "m 28.35 g"),
        ("step 2, hrc 61, file skates", Units.METRIC, "step 2 hrc 61 file skates"),
        ("bevel 12 d 0.2", Units.METRIC, "bevel 12 mm decarb 0.2 mm"),
    ],
)
def test_few_strokes_are_kept_with_their_units(typed: str, units: Units, kept: str) -> None:
    """An ounce is 28.349523125 g, an inch 25.4 mm: the international yard and pound agreement of 1959."""
    written = written_measured(read_measured(typed, units))
    assert written == kept
    assert written_measured(read_measured(written, Units.INCH)) == written, "the log's units are its own"


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("", "nothing is measured"),
        ("31.5 x 18", 'not said what "31.5 x 18" is'),
        ("w", 'nothing stands behind "w"'),
        ("w 3 w 4", "twice"),
        ("w 3 kg", "that is a mass"),
        ("w 0", "no length"),
        ("hrc 99", "up to 75"),
        ("file sings", "skates"),
        ("step 3", "nothing is measured"),
    ],
)
def test_what_is_no_measurement_is_refused_with_what_would_be_right(typed: str, why: str) -> None:
    with pytest.raises(MeasuredError, match=why):
        read_measured(typed, Units.METRIC)


def test_a_section_is_shown_in_the_units_that_are_set() -> None:
    measured = read_measured("w 1 1/4 in t 1/2 in hrc 60", Units.METRIC)
    assert shown_measured(measured, Units.INCH) == "1 1/4 x 1/2 in, HRC 60"


@pytest.fixture
def welded(begin: Callable[..., Any]) -> Any:
    """The weld is done, and its section measured while the bar lies on the anvil: thicker than planned."""
    story = begin()
    for _ in range(2):
        story.say(Word.IN).wait(400).say(Word.OUT).wait(20)
    return story


def test_the_next_step_begins_with_what_was_measured(welded: Any, plan: Plan) -> None:
    assert (welded.sitting.state.step, welded.sitting.state.phase) == (0, PhaseKind.STRIKE)
    welded.say(Word.MEASURED, "t 13 mm").say(NEXT).wait(5)
    sitting = welded.sitting
    assert sitting.state.step == 1
    assert sitting.warm.section == Section(0.040, 0.013), "and not 12 mm, as the plan has it"
    assert plan_as_measured(plan, sitting.state).steps[2:] == plan.steps[2:], "drawn since: as planned"

    again = Sitting(plan)
    again.replay(welded.log)
    again.take(Tick(welded.at))
    assert again.state.measurements == sitting.state.measurements
    assert (list(again.warm.skin), list(again.warm.middle)) == (list(sitting.warm.skin), list(sitting.warm.middle))

    welded.say(Word.UNDO).say(Word.UNDO).wait(1).say(NEXT).wait(5)
    assert sitting.state.step == 1
    assert sitting.state.measurements == ()
    assert sitting.warm.section == Section(0.040, 0.012)


LENGTHS = """
heatbook = 1
title = "Three steps"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
heats = 1
section = "40 x 12 mm"
length = "200 mm"
reach = "wedge 40 x 6 mm to 1 mm"
reach_length = "440 mm"

[[step]]
title = "Straighten it"
kind = "forge"
fire = "1000 degC"
heat_to = "950 degC"
keep_above = "800 degC"
section = "wedge 40 x 6 mm to 1 mm"
length = "{}"
"""


@pytest.mark.parametrize(
    ("typed", "whole", "long", "bevel"),
    [("l 430", "440 mm", 0.430, None), ("l 430", "220 mm", 0.220, None), ("bevel 25", "440 mm", 0.440, 0.025)],
)
def test_length_and_bevel_alone_are_taken_over_but_no_length_of_what_was_cut_off(
    typed: str, whole: str, long: float, bevel: float | None
) -> None:
    sitting = Sitting(read_plan(LENGTHS.format(whole), "three", "three.toml"))
    sitting.open()
    for at, word in enumerate((Word.ACKNOWLEDGE, Word.IN, Word.OUT, Word.ON)):
        sitting.take(Said(100.0 * at, word))
    sitting.take(Said(310.0, Word.MEASURED, f"step 1 {typed}"))
    step = plan_as_measured(sitting.plan, sitting.state).steps[1]
    assert step.length == pytest.approx(long)
    assert step.section == Section(0.040, 0.006, Form.WEDGE, 0.001, bevel)


def test_what_is_said_once_the_bar_is_back_in_the_fire_counts_too(welded: Any) -> None:
    welded.say(NEXT).wait(5).say(Word.MEASURED, "t 13").wait(1)
    assert (one := welded.sitting.state.measurements[0]).step == 0
    assert one.heat == 2
    assert welded.sitting.warm.section == Section(0.040, 0.013)
    welded.say(Word.UNDO).wait(1)
    assert welded.sitting.warm.section == Section(0.040, 0.012)
    welded.say(Word.REDO).wait(1)
    assert welded.sitting.warm.section == Section(0.040, 0.013)


def test_what_was_measured_between_two_heats_is_not_where_the_next_step_begins(begin: Callable[..., Any]) -> None:
    story = begin()
    story.say(Word.IN).wait(400).say(Word.OUT).wait(20).say(Word.MEASURED, "t 13.5")
    story.say(Word.IN).wait(400).say(Word.OUT).wait(20).say(NEXT).wait(5)
    assert story.sitting.state.step == 1
    assert story.sitting.warm.section == Section(0.040, 0.012)


def test_a_step_that_is_still_to_come_has_no_figures(welded: Any) -> None:
    with pytest.raises(WordError, match="step 2 was not come to yet"):
        welded.say(Word.MEASURED, "step 2 t 9")


@pytest.fixture
def at_the_bench() -> Sitting:
    """It was drawn in one heat, and the bench step after that goes on."""
    return drawn_and_at_the_bench(BENCH_BETWEEN)


def drawn_and_at_the_bench(text: str) -> Sitting:
    sitting = Sitting(read_plan(text, "between", "between.toml"))
    sitting.open()
    for at, word in enumerate((Word.ACKNOWLEDGE, Word.IN, Word.OUT, Word.ON)):
        sitting.take(Said(100.0 * at, word))
    assert sitting.state.phase is PhaseKind.BENCH
    return sitting


def test_what_was_forged_is_measured_at_the_bench_first_and_once_more_what_was_ground(at_the_bench: Sitting) -> None:
    sitting = at_the_bench
    assert measured_of(sitting.plan, sitting.state) == (0, 1)
    entries = []
    for at, text in ((310.0, "t 7"), (320.0, "l 350"), (400.0, "t 6.5 l 340")):
        entries += sitting.take(Said(at, Word.MEASURED, text))
    kept = [(one.step, one.heat, one.measured.thickness) for one in sitting.state.measurements]
    assert kept == [(0, 1, 0.007), (0, 1, None), (1, 1, 0.0065)], "in two lines, and then once more"
    said = [one.text for one in entries if isinstance(one, Said)]
    assert said == ["step 1 t 7 mm", "step 1 l 350 mm", "t 6.5 mm l 340 mm"]
    straighten = plan_as_measured(sitting.plan, sitting.state).steps[2]
    assert (straighten.section, straighten.length) == (Section(0.040, 0.0065), 0.340), "as it lies at the bench"


def test_a_side_measured_at_the_anvil_and_the_length_at_the_bench_are_of_one_bar(at_the_bench: Sitting) -> None:
    for at, text in ((310.0, "step 1 t 7"), (320.0, "step 2 l 350")):
        at_the_bench.take(Said(at, Word.MEASURED, text))
    straighten = plan_as_measured(at_the_bench.plan, at_the_bench.state).steps[2]
    assert (straighten.section, straighten.length) == (Section(0.040, 0.007), 0.350)


OTHER_BENCHES = {
    "cut": ('kind = "bench"', 'kind = "bench"\nsection = "40 x 6 mm"\nlength = "300 mm"'),
    "ground to a section": ('kind = "bench"', 'kind = "bench"\nreach = "40 x 5 mm"'),
    "thinner in the next step": ('section = "40 x 6 mm"', 'section = "40 x 5 mm"'),
    "shorter in the next step": (
        'section = "40 x 6 mm"\nlength = "392 mm"',
        'section = "40 x 6 mm"\nlength = "300 mm"',
    ),
}


@pytest.mark.parametrize("name", OTHER_BENCHES)
def test_where_steel_comes_off_at_the_bench_a_figure_is_of_what_lies_there(name: str) -> None:
    before, after = OTHER_BENCHES[name]
    assert BENCH_BETWEEN.count(before) == 1
    sitting = drawn_and_at_the_bench(BENCH_BETWEEN.replace(before, after))
    assert measured_of(sitting.plan, sitting.state) == (1, 1)


def test_work_that_was_not_struck_is_measured_where_it_lies() -> None:
    sitting = Sitting(read_plan(BENCH_BETWEEN, "between", "between.toml"))
    sitting.open()
    for at, word in enumerate((Word.ACKNOWLEDGE, Word.ON)):
        sitting.take(Said(100.0 * at, word))
    assert (sitting.state.phase, sitting.state.worked_on(0)) == (PhaseKind.BENCH, (0, 0))
    assert measured_of(sitting.plan, sitting.state) == (1, 1)
    hung = BENCH_BETWEEN.replace('kind = "draw"', 'kind = "normalize"').replace('keep_above = "900 degC"\n', "", 1)
    hung = hung.replace('reach = "40 x 6 mm"\nreach_length = "392 mm"\n', "").replace("40 x 12", "40 x 6")
    hung = hung.replace('length = "200 mm"', 'length = "392 mm"')
    sitting = drawn_and_at_the_bench(hung)
    assert sitting.state.worked_on() == (1, 1)
    assert measured_of(sitting.plan, sitting.state) == (1, 1)


def test_it_is_told_which_figures_are_taken_back(at_the_bench: Sitting) -> None:
    state = at_the_bench.state
    for at, text in ((310.0, "t 7"), (320.0, "l 350 w 41")):
        at_the_bench.take(Said(at, Word.MEASURED, text))
    assert last_word(state) == "measured step 1 w 41 mm l 350 mm"
    at_the_bench.take(Said(330.0, Word.UNDO))
    assert taken_back(state) == "measured step 1 w 41 mm l 350 mm"
    assert last_word(state) == "measured step 1 t 7 mm"


def test_the_smith_may_say_otherwise_at_the_bench(at_the_bench: Sitting) -> None:
    at_the_bench.take(Said(310.0, Word.MEASURED, "step 2 t 5"))
    assert [one.step for one in at_the_bench.state.measurements] == [1]


def test_once_the_next_fire_is_waited_for_a_figure_is_of_what_goes_in(at_the_bench: Sitting) -> None:
    sitting = at_the_bench
    sitting.take(Said(305.0, Word.MEASURED, "t 7"))
    sitting.take(Said(310.0, Word.ON))
    assert (sitting.state.step, sitting.state.phase) == (2, PhaseKind.READY)
    sitting.take(Said(320.0, Word.MEASURED, "t 5.5"))
    assert [(one.step, one.heat) for one in sitting.state.measurements] == [(0, 1), (2, 0)]
    assert plan_as_measured(sitting.plan, sitting.state).steps[2].section == Section(0.040, 0.0055)


def test_what_a_step_begins_with_goes_on_where_it_changes_nothing() -> None:
    again = BENCH_BETWEEN + BENCH_BETWEEN[BENCH_BETWEEN.rindex("[[step]]") :]
    sitting = drawn_and_at_the_bench(again)
    for at, word, text in ((305.0, "measured", "l 350"), (310.0, "on", ""), (320.0, "measured", "t 5.5")):
        sitting.take(Said(at, Word(word), text))
    steps = plan_as_measured(sitting.plan, sitting.state).steps
    assert [(step.section, step.length) for step in steps[2:]] == [(Section(0.040, 0.0055), 0.350)] * 2


def test_a_log_without_the_step_of_a_figure_keeps_its_meaning() -> None:
    """As logs of before say it: a figure that names no step is of the one that was going on at the bench."""
    events: list[Event] = [
        Begun(0.0, 0, 1, PhaseKind.STRIKE),
        Begun(1.0, 1, 1, PhaseKind.BENCH),
        Said(2.0, Word.MEASURED, "t 7 mm"),
    ]
    assert [one.step for one in folded(events).measurements] == [1]

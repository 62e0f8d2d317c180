"""A time in which nothing comes in is passed over at once, and is as if it had been ticked through."""

from __future__ import annotations

from dataclasses import replace
from math import isnan, sin

import pytest
from hypothesis import example, given, settings, strategies as st

from plans.logbook.figures.heats import heat_figures
from plans.phase import Place
from plans.plan import Plan
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Called, Entry, Said, Tick, Word
from plans.sitting.gaps import last_before
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.kept_points import KeptPoints, kept_until
from plans.sitting.running_piece import GRID
from plans.sitting.words import WordError

ALL, NEVER = Hands(HandsFree.ALL, grace=30.0), Hands(HandsFree.NEVER)
HOUR, DAY, YEAR = 3600.0, 86400.0, 366 * 86400.0
BEGINNINGS = st.lists(
    st.sampled_from([Word.NEXT, Word.ON, Word.OUT, Word.IN, Word.PAUSE, Word.FLUX, Word.UNDO, 1100.0, 1500.0]),
    min_size=1,
    max_size=9,
)


def begun(plan: Plan, what: list[Word | float], probe_on: ProbeOn | None) -> tuple[Sitting, list[Entry], float]:
    """A sitting to which words were said, one every twenty seconds, and to which a probe spoke."""
    sitting = Sitting(plan, probe_on, ALL)
    log, at = list(sitting.open()), 0.0
    for one in what:
        at += 20.0
        if isinstance(one, Word):
            try:
                log += sitting.take(Said(at, one))
            except WordError:
                log += sitting.take(Tick(at))
        else:
            # For longer than a loose contact lasts, so that they are believed.
            for _ in range(5):
                at += 0.5
                log += sitting.take(Reading(at, one))
    return sitting, log, at + 1.0


def all_of(sitting: Sitting) -> tuple[object, ...]:
    warm = sitting.warm
    return sitting.state, warm.skin.tobytes(), warm.middle.tobytes(), warm.thin, warm.remember(), sitting.now


@settings(max_examples=3)
@given(
    what=BEGINNINGS,
    gap=st.sampled_from([7.0, 61.3, 1234.5, HOUR]),
    probe_on=st.sampled_from([None, *ProbeOn]),
    bench_first=st.booleans(),
)
# A probe that falls silent where no section is known is called in the midst of what is passed over; and an hour after
# that call few points are kept, so that one kept too many shows.
@example(what=[Word.NEXT, Word.UNDO, 1100.0], gap=2 * HOUR + 100, probe_on=ProbeOn.FIRE, bench_first=True)
def test_a_gap_is_as_if_it_had_been_ticked_through(
    plan: Plan, what: list[Word | float], gap: float, probe_on: ProbeOn | None, bench_first: bool
) -> None:
    if bench_first:
        plan = replace(plan, steps=(plan.steps[-1], *plan.steps))
        assert plan.steps[0].section is None
    at_once, log, at = begun(plan, what, probe_on)
    ticked, _, _ = begun(plan, what, probe_on)
    came = at_once.take(Tick(at + gap))
    told: list[Entry] = []
    for second in range(0, int(gap), 1 + int(gap / HOUR)):
        told += ticked.take(Tick(at + second))
    told += ticked.take(Tick(at + gap))
    assert (came, all_of(at_once)) == (told, all_of(ticked))
    replayed = Sitting(plan, probe_on, ALL)
    replayed.replay([*log, *came])
    replayed.take(Tick(at + gap))
    assert all_of(replayed) == all_of(at_once)


def test_a_month_is_as_if_it_had_been_told_by_the_day_and_can_be_taken_back(
    plan: Plan,
) -> None:
    probe_on = ProbeOn.WORK
    at_once, log, at = begun(plan, [Word.NEXT, 1100.0], probe_on)
    by_the_day, _, _ = begun(plan, [Word.NEXT, 1100.0], probe_on)
    log += at_once.take(Tick(at + 30 * DAY))
    for hour in range(0, 30 * 24 + 1, 24):
        by_the_day.take(Tick(at + hour * HOUR))
    assert all_of(at_once) == all_of(by_the_day)
    for after, word in enumerate((Word.IN, Word.UNDO)):
        log += at_once.take(Said(at + 30 * DAY + after, word))
    replayed = Sitting(plan, probe_on, ALL)
    replayed.replay(log)
    replayed.take(Tick(at_once.now))
    assert all_of(replayed) == all_of(at_once)


@pytest.mark.parametrize("what", [[], [Word.NEXT], [Word.NEXT, Word.OUT], [Word.NEXT, Word.PAUSE]])
def test_a_year_keeps_few_points_and_its_figures_come_of_them(plan: Plan, what: list[Word | float]) -> None:
    sitting, _, at = begun(plan, what, None)
    calls = [event.call for event in sitting.take(Tick(at + YEAR)) if isinstance(event, Called)]
    assert len(calls) == len(set(calls)) <= 4, "each of them once"
    assert sitting.warm.count == int((at + YEAR) / GRID)
    assert len(sitting.warm.skin) < 12_000
    # The plan's fire is at 1290 degC, the shop at 20 degC; what lies there for a year is as warm as that, but for
    # rounding, and what is struck lies between the shop and its tool.
    assert 20 - 1e-6 <= sitting.warm.middle_now - 273.15 <= 1290
    if sitting.state.phase.row.place is not Place.ANVIL:
        assert sitting.warm.middle_now == pytest.approx(20 + 273.15, abs=0.5)
    heats = [heat for step in heat_figures(sitting).steps for heat in step.heats]
    stands = not heats or sitting.state.paused
    assert sum(heat.in_fire + heat.strike for heat in heats) == pytest.approx(0 if stands else YEAR, abs=at)


def test_what_falls_due_in_a_gap_is_told_at_its_time(plan: Plan) -> None:
    sitting, beside = Sitting(plan, None, NEVER), Sitting(plan, None, NEVER)
    for one in (sitting, beside):
        one.open()
        one.take(Said(20.0, Word.NEXT))
        one.take(Said(900.0, Word.OUT))
    called = [event for event in sitting.take(Tick(900.0 + DAY)) if isinstance(event, Called)]
    assert [event.call for event in called] == [Call.TOO_COLD]
    while beside.skin is not None and beside.skin[0] >= 1150 + 273.15:
        beside.take(Tick(beside.now + GRID))
    assert called[0].at == beside.now


@given(due=st.integers(1, 3000), last=st.integers(1, 3000), now=st.integers(0, 50))
def test_the_point_before_what_comes_about_is_found(due: int, last: int, now: int) -> None:
    found = last_before(lambda number: number >= due, now, last)
    assert found == (max(now, min(due - 1, last)) if last > now else last)


@settings(max_examples=10)
@given(
    steps=st.lists(st.tuples(st.sampled_from([1, 7199, 7201, 9000]), st.integers(0, 40_000)), min_size=1, max_size=4)
)
def test_a_point_that_is_kept_is_found_by_its_time(steps: list[tuple[int, int]]) -> None:
    kept, entry = KeptPoints(), 0
    numbers: list[int] = []
    for every_one, gap in steps:
        for number in [*range(entry + 1, entry + every_one), *kept_until(entry + every_one, entry, entry + gap)]:
            kept.add(len(numbers), number)
            numbers.append(number)
        entry = max([entry, *numbers[-1:]])
    for place, number in [*enumerate(numbers)][:: max(1, len(numbers) // 50)]:
        assert kept.number(place) == number
        assert kept.place_after(number * GRID) == place + 1
        assert kept.place_after(number * GRID - 0.01) == place
    assert all(not isnan(kept.time(place)) for place in range(len(numbers)))
    first = len(numbers) // 2
    kept.cut(first)
    for place, number in enumerate(numbers[first:], start=first):
        kept.add(place, number)
    assert [kept.number(place) for place in range(len(numbers))] == numbers


def test_the_hottest_of_a_heat_is_the_same_whenever_it_is_asked_for(plan: Plan) -> None:
    asked, unasked = (Sitting(plan, ProbeOn.WORK, NEVER) for _ in range(2))
    for one in (asked, unasked):
        one.open()
        one.take(Said(1.0, Word.NEXT))
    for second in range(2, 400):
        kelvin = None if 150 < second < 190 else 1300.0 + 250 * sin(second / 90) + second % 3
        for one in (asked, unasked):
            one.take(Reading(float(second), kelvin))
        if second % 37 == 0:
            assert asked.peak is not None
    for word in (Word.OUT, Word.UNDO):
        for one in (asked, unasked):
            one.take(Said(400.0, word))
        assert asked.peak == unasked.peak


@pytest.mark.parametrize("every", [600.0, GRID])
def test_taken_back_to_where_no_section_is_known_no_skin_is_known(every: float) -> None:
    sitting = Sitting(find_plan("normalize", None), None, NEVER)
    sitting.open()
    for said in (Said(300.0, Word.NEXT), Said(330.0, Word.UNDO)):
        sitting.take(said)
    at = 330.0
    while at < 930.0:
        at += every
        sitting.take(Tick(at))
    assert isnan(sitting.warm.skin_now)
    assert isnan(sitting.warm.skin[-1])

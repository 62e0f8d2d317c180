"""The same entries give the same state, always."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.engine import Sitting
from plans.sitting.event_record import event_from_record, event_to_record
from plans.sitting.events import Asked, Called, Entry, Said, Tick, WentOn, Word
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.words import WordError

ALL = Hands(HandsFree.ALL, grace=30.0)
NEVER = Hands(HandsFree.NEVER)
GAPS = st.one_of(st.floats(0.0, 3.0), st.floats(0.0, 400.0), st.sampled_from([0.0, 0.25, 0.5, 1.0, 5.0, 60.0]))
KELVINS = st.one_of(st.none(), st.floats(280.0, 1700.0))
STREAMS = st.lists(
    st.tuples(
        GAPS,
        st.one_of(
            st.sampled_from([word for word in Word if word is not Word.NOTE]),
            st.just(Word.NEXT),
            st.text("abc [/x]\n", min_size=1, max_size=8),
            KELVINS,
        ),
    ),
    max_size=40,
)


@pytest.fixture(scope="session")
def plan(plan: Plan) -> Plan:
    """The small plan, with an edge in all that is struck."""
    thin = Section(0.020, 0.003)
    return replace(plan, steps=tuple(replace(step, thin=thin) if step.keep_above else step for step in plan.steps))


def run(
    plan: Plan,
    probe_on: ProbeOn | None,
    stream: list[tuple[float, object]],
    ticks: float,
    hands: Hands = ALL,
    shop: Shop = Shop(),  # noqa: B008 - frozen
    lag: float = 0.0,
) -> tuple[Sitting, list[Entry], float]:
    """Feed a stream in, with a tick every so many seconds between."""
    sitting = Sitting(plan, probe_on, hands, shop, lag)
    log = list(sitting.open())
    at = 0.0
    for gap, what in stream:
        end = at + gap
        while ticks and at + ticks < end:
            at += ticks
            log += sitting.take(Tick(at))
        at = end
        entry: Said | Reading
        if isinstance(what, Word):
            entry = Said(at, what, {Word.MEASURED: "w 39 mm t 9 mm", Word.TICK: "item 1"}.get(what, ""))
        elif isinstance(what, str):
            entry = Said(at, Word.NOTE, what)
        else:
            entry = Reading(at, what, None if what else "missing")  # type: ignore[arg-type]
        try:
            log += sitting.take(entry)
        except WordError:
            log += sitting.take(Tick(at))
    log += sitting.take(Tick(at))
    return sitting, log, at


def same(one: Sitting, other: Sitting) -> bool:
    # NaN (no section known yet) is equal to itself here.
    return (
        one.state == other.state
        and one.warm.skin.tobytes() == other.warm.skin.tobytes()
        and one.warm.middle.tobytes() == other.warm.middle.tobytes()
        and one.warm.thin == other.warm.thin
        and one.measured == other.measured
        and (one.probe.kelvin, one.probe.smooth) == (other.probe.kelvin, other.probe.smooth)
    )


@given(
    stream=STREAMS,
    probe_on=st.sampled_from([None, ProbeOn.WORK, ProbeOn.FIRE]),
    shop=st.builds(Shop, st.floats(0.3, 3.0)),
    lag=st.sampled_from([0.0, 8.0]),
)
def test_replaying_a_log_through_json_gives_the_same_state(
    plan: Plan, stream: list[tuple[float, object]], probe_on: ProbeOn | None, shop: Shop, lag: float
) -> None:
    """The log does not have the lag of the probe: what came of it stands in it."""
    live, log, at = run(plan, probe_on, stream, ticks=0.0, shop=shop, lag=lag)
    written = [
        entry if isinstance(entry, Reading) else event_from_record(json.loads(json.dumps(event_to_record(entry))))
        for entry in log
    ]
    again = Sitting(plan, probe_on, ALL, shop)
    again.replay(written)
    again.take(Tick(at))
    assert same(live, again)


@given(
    stream=STREAMS,
    probe_on=st.sampled_from([None, ProbeOn.WORK, ProbeOn.FIRE]),
    ticks=st.sampled_from([0.1, 0.7, 13.0]),
)
def test_ticks_change_nothing(
    plan: Plan, stream: list[tuple[float, object]], probe_on: ProbeOn | None, ticks: float
) -> None:
    without, log, _ = run(plan, probe_on, stream, ticks=0.0)
    ticked, ticked_log, _ = run(plan, probe_on, stream, ticks)
    assert ticked_log == log
    assert same(without, ticked)


@given(stream=STREAMS, cut=st.floats(0.0, 1.0), probe_on=st.sampled_from([None, ProbeOn.WORK]))
def test_a_log_cut_short_replays_to_where_the_sitting_was_then(
    plan: Plan, stream: list[tuple[float, object]], cut: float, probe_on: ProbeOn | None
) -> None:
    half = stream[: int(cut * len(stream))]
    live, log, at = run(plan, probe_on, half, ticks=0.0)
    _, whole, _ = run(plan, probe_on, stream, ticks=0.0)
    again = Sitting(plan, probe_on, ALL)
    again.replay(whole[: len(log)])
    again.take(Tick(at))
    assert whole[: len(log)] == log
    assert same(live, again)


def test_a_break_after_a_time_without_entries_is_replayed_as_it_was(plan: Plan) -> None:
    live, again = Sitting(plan, hands=NEVER), Sitting(plan, hands=NEVER)
    log = [*live.open(), *live.take(Said(1.0, Word.NEXT)), *live.take(Tick(150.0))]
    log += live.take(WentOn(1000.0, None, paused_since=150.0))
    log += live.take(Said(1010.0, Word.IN))
    again.replay(log)
    live.take(Tick(1020.0))
    again.take(Tick(1020.0))
    assert again.warm.skin == pytest.approx(live.warm.skin, nan_ok=True)


def test_what_came_about_in_a_break_is_replayed_in_its_own_time(plan: Plan) -> None:
    """The oven's time is up while nobody is there: that is told after the break, and every point behind it is kept."""
    oven = replace(plan, steps=(plan.steps[4],))
    live, again = Sitting(oven, hands=ALL), Sitting(oven, hands=ALL)
    log = [*live.open(), *live.take(Said(1.0, Word.NEXT)), *live.take(WentOn(9000.0))]
    assert [entry.at for entry in log if isinstance(entry, Called)] == [7201.0]
    again.replay(log)
    assert (again.now, same(live, again)) == (9000.0, True)


def test_questions_and_corrections_are_replayed_as_they_were(plan: Plan) -> None:
    live, again = (Sitting(plan, hands=Hands(asks=True)) for _ in range(2))
    log = list(live.open())
    for at, word, text in (
        *((1.0, Word.NEXT, ""), (5.0, Word.NEXT, ""), (8.0, Word.NEXT, ""), (60.0, Word.OUT, "")),
        *((70.0, Word.EARLIER, "5"), (75.0, Word.UNDO, ""), (76.0, Word.REDO, ""), (90.0, Word.IN, "")),
        *((100.0, Word.FLUX, ""), (110.0, Word.FLUX, ""), (120.0, Word.PAUSE, ""), (150.0, Word.NEXT, "")),
        (152.0, Word.IN, ""),
    ):
        log += live.take(Said(at, word, text))
    assert sum(isinstance(entry, Asked) for entry in log) == 2
    again.replay(event_from_record(json.loads(json.dumps(event_to_record(entry)))) for entry in log)  # type: ignore[arg-type]
    assert same(live, again)

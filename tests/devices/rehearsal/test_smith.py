"""The simulated smith against the real sitting: he gets through, makes his mistakes, and is never stuck."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from plans.phase import PhaseKind
from plans.plan import Phase, Plan, Step, StepKind
from plans.sitting.calls import Call
from plans.sitting.events import Begun, Called, Said, Word

pytestmark = pytest.mark.slow

Play = Callable[..., Any]


@pytest.fixture(scope="module")
def many(plan: Plan, play: Play) -> list[Any]:
    return [play(plan, seed) for seed in range(4)]


def test_finishes_every_time(many: list[Any]) -> None:
    assert all(played.sitting.state.finished for played in many)


def test_every_rehearsal_has_a_heat_struck_too_cold_and_a_probe_lost_and_found(many: list[Any]) -> None:
    for played in many:
        calls = Counter(call.call for call in played.sitting.state.calls)
        assert calls[Call.TOO_COLD] >= 2
        assert calls[Call.PROBE_LOST] == calls[Call.PROBE_BACK] == 1


def test_most_heats_are_struck_in_time(many: list[Any]) -> None:
    struck = cold = 0
    for played in many:
        struck += sum(isinstance(entry, Begun) and entry.phase is PhaseKind.STRIKE for entry in played.entries)
        cold += sum(isinstance(entry, Called) and entry.call is Call.TOO_COLD for entry in played.entries)
    assert cold < struck * 0.6


def test_a_soak_is_sometimes_too_long(many: list[Any]) -> None:
    long = [any(call.call is Call.SOAKED_TOO_LONG for call in played.sitting.state.calls) for played in many]
    assert any(long)
    assert not all(long)


def test_leaves_notes_takes_one_word_back_and_wants_one_heat_more(many: list[Any]) -> None:
    for played in many:
        words = Counter(said.word for said in played.said)
        assert words[Word.NOTE] == len(played.sitting.state.notes) == 2
        assert words[Word.UNDO] == 1
        assert words[Word.REPEAT] == 1
        assert words[Word.ACKNOWLEDGE] == 1
        assert sum(map(len, played.sitting.state.extra.values())) == 1


def test_what_is_taken_back_is_his_own_hasty_word(many: list[Any]) -> None:
    for played in many:
        words = [entry for entry in played.entries if isinstance(entry, Said)]
        undo = next(i for i, said in enumerate(words) if said.word is Word.UNDO)
        assert words[undo - 1].word is Word.NEXT
        assert words[undo].at - words[undo - 1].at <= 5.0


def test_answers_a_call_after_a_human_time(many: list[Any]) -> None:
    waits = []
    for played in many:
        words = [entry for entry in played.entries if isinstance(entry, Said)]
        hasty = {said.at for said, after in pairwise(words) if after.word is Word.UNDO}
        events = [entry for entry in played.entries if isinstance(entry, Called | Begun)]
        for call, after in pairwise(events):
            if isinstance(call, Called) and call.call is Call.SOAK_DONE and isinstance(after, Begun):
                waits += [after.at - call.at] if after.at not in hasty else []
    assert min(waits) >= 1.5
    assert sorted(waits)[len(waits) // 2] < 9.0
    assert max(waits) > 30.0


def test_a_strike_without_a_cold_limit_ends_too(play: Play) -> None:
    step = Step("Plain", StepKind.FORGE, (Phase(PhaseKind.STRIKE),), heats=2)
    played = play(Plan("plain", "", "", (), (step,), ""), 1, give_up=600.0)
    assert played.sitting.state.finished


def test_a_fire_that_never_gets_hot_enough_is_left_in_the_end(plan: Plan, play: Play) -> None:
    weld = plan.steps[1]
    cold_fire = replace(weld, targets=(replace(weld.targets[0], fire=1000.0),), heats=1)
    played = play(replace(plan, steps=(cold_fire,)), 1)
    assert played.sitting.state.finished


_HUMAN = st.lists(
    st.builds(
        Said,
        st.floats(0.0, 1200.0),
        st.sampled_from([word for word in Word if word not in (Word.FINISH, Word.PAUSE)]),
        st.just("human"),
    ).map(lambda said: replace(said, text="") if said.word is Word.EARLIER else said),
    max_size=25,
)


# A fifth of the examples of other properties: each plays a whole rehearsal.
_FEWER = settings().max_examples // 5


@settings(max_examples=_FEWER, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(human=_HUMAN, seed=st.integers(0, 1000))
def test_is_never_stuck_whatever_else_is_said(short: Plan, play: Play, human: list[Said], seed: int) -> None:
    played = play(short, seed, human)
    assert played.sitting.state.finished


@settings(max_examples=_FEWER // 2, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(paused=st.floats(0.0, 700.0), lasts=st.floats(1.0, 2000.0))
def test_keeps_quiet_while_the_human_pauses_and_goes_on_after(
    short: Plan, play: Play, paused: float, lasts: float
) -> None:
    played = play(short, 7, [Said(paused, Word.PAUSE), Said(paused + lasts, Word.RESUME)])
    assert not [said for said in played.said if paused + 0.25 < said.at < paused + lasts]
    assert played.sitting.state.finished

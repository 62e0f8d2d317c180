"""Every call has its words, its shape, its place on a curve and its sound, whichever come to be added."""

from __future__ import annotations

import pytest

from plans.sitting.calls import ALARMS, PASSING, PROMPTS, SPELLS, STATES, URGENCY, Call


@pytest.mark.parametrize("call", Call)
def test_a_call_is_a_word_a_shape_and_a_sound(call: Call) -> None:
    row = call.row
    assert row.advice
    assert row.spoken
    assert len(row.sign) == 1
    assert all(row.marks)
    assert row.bell[0] == 0.0
    assert list(row.bell) == sorted(set(row.bell))


def test_a_call_is_found_by_the_name_that_logs_write() -> None:
    assert Call("too cold") is Call.TOO_COLD
    assert Call("arrest seen") is Call.ARREST, "as earlier versions wrote it"
    with pytest.raises(ValueError, match="too warm"):
        Call("too warm")


def test_no_two_calls_sound_alike() -> None:
    assert len({call.row.bell for call in Call}) == len(Call)


def test_a_call_has_one_role_and_what_holds_of_what_is_wrong_has_a_rank_of_its_own() -> None:
    assert sum(map(len, (PROMPTS, ALARMS, STATES, SPELLS, PASSING))) == len(Call)
    assert set(URGENCY) == ALARMS | STATES
    assert len({call.row.rank for call in URGENCY}) == len(URGENCY)

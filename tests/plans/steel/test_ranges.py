"""Where to normalize, harden and temper: beside what smiths work by, and in a sane place for every steel."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.steel.advice import PRACTICE, Advice
from plans.steel.card import card_of
from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.steel.grades import Grade, all_grades
from plans.steel.naming import find_grade
from plans.units import celsius, kelvin

EACH = pytest.mark.parametrize("grade", all_grades(), ids=lambda grade: grade.name)


def span(advice: Advice) -> tuple[float, float]:
    assert advice.low is not None
    assert advice.high is not None
    return celsius(advice.low), celsius(advice.high)


@pytest.mark.parametrize("grade", ["1084", "C80U", "C75S", "80CrV2"])
def test_normalizing_as_smiths_do_it(grade: str) -> None:
    # Common practice, no source: for about 0.8 % C three falling heats, e.g. 900, 845, 790 degC.
    heats = card_of(find_grade(grade)).normalizing
    assert len(heats) == 3
    for heat, degrees in zip(heats, (900, 845, 790), strict=True):
        low, high = span(heat)
        assert low <= degrees <= high


@pytest.mark.parametrize("grade", ["1095", "C105U", "W2", "52100", "SK95"])
def test_more_carbon_is_taken_above_acm_first(grade: str) -> None:
    # Common practice, no source: the first heat above Acm, the last well below it.
    of = card_of(find_grade(grade))
    assert of.upper.name == "Acm"
    acm = of.upper.best.value
    first, last = of.normalizing[0], of.normalizing[-1]
    assert acm is not None
    assert first.low is not None
    assert last.low is not None
    assert first.low > acm > last.low
    assert "Above Acm" in first.why
    assert ("below Acm" in last.why) is (last.high is not None and last.high <= acm)
    assert "Acm" in last.why


@pytest.mark.parametrize("grade", ["1084", "C80U", "C105U", "SK95"])
def test_hardening_as_smiths_do_it(grade: str) -> None:
    # Common practice, no source: plain steel of 0.8 to 1.0 % C at 790 to 815 degC, 5 min.
    advice = card_of(find_grade(grade)).hardening
    low, high = span(advice)
    assert low == pytest.approx(790, abs=6)
    assert high == pytest.approx(815, abs=6)
    assert "5 min" in advice.hint


@pytest.mark.parametrize(
    ("grade", "low", "high"),
    [
        # Saarstahl sheet C60: 800 to 840. Handbook values for springs and machine steels, from memory.
        ("1060", 800, 840),
        ("4140", 845, 870),
        ("4340", 815, 845),
        ("6150", 845, 870),
        ("9260", 855, 885),
    ],
)
def test_hardening_of_other_steels_beside_their_sheets(grade: str, low: float, high: float) -> None:
    ours = span(card_of(find_grade(grade)).hardening)
    assert ours[0] == pytest.approx(low, abs=16)
    assert ours[1] == pytest.approx(high, abs=16)


def test_tempering_as_smiths_do_it() -> None:
    # Common practice, no source: within 1 to 2 h, still hand-warm, two holds of 2 h at 175 to 230 degC.
    edge, brittle = card_of(find_grade("1084")).tempering
    assert span(edge) == pytest.approx((175, 230))
    for said in ("1 to 2 h", "hand-warm", "two holds of 2 h"):
        assert said in edge.hint
    assert brittle.name == "leave out"
    spring = next(one for one in card_of(find_grade("5160")).tempering if one.name == "spring")
    assert span(spring) == pytest.approx((400, 500))
    assert all(one.name != "spring" for one in card_of(find_grade("1095")).tempering)


@EACH
def test_everything_lies_where_it_must(grade: Grade) -> None:
    of = card_of(grade)
    ac1, upper = of.ac1.best.value, of.upper.best.value
    for advice in (*of.normalizing, of.hardening, *of.tempering):
        assert advice.why
        assert advice.source
        if advice.low is None or advice.high is None:
            assert advice.low is advice.high
            continue
        assert advice.low <= advice.high
    lows = [advice.low for advice in of.normalizing if advice.low is not None]
    assert lows == sorted(lows, reverse=True)
    if ac1 is None or upper is None:
        return
    for low in lows:
        assert low > (ac1 if of.upper.name == "Acm" else upper)
    if of.hardening.low is not None:
        assert of.hardening.low > ac1
        assert of.hardening.high is not None
        assert of.hardening.high < (upper + 110)
    for advice in of.tempering:
        assert advice.high is None or advice.high < ac1 - 30


def test_printed_ranges_win_and_name_their_source() -> None:
    advice = card_of(find_grade("O1")).hardening
    assert span(advice) == pytest.approx((788, 816))
    assert advice.origin is Origin.PUBLISHED
    assert "Steel Products Manual" in advice.source
    assert "Oil" in advice.hint
    plain = card_of(find_grade("1084")).hardening
    assert (plain.origin, plain.source) == (Origin.FORMULA, PRACTICE)


def test_a_printed_temper_for_springs_does_not_hide_the_one_for_edges() -> None:
    names = [advice.name for advice in card_of(find_grade("55Cr3")).tempering]
    assert names == ["tempering", "edge", "leave out"]
    assert card_of(find_grade("55Cr3")).tempering[0].why == "The sheet has it for springs."


def test_mild_steel_is_not_hardened() -> None:
    of = card_of(find_grade("1018"))
    assert of.hardening.low is None
    assert "too little carbon" in of.hardening.why
    assert of.tempering[0].low is None
    assert of.normalizing[0].low is not None


def test_air_hardening_steel_is_not_normalized() -> None:
    of = card_of(find_grade("A2"))
    assert [advice.low for advice in of.normalizing] == [None]
    assert "still air" in of.normalizing[0].why
    assert span(of.hardening) == pytest.approx((927, 982))
    assert "20 to 30 min" in of.hardening.hint


def test_a_steel_that_nothing_is_known_of_gets_no_figure() -> None:
    of = card_of(Composition.of({"C": 1.0, "Cr": 14.0}))
    assert [advice.low for advice in of.normalizing] == [None]
    assert of.hardening.low is None
    assert "maker" in of.hardening.why


def test_above_acm_the_reason_is_another() -> None:
    # 1080 has passed its Acm when it is hardened; 1095 has not.
    assert card_of(find_grade("1080")).hardening.why.startswith("Above Acm")
    assert card_of(find_grade("C105U")).hardening.why.startswith("Above Ac1")
    assert card_of(find_grade("52100")).hardening.why.startswith("Above Ac1")
    assert card_of(find_grade("1045")).hardening.why.startswith("Above Ac3")


@given(
    carbon=st.floats(0.1, 1.3),
    manganese=st.floats(0, 1.5),
    silicon=st.floats(0, 1),
    chromium=st.floats(0, 1.5),
)
def test_own_compositions_get_ranges_in_order(carbon: float, manganese: float, silicon: float, chromium: float) -> None:
    of = card_of(Composition.of({"C": carbon, "Mn": manganese, "Si": silicon, "Cr": chromium}))
    ac1 = of.ac1.best.value
    assert ac1 is not None
    heats = [advice.low for advice in of.normalizing]
    assert None not in heats
    assert heats == sorted(heats, key=lambda low: low or 0, reverse=True)
    if of.hardening.low is not None:
        assert of.hardening.low > ac1
        assert of.hardening.low > kelvin(784)
    if of.hardened is not None:
        assert of.hardened.dissolved.carbon <= carbon

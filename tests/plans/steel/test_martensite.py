"""Martensite and what carbides left over do to it: what holds for every steel."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from plans.steel import martensite
from plans.steel.card import card_of
from plans.steel.composition import Composition
from plans.steel.grades import Grade, all_grades
from plans.steel.hypereutectoid import dissolved, hardened
from plans.steel.naming import find_grade
from plans.units import Units, celsius, kelvin

LOW_ALLOY = st.fixed_dictionaries(
    {
        "C": st.floats(0.1, 1.2),
        "Mn": st.floats(0, 2),
        "Si": st.floats(0, 1),
        "Cr": st.floats(0, 2),
        "Ni": st.floats(0, 3),
    }
)
TEMPERATURES = st.floats(1, 1500)


@given(shares=LOW_ALLOY, element=st.sampled_from(["C", "Mn", "Si", "Cr", "Ni", "Mo"]), more=st.floats(0.01, 0.1))
def test_more_of_anything_lowers_ms(shares: dict[str, float], element: str, more: float) -> None:
    less = martensite.ms(Composition.of(shares)).value
    lower = martensite.ms(Composition.of(shares | {element: shares.get(element, 0.0) + more})).value
    assert less is not None
    assert lower is not None
    assert lower < less


@given(start=TEMPERATURES, at=TEMPERATURES, colder=st.floats(0.1, 300))
def test_martensite_is_a_share_and_grows_as_it_cools(start: float, at: float, colder: float) -> None:
    share = martensite.fraction(start, at)
    assert 0 <= share <= 1
    assert martensite.fraction(start, at - colder) >= share
    assert share + martensite.retained(start, at) == pytest.approx(1)
    assert (share == 0) == (at >= start) or share == pytest.approx(0, abs=1e-12)


@given(shares=LOW_ALLOY)
def test_the_carbon_of_an_ms_is_the_inverse(shares: dict[str, float]) -> None:
    steel = Composition.of(shares)
    start = martensite.ms(steel).value
    assert start is not None
    assert martensite.carbon_for(start, replace(steel, carbon=0.3)) == pytest.approx(steel.carbon, abs=1e-9)


@pytest.mark.parametrize("degrees", [600, -100])
def test_an_ms_that_no_carbon_gives_is_refused(degrees: float) -> None:
    with pytest.raises(ValueError, match="no carbon content"):
        martensite.carbon_for(kelvin(degrees), Composition.of({"C": 0.9}))


def test_a_warm_end_of_the_quench_leaves_more_austenite() -> None:
    steel = find_grade("1095").middle
    quenched = hardened(steel, kelvin(800))
    assert quenched is not None
    assert quenched.ms.value is not None
    assert martensite.retained(quenched.ms.value, kelvin(80)) > martensite.retained(quenched.ms.value)


@given(at=st.floats(760, 960), hotter=st.floats(5, 100))
def test_hotter_hardening_lowers_ms_and_leaves_more_austenite(at: float, hotter: float) -> None:
    steel = find_grade("100Cr6").middle
    cool, hot = hardened(steel, kelvin(at)), hardened(steel, kelvin(at + hotter))
    assert cool is not None
    assert hot is not None
    assert cool.ms.value is not None
    assert hot.ms.value is not None
    assert hot.ms.value <= cool.ms.value + 1e-3
    assert martensite.retained(hot.ms.value) >= martensite.retained(cool.ms.value) - 1e-5


def test_nothing_is_said_of_carbides_where_it_can_not_be() -> None:
    assert dissolved(find_grade("1045").middle, kelvin(830)) is None  # it has no carbide left above Ac3
    assert dissolved(find_grade("1095").middle, kelvin(700)) is None  # it is no austenite yet
    assert dissolved(find_grade("D2").middle, kelvin(1000)) is None  # its carbides are of another kind


def test_what_is_not_counted_is_said() -> None:
    there = dissolved(find_grade("W2").middle, kelvin(800))
    assert there is not None
    # 0.25 % vanadium binds 0.25 * 12.011 / 50.942 = 0.059 % carbon.
    assert "vanadium may hold up to 0.06 %" in there.note
    nickel = dissolved(find_grade("75Ni8").middle, kelvin(800))
    assert nickel is not None
    assert not nickel.inside
    assert "Ni 1.95 %" in nickel.note


def test_all_dissolved_above_acm_and_not_below() -> None:
    steel = find_grade("1095").middle
    below, above = dissolved(steel, kelvin(790)), dissolved(steel, kelvin(850))
    assert below is not None
    assert above is not None
    assert below.carbide > 0
    assert above.carbide == 0
    assert above.carbon == steel.carbon


@pytest.mark.parametrize("grade", all_grades(), ids=lambda grade: grade.name)
def test_every_grade_that_hardens_turns_mostly_to_martensite(grade: Grade) -> None:
    card = card_of(grade)
    start = (card.hardened.ms if card.hardened is not None else card.ms.best).value
    if start is None:
        assert card.ms.best.value is None
    elif card.hardened is not None or card.steel.carbon < 1:
        assert 0.7 < martensite.fraction(start, martensite.ROOM) < 1


def test_extrapolated_ms_says_so() -> None:
    spring = martensite.ms(find_grade("60SiCr7").middle)
    assert spring.value is not None
    assert not spring.inside
    assert "Si 1.65 %" in Units.METRIC.text(spring.note)
    assert spring.error is None


def test_carbides_that_may_be_left_are_told() -> None:
    assert "carbides left over raise it" in Units.METRIC.text(martensite.ms(find_grade("1095").middle).note)
    assert "carbides" not in Units.METRIC.text(martensite.ms(find_grade("5160").middle).note)
    assert celsius(martensite.ROOM) == pytest.approx(20)

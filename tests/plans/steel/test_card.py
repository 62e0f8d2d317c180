"""A card does not contradict itself: held over every grade, and over steels of any composition that smiths use."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from plans.steel.advice import Advice
from plans.steel.card import Card, card_of
from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.steel.grades import Grade, What, all_grades
from plans.steel.naming import find_grade
from plans.units import celsius, kelvin

EACH = pytest.mark.parametrize("grade", all_grades(), ids=lambda grade: grade.name)

COMPOSITIONS = st.fixed_dictionaries(
    {"C": st.floats(0.02, 1.6)},
    optional={
        "Mn": st.floats(0, 2),
        "Si": st.floats(0, 2),
        "Cr": st.floats(0, 3),
        "Ni": st.floats(0, 4),
        "Mo": st.floats(0, 0.8),
        "V": st.floats(0, 0.5),
        "W": st.floats(0, 3.5),
    },
).map(Composition.of)


def spans(advice: tuple[Advice, ...]) -> list[tuple[float, float]]:
    return [(one.low, one.high) for one in advice if one.low is not None and one.high is not None]


def check(of: Card) -> None:
    for one in (*of.normalizing, of.hardening, *of.tempering):
        assert one.why
        assert one.source
        assert (one.low is None) is (one.high is None)
    ac1, upper = of.ac1.best, of.upper
    heats = spans(of.normalizing)
    if heats:
        # The first heat lies above the upper critical temperature by every figure that there is, the others fall.
        known = [one.high for one in (upper.best, *upper.beside) if one.high is not None]
        assert heats[0][0] > max(known)
        for (low, high), (next_low, next_high) in pairwise(heats):
            assert next_low < low
            assert next_high <= high
        assert ac1.high is not None
        assert all(low > ac1.high for low, _ in heats)
        if upper.name == "Ac3":
            assert all(low > max(known) for low, _ in heats)
    quench = of.hardening
    if quench.low is not None and quench.high is not None:
        assert ac1.high is None or quench.low > ac1.high
        if upper.name == "Ac3" and upper.best.high is not None:
            assert quench.low > upper.best.high
        if len(heats) == 3:
            assert heats[2][1] <= quench.high
            assert heats[2][0] < quench.high
    kept_out = [span for one, span in zip(of.tempering, spans(of.tempering), strict=False) if one.name == "leave out"]
    tempers = [span for one, span in zip(of.tempering, spans(of.tempering), strict=False) if one.name != "leave out"]
    for low, high in tempers:
        assert low <= high
        assert ac1.low is None or high < ac1.low - 25
        assert all(high <= brittle[0] or low >= brittle[1] for brittle in kept_out)
    if of.hardening.low is None and of.steel.carbon < 0.28:
        assert not tempers


@EACH
def test_the_card_of_a_grade_does_not_contradict_itself(grade: Grade) -> None:
    check(card_of(grade))


@given(COMPOSITIONS)
def test_the_card_of_any_composition_does_not_contradict_itself(steel: Composition) -> None:
    check(card_of(steel))


@given(carbon=st.floats(1.1, 1.6), manganese=st.floats(0, 1.5), chromium=st.floats(0, 1.6))
def test_much_carbon_is_normalized_last_no_hotter_than_it_is_hardened(
    carbon: float, manganese: float, chromium: float
) -> None:
    of = card_of(Composition.of({"C": carbon, "Mn": manganese, "Cr": chromium}))
    heats = spans(of.normalizing)
    assert len(heats) == 3
    assert of.hardening.high is not None
    assert heats[2][1] <= of.hardening.high


@EACH
def test_ranges_lie_within_what_everybody_prints(grade: Grade) -> None:
    of = card_of(grade)
    for what, advice in (
        (What.HARDENING, (of.hardening,)),
        (What.TEMPERING, of.tempering),
        (What.NORMALIZING, of.normalizing),
    ):
        stated = grade.stated_for(what)
        given_out = [one for one in advice if one.origin.is_stated]
        if what is What.HARDENING and stated and of.steel.carbon >= 0.28:
            assert given_out
        for one in given_out:
            assert one.low is not None
            assert one.high is not None
            for range_ in stated:
                assert range_.low - 1e-6 <= one.low <= one.high <= range_.high + 1e-6
                assert str(range_.source) in one.source


@EACH
def test_the_rule_agrees_with_what_is_printed_to_harden_from(grade: Grade) -> None:
    # Sources as in the table of grades. What the rule gives for the middle of the composition, against the middle of
    # what is printed: so far it is right where nobody prints anything.
    stated = [one for one in grade.stated_for(What.HARDENING) if one.source.looked_up]
    rule = card_of(grade.middle).hardening
    if not stated or grade.air_hardening or rule.low is None or rule.high is None:
        return
    middle = sum((one.low + one.high) / 2 for one in stated) / len(stated)
    assert (rule.low + rule.high) / 2 == pytest.approx(middle, abs=35)


def test_a_printed_range_below_the_steels_own_acm_is_not_given_out() -> None:
    # Lucefin's card prints an Acm of 850 degC for 52100, computed equilibria (mc_fe 2.059) 886: the first heat, which
    # is to dissolve the carbide along the grains, lies above both. Steel Forge prints 900 to 925 degC.
    first = card_of(find_grade("52100")).normalizing[0]
    assert first.low is not None
    assert celsius(first.low) > 886
    assert first.origin is Origin.PUBLISHED


def test_52100_as_asm_prints_it() -> None:
    # ASM International, One Minute Mentor: Martensitic heat treating, 12 June 2019: austenitize 815 to 855 degC, temper
    # 150 to 230 degC.
    of = card_of(find_grade("52100"))
    assert spans((of.hardening,)) == [(kelvin(815), kelvin(855))]
    assert spans(of.tempering)[0] == (kelvin(150), kelvin(230))


def test_w1_is_normalized_within_print_and_above_its_acm() -> None:
    # Lucifer Furnaces, heat treatment guide: W1, normalizing 1450 to 1600 degF.
    of = card_of(find_grade("W1"))
    (low, high), *_ = spans(of.normalizing)
    acm = of.upper.best.value
    assert acm is not None
    assert kelvin(788) <= low < high <= kelvin(871.2)
    assert high - low > 20
    assert low > acm


def test_l6_has_no_brittle_range() -> None:
    # Diamond Metals, sheet for L6: it does not become brittle between 450 and 800 degF, as other steels do.
    names = [one.name for one in card_of(find_grade("L6")).tempering]
    assert names == ["tempering"]
    assert "leave out" in [one.name for one in card_of(find_grade("8670")).tempering]


@pytest.mark.parametrize("name", ["wrought iron", "nickel 200"])
def test_what_can_not_be_hardened_says_so(name: str) -> None:
    of = card_of(find_grade(name))
    assert of.hardening.low is None
    assert [one.low for one in of.tempering] == [None]
    assert "nickel" in of.hardening.why if name == "nickel 200" else "too little carbon" in of.hardening.why


def test_remembered_figures_are_not_called_published() -> None:
    of = card_of(find_grade("White 2"))
    assert of.hardening.origin is Origin.MEMORY
    assert of.hardening.source.endswith("from memory")
    assert card_of(find_grade("5160")).ac1.best.origin is Origin.MEMORY
    assert card_of(find_grade("C45U")).ac1.best.origin is Origin.PUBLISHED

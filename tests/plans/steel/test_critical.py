"""Critical temperatures: what holds for every steel, and what is said where a formula does not reach."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from plans.steel import critical, equilibrium
from plans.steel.card import card_of
from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.steel.grades import Grade, all_grades
from plans.steel.naming import find_grade
from plans.units import Units, celsius, kelvin

EACH = pytest.mark.parametrize("grade", all_grades(), ids=lambda grade: grade.name)
HYPEREUTECTOID = st.floats(equilibrium.EUTECTOID_CARBON, equilibrium.MOST_CARBON)


TOO_RICH = ("A2", "D2", "X153CrMoV12", "115W8", "80WCrV8", "142WV13", "Blue 1", "Blue Super", "nickel 200")
"""Grades with more of an alloy than any formula for Acm has, or no steel at all."""


@EACH
def test_the_order_is_sane_for_every_grade(grade: Grade) -> None:
    of = card_of(grade)
    ms, ac1, upper, bs = of.ms.best.value, of.ac1.best.value, of.upper.best.value, of.bs.best.value
    if grade.name in TOO_RICH:
        assert upper is None
        assert Units.METRIC.text(of.upper.best.note).startswith("no figure: ")
        return
    assert ms is not None
    assert ac1 is not None
    assert upper is not None
    assert bs is not None
    if grade.name == "wrought iron":
        assert not of.ac1.best.inside
        assert not of.bs.best.inside
        return
    assert kelvin(100) < ms < ac1 < upper < kelvin(1000)
    assert ms < bs < ac1 + 40
    # Computed alone, without what is printed, the order holds too.
    computed = critical.ac1(of.steel).value
    above = critical.upper(of.steel).value
    assert computed is not None
    assert above is not None
    assert computed < above


@given(carbon=HYPEREUTECTOID)
def test_acm_and_solubility_are_inverse(carbon: float) -> None:
    assert equilibrium.solubility(equilibrium.acm(carbon)) == pytest.approx(carbon, abs=1e-9)


@given(carbon=HYPEREUTECTOID, more=st.floats(0.001, 0.3))
def test_more_carbon_needs_more_heat_to_dissolve(carbon: float, more: float) -> None:
    assert equilibrium.acm(carbon + more) > equilibrium.acm(carbon)


@given(carbon=HYPEREUTECTOID, chromium=st.floats(0, 2), silicon=st.floats(0, 1), manganese=st.floats(0, 1.5))
def test_acm_of_an_alloy_is_where_its_carbon_just_dissolves(
    carbon: float, chromium: float, silicon: float, manganese: float
) -> None:
    steel = Composition.of({"C": carbon, "Cr": chromium, "Si": silicon, "Mn": manganese})
    at = equilibrium.acm_of(steel)
    assert equilibrium.solubility_in(at, chromium, silicon, manganese) == pytest.approx(carbon, abs=1e-3)
    plain = equilibrium.acm(carbon)
    assert at >= plain - 0.01


@given(carbon=HYPEREUTECTOID, chromium=st.floats(0, 2), at=st.floats(735, 1000))
def test_carbon_and_chromium_are_kept_between_austenite_and_cementite(
    carbon: float, chromium: float, at: float
) -> None:
    steel = Composition.of({"C": carbon, "Cr": chromium})
    austenite = equilibrium.austenite_at(steel, kelvin(at))
    share = austenite.carbide
    assert 0 <= share < 0.2
    assert 0 <= austenite.carbon <= carbon
    assert 0 <= austenite.chromium <= chromium
    assert austenite.carbon * (1 - share) + equilibrium.CEMENTITE_CARBON * share == pytest.approx(carbon, abs=1e-4)


@given(carbon=HYPEREUTECTOID, chromium=st.floats(0, 2), at=st.floats(735, 1000), hotter=st.floats(1, 100))
def test_hotter_dissolves_more(carbon: float, chromium: float, at: float, hotter: float) -> None:
    steel = Composition.of({"C": carbon, "Cr": chromium})
    cool = equilibrium.austenite_at(steel, kelvin(at))
    warm = equilibrium.austenite_at(steel, kelvin(at + hotter))
    assert warm.carbon >= cool.carbon - 1e-6
    assert warm.carbide <= cool.carbide + 1e-6


@given(carbon=st.floats(0.02, 0.6), more=st.floats(0.01, 0.1))
def test_more_carbon_lowers_ac3(carbon: float, more: float) -> None:
    # Above 0.6 % both branches of `upper` take over, and the one of cementite rises.
    low, high = (
        critical.ac3(Composition.of({"C": share})).value for share in (min(carbon + more, 0.6), min(carbon, 0.59))
    )
    assert low is not None
    assert high is not None
    assert low < high


def test_the_upper_end_has_no_gap_where_one_formula_hands_on_to_the_next() -> None:
    # From 0.3 to 1.3 % carbon in steps of 0.005 %, plain and with the alloys of common steels.
    for alloys in ({}, {"Mn": 0.75, "Si": 0.25}, {"Cr": 1.0, "Mn": 0.7, "Si": 0.25}, {"Si": 1.8, "Mn": 0.9}):
        findings = [critical.upper(Composition.of({"C": step / 200} | alloys)) for step in range(60, 261)]
        values = [finding.value for finding in findings]
        names = [finding.name for finding in findings]
        assert names == sorted(names)  # Ac3 first, then Acm, and never back
        for before, after in pairwise(values):
            assert before is not None
            assert after is not None
            assert abs(after - before) < 5


def test_above_its_carbon_andrews_ac3_gives_nothing() -> None:
    finding = critical.ac3(Composition.of({"C": 0.9, "Mn": 0.4}))
    assert finding.value is None
    assert finding.note == "no figure: C 0.9 % is not within 0 to 0.6 %"
    assert not finding.inside


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ({"C": 0.05}, "extrapolated: C 0.05 % is not within 0.1 to 1.1 %"),
        ({"C": 0.5, "Cr": 5.2}, "extrapolated: Cr 5.2 % is not within 0 to 4.6 %"),
        ({"C": 0.5, "Cr": 5.2, "Mn": 5.5}, "Mn 5.5 %"),
    ],
)
def test_outside_its_limits_a_formula_says_so(shares: dict[str, float], says: str) -> None:
    finding = critical.ac1(Composition.of(shares))
    assert finding.value is not None
    assert not finding.inside
    assert says in Units.METRIC.text(finding.note)
    assert finding.error is None


def test_far_outside_there_is_no_figure() -> None:
    stainless = Composition.of({"C": 0.7, "Cr": 13.0})
    for finding in (
        critical.ac1(stainless),
        critical.upper(stainless),
        critical.bs(stainless),
        critical.acm(stainless),
    ):
        assert finding.value is None
        assert "Cr 13 %" in Units.METRIC.text(finding.note)
        assert finding.error is None


def test_inside_its_limits_it_says_nothing_of_them_and_knows_its_error() -> None:
    finding = critical.ac1(find_grade("5160").middle)
    assert finding.inside
    assert finding.note == ""
    assert finding.error == 15.0
    assert "Andrews" in finding.source


def test_acm_says_what_it_leaves_out() -> None:
    note = Units.METRIC.text(critical.acm(find_grade("O1").middle).note)
    assert "equilibrium" in note
    assert "V, W" in note
    assert "sources differ" in note
    assert "carbides of its own" not in Units.METRIC.text(critical.acm(find_grade("1095").middle).note)


def test_nickel_moves_the_eutectoid() -> None:
    # 0.75 % C with 2 % Ni: its A3 lies so low that cementite is the last to go, said to be extrapolated.
    finding = critical.upper(find_grade("75Ni8").middle)
    assert finding.name == "Acm"
    assert "extrapolated: " in Units.METRIC.text(finding.note)
    assert "Ni 1.95 %" in Units.METRIC.text(finding.note)
    assert 690 < celsius(finding.value or 0) < 760


def test_a_range_of_printed_values_keeps_all_its_sources() -> None:
    ac1 = card_of(find_grade("52100")).ac1.best
    assert ac1.origin is Origin.PUBLISHED
    assert (ac1.low, ac1.high) == (kelvin(750), kelvin(755))
    assert "Lucefin" in ac1.source
    assert "second maker" in ac1.source

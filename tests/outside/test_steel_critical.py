"""Critical temperatures beside the papers, makers' cards, a handbook, and computed equilibria."""

from __future__ import annotations

import pytest

from plans.steel import critical, equilibrium
from plans.steel.card import card_of
from plans.steel.composition import Composition
from plans.steel.finding import Finding, Origin
from plans.steel.grades import Grade, What, all_grades
from plans.steel.hypereutectoid import dissolved
from plans.steel.naming import find_grade
from plans.units import celsius, kelvin

STEEL_1045 = Composition.of({"C": 0.45, "Mn": 0.75, "Si": 0.2})
STEEL_1084 = Composition.of({"C": 0.84, "Mn": 0.75, "Si": 0.2})
STEEL_52100 = Composition.of({"C": 1.0, "Mn": 0.35, "Si": 0.25, "Cr": 1.475})
STEEL_C45U = Composition.of({"C": 0.46, "Mn": 0.7, "Si": 0.275})


def degrees(finding: Finding) -> float:
    assert finding.value is not None
    return celsius(finding.value)


def test_ac1_by_andrews() -> None:
    # K. W. Andrews, JISI 203 (1965) 721-727: 723 - 10.7 Mn - 16.9 Ni + 29.1 Si + 16.9 Cr + 290 As + 6.38 W, by hand.
    assert degrees(critical.ac1(STEEL_1045)) == pytest.approx(720.795, abs=0.1)
    assert degrees(critical.ac1(STEEL_52100)) == pytest.approx(751.4575, abs=0.1)
    others = Composition.of({"C": 0.4, "Ni": 1.0, "As": 0.01, "W": 0.5})
    assert degrees(critical.ac1(others)) == pytest.approx(723 - 16.9 + 2.9 + 3.19, abs=0.01)


def test_ac3_by_andrews() -> None:
    # Andrews 1965: 910 - 203 sqrt(C) - 15.2 Ni + 44.7 Si + 104 V + 31.5 Mo + 13.1 W; in full also - 30 Mn - 11 Cr
    # - 20 Cu + 700 P + 400 Al + 120 As + 400 Ti. By hand.
    assert degrees(critical.ac3(STEEL_1045)) == pytest.approx(782.76346, abs=0.1)
    assert degrees(critical.ac3_full(STEEL_1045)) == pytest.approx(760.26346, abs=0.1)
    bare = Composition.of({"C": 0.25})
    each = Composition.of(
        {"C": 0.25, "Ni": 1, "V": 0.1, "Mo": 0.2, "W": 0.1, "Cr": 1, "Cu": 0.2, "P": 0.02, "Al": 0.03, "As": 0.01}
        | {"Ti": 0.01}
    )
    short = -15.2 + 10.4 + 6.3 + 1.31
    assert degrees(critical.ac3(each)) - degrees(critical.ac3(bare)) == pytest.approx(short, abs=1e-6)
    full = short - 11 - 4 + 14 + 12 + 1.2 + 4
    assert degrees(critical.ac3_full(each)) - degrees(critical.ac3_full(bare)) == pytest.approx(full, abs=1e-6)


def test_bs_by_hand() -> None:
    # From memory: van Bohemen 2012, 839 - 86 Mn - 23 Si - 67 Cr - 33 Ni - 75 Mo - 270 (1 - exp(-1.33 C)), and Steven
    # and Haynes 1956, 830 - 270 C - 90 Mn - 37 Ni - 70 Cr - 83 Mo. exp(-1.33 * 0.4) = 0.587405.
    steel = Composition.of({"C": 0.4, "Mn": 0.7, "Si": 0.25, "Cr": 0.8, "Ni": 1.8, "Mo": 0.25})
    assert degrees(critical.bs(steel)) == pytest.approx(839 - 60.2 - 5.75 - 53.6 - 59.4 - 18.75 - 111.401, abs=0.01)
    assert degrees(critical.bs_steven_haynes(steel)) == pytest.approx(830 - 108 - 63 - 66.6 - 56 - 20.75, abs=0.01)


@pytest.mark.parametrize(
    ("finding", "printed", "within"),
    [
        # Lucefin Group technical card C45U 1.1730, EN ISO 4957, for 0.46 C 0.7 Mn 0.275 Si.
        (critical.ac1(STEEL_C45U), 720, 15),
        (critical.ac3(STEEL_C45U), 780, 20),
        # Lucefin Group technical card 100Cr6 1.3505, EN ISO 683-17; a second maker prints 750.
        (critical.ac1(STEEL_52100), 755, 15),
        (critical.ac1(STEEL_52100), 750, 15),
        # The same card. Published values of this Acm disagree by about 70 K.
        (critical.acm(STEEL_52100), 850, 70),
    ],
)
def test_cards(finding: Finding, printed: float, within: float) -> None:
    assert degrees(finding) == pytest.approx(printed, abs=within)


HANDBOOK = {
    # ASM Handbook vol. 4, approximate critical temperatures heated at 28 K/h (from memory): Ac1, Ac3.
    "1050": (725, 770),
    "1060": (725, 765),
    "1070": (725, 730),
    "4140": (730, 805),
    "4340": (725, 775),
    "5160": (710, 765),
    "6150": (750, 790),
    "9260": (745, 815),
}


@pytest.mark.parametrize("grade", HANDBOOK)
def test_formulas_beside_a_handbook(grade: str) -> None:
    steel = find_grade(grade).middle
    ac1, ac3 = critical.ac1(steel), critical.upper(steel)
    assert ac3.name == "Ac3"
    assert degrees(ac1) == pytest.approx(HANDBOOK[grade][0], abs=30)
    assert ac3.error is not None
    assert degrees(ac3) == pytest.approx(HANDBOOK[grade][1], abs=ac3.error)


def test_equilibrium_of_iron_and_carbon() -> None:
    # CALPHAD, mc_fe 2.059 (Povoden-Karadeniz, TU Wien) by pycalphad 0.11.2: A3 at 0.4 C 787.1, Acm at 1.0 C 819.4 (fit
    # 381.1 + 504.5 C - 66.36 C2), A1 726.6 degC at 0.76 C; textbooks print 727 and 0.76; pure iron 912 degC (textbook).
    assert celsius(equilibrium.a3(0.4)) == pytest.approx(787.1, abs=3)
    assert celsius(equilibrium.acm(1.0)) == pytest.approx(819.4, abs=5)
    assert celsius(equilibrium.acm(1.0)) == pytest.approx(381.1 + 504.5 - 66.36, abs=1e-6)
    assert celsius(equilibrium.EUTECTOID) == pytest.approx(726.6, abs=1)
    assert celsius(equilibrium.EUTECTOID) == pytest.approx(727, abs=1)
    assert pytest.approx(0.76, abs=0.01) == equilibrium.EUTECTOID_CARBON
    assert celsius(equilibrium.a3(0.0)) == pytest.approx(912, abs=2)
    for line in (equilibrium.a3, equilibrium.acm):
        assert line(equilibrium.EUTECTOID_CARBON) == pytest.approx(equilibrium.EUTECTOID, abs=1)


@pytest.mark.parametrize(
    ("carbon", "expected"),
    # Fe-C after Gustafson 1985 as kept by Khvan et al. 2014, cementite and austenite or ferrite, by pycalphad 0.11.2.
    [(0.1, 868.9), (0.2, 836.4), (0.3, 809.8), (0.5, 767.5), (0.6, 750.5), (0.7, 735.3)],
)
def test_a3_beside_computed_equilibria(carbon: float, expected: float) -> None:
    assert celsius(equilibrium.a3(carbon)) == pytest.approx(expected, abs=1.2)


@pytest.mark.parametrize(
    ("carbon", "expected"), [(0.8, 742.1), (0.9, 781.5), (1.0, 819.3), (1.1, 855.6), (1.2, 890.9), (1.4, 957.5)]
)
def test_acm_beside_computed_equilibria(carbon: float, expected: float) -> None:
    # The same Fe-C, by pycalphad 0.11.2.
    assert celsius(equilibrium.acm(carbon)) == pytest.approx(expected, abs=0.5)


@pytest.mark.parametrize(
    ("carbon", "chromium", "expected"),
    [
        (0.8, 0.5, 779.7),
        (1.0, 0.5, 846.9),
        (1.0, 1.0, 870.4),
        (1.2, 1.0, 929.3),
        (1.0, 1.475, 890.1),
        (0.9, 2.0, 883.2),
    ],
)
def test_acm_with_chromium(carbon: float, chromium: float, expected: float) -> None:
    # Fe-C-Cr, Khvan, Hallstedt and Broeckmann, Calphad 46 (2014) 24-33, by pycalphad 0.11.2. The factor in use lies on
    # purpose a tenth below it, towards mc_fe 2.059.
    ours = degrees(critical.acm(Composition.of({"C": carbon, "Cr": chromium})))
    assert expected - 12 < ours < expected


def test_acm_of_real_steels() -> None:
    # CALPHAD, mc_fe 2.059 by pycalphad: end of carbide 766 degC for 1084, 886 degC for 52100 (library, +-5).
    assert degrees(critical.acm(STEEL_1084)) == pytest.approx(766, abs=5)
    assert degrees(critical.acm(STEEL_52100)) == pytest.approx(886, abs=5)
    # A plain Acm line would be far off with chromium, and says so of itself: 819 degC.
    assert celsius(equilibrium.acm(1.0)) < 886 - 60


def test_ac1_lies_above_the_equilibrium_start() -> None:
    # CALPHAD, mc_fe 2.059: austenite begins at 717 degC in 1084, at 735 degC in 52100; Ac1 lies up to 40 K above.
    assert 0 <= degrees(critical.ac1(STEEL_1084)) - 717 <= 40
    assert 0 <= degrees(critical.ac1(STEEL_52100)) - 735 <= 40


def test_carbide_and_not_ferrite_is_the_last_to_go() -> None:
    # CALPHAD, mc_fe 2.059: in 1084 ferrite ends at 724 and carbide at 766 degC, in 52100 at 743 and 886.
    for steel, ferrite in ((STEEL_1084, 724), (STEEL_52100, 743)):
        end = critical.upper(steel)
        assert end.name == "Acm"
        assert degrees(end) > ferrite + 30


def test_carbon_dissolved_in_52100() -> None:
    # CALPHAD, mc_fe 2.059: 0.884 mass % at 845 degC; Fe-C-Cr of Khvan et al. 2014 gives 0.875 without Mn and Si.
    there = dissolved(STEEL_52100, kelvin(845))
    assert there is not None
    assert there.carbon == pytest.approx(0.884, abs=0.02)
    assert there.carbon == pytest.approx(0.875, abs=0.02)
    # By the line of iron and carbon alone all of it would dissolve; the note says so.
    assert "iron and carbon alone would give 1.00 %" in there.note
    # Khvan et al.: 1.253 % of the 1.475 % chromium is in the austenite.
    assert there.chromium == pytest.approx(1.253, abs=0.05)


@pytest.mark.parametrize(
    ("at", "carbon", "chromium"),
    [(780, 0.7125, 0.9612), (800, 0.7604, 1.0471), (820, 0.8102, 1.1365), (870, 0.9431, 1.3743)],
)
def test_carbon_dissolved_at_other_heats(at: float, carbon: float, chromium: float) -> None:
    # 1.0 C 1.475 Cr, Khvan et al. 2014, by pycalphad 0.11.2.
    there = dissolved(Composition.of({"C": 1.0, "Cr": 1.475}), kelvin(at))
    assert there is not None
    assert there.carbon == pytest.approx(carbon, abs=0.025)
    assert there.chromium == pytest.approx(chromium, abs=0.04)


def test_printed_values_win_and_the_difference_is_shown() -> None:
    of = card_of(find_grade("100Cr6"))
    # Lucefin's card prints Ac1 755, a second maker 750; the card's Acm is 850.
    assert of.ac1.best.origin is of.upper.best.origin is Origin.PUBLISHED
    assert (of.ac1.best.low, of.ac1.best.high) == (kelvin(750), kelvin(755))
    assert of.upper.best.value == kelvin(850)
    assert of.upper.difference is not None
    assert of.upper.beside[0].value == pytest.approx(kelvin(850) + of.upper.difference)
    assert 20 < of.upper.difference < 70


@pytest.mark.parametrize("grade", [grade for grade in all_grades() if grade.stated], ids=lambda grade: grade.name)
def test_printed_and_computed_agree_for_every_grade(grade: Grade) -> None:
    # Sources as in the table of grades. Ms of the bearing steels is left out: it was printed for carbides left over.
    of = card_of(grade)
    if of.ac1.difference is not None:
        assert abs(of.ac1.difference) < 30
    if of.upper.difference is not None:
        assert abs(of.upper.difference) < 70
    if of.ms.difference is not None and of.steel.carbon < 0.8:
        assert abs(of.ms.difference) < 25


def test_a_grade_without_a_printed_value_shows_a_formula() -> None:
    of = card_of(find_grade("1084"))
    assert not find_grade("1084").stated_for(What.AC1)
    assert of.ac1.best.origin is Origin.FORMULA
    assert of.ac1.difference is None

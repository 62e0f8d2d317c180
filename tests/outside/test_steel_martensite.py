"""Martensite beside the papers, a maker's card, and measured steels."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

import pytest

from plans.steel import martensite
from plans.steel.card import card_of
from plans.steel.composition import Composition
from plans.steel.finding import Finding
from plans.steel.naming import find_grade
from plans.units import Units, celsius, kelvin


def degrees(finding: Finding) -> float:
    assert finding.value is not None
    return celsius(finding.value)


def test_ms_by_van_bohemen() -> None:
    # S. M. C. van Bohemen, Mater. Sci. Technol. 28 (2012) 487: 565 - 600 (1 - exp(-0.96 C)) - 31 Mn - 13 Si - 10 Cr
    # - 18 Ni - 12 Mo, by hand for 1095 with all carbon dissolved.
    assert degrees(martensite.ms(Composition.of({"C": 0.95, "Mn": 0.4, "Si": 0.2}))) == pytest.approx(191.032, abs=0.1)
    alloyed = Composition.of({"C": 0.95, "Mn": 0.4, "Si": 0.2, "Cr": 1.0, "Ni": 2.0, "Mo": 0.5})
    assert degrees(martensite.ms(alloyed)) == pytest.approx(191.032 - 10 - 36 - 6, abs=0.1)


def test_ms_by_andrews() -> None:
    # Andrews 1965: 539 - 423 C - 30.4 Mn - 17.7 Ni - 12.1 Cr - 7.5 Mo, by hand.
    assert degrees(martensite.ms_andrews(Composition.of({"C": 0.45, "Mn": 0.75, "Si": 0.2}))) == pytest.approx(
        325.85, abs=0.1
    )
    alloyed = Composition.of({"C": 0.45, "Mn": 0.75, "Ni": 1.0, "Cr": 1.0, "Mo": 0.2})
    assert degrees(martensite.ms_andrews(alloyed)) == pytest.approx(325.85 - 17.7 - 12.1 - 1.5, abs=0.1)


def test_ms_of_a_card() -> None:
    # Lucefin Group technical card C45U 1.1730: Ms 320 degC, for 0.46 C 0.7 Mn 0.275 Si.
    steel = Composition.of({"C": 0.46, "Mn": 0.7, "Si": 0.275})
    assert degrees(martensite.ms(steel)) == pytest.approx(320, abs=25)


def test_ms_of_a_bearing_steel_depends_on_what_dissolved() -> None:
    # Lucefin Group technical card 102Cr6, hardened from 820 to 850 degC: Ms 210 degC. No formula on the whole
    # composition gives it, and none should: a part of the carbon stays in carbides. (The same maker's card for 100Cr6,
    # nearly the same steel, prints 300, which about 0.5 % of dissolved carbon would have; it is not used.)
    of = card_of(find_grade("102Cr6"))
    assert of.ms.best.value == kelvin(210)
    assert of.hardened is not None
    ms, ms_all = of.hardened.ms.value, martensite.ms(of.steel).value
    assert ms is not None
    assert ms_all is not None
    assert of.hardened.ms.error is not None
    assert ms == pytest.approx(kelvin(210), abs=of.hardened.ms.error)
    assert ms_all < kelvin(210) - 30
    assert of.dissolved_by_card == pytest.approx(of.hardened.dissolved.carbon, abs=0.05)


def test_martensite_by_koistinen_and_marburger() -> None:
    # D. P. Koistinen and R. E. Marburger, Acta Metall. 7 (1959) 59: f = 1 - exp(-0.011 (Ms - T)); Ms 215, 20 degC.
    assert martensite.fraction(kelvin(215), kelvin(20)) == pytest.approx(0.882932, abs=1e-4)
    assert martensite.retained(kelvin(215)) == pytest.approx(1 - 0.882932, abs=1e-4)


# Every low-alloy steel with 0.6 to 1.3 % carbon in one unbroken stretch of a published table:
# MsDatabase_2022_complete.csv of EAH-Materials/MartensiteStart_DeepLearning (Wentzien et al., steel res. int. 2024),
# measured Ms in K; below them the first 31 low-alloy steels of the table with less carbon.
MEASURED: list[tuple[dict[str, float], float]] = [
    ({"C": 0.89, "Mn": 0.29, "Si": 0.15}, 488.7),
    ({"C": 0.96, "Mn": 0.6, "Si": 0.2}, 466.0),
    ({"C": 0.6, "Mn": 0.85, "Si": 0.25, "Cr": 0.75}, 538.0),
    ({"C": 0.86, "Mn": 0.35, "Si": 0.34, "Cr": 1.62, "Ni": 0.58, "Mo": 0.01, "V": 0.174, "Cu": 0.05}, 493.0),
    ({"C": 0.73}, 550.74),
    ({"C": 0.69, "Mn": 0.42, "Cr": 0.2, "Ni": 0.8, "Mo": 0.13}, 474.0),
    ({"C": 0.91, "Mn": 0.65, "Si": 0.23, "Cr": 0.6, "Ni": 1.35, "Cu": 0.03}, 422.0),
    ({"C": 0.6, "Mn": 0.85, "Si": 0.25, "Cr": 0.8, "Mo": 0.3}, 523.0),
    ({"C": 1.13, "Mn": 0.3}, 470.0),
    ({"C": 0.87, "Mn": 1.78, "Si": 0.29, "Cr": 0.2, "Ni": 0.15, "Mo": 0.03}, 422.0),
    ({"C": 0.76, "Mn": 0.29, "Si": 0.22, "Cr": 0.11, "Ni": 0.07, "Mo": 0.019, "V": 0.02, "Cu": 0.17}, 518.0),
    ({"C": 0.8, "Mn": 1.88}, 450.0),
    ({"C": 1.11, "Mn": 0.65, "Si": 0.3, "Cr": 0.12, "Ni": 0.05, "Mo": 0.05, "V": 0.03, "Al": 0.051}, 412.0),
    ({"C": 1.29, "Mn": 0.2, "Si": 0.27, "Cr": 0.04, "Ni": 0.09, "Mo": 0.01, "Cu": 0.08}, 428.0),
    ({"C": 1.1, "Mn": 0.04, "Si": 0.005}, 448.0),
    ({"C": 1.03, "Mn": 0.22, "Si": 0.17, "Cr": 0.07, "Ni": 0.1, "Mo": 0.01, "Cu": 0.14}, 448.0),
    ({"C": 0.63, "Mn": 0.86, "Si": 0.23, "Cr": 0.83}, 565.0),
    ({"C": 0.75, "Mn": 0.7, "Si": 0.33}, 506.0),
    ({"C": 0.6, "Mn": 0.85, "Si": 0.25, "Cr": 0.75}, 520.0),
    ({"C": 0.72, "Mn": 0.72, "Si": 0.34}, 518.0),
    ({"C": 0.19, "Mn": 1.25, "Si": 0.23, "Cr": 0.07, "Ni": 0.66, "Mo": 0.54}, 645.0),
    ({"C": 0.26, "Mn": 0.58, "Si": 0.49, "Cr": 1.65, "Ni": 0.18, "Mo": 0.84, "V": 0.38}, 653.0),
    ({"C": 0.38, "Mn": 0.69, "Si": 0.2, "Cr": 0.95, "Ni": 1.58, "Mo": 0.26}, 589.75),
    ({"C": 0.18, "Mn": 1.34, "Si": 0.38}, 692.0),
    ({"C": 0.23, "Mn": 0.82, "Cr": 1.22, "Mo": 0.53}, 633.0),
    ({"C": 0.11, "Mn": 0.61, "Si": 0.02, "Cr": 0.03, "Ni": 0.02}, 698.0),
    ({"C": 0.19, "Mn": 0.9, "Si": 0.21, "Cr": 1.08, "Ni": 1.87, "Mo": 0.18}, 683.25),
    ({"C": 0.49, "Mn": 0.54}, 596.0),
    ({"C": 0.35, "Mn": 0.55, "Si": 0.27, "Cr": 1.23, "Ni": 0.14, "Mo": 0.51}, 650.0),
    ({"C": 0.38, "Mn": 0.64, "Si": 0.23, "Cr": 0.99, "Ni": 0.08, "Mo": 0.16}, 640.0),
    ({"C": 0.2, "Mn": 0.75, "Si": 0.3, "Cr": 0.95}, 686.0),
    ({"C": 0.24, "Mn": 0.74, "Si": 0.25, "Cr": 0.37, "Ni": 0.67, "Mo": 0.52, "V": 0.03}, 666.0),
    ({"C": 0.12, "Mn": 0.91, "Si": 0.23, "Cr": 0.49, "Ni": 0.69, "Mo": 0.4, "V": 0.061}, 703.0),
    ({"C": 0.38, "Mn": 1.49, "Si": 0.25, "Mo": 0.41}, 575.75),
    ({"C": 0.22, "Mn": 1.08, "Si": 0.12}, 666.0),
    ({"C": 0.41, "Mn": 0.58, "Si": 0.28, "Cr": 1.39, "Ni": 0.15, "Mo": 0.74}, 573.0),
    ({"C": 0.16, "Mn": 0.8, "Si": 0.2, "Cr": 1.05, "Ni": 1.4, "Mo": 0.15}, 689.0),
    ({"C": 0.57, "Mn": 0.54, "Si": 0.19, "Cr": 0.01}, 577.95),
    ({"C": 0.1, "Mn": 1.48, "Si": 0.36, "V": 0.019}, 755.0),
    ({"C": 0.47, "Mn": 1.37, "Si": 0.36, "Cr": 0.15, "Ni": 0.02}, 573.0),
    ({"C": 0.38, "Mn": 0.56, "Si": 0.12, "Cr": 1.21, "Ni": 3, "Mo": 0.29}, 553.5),
    ({"C": 0.38, "Mn": 0.78, "Si": 0.29, "Cr": 0.99, "Ni": 0.14, "Mo": 0.08, "V": 0.06}, 624.0),
    ({"C": 0.4, "Mn": 1.88}, 605.0),
    ({"C": 0.32, "Mn": 0.4, "Si": 0.21, "Cr": 1.3, "Ni": 0.11, "Mo": 0.1, "V": 0.125}, 628.0),
    ({"C": 0.16, "Mn": 0.8, "Si": 0.2, "Cr": 1.05, "Ni": 1.8, "Mo": 0.15}, 673.0),
    ({"C": 0.18, "Mn": 0.93, "Si": 0.26, "Cr": 1.11, "Ni": 1.34, "Mo": 0.11}, 673.5),
    ({"C": 0.29, "Mn": 1.67, "Si": 0.26, "Cr": 0.12, "Ni": 0.21, "Mo": 0.04}, 653.5),
    ({"C": 0.11, "Mn": 0.46, "Si": 0.22}, 751.0),
    ({"C": 0.15, "Mn": 0.6, "Si": 0.3, "Cr": 1.25, "Mo": 0.5}, 699.0),
    ({"C": 0.12, "Mn": 0.45, "Si": 0.4, "Cr": 0.62, "Ni": 0.31}, 718.0),
    ({"C": 0.17, "Mn": 0.47, "Si": 0.25}, 723.0),
]


def bias_and_rms(formula: Callable[[Composition], Finding], least: float, most: float) -> tuple[float, float]:
    off = []
    for shares, measured in MEASURED:
        if least <= shares["C"] < most:
            value = formula(Composition.of(shares)).value
            assert value is not None
            off.append(value - measured)
    assert len(off) >= 6
    return sum(off) / len(off), sqrt(sum(one**2 for one in off) / len(off))


@pytest.mark.parametrize(
    ("formula", "least", "most", "bias", "rms"),
    [
        # The whole table, low-alloy steels (Mn 2, Si 1, Cr 2, Ni 3, Mo 1, V 0.5, W 1 % at most): mean and root mean
        # square of formula less measured, +-0.5 K.
        (martensite.ms, 0.10, 0.60, 4.3, 25.8),
        (martensite.ms_andrews, 0.10, 0.60, 1.9, 25.3),
        (martensite.ms, 0.60, 0.90, -1.2, 20.4),
        (martensite.ms, 0.90, 1.30, -13.4, 36.2),
        (martensite.ms_andrews, 0.60, 0.90, -31.9, 41.7),
        (martensite.ms_andrews, 0.90, 1.30, -95.5, 103.9),
    ],
)
def test_formulas_are_off_by_what_they_say(
    formula: Callable[[Composition], Finding], least: float, most: float, bias: float, rms: float
) -> None:
    # A twentieth of the table can't give its mean to the half kelvin, but it must give its message.
    ours_bias, ours_rms = bias_and_rms(formula, least, most)
    assert ours_bias == pytest.approx(bias, abs=8)
    assert ours_rms == pytest.approx(rms, abs=18)
    said = formula(Composition.of({"C": (least + most) / 2, "Mn": 0.4, "Si": 0.2}))
    assert said.error == rms
    if abs(bias) >= 10:
        assert f"reads {-bias:.0f} K low on average" in Units.METRIC.text(said.note)


def test_andrews_reads_low_for_blade_steels_and_van_bohemen_does_not() -> None:
    for least, most in ((0.60, 0.90), (0.90, 1.30)):
        andrews, _ = bias_and_rms(martensite.ms_andrews, least, most)
        van_bohemen, _ = bias_and_rms(martensite.ms, least, most)
        assert andrews < -20
        assert abs(van_bohemen) < abs(andrews) / 2


def test_below_blade_steels_both_do() -> None:
    for formula in (martensite.ms, martensite.ms_andrews):
        assert abs(bias_and_rms(formula, 0.10, 0.60)[0]) < 10
        assert "on average" not in Units.METRIC.text(formula(Composition.of({"C": 0.45, "Mn": 0.75, "Si": 0.2})).note)

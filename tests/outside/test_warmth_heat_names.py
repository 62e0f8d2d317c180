"""The names of heats beside the charts that they are from."""

from __future__ import annotations

import pytest

from plans.units import kelvin
from plans.warmth import HeatNames, heat_name


@pytest.mark.parametrize(
    ("low", "high", "name"),
    [
        # Chapman, Workshop Technology, Part 1, 5th ed., 1972, as quoted by others.
        (426, 593, "black red"),
        (594, 704, "very dark red"),
        (705, 814, "dark red"),
        (815, 870, "cherry red"),
        (871, 981, "light cherry red"),
        (982, 1092, "orange"),
        (1093, 1258, "yellow"),
        (1259, 1314, "yellow white"),
        (1315, 1600, "white"),
    ],
)
def test_chapman_at_both_ends_of_each_range(low: float, high: float, name: str) -> None:
    assert heat_name(kelvin(low), HeatNames.CHAPMAN).name == name
    assert heat_name(kelvin(high), HeatNames.CHAPMAN).name == name


@pytest.mark.parametrize(
    ("fahrenheit", "name"),
    [
        # White and Taylor, Trans. ASME 21, 1899: degrees and names from memory; 532, 635, 677, 746, 843, 899, 941, 996,
        # 1079 and 1205 degC are quoted so by others.
        (990, "black red"),
        (1050, "blood red"),
        (1175, "dark cherry red"),
        (1250, "medium cherry red"),
        (1375, "full cherry red"),
        (1550, "light cherry red"),
        (1650, "orange"),
        (1725, "light orange"),
        (1825, "yellow"),
        (1975, "light yellow"),
        (2200, "white"),
    ],
)
def test_white_and_taylor_at_each_of_their_temperatures(fahrenheit: float, name: str) -> None:
    assert heat_name(kelvin((fahrenheit - 32) * 5 / 9), HeatNames.TAYLOR).name == name


@pytest.mark.parametrize(
    ("celsius", "name"),
    [
        # Stirling Consolidated Boiler Co., A Book of Steam for Engineers, 1905, p. 50.
        (525, "just visible red"),
        (699, "dull red"),
        (800, "dull cherry red"),
        (900, "full cherry red"),
        (1000, "clear cherry red"),
        (1100, "deep orange"),
        (1200, "clear orange"),
        (1300, "white heat"),
        (1400, "bright white"),
        (1500, "dazzling white"),
    ],
)
def test_stirling_at_each_of_its_temperatures(celsius: float, name: str) -> None:
    assert heat_name(kelvin(celsius), HeatNames.STIRLING).name == name

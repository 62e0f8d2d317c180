"""The table of grades: whole, sourced, and found under every spelling."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.steel.errors import SteelError
from plans.steel.grades import Grade, What, all_grades
from plans.steel.naming import find_grade
from plans.units import kelvin

GRADES = all_grades()
EACH = pytest.mark.parametrize("grade", GRADES, ids=lambda grade: grade.name)
NAMES = [(name, grade.name) for grade in GRADES for name in (grade.name, *grade.also)]


def test_enough_of_each_system() -> None:
    assert len(GRADES) >= 35
    for system, least in (("AISI/SAE", 15), ("EN", 10), ("JIS", 5)):
        assert sum(grade.system.startswith(system) for grade in GRADES) >= least


@EACH
def test_ranges_are_ranges_and_have_a_source(grade: Grade) -> None:
    assert "C" in grade.ranges
    for low, high in grade.ranges.values():
        assert 0 <= low <= high
        assert high > 0
    assert grade.source
    assert grade.use
    for symbol, share in grade.usual.items():
        low, high = grade.ranges[symbol]
        assert low <= share <= high


@EACH
def test_what_is_stated_is_plausible_and_has_a_source(grade: Grade) -> None:
    for one in grade.stated:
        assert one.low <= one.high
        assert one.source
        span = (20, 700) if one.what in (What.MS, What.TEMPERING) else (650, 1100)
        assert kelvin(span[0]) < one.low <= one.high < kelvin(span[1])


def test_no_two_grades_share_a_name() -> None:
    plain = [name.lower().replace(" ", "") for name, _ in NAMES]
    assert len(plain) == len(set(plain))


@given(
    which=st.sampled_from(NAMES),
    before=st.sampled_from(["", "AISI ", "SAE-AISI ", "sae", "EN ", "DIN ", "JIS ", "W.-Nr. ", "WNr. ", " steel "]),
    upper=st.booleans(),
    gap=st.sampled_from(["", " ", "-", "."]),
)
def test_every_spelling_finds_its_grade(which: tuple[str, str], before: str, upper: bool, gap: str) -> None:
    name, expected = which
    spelt = before + gap.join((name[:2], name[2:]))
    assert find_grade(spelt.upper() if upper else spelt.lower()).name == expected


def test_old_japanese_names_are_not_mixed_up() -> None:
    # JIS G 4401 renamed SK3, SK4 and SK5 after their carbon; SKS3 is another steel.
    assert [find_grade(name).name for name in ("SK3", "SK4", "SK5", "SKS3")] == ["SK105", "SK95", "SK85", "SKS3"]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("1085", "it comes close to 1084"),
        ("Cf53", "it comes close to 1050"),
        ("1O84", "did you mean 1084"),
        ("52001", "52100"),
        ("90MnCrV", "90MnCrV8"),
        ("unobtainium", "give its composition"),
        ("", "give its composition"),
        ("steel", "give its composition"),
    ],
)
def test_a_name_that_is_not_there_is_met_with_what_is_close(name: str, says: str) -> None:
    with pytest.raises(SteelError) as refusal:
        find_grade(name)
    assert says in str(refusal.value)


def test_the_middle_of_a_grade() -> None:
    middle = find_grade("1084").middle
    assert (middle.carbon, middle.manganese) == pytest.approx((0.865, 0.75))
    # ASTM A686 lets W1 have 0.70 to 1.50 % carbon; a bar with the middle of that is rare.
    assert find_grade("W1").middle.carbon == 1.0

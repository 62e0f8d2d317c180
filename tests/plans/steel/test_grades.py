"""The table of grades: whole, sourced, and found under every spelling."""

from __future__ import annotations

import re

import pytest
from hypothesis import assume, given, strategies as st

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
    assert grade.source.text
    assert grade.use
    assert set(grade.remembered) <= set(grade.ranges)
    assert (grade.usual_source is None) is not bool(grade.usual)
    for symbol, share in grade.usual.items():
        low, high = grade.ranges[symbol]
        assert low <= share <= high


@EACH
def test_what_is_stated_is_plausible_and_has_a_source(grade: Grade) -> None:
    for one in grade.stated:
        assert one.low <= one.high
        assert one.source.text
        assert "from memory" not in one.source.text
        assert str(one.source).endswith("from memory") is not one.source.looked_up
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
    # Nobody names a system before a trade name, such as those of paper steels.
    assume(not before or any(letter.isdigit() for letter in name))
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
        ("5210", "did you mean 52100 (C 0.99 %, Cr 1.48 %)"),
        ("90MnCrV", "did you mean 90MnCrV8"),
        ("90MnCrW8", "did you mean 90MnCrV8"),
        ("15N2O", "did you mean 15N20 (C 0.75 %, Ni 1.95 %)"),
        ("90MnCVr8", "did you mean 90MnCrV8"),
        ("1078", "it comes close to 1075 (C 0.75 %) and 1080 (C 0.815 %)"),
        ("wrought irn", "did you mean wrought iron"),
        ("1.2002", "it comes close to 26C3"),
        ("unobtainium", "give its composition"),
        ("", "give its composition"),
        ("steel", "give its composition"),
    ],
)
def test_a_name_that_is_not_there_is_met_with_what_is_close(name: str, says: str) -> None:
    with pytest.raises(SteelError) as refusal:
        find_grade(name)
    assert says in str(refusal.value)


LOOK_ALIKES = [
    *("1.2518", "1.2591", "1008", "25100", "1.2215", "1.1215", "1.2378", "1.2343"),
    *("1214", "1208", "12150 X", "1215O", "12L14", "4160", "9261X"),
    *("W3", "O9", "A9", "SK75", "C65S"),
]
"""Names that are not in the table: a digit other than those of a grade that is makes another steel, such as the mild
free-cutting 1215 and the tool steel 1.2519."""


@pytest.mark.parametrize("name", LOOK_ALIKES)
def test_a_look_alike_is_not_suggested(name: str) -> None:
    with pytest.raises(SteelError) as refusal:
        find_grade(name)
    assert "did you mean" not in str(refusal.value)
    assert "comes close" not in str(refusal.value)


def refused(name: str) -> str:
    """What is said of a name that is not known; empty where it is."""
    try:
        find_grade(name)
    except SteelError as refusal:
        return str(refusal)
    return ""


@given(which=st.sampled_from(NAMES), at=st.integers(0, 12), digit=st.sampled_from("0123456789"))
def test_a_changed_digit_is_never_taken_for_a_slip(which: tuple[str, str], at: int, digit: str) -> None:
    places = [place for place, letter in enumerate(which[0]) if letter.isdigit()]
    if not places:
        return
    place = places[at % len(places)]
    said = refused(which[0][:place] + digit + which[0][place + 1 :])
    assert f"did you mean {which[0]} (" not in said
    assert f" or {which[0]} (" not in said


NUMBERS = [f"{family}{carbon:02d}" for family in (10, 41, 43, 51, 61, 86, 92) for carbon in range(100)]


@given(typed=st.sampled_from(NUMBERS))
def test_a_number_is_only_met_with_steel_of_its_own_carbon(typed: str) -> None:
    # AISI/SAE: the last two digits are hundredths of a per cent of carbon. 1085 and 5155 are known by name as close.
    said = refused(typed)
    assert "did you mean" not in said
    for share in re.findall(r"\(C ([\d.]+) %", said):
        assert abs(float(share) - int(typed[2:]) / 100) < 0.06


@EACH
def test_what_is_stated_for_one_thing_is_all_looked_up_or_all_from_memory(grade: Grade) -> None:
    for what in What:
        assert len({one.source.looked_up for one in grade.stated_for(what)}) <= 1


def test_bladesmiths_find_their_steels() -> None:
    for name in ("26C3", "UHB 20C", "C105", "C125U", "75Cr1", "8670", "1.2419", "1.2442", "1.2519", "1.2552", "1.2562"):
        find_grade(name)
    for number in (1, 2, 3):
        assert find_grade(f"White #{number}") is find_grade(f"shirogami {number}")
    for number in (1, 2):
        assert find_grade(f"blue paper steel {number}") is find_grade(f"Aogami {number}")
    assert find_grade("Aogami Super").middle.carbon == pytest.approx(1.45)
    assert find_grade("puddled iron").name == "wrought iron"
    assert find_grade("pure nickel").middle.is_nickel


@EACH
def test_a_trade_name_stands_beside_a_standard_designation(grade: Grade) -> None:
    if grade.system == "trade name":
        assert grade.near


def test_the_middle_of_a_grade() -> None:
    middle = find_grade("1084").middle
    assert (middle.carbon, middle.manganese) == pytest.approx((0.865, 0.75))
    # ASTM A686 lets W1 have 0.70 to 1.50 % carbon; a bar with the middle of that is rare.
    assert find_grade("W1").middle.carbon == 1.0

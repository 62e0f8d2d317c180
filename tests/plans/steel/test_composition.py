"""Compositions: what is read, what is refused, and that nothing is lost on the way."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.errors import PlansError
from plans.steel.composition import SYMBOLS, Composition
from plans.steel.errors import SteelError

SHARES = st.dictionaries(st.sampled_from([symbol for symbol in SYMBOLS if symbol != "C"]), st.floats(0, 3))


def test_symbols_in_any_case() -> None:
    steel = Composition.of({"c": 0.75, "MN": 0.4, " Ni ": 2.0})
    assert (steel.carbon, steel.manganese, steel.nickel, steel.silicon) == (0.75, 0.4, 2.0, 0.0)
    assert steel.iron == pytest.approx(96.85)


@given(carbon=st.floats(0, 2.1), others=SHARES)
def test_shares_come_back_as_given(carbon: float, others: dict[str, float]) -> None:
    steel = Composition.of({"C": carbon} | others)
    assert steel.shares() == dict.fromkeys(SYMBOLS, 0.0) | {"C": carbon} | others
    assert steel.iron + sum(steel.shares().values()) == pytest.approx(100)


def test_shown_without_what_is_not_there() -> None:
    assert str(Composition.of({"C": 0.75, "Mn": 0.4, "Ni": 2})) == "C 0.75, Mn 0.4, Ni 2 %"
    assert str(Composition.of({"C": 0})) == "C 0 %"


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ({"Mn": 0.5}, "C is missing"),
        ({"C": 0.5, "Mg": 0.1}, '"Mg" is no element that counts here'),
        ({"C": 0.5, "c": 0.6}, "given twice"),
        ({"C": -0.1}, "C is -0.1 %"),
        ({"C": 0.5, "Mn": float("nan")}, "Mn is nan %"),
        ({"C": 0.5, "Cr": float("inf")}, "Cr is inf %"),
        ({"C": 0.5, "Ni": 140}, "Ni is 140 %"),
        ({"C": 2.2}, "cast iron"),
        ({"C": 0.5, "Ni": 40, "Cr": 20}, "left for iron"),
    ],
)
def test_what_is_no_steel_is_refused(shares: dict[str, float], says: str) -> None:
    with pytest.raises(SteelError) as refusal:
        Composition.of(shares)
    assert says in str(refusal.value)
    assert isinstance(refusal.value, PlansError)


def test_a_slip_of_the_finger_is_met_with_a_guess() -> None:
    with pytest.raises(SteelError, match="did you mean Mn"):
        Composition.of({"C": 0.5, "Mnn": 0.6})

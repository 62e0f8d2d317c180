"""The reckonings of press and bench: what they answer, and what they refuse with what would be right."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from plans.reckoned import Reckoned
from plans.reckoner import (
    ReckonError,
    Reckoning,
    reckon_bevels as bevels,
    reckon_forged as forged,
    reckon_heats as heats,
    reckon_profile as profile,
    reckon_squeeze as squeeze,
)
from plans.shapes import Form, Section
from plans.steel import grinding_allowance, hold
from plans.units import kelvin

BAR = Section(0.038, 0.025)
HOT = kelvin(1200.0)
WIDTHS, EDGES = (14.2e-3, 13.1e-3, 14.0e-3, 13.6e-3), (1.1e-3, 0.9e-3)
TONNE = 9806.65


def test_a_press_that_has_too_little_needs_narrower_dies_and_one_with_enough_does_not() -> None:
    little = squeeze(BAR, HOT, 0.040, 8 * TONNE).record
    assert little["force_needed_newton"] > 8 * TONNE
    assert little["height_mm"] > 20.0
    assert little["narrower_dies"] is True
    assert little["widest_dies_mm"] < 40.0
    much = squeeze(BAR, HOT, 0.040, 25 * TONNE).record
    assert much["height_mm"] < 20.0
    assert much["narrower_dies"] is False
    without = squeeze(BAR, HOT, 0.040)
    assert without.record["height_mm"] == 20.0
    assert [one.key for one in without.answer] == ["force_needed_newton", "height_mm", "width_mm"]


def test_a_bar_on_its_edge_and_a_round_one() -> None:
    on_edge = squeeze(BAR, HOT, 0.040, height=0.038).record
    assert on_edge["height_mm"] == pytest.approx(0.8 * 38)
    # A round bar counts as one as wide on average: pi / 4 of its diameter.
    as_flat = squeeze(Section(0.025, 0.025 * 3.14159265358979 / 4), HOT, 0.040, height=0.025).record
    assert squeeze(Section.round(0.025), HOT, 0.040).record["force_needed_newton"] == as_flat["force_needed_newton"]


def test_what_is_to_be_ground_next() -> None:
    found = bevels(WIDTHS, EDGES, 6.2e-3).record
    assert found["answer"] == ["ridge_offset_mm", "next_face", "take_off_mm"]
    assert found["next_face"] == "front, second edge"
    # The front's ridge lies (14.2 - 13.1) / 2 mm off the middle, the back's 0.2 mm, along faces that are nearly level.
    assert found["ridge_offset_mm"] == pytest.approx((0.55 + 0.2) / 2, abs=0.02)
    low, high = found["about"]["take_off_mm"]["range"]
    assert low < found["take_off_mm"] < high
    assert max(found["widths_then_mm"]) - min(found["widths_then_mm"]) < 0.2
    even = bevels((14e-3,) * 4, (1e-3, 1e-3), 6.2e-3).record
    assert (even["next_face"], even["take_off_mm"], even["cuts"]) == (None, None, [])


def test_decarb_that_is_to_be_cleared() -> None:
    found = bevels(WIDTHS, EDGES, 6.2e-3, decarb=Reckoned(0.3e-3, "arithmetic", "", "")).record
    assert found["clear_mm"] == pytest.approx(0.3)
    assert found["cleared_ridge_mm"] == pytest.approx(5.6, abs=0.05)
    # As it is known to a factor of two only, the most that it may be is ground off.
    allowance = grinding_allowance(hold(kelvin(900.0), 600.0), 0.8)
    assert allowance.most is not None
    reckoned = bevels(WIDTHS, EDGES, 6.2e-3, decarb=allowance).record
    assert reckoned["clear_mm"] == pytest.approx(allowance.most * 1000)
    assert reckoned["clear_mm"] > allowance.value * 1000


REFUSED: list[tuple[str, Callable[[], Reckoning]]] = [
    ("dies", lambda: squeeze(BAR, HOT, 0.0)),
    ("force", lambda: squeeze(BAR, HOT, 0.040, 1.0)),
    ("to", lambda: squeeze(BAR, HOT, 0.040, to=0.026)),
    ("to", lambda: squeeze(BAR, HOT, 0.040, to=0.010)),
    ("height", lambda: squeeze(BAR, HOT, 0.040, height=0.030)),
    ("carbon", lambda: squeeze(BAR, HOT, 0.040, carbon=1.5)),
    ("contact", lambda: squeeze(BAR, HOT, 0.040, seconds=0.0)),
    ("at", lambda: squeeze(BAR, kelvin(1600.0), 0.040)),
    ("section", lambda: squeeze(Section(0.04, 0.006, Form.WEDGE, 0.001), HOT, 0.040)),
    ("to", lambda: heats(BAR, BAR)),
    ("widths", lambda: bevels(WIDTHS[:3], EDGES, 6e-3)),
    ("widths", lambda: bevels((0.0, *WIDTHS[1:]), EDGES, 6e-3)),
    ("edges", lambda: bevels(WIDTHS, EDGES[:1], 6e-3)),
    # The front lies level but for 2 degrees: cut down to it, the back would be gone at one edge.
    ("widths", lambda: bevels((12.9e-3, 11.2e-3, 11.8e-3, 14e-3), (1.3e-3, 2.9e-3), 6.7e-3)),
    ("ridge", lambda: bevels(WIDTHS, EDGES, 1e-3)),
    ("within", lambda: bevels(WIDTHS, EDGES, 6e-3, within=0.0)),
    ("decarb", lambda: bevels(WIDTHS, EDGES, 6e-3, decarb=Reckoned(4e-3, "arithmetic", "", ""))),
    ("section", lambda: forged(Section.round(0.02), 1e-3)),
    ("edge", lambda: forged(BAR, 0.025)),
    ("bevel", lambda: forged(BAR, 1e-3, 0.1)),
    ("edges", lambda: forged(BAR, 1e-3, edges=3)),
    ("widening", lambda: forged(BAR, 1e-3, widening=1.1)),
    ("difference", lambda: profile(0.0)),
    ("width", lambda: profile(1e-3, 2e-3)),
    ("edge", lambda: profile(1e-3, 27e-3, 1e-3)),
    ("ridge", lambda: profile(1e-3, 27e-3, 1e-3, 1e-3)),
]


@pytest.mark.parametrize(("given", "ask"), REFUSED)
def test_what_can_not_be_reckoned_with_names_what_was_given(given: str, ask: Callable[[], Reckoning]) -> None:
    with pytest.raises(ReckonError) as caught:
        ask()
    assert caught.value.given == given

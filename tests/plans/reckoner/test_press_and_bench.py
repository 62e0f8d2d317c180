"""The reckonings of press and bench: what they answer, and what they refuse with what would be right."""

from __future__ import annotations

from collections.abc import Callable
from math import exp

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
from plans.units import Units, kelvin

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
    assert [one.key for one in without.answer] == ["force_needed_newton", "width_mm"]


def test_a_press_that_could_go_further_has_a_range_that_ends_where_it_is_held() -> None:
    found = squeeze(BAR, HOT, 0.040, 22 * TONNE).record
    # Held at a logarithm of 0.6: exp(-0.6) of 25 mm. With the most friction and the hardest steel it stops sooner.
    low, high = found["about"]["height_mm"]["range"]
    assert low == found["height_mm"] == pytest.approx(25 * exp(-0.6))
    assert low < high < 20.0


def test_a_bar_on_its_edge_and_a_round_one() -> None:
    on_edge = squeeze(BAR, HOT, 0.040, height=0.038).record
    assert on_edge["height_mm"] == pytest.approx(0.8 * 38)
    # A round bar counts as one as wide on average: pi / 4 of its diameter.
    as_flat = squeeze(Section(0.025, 0.025 * 3.14159265358979 / 4), HOT, 0.040, height=0.025).record
    assert squeeze(Section.round(0.025), HOT, 0.040).record["force_needed_newton"] == as_flat["force_needed_newton"]


def test_what_is_to_be_ground_next() -> None:
    found = bevels(WIDTHS, EDGES, 6.2e-3).record
    assert found["answer"] == ["take_off_mm", "ridge_offset_mm"]
    assert found["next_face"] == "front, second edge"
    # The front's ridge lies (14.2 - 13.1) / 2 mm off the middle, the back's 0.2 mm, along faces that are nearly level.
    assert found["ridge_offset_mm"] == pytest.approx((0.55 + 0.2) / 2, abs=0.02)
    low, high = found["about"]["take_off_mm"]["range"]
    assert low < found["take_off_mm"] < high
    assert max(found["widths_then_mm"]) - min(found["widths_then_mm"]) < 0.2
    even = bevels((14e-3,) * 4, (1e-3, 1e-3), 6.2e-3).record
    assert (even["next_face"], even["take_off_mm"], even["cuts"]) == (None, None, [])


@pytest.mark.parametrize(
    "widths",
    [
        (15, 15, 15.3, 15.3),
        (15, 15, 15, 15.3),
        (15.1, 15.1, 15.3, 15.4),
        (15.9, 14.3, 15.5, 15.1),
        (15, 15, 15.15, 15.15),
    ],
)
def test_a_hair_of_caliper_is_no_reason_to_grind_through_a_blade(widths: tuple[float, ...]) -> None:
    found = bevels(tuple(width / 1000 for width in widths), (1e-3, 1e-3), 6.1e-3).record
    # 1.6 mm is the largest difference of two neighbours here: of their slopes of a sixth each at most half of that.
    assert (found["take_off_mm"] or 0.0) <= 1.6 / 2 * 2 / 6 + 0.01
    assert found["ridge_then_mm"] > 5.7
    for key, about in found["about"].items():
        if about.get("range"):
            low, high = about["range"]
            assert low <= found[key] <= high, key


def test_heights_tell_what_widths_do_not() -> None:
    wide = (15e-3, 15e-3, 15.3e-3, 15.3e-3)
    unsure = bevels(wide, (1e-3, 1e-3), 6.1e-3)
    assert unsure.record["next_face"] is None
    assert "flat plate" in unsure.record["about"]["take_off_mm"]["why"]
    # Half an edge, 0.5 mm, below the middle: ridges of 2.6 and 3.5 mm.
    known = bevels(wide, (1e-3, 1e-3), 6.1e-3, heights=(3.1e-3, 4.0e-3)).record
    assert known["front_higher_mm"] == pytest.approx(-0.9)
    assert known["next_face"].startswith("back")
    # At the end both lie as high as the front does now.
    low, high = known["about"]["ridge_then_mm"]["range"]
    assert low < 5.2 < high
    assert known["ridge_then_mm"] == pytest.approx(5.2, abs=0.05)


def test_inches_come_back_as_they_were_typed() -> None:
    sixty_fourth = 25.4e-3 / 64
    widths = tuple(count * sixty_fourth for count in (40, 36, 39, 38))
    said = bevels(widths, (0.04 * 25.4e-3, 2 * sixty_fourth), 16 * sixty_fourth).asked(Units.INCH)
    assert said.startswith("bevels 5/8, 9/16, 39/64, 19/32 in; edges 0.04, 1/32 in; ridge 1/4 in")


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
    ("heights", lambda: bevels(WIDTHS, EDGES, 6.2e-3, heights=(3.6e-3,))),
    ("heights", lambda: bevels(WIDTHS, EDGES, 6.2e-3, heights=(3.1e-3, 3.1e-3))),
    ("heights", lambda: bevels(WIDTHS, EDGES, 6.2e-3, heights=(5.2e-3, 2.0e-3))),
    ("widths", lambda: bevels((32e-3, 15e-3, 42e-3, 8e-3), (1e-3, 3.5e-3), 9.4e-3)),
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

"""Grinding four bevels until they agree: by hand, and followed to the end from many sections."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, cos, hypot, sin
from random import Random

import pytest

from plans.bench import (
    BenchError,
    Cut,
    DoubleEdge,
    Face,
    Measured,
    clear_decarb,
    ground,
    next_cut,
    section_of,
    until_even,
)

SIDE = Face(0.5e-3, 0.5e-3, 12e-3, 3e-3)
EVEN = DoubleEdge(24e-3, SIDE, SIDE)
SLOPE = atan2(2.5, 12)


def test_a_parallel_cut_moves_the_ridge_and_both_borders() -> None:
    # Two planes at an angle of 2a: 0.2 mm off one slides the ridge 0.2 / sin 2a down the other, and takes 0.2 / cos a
    # from the edge. The bevel itself then runs from the lower border to the ridge that has moved.
    after = ground(EVEN, Cut(0, 0.2e-3, 0.2e-3))
    slides, thinner = 0.2 / sin(2 * SLOPE), 0.2 / cos(SLOPE)
    assert after.widths[1] * 1000 == pytest.approx(hypot(12, 2.5) - slides)
    assert after.edges[0] * 1000 == pytest.approx(1 - thinner)
    across, height = 12 + slides * cos(SLOPE), 3 - slides * sin(SLOPE)
    assert after.widths[0] * 1000 == pytest.approx(hypot(across, height - (0.5 - thinner)))
    assert after.ridge * 1000 == pytest.approx(3 + height)
    # What was ground lies parallel to what it was.
    assert after.front.slope == pytest.approx(SLOPE)
    assert after.back == EVEN.back


def test_the_narrower_neighbour_is_ground_until_both_agree() -> None:
    # The front's ridge lies 0.5 mm towards the second edge: the second bevel is the narrower.
    section = replace(EVEN, front=Face(0.5e-3, 0.5e-3, 12.5e-3, 3e-3))
    cut = next_cut(section)
    assert cut is not None
    assert cut.bevel == 1
    # By hand, running out to nothing at the edge, which is no thicker than the other: the ridge comes to the middle,
    # 0.5 mm along the first bevel, where it lies 2.5 x 0.5 / 12.5 = 0.1 mm lower. Under the old second face, which
    # there has risen by 2.5 x 0.5 / 11.5 = 0.109 mm, that is 0.209 mm, and square to it times cos(atan(2.5 / 11.5)).
    assert cut.at_edge == 0.0
    assert cut.at_ridge * 1000 == pytest.approx((0.1 + 2.5 * 0.5 / 11.5) * cos(atan2(2.5, 11.5)), abs=1e-4)
    after = ground(section, cut)
    assert after.offset == pytest.approx(0.0, abs=1e-6)
    assert next_cut(after) is None


def test_a_thicker_edge_is_ground_as_well() -> None:
    section = DoubleEdge(24e-3, Face(0.4e-3, 0.8e-3, 12.5e-3, 3e-3), Face(0.4e-3, 0.8e-3, 12e-3, 3e-3))
    cut = next_cut(section)
    assert cut is not None
    assert cut.at_edge == pytest.approx(cut.at_ridge)
    assert ground(section, cut).edges[1] > section.edges[0]


def test_following_the_advice_ends_and_takes_no_more_than_needed() -> None:
    """As at the bench: measure, grind what is said, measure again."""
    chance = Random(7)
    cuts = 0
    for _ in range(25):
        section = _uneven(chance)
        within = chance.choice((0.1e-3, 0.2e-3))
        for _ in range(12):
            cut = next_cut(section, within)
            if cut is None:
                break
            cuts += 1
            after = ground(section, cut)
            _no_more_than_needed(section, cut, after)
            section = section_of(after.measured)
        else:
            pytest.fail("it goes on and on")
        assert max(section.widths) - min(section.widths) <= within + 1e-7
    assert cuts > 40


def _uneven(chance: Random) -> DoubleEdge:
    width = chance.uniform(15e-3, 50e-3)

    def face(first: float, second: float) -> Face:
        rise = chance.uniform(1e-3, 0.12 * width)
        return Face(first, second, width / 2 + chance.uniform(-0.06, 0.06) * width, max(first, second) + rise)

    first, second = chance.uniform(0.2e-3, 0.8e-3), chance.uniform(0.2e-3, 0.8e-3)
    return DoubleEdge(width, face(first, second), face(first, second))


def _no_more_than_needed(before: DoubleEdge, cut: Cut, after: DoubleEdge) -> None:
    """A cut leaves a bevel no wider than its neighbour was to become, and steel on both sides; it adds none."""
    one, other = cut.bevel, cut.bevel ^ 1
    assert cut.at_ridge > 0
    assert 0 <= cut.at_edge <= cut.at_ridge + 1e-12
    assert after.ridge < before.ridge
    assert all(0 < then <= now + 1e-12 for then, now in zip(after.edges, before.edges, strict=True))
    if abs(before.widths[one] - before.widths[other]) > 0.2e-3:
        assert after.widths[one] <= after.widths[other] + 1e-9
        less = ground(before, replace(cut, at_ridge=0.98 * cut.at_ridge, at_edge=0.98 * cut.at_edge))
        assert less.widths[one] < less.widths[other]


def test_a_face_that_is_too_high_is_lowered_at_its_ridge() -> None:
    # Both ridges in the middle, the back 2 mm higher: its bevels are hypot(12, 4.5) - hypot(12, 2.5) = 0.56 mm wider.
    section = replace(EVEN, back=Face(0.5e-3, 0.5e-3, 12e-3, 5e-3))
    steps = list(until_even(section))
    assert [cut.bevel for cut, _ in steps] == [2, 3]
    assert steps[-1][1].widths == pytest.approx(EVEN.widths, abs=1e-8)
    assert steps[-1][1].edges == EVEN.edges


def test_a_face_that_is_nearly_flat_is_no_measure_for_the_other() -> None:
    # The front lies level but for 2 degrees: cut down to it, the back would be gone at one edge.
    measured = Measured((12.9e-3, 11.2e-3, 11.8e-3, 14e-3), (1.3e-3, 2.9e-3), 6.7e-3)
    with pytest.raises(BenchError):
        list(until_even(section_of(measured)))


def test_decarb_off_every_face() -> None:
    # 0.3 mm off both faces of a bevel and off the flat: the edge loses 2 x 0.3 / cos a, and gains 2 x 0.3 tan a where
    # the flat now lies; the ridge loses 0.3 / cos a on either side, as both of its planes do.
    left = clear_decarb(EVEN, 0.3e-3)
    assert left.edges[0] * 1000 == pytest.approx(1 - 0.6 / cos(SLOPE) + 0.6 * 2.5 / 12)
    assert left.ridge * 1000 == pytest.approx(6 - 0.6 / cos(SLOPE))
    assert left.narrower == pytest.approx((0.3e-3, 0.3e-3))
    # Of 0.8 mm nothing is left of the edge, which moves in until both faces meet.
    left = clear_decarb(EVEN, 0.8e-3)
    assert left.edges == (0.0, 0.0)
    gone = 1.6 / cos(SLOPE) - 1 - 1.6 * 2.5 / 12
    assert left.narrower[0] * 1000 == pytest.approx(0.8 + gone / (2 * 2.5 / 12))

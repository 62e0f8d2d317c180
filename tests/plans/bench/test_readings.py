"""What readings that are off tell of a section: followed at the bench, with a caliper that errs by chance."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from plans.bench import (
    BenchError,
    DoubleEdge,
    Face,
    Measured,
    as_deep_on,
    ground,
    next_cut,
    told_by,
    until_even,
)

ERROR = 0.1e-3
"""What is counted with."""
SIDE = Face(0.5e-3, 0.5e-3, 15e-3, 3.05e-3)
EVEN = DoubleEdge(30e-3, SIDE, SIDE)


def read(section: DoubleEdge, chance: Random, error: float, *, heights: bool) -> Measured:
    exact = section.measured
    off = [chance.uniform(-error, error) for _ in range(9)]
    one, two, three, four = (width + by for width, by in zip(exact.widths, off[:4], strict=True))
    first, second = (edge + by for edge, by in zip(exact.edges, off[4:6], strict=True))
    higher = section.front.height - section.back.height + off[7] + off[8]
    return Measured((one, two, three, four), (first, second), exact.ridge + off[6], higher if heights else None)


def test_a_face_that_is_a_little_wider_may_be_much_higher_and_may_not() -> None:
    # Of a face w wide and h high the bevels together measure about w + 2 h^2 / w: 0.3 mm on each of the back's, known
    # to 0.1 mm at each of four readings, are 0.6 mm, give or take 0.4; by 4 h / w = 0.34 of height each, and twice
    # that between the faces, which a rise on one is a fall on the other: 0.6 mm at least, and near the whole ridge.
    told = told_by(Measured((15e-3, 15e-3, 15.3e-3, 15.3e-3), (1e-3, 1e-3), 6.1e-3), ERROR)
    low, high = (higher * 1000 for higher in told.higher)
    assert high == pytest.approx(-0.2 / 0.34, abs=0.05)
    assert low == pytest.approx(-1.0 / 0.34, abs=0.15)
    assert next_cut(told.section, lower=told.heights_known) is None


def test_readings_that_agree_as_far_as_they_tell_make_ridges_of_one_height() -> None:
    told = told_by(Measured((15e-3, 15e-3, 15.08e-3, 15.08e-3), (1e-3, 1e-3), 6.1e-3), ERROR)
    assert told.section.front.height == pytest.approx(told.section.back.height)
    assert told.higher[0] < -0.5e-3 < 0.2e-3 < told.higher[1]


def test_heights_that_do_not_go_with_the_widths() -> None:
    with pytest.raises(BenchError) as caught:
        told_by(replace(EVEN.measured, higher=2e-3), ERROR)
    assert caught.value.given == "heights"


@pytest.mark.parametrize("heights", [False, True])
def test_an_even_section_is_never_ground_for_what_a_caliper_errs(heights: bool) -> None:
    chance = Random(3)
    for _ in range(60):
        measured = read(EVEN, chance, ERROR, heights=heights)
        told = told_by(measured, ERROR)
        assert next_cut(told.section, lower=told.heights_known) is None


@pytest.mark.parametrize("heights", [False, True])
def test_followed_with_a_caliper_that_errs_twice_as_much(heights: bool) -> None:
    """It takes little more than exact readings would, comes as near as they tell, and lowers no face unmeasured."""
    chance = Random(11)
    cuts = 0
    for _ in range(5):
        section = _uneven(chance)
        exact = [after.ridge for _, after in until_even(section, 2 * ERROR, lower=heights)]
        least = min(exact, default=section.ridge)
        for _ in range(12):
            try:
                told = told_by(read(section, chance, 2 * ERROR, heights=heights), ERROR)
            except BenchError:  # heights and widths that are off too far: measured again
                continue
            cut = next_cut(told.section, lower=told.heights_known)
            if cut is None:
                break
            cuts += 1
            assert heights or not cut.lowers
            low, high = told.ends(lambda one, cut=cut: as_deep_on(one, cut).at_ridge)  # type: ignore[misc]
            assert 0 <= low <= cut.at_ridge <= high
            section = ground(section, cut)
        assert least - section.ridge < 4 * (2 * ERROR)
        assert all(abs(one - other) < 7 * ERROR for one, other in (section.widths[:2], section.widths[2:]))
    assert cuts > 6


def test_what_is_needed_lies_within_the_range() -> None:
    chance = Random(5)
    seen = 0
    for _ in range(24):
        section = _uneven(chance)
        told = told_by(read(section, chance, ERROR, heights=False), ERROR)
        cut = next_cut(told.section, lower=False)
        if cut is None:
            continue
        low, high = told.ends(lambda one, cut=cut: as_deep_on(one, cut).at_ridge)  # type: ignore[misc]
        assert low - 0.01e-3 <= as_deep_on(section, cut).at_ridge <= high + 0.01e-3
        offsets = [told.ends(lambda one, of=of: one.offsets[of]) for of in (0, 1)]  # type: ignore[misc]
        for (least, most), offset in zip(offsets, section.offsets, strict=True):
            assert least - 0.01e-3 <= offset <= most + 0.01e-3
        seen += 1
    assert seen > 12


def test_exact_readings_with_heights_end_in_four_that_agree() -> None:
    chance = Random(2)
    for _ in range(10):
        section = _uneven(chance)
        for _ in range(12):
            told = told_by(section.measured, ERROR)
            cut = next_cut(told.section, lower=told.heights_known)
            if cut is None:
                break
            section = ground(section, cut)
        else:
            pytest.fail("it goes on and on")
        assert max(section.widths) - min(section.widths) < 0.4e-3


def _uneven(chance: Random) -> DoubleEdge:
    """Ridges up to 5 % off the middle, and up to 1 mm higher on one side than on the other."""
    width = chance.uniform(22e-3, 45e-3)
    first, second = chance.uniform(0.3e-3, 0.7e-3), chance.uniform(0.3e-3, 0.7e-3)
    rise = chance.uniform(1.5e-3, 0.1 * width)

    def face() -> Face:
        height = max(first, second) + rise + chance.uniform(-0.5e-3, 0.5e-3)
        return Face(first, second, width / 2 + chance.uniform(-0.05, 0.05) * width, height)

    return DoubleEdge(width, face(), face())

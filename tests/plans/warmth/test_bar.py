from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Form, Section
from plans.warmth.bar import BarShape

SIDE = st.floats(0.002, 0.2)


@given(SIDE, SIDE, SIDE)
def test_volume_over_skin_is_that_of_the_box(a: float, b: float, length: float) -> None:
    shape = BarShape.of(Section(max(a, b), min(a, b)), length)
    assert shape.volume_for_area == pytest.approx(a * b * length / (2 * (a * b + a * length + b * length)))
    assert shape.half_thickness == min(a, b, length) / 2
    assert 0 <= shape.exponent <= 2


@given(SIDE, SIDE)
def test_volume_over_skin_is_that_of_the_cylinder(diameter: float, length: float) -> None:
    shape = BarShape.of(Section.round(diameter), length)
    skin = pi * diameter * length + pi * diameter**2 / 2
    assert shape.volume_for_area == pytest.approx(pi * diameter**2 / 4 * length / skin)


@pytest.mark.parametrize(
    ("section", "length", "exponent"),
    [
        (Section(0.02, 0.02), None, 1.0),
        (Section.round(0.02), None, 1.0),
        (Section(0.05, 0.01), None, 0.2),
        (Section(0.02, 0.02), 0.02, 2.0),
        (Section(0.05, 0.01), 0.1, 0.3),
        (Section.round(0.02), 0.1, 1.2),
        # Like a square and a circle: whatever stands round a circle has half its diameter times its outline over 2.
        (Section.regular(Form.OCTAGON, 0.02), None, 1.0),
        (Section.regular(Form.HEXAGON, 0.02), 0.1, 1.2),
    ],
)
def test_the_exponent_is_t_over_w_and_t_over_l(section: Section, length: float | None, exponent: float) -> None:
    assert BarShape.of(section, length).exponent == pytest.approx(exponent)


@pytest.mark.parametrize("length", [0.0, -0.1])
def test_a_bar_without_length_is_refused(length: float) -> None:
    with pytest.raises(ValueError, match="length"):
        BarShape.of(Section(0.02, 0.02), length)


@pytest.mark.parametrize(("half", "exponent"), [(0.0, 1.0), (float("inf"), 1.0), (0.01, -0.1), (0.01, 2.1)])
def test_an_impossible_shape_is_refused(half: float, exponent: float) -> None:
    with pytest.raises(ValueError, match="half-thickness"):
        BarShape(half, exponent)

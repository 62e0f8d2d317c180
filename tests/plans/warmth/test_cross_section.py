from __future__ import annotations

from math import pi

import pytest
from hypothesis import given

from plans.shapes import Form, Section
from plans.warmth.cross_section import cross_section
from tests.plans.warmth.sections import EXAMPLES, SECTIONS


@given(SECTIONS)
def test_the_cells_fill_the_section_and_its_outline(section: Section) -> None:
    mesh = cross_section(section)
    halves = 1 if section.form is Form.WEDGE else 2
    assert halves * sum(mesh.volumes) == pytest.approx(section.area, rel=1e-9)
    # Arcs are five straight pieces here.
    exact = 0.02 if section.form is Form.LENS or section.radius else 1e-9
    assert halves * mesh.skin_area == pytest.approx(section.around, rel=exact)
    assert all(volume > 0 for volume in mesh.volumes)


@given(SECTIONS)
def test_below_and_above_are_alike(section: Section) -> None:
    mesh = cross_section(section)
    below, above = sum(one.below for one in mesh.skin), sum(one.above for one in mesh.skin)
    assert below == pytest.approx(above)
    if section.form is Form.FLAT:
        assert 2 * below == pytest.approx(section.width)
    if section.is_round:
        assert 2 * below == pytest.approx(pi * section.width / 4, rel=0.2)


@given(SECTIONS)
def test_an_even_potential_carries_nothing_and_a_slope_along_the_width_does(section: Section) -> None:
    mesh = cross_section(section)
    for one, other, _ in mesh.links:
        assert 0 <= one < other < mesh.count
    along = [x for x, _ in mesh.places]
    carried = sum(conductance * (along[one] - along[other]) ** 2 for one, other, conductance in mesh.links)
    if section.form is Form.FLAT:
        # Half of it: a slope of one over the width runs through thickness over width.
        assert carried == pytest.approx(0.5 * section.thickness / section.width)


@pytest.mark.parametrize("section", EXAMPLES)
def test_the_middle_lies_deepest(section: Section) -> None:
    mesh = cross_section(section)
    assert max(range(mesh.count), key=mesh.depths.__getitem__) == pytest.approx(mesh.middle, abs=5)
    x, y = mesh.places[mesh.middle]
    assert y == 0.5
    assert x == 0.5 if section.form is not Form.WEDGE else 0.5 < x < 1


def test_depths_are_those_of_a_plate_and_of_a_round_bar() -> None:
    # What warms steadily has a parabola inside: half^2 / 2 below the skin of a plate, radius^2 / 4 of a round bar.
    plate = cross_section(Section(2.0, 0.01))
    assert plate.depths[plate.middle] == pytest.approx(0.005**2 / 2, rel=0.02)
    bar = cross_section(Section.round(0.02))
    assert bar.depths[bar.middle] == pytest.approx(0.01**2 / 4, rel=1e-6)


@pytest.mark.parametrize("length", [0.0, -0.1])
def test_a_bar_without_length_is_refused(length: float) -> None:
    with pytest.raises(ValueError, match="length"):
        cross_section(Section(0.02, 0.02), length)

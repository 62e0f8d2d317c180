from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.warmth.thin_end import thin_end
from tests.plans.warmth.sections import SECTIONS

BODY_BEHIND = 0.04


@given(SECTIONS, st.floats(0.1, 1.0), st.floats(2.0, 20.0))
def test_the_cells_fill_the_frustum_and_the_body_behind_it(body: Section, thinner: float, longer: float) -> None:
    width, length = body.width * thinner, body.width * longer
    tip = Section(width, min(width, body.area / body.width * thinner))
    mesh = thin_end(body, tip, length)
    # Between two rectangles of the same areas and widths, both sides straight: the prismoidal formula.
    middle = (tip.width + body.width) / 2 * (tip.area / tip.width + body.area / body.width) / 2
    expected = length / 6 * (tip.area + 4 * middle + body.area) + BODY_BEHIND * body.area
    assert sum(mesh.volumes) == pytest.approx(expected, rel=0.03)
    sides = 2 * (length * (tip.area / tip.width + body.area / body.width) / 2 + BODY_BEHIND * body.area / body.width)
    faces = 2 * (length * (tip.width + body.width) / 2 + BODY_BEHIND * body.width)
    assert mesh.skin_area == pytest.approx(sides + faces + tip.area, rel=0.15)
    assert sum(one.below for one in mesh.skin) == pytest.approx(sum(one.above for one in mesh.skin))


@pytest.mark.parametrize("length", [0.0, -0.1])
def test_an_end_without_length_is_refused(length: float) -> None:
    with pytest.raises(ValueError, match="length"):
        thin_end(Section(0.02, 0.01), Section(0.004, 0.003), length)

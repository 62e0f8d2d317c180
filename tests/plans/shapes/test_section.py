from __future__ import annotations

from math import hypot, pi

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Form, Section, coldest_place
from tests.plans.warmth.sections import SECTIONS


@pytest.mark.parametrize(
    ("section", "area", "around"),
    [
        (Section(0.03, 0.01), 300e-6, 0.08),
        (Section.round(0.02), pi * 100e-6, pi * 0.02),
        # A trapezium, a hexagon with two short sides, and two segments of a circle on a strip.
        (Section(0.04, 0.006, Form.WEDGE, 0.002), 160e-6, 0.008 + 2 * hypot(0.04, 0.002)),
        (Section(0.04, 0.006, Form.DIAMOND, 0.002), 160e-6, 0.004 + 4 * hypot(0.02, 0.002)),
        (Section(0.02, 0.011, Form.LENS, 0.001), 20e-6 + 2 * (pi * 125e-6 * 0 + 69.9e-6), None),
    ],
)
def test_area_and_outline(section: Section, area: float, around: float | None) -> None:
    assert section.area == pytest.approx(area, rel=1e-3)
    if around is not None:
        assert section.around == pytest.approx(around)


def test_a_lens_of_two_half_circles() -> None:
    # As thick as it is wide but for its edge, the arcs are half circles.
    lens = Section(0.02, 0.02 + 1e-9 - 1e-9, Form.LENS, 1e-9)
    assert lens.area == pytest.approx(pi * 0.01**2, rel=1e-4)
    assert lens.around == pytest.approx(pi * 0.02, rel=1e-4)


@given(SECTIONS, SECTIONS, st.floats(0.0, 1.0))
def test_on_the_way_it_is_always_a_section_between_both(begin: Section, end: Section, share: float) -> None:
    now = begin.on_the_way_to(end, share)
    low, high = sorted((begin.width, end.width))
    assert low * (1 - 1e-9) <= now.width <= high * (1 + 1e-9) or now.width == pytest.approx(max(low, now.thickness))
    assert begin.on_the_way_to(end, 0.0) == begin
    assert begin.on_the_way_to(end, 1.0) == end


def test_an_edge_is_worked_onto_a_flat_bar_step_by_step() -> None:
    bar, bevelled = Section(0.032, 0.008), Section(0.037, 0.008, Form.WEDGE, 0.0035)
    edges = [bar.on_the_way_to(bevelled, share).edge for share in (1 / 3, 2 / 3, 1.0)]
    assert edges == pytest.approx([0.008 * (0.4375 ** (1 / 3)), 0.008 * (0.4375 ** (2 / 3)), 0.0035])


@given(SECTIONS, st.floats(0.0, 1.0))
def test_nowhere_is_it_thicker_than_its_thickness_or_thinner_than_its_edge(section: Section, share: float) -> None:
    if section.is_round:
        with pytest.raises(ValueError, match="round"):
            section.thickness_at(share)
        return
    least = section.thickness if section.edge is None else section.edge
    assert least * (1 - 1e-9) <= section.thickness_at(share) <= section.thickness * (1 + 1e-9)


@pytest.mark.parametrize(
    ("form", "edge", "why"),
    [
        (Form.WEDGE, None, "edge"),
        (Form.FLAT, 0.001, "edge"),
        (Form.LENS, 0.0, "edge"),
        (Form.DIAMOND, 0.01, "edge"),
        (Form.ROUND, None, "diameter"),
    ],
)
def test_impossible_sections_are_refused(form: Form, edge: float | None, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        Section(0.03, 0.01, form, edge)


def test_the_coldest_place_has_a_name() -> None:
    assert [coldest_place(one) for one in (Section(0.03, 0.01), Section.round(0.02))] == ["corner", "underside"]
    assert coldest_place(Section(0.04, 0.006, Form.WEDGE, 0.002)) == "edge"

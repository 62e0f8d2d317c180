from __future__ import annotations

from math import dist, hypot, pi, tan

import pytest
from hypothesis import given, strategies as st

from plans.shapes import REGULAR, Form, Section, coldest_place
from tests.plans.warmth.sections import SECTIONS


@pytest.mark.parametrize(
    ("section", "area", "around"),
    [
        (Section(0.03, 0.01), 300e-6, 0.08),
        (Section.round(0.02), pi * 100e-6, pi * 0.02),
        # A trapezium, a hexagon with two short sides, and two segments of a circle on a strip.
        (Section(0.04, 0.006, Form.WEDGE, 0.002), 160e-6, 0.008 + 2 * hypot(0.04, 0.002)),
        (Section(0.04, 0.006, Form.DIAMOND, 0.002), 160e-6, 0.004 + 4 * hypot(0.02, 0.002)),
        (Section(0.02, 0.011, Form.LENS, 0.001), 20e-6 + 2 * 69.9e-6, None),
        # Of 20 mm across flats: 8 and 6 times the triangle on a side, side times apothem over 2.
        (Section.regular(Form.OCTAGON, 0.02), 4 * 0.02 * 0.01 * tan(pi / 8), 8 * 0.02 * tan(pi / 8)),
        (Section.regular(Form.HEXAGON, 0.02), 3 * 0.02 * 0.01 * tan(pi / 6), 6 * 0.02 * tan(pi / 6)),
        # Bevels of 15 mm below a flat of 25 mm; and on either side of one of 10 mm.
        (Section(0.04, 0.006, Form.WEDGE, 0.002, 0.015), 210e-6, 0.058 + 2 * hypot(0.015, 0.002)),
        (Section(0.04, 0.006, Form.DIAMOND, 0.002, 0.015), 180e-6, 0.024 + 4 * hypot(0.015, 0.002)),
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
    least = section.edge if section.edge is not None else 0.0 if section.form in REGULAR else section.thickness
    assert least - 1e-12 <= section.thickness_at(share) <= section.thickness * (1 + 1e-9)


@given(SECTIONS)
def test_the_outline_runs_once_round_the_steel_and_holds_the_area(section: Section) -> None:
    # The polygon of its points by the shoelace formula, and the thickness added up in strips.
    points = section.outline.points(section.thickness / 1e5)
    pairs = list(zip(points, (*points[1:], points[0]), strict=True))
    assert sum(a.x * b.y - b.x * a.y for a, b in pairs) / 2 == pytest.approx(section.area, rel=1e-3)
    assert sum(dist(a, b) for a, b in pairs) == pytest.approx(section.around, rel=1e-3)
    strips = [section.thickness_at((k + 0.5) / 200) for k in range(200)]
    assert section.width * sum(strips) / 200 == pytest.approx(section.area, rel=1e-3)
    moment = sum((k + 0.5) / 200 * strip for k, strip in enumerate(strips))
    assert section.width * moment / sum(strips) == pytest.approx(section.centre, rel=1e-3)


@pytest.mark.parametrize(
    ("form", "edge", "why"),
    [
        (Form.WEDGE, None, "edge"),
        (Form.FLAT, 0.001, "edge"),
        (Form.LENS, 0.0, "edge"),
        (Form.DIAMOND, 0.01, "edge"),
        (Form.ROUND, None, "width: .*diameter"),
        (Form.HEXAGON, None, "width: .*across flats"),
    ],
)
def test_impossible_sections_are_refused(form: Form, edge: float | None, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        Section(0.03, 0.01, form, edge)


@pytest.mark.parametrize(
    ("form", "edge", "bevel", "radius", "field"),
    [
        (Form.LENS, 0.001, 0.01, None, "bevel"),
        (Form.FLAT, None, None, 0.1, "radius"),
        (Form.WEDGE, 0.001, 0.031, None, "bevel"),
        (Form.DIAMOND, 0.001, 0.016, None, "bevel"),
        # Over 30 mm it rises by 4.5 mm: (30^2 + 4.5^2) / (2 * 4.5) = 102.25 mm.
        (Form.WEDGE, 0.001, None, 0.102, "radius"),
        (Form.WEDGE, 0.001, None, -0.102, "radius"),
    ],
)
def test_impossible_bevels_are_refused(
    form: Form, edge: float | None, bevel: float | None, radius: float | None, field: str
) -> None:
    with pytest.raises(ValueError, match=f"^{field}: "):
        Section(0.03, 0.01, form, edge, bevel, radius)
    if field == "radius" and radius is not None and form is Form.WEDGE:
        Section(0.03, 0.01, form, edge, bevel, radius * 1.003)


def test_the_coldest_place_has_a_name() -> None:
    assert [coldest_place(one) for one in (Section(0.03, 0.01), Section.round(0.02))] == ["corner", "underside"]
    assert coldest_place(Section(0.04, 0.006, Form.WEDGE, 0.002)) == "edge"

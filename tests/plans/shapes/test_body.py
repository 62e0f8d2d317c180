"""Bodies and blades: volumes and centres by the formulas of geometry, and by slices."""

from __future__ import annotations

from itertools import pairwise
from math import pi, sqrt

import pytest
from hypothesis import given, settings, strategies as st

from plans.shapes import Blade, Body, Form, Handle, Line, Runout, Section
from tests.plans.warmth.sections import SECTIONS

MM = 0.001
FLAT = Section(20 * MM, 10 * MM)
ROUND = Section.round(20 * MM)


@pytest.mark.parametrize(
    ("body", "volume", "centre"),
    [
        # Volume [mm3] and centre [mm] of prism, pyramid, wedge and cone, as every handbook of mathematics has them.
        (Body(FLAT, 60 * MM), 200 * 60, 30),
        (Body(FLAT, 60 * MM, Runout.TIP), 200 * 60 / 3, 15),
        (Body(FLAT, 60 * MM, Runout.EDGE), 200 * 60 / 2, 20),
        (Body(FLAT, 60 * MM, Runout.POINT), 200 * 60 / 2, 20),
        (Body(ROUND, 60 * MM, Runout.TIP), pi * 100 * 60 / 3, 15),
        # A frustum of a pyramid, h/3 (A + B + sqrt(A B)), and of a cone; centre h/4 (A + 2 sqrt(A B) + 3 B) / (...).
        (Body(FLAT, 60 * MM, Section(10 * MM, 5 * MM)), 20 * (200 + 50 + 100), 15 * (200 + 200 + 150) / 350),
        (Body(ROUND, 60 * MM, Section.round(10 * MM)), 20 * pi * (100 + 25 + 50), 15 * (100 + 100 + 75) / 175),
        # A taper in width alone and in thickness alone: trapezia.
        (Body(FLAT, 60 * MM, Section(12 * MM, 10 * MM)), 10 * 16 * 60, 20 * (20 + 2 * 12) / 32),
        (Body(FLAT, 60 * MM, Section(20 * MM, 4 * MM)), 20 * 7 * 60, 20 * (10 + 2 * 4) / 14),
        # A bar rounded like half an ellipse, and a round one like half an ellipsoid, whose centre lies at 3/8.
        (Body(FLAT, 60 * MM, Runout.POINT, Line.ROUNDED), 10 * pi / 4 * 20 * 60, 4 * 60 / (3 * pi)),
        (Body(ROUND, 60 * MM, Runout.TIP, Line.ROUNDED), 2 / 3 * pi * 100 * 60, 3 / 8 * 60),
        # A shoulder from 20 to 10 mm wide: two quarters of an ellipse, 5 by 60 mm, are taken out of the corners.
        (Body(FLAT, 60 * MM, Section(10 * MM, 10 * MM), Line.HOLLOW), 10 * (20 * 60 - 2 * pi / 4 * 5 * 60), None),
    ],
)
def test_solids_of_geometry(body: Body, volume: float, centre: float | None) -> None:
    assert body.volume == pytest.approx(volume * MM**3)
    if centre is not None:
        assert body.centre == pytest.approx(centre * MM)


@given(
    SECTIONS,
    st.one_of(SECTIONS, st.sampled_from((*Runout, None))),
    st.sampled_from(Line),
    st.floats(0.01, 0.5),
)
@settings(max_examples=40)
def test_slices_come_to_the_same(section: Section, end: Section | Runout | None, line: Line, length: float) -> None:
    body = Body(section, length, end, line if end is not None else Line.STRAIGHT)
    slices = [body.area_at((k + 0.5) / 200) for k in range(200)]
    assert sum(slices) / 200 * length == pytest.approx(body.volume, rel=1e-3)
    moment = sum((k + 0.5) / 200 * area for k, area in enumerate(slices))
    assert moment / sum(slices) * length == pytest.approx(body.centre, rel=1e-3)
    # The section half way, as it is drawn, holds the area that is reckoned with.
    upper = body.upper_at(0.5, 1e-7)
    strips = sum((b.x - a.x) * (a.y + b.y) for a, b in pairwise(upper))
    assert strips == pytest.approx(body.area_at(0.5), rel=2e-3)
    assert min(section.width, body.width_at(1.0)) <= body.width_at(0.5) <= max(section.width, body.width_at(1.0))


def test_the_skin_of_a_bar_and_of_a_slender_cone() -> None:
    assert Body(FLAT, 0.1).skin == pytest.approx(0.06 * 0.1)
    assert Body(ROUND, 0.4, Runout.TIP).skin == pytest.approx(pi * 0.01 * sqrt(0.4**2 + 0.01**2), rel=1e-3)


def test_a_blade_of_three_bodies_balances_where_they_do_together() -> None:
    # A tang of 10 x 10 mm, 100 mm; a bar of 20 x 10 mm, 200 mm; a pyramid of 60 mm on it. Volumes 10, 40 and 4 cm3,
    # which balance 50, 200 and 315 mm along: (10 * 50 + 40 * 200 + 4 * 315) / 54 = 180.74 mm.
    blade = Blade((Body(Section(0.01, 0.01), 0.1, name="tang"), Body(FLAT, 0.2), Body(FLAT, 0.06, Runout.TIP)))
    assert blade.length == pytest.approx(0.36)
    assert blade.begins == pytest.approx((0.0, 0.1, 0.3))
    assert blade.volume == pytest.approx(54e-6)
    assert blade.centre == pytest.approx(9760 / 54 * MM)
    # At 7850 kg/m3 it weighs 423.9 g; a handle of 100 g that lies 40 mm along: (423.9 * 180.74 + 4000) / 523.9.
    assert blade.mass(7850.0) == pytest.approx(0.4239)
    assert blade.balance(7850.0) == blade.centre
    assert blade.balance(7850.0, Handle(0.1, 0.04)) == pytest.approx((423.9 * 9760 / 54 + 4000) / 523.9 * MM)
    # Faces of 40 and 60 mm all round, the sides of the pyramid as if straight, one end and the step to the tang.
    assert blade.skin == pytest.approx(0.004 + 0.012 + 0.06 * 0.06 / 2 + 100e-6 + 100e-6, rel=1e-3)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Body(FLAT, 0.0), "length"),
        (lambda: Body(FLAT, 0.1, None, Line.HOLLOW), "line"),
        (lambda: Blade(()), "bodies"),
        (lambda: Handle(0.0, 0.1), "mass"),
        (lambda: Section(0.02, 0.03), "thickness"),
        (lambda: Section(0.02, 0.01, Form.WEDGE), "edge"),
    ],
)
def test_what_can_not_be_is_refused_by_its_field(make: object, field: str) -> None:
    assert callable(make)
    with pytest.raises(ValueError, match=f"^{field}: "):
        make()

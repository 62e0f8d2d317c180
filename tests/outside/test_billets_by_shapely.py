"""Where borders of bars side by side and of a laminate come out, beside a geometry library that is kept elsewhere."""

from __future__ import annotations

from itertools import accumulate
from math import hypot, radians, tan

import pytest
from shapely import LineString, Polygon, box

from plans.billets import Blade, Laminate, bars_for, borders_of

DOUBLE = Blade(0.040, 0.006, 0.0008)
SINGLE = Blade(0.030, 0.004, 0.0006, is_double=False)
BLADES = [DOUBLE, SINGLE]
PARTS = (0.0127, 0.0254, 0.0127)


def cut_of(blade: Blade) -> Polygon:
    """The section in our own words: an edge, a ridge or a spine, and another edge."""
    half, thin = blade.ridge / 2, blade.edge / 2
    if blade.is_double:
        middle = blade.face / 2
        upper = [(0.0, thin), (middle, half), (blade.face, thin)]
    else:
        upper = [(0.0, thin), (blade.face, half)]
    return Polygon([*upper, *((x, -y) for x, y in reversed(upper))])


@pytest.mark.parametrize("blade", BLADES)
@pytest.mark.parametrize("lean", [0.0, 12.0, -30.0])
def test_where_a_border_comes_out(blade: Blade, lean: float) -> None:
    whole, slope = cut_of(blade), tan(radians(lean))
    for across in borders_of(PARTS, blade.face):
        line = LineString([(across - slope, -1.0), (across + slope, 1.0)])
        (back, back_y), (front, front_y) = sorted(whole.intersection(line).coords, key=lambda point: point[1])
        assert back_y < 0 < front_y
        assert blade.out_at(across, lean) == pytest.approx((front, back), abs=1e-9)
        assert blade.thickness_at(front) == pytest.approx(2 * front_y)
        # Along the steel, from the nearer edge.
        near = 0.0 if not blade.is_double or front < blade.face / 2 else blade.face
        assert blade.up_the_bevel(front) == pytest.approx(hypot(front - near, front_y - blade.edge / 2))


@pytest.mark.parametrize("blade", BLADES)
def test_shares_of_the_area_where_bevels_are_forged(blade: Blade) -> None:
    whole = cut_of(blade)
    for share in accumulate((0.25, 0.5)):
        across = blade.across_at(share)
        left = whole & box(-1.0, -1.0, across, 1.0)
        assert left.area / whole.area == pytest.approx(share)


@pytest.mark.parametrize("blade", BLADES)
def test_bars_to_start_from_with_what_is_ground_off_the_edge(blade: Blade) -> None:
    # A strip as thick as the edge was beyond each edge; the core is to show 12 mm wide.
    trim, core = 0.001, 0.012
    end = blade.face + trim if blade.is_double else blade.face
    thin = blade.edge / 2
    forged = cut_of(blade).union(box(-trim, -thin, 0.0, thin))
    if blade.is_double:
        forged = forged.union(box(blade.face, -thin, end, thin))
    jacket = (blade.face - core) / (2 if blade.is_double else 1)
    left = forged & box(-1.0, -1.0, jacket, 1.0)
    assert bars_for(blade, core, trim).forged[0] == pytest.approx(left.area / forged.area)
    assert bars_for(blade, core, trim).ground[0] == pytest.approx((jacket + trim) / (end + trim))


@pytest.mark.parametrize("off", [0.0, 0.0003, -0.0006])
def test_line_of_a_laminate(off: float) -> None:
    # The bevel of the front, and the core's face on that side: they cross at the line.
    laminate = Laminate(0.004, 0.0005, 0.0015, 0.030)
    face = LineString([(-0.030, -0.0015), (0.030, 0.002)])
    core = LineString([(-1.0, off + 0.00075), (1.0, off + 0.00075)])
    crossed = face.intersection(core)
    assert laminate.line(off) == pytest.approx(crossed.x, abs=1e-12)

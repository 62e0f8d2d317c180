"""Sections, bodies and weights beside a geometry library, quadrature and printed weights of bars."""

from __future__ import annotations

from math import sqrt

import pytest
from scipy.integrate import dblquad
from shapely import LineString, Point, Polygon, affinity, box

from plans.reckoner.weight import reckon_weight
from plans.shapes import Body, Form, Line, Runout, Section
from plans.steel.density import density_of, expansion
from plans.units import INCH, POUND, kelvin

MM, FOOT = 0.001, 12 * INCH


def disc(x: float, y: float, radius: float) -> Polygon:
    return Point(x, y).buffer(radius, quad_segs=20_000)


def lens(width: float, thickness: float, edge: float) -> Polygon:
    # Two discs whose tops lie at the full thickness; they meet outside, and the edges cut them off.
    rise = (thickness - edge) / 2
    radius = (width**2 / 4 + rise**2) / (2 * rise)
    upper, lower = (disc(width / 2, side * (thickness / 2 - radius), radius) for side in (1, -1))
    return upper & lower & box(0, -thickness, width, thickness)


def wedge_with_least_radius(width: float, thickness: float, edge: float, bevel: float, *, hollow: bool) -> Polygon:
    # The least radius is that of a disc which lies along the middle at the edge (hollow), or at the flat (convex).
    rise = (thickness - edge) / 2
    radius = (bevel**2 + rise**2) / (2 * rise)
    flat = box(0, -thickness / 2, width, thickness / 2)
    if hollow:
        return flat - disc(0, edge / 2 + radius, radius) - disc(0, -edge / 2 - radius, radius)
    body = disc(bevel, thickness / 2 - radius, radius) & disc(bevel, radius - thickness / 2, radius)
    return (body & flat) | box(bevel, -thickness / 2, width, thickness / 2)


def least(bevel: float, rise: float) -> float:
    return (bevel**2 + rise**2) / (2 * rise)


SQUARE = box(-10, -10, 10, 10)
BARS = [
    (Section(25 * MM, 10 * MM), box(0, -5, 25, 5)),
    (Section.round(20 * MM), disc(10, 0, 10)),
    # An octagon is what a square and the same square turned have in common, a hexagon what three strips have.
    (Section.regular(Form.OCTAGON, 20 * MM), affinity.translate(SQUARE & affinity.rotate(SQUARE, 45), 10)),
    (
        Section.regular(Form.HEXAGON, 20 * MM),
        affinity.translate(
            box(-50, -10, 50, 10)
            & affinity.rotate(box(-50, -10, 50, 10), 60)
            & affinity.rotate(box(-50, -10, 50, 10), 120),
            20 / sqrt(3),
        ),
    ),
    (Section(40 * MM, 6 * MM, Form.WEDGE, 1 * MM), Polygon([(0, -0.5), (40, -3), (40, 3), (0, 0.5)])),
    (
        Section(40 * MM, 6 * MM, Form.DIAMOND, 1 * MM, 15 * MM),
        Polygon([(0, -0.5), (15, -3), (25, -3), (40, -0.5), (40, 0.5), (25, 3), (15, 3), (0, 0.5)]),
    ),
    (Section(40 * MM, 8 * MM, Form.LENS, 1 * MM), lens(40, 8, 1)),
    (
        Section(30 * MM, 4 * MM, Form.WEDGE, 0.5 * MM, 20 * MM, -least(20, 1.75) * MM),
        wedge_with_least_radius(30, 4, 0.5, 20, hollow=True),
    ),
    (
        Section(30 * MM, 4 * MM, Form.WEDGE, 0.5 * MM, 25 * MM, least(25, 1.75) * MM),
        wedge_with_least_radius(30, 4, 0.5, 25, hollow=False),
    ),
]


@pytest.mark.parametrize(("section", "shape"), BARS)
def test_a_geometry_library_cuts_the_same_section(section: Section, shape: Polygon) -> None:
    assert section.area == pytest.approx(shape.area * MM**2, rel=1e-5)
    assert section.around == pytest.approx(shape.length * MM, rel=1e-5)
    assert section.centre == pytest.approx(shape.centroid.x * MM, rel=1e-5)
    for share in (0.05, 0.3, 0.62, 0.9):
        x = share * section.width / MM
        assert section.thickness_at(share) == pytest.approx(
            shape.intersection(LineString([(x, -99), (x, 99)])).length * MM, rel=1e-4
        )
    drawn = Polygon([(one.x / MM, one.y / MM) for one in section.outline.points(1e-7)])
    assert drawn.is_valid
    assert drawn.exterior.is_ccw
    assert drawn.symmetric_difference(shape).area < 1e-4 * shape.area


@pytest.mark.parametrize(
    "body",
    [
        Body(Section(30 * MM, 4 * MM, Form.WEDGE, 0.5 * MM, 20 * MM, -0.15), 0.2, Section(20 * MM, 2 * MM)),
        Body(Section(40 * MM, 8 * MM, Form.LENS, 1 * MM), 0.1, Runout.TIP, Line.ROUNDED),
        Body(Section(30 * MM, 20 * MM), 0.05, Section(14 * MM, 6 * MM, Form.WEDGE, 1 * MM), Line.HOLLOW),
        Body(Section(40 * MM, 6 * MM, Form.DIAMOND, 1 * MM), 0.08, Runout.POINT),
    ],
)
def test_volume_and_centre_by_quadrature(body: Body) -> None:
    def way(u: float) -> float:
        return {
            Line.STRAIGHT: u,
            Line.ROUNDED: 1 - sqrt(1 - u * u),
            Line.HOLLOW: sqrt(1 - (1 - u) ** 2),
        }[body.line]

    def steel(x: float, u: float) -> float:
        """Steel at a share of the width and one of the length, thickness times width, as the sections have it."""
        first, end, s = body.section, body.end, way(u)
        if isinstance(end, Section):
            wide, thick = end.width, end.thickness_at(x)
        else:
            wide = 0.0 if end is not Runout.EDGE else first.width
            thick = first.thickness_at(x) if end is Runout.POINT else 0.0
        return (first.width + s * (wide - first.width)) * (first.thickness_at(x) + s * (thick - first.thickness_at(x)))

    volume, _ = dblquad(steel, 0, 1, 0, 1, epsabs=0, epsrel=1e-3)
    moment, _ = dblquad(lambda x, u: u * steel(x, u), 0, 1, 0, 1, epsabs=0, epsrel=1e-3)
    assert body.volume == pytest.approx(volume * body.length, rel=1e-3)
    assert body.centre == pytest.approx(moment / volume * body.length, rel=1e-3)


def mass_of(section: Section, length: float) -> float:
    figure = next(one for one in reckon_weight(section, length).found if one.key == "mass_kg")
    return float(figure.kept)


@pytest.mark.parametrize(
    ("section", "weight"),
    [
        # pipingdesigner.us, Weight for Steel Bars, Pipe and Tubing, eq. 7 to 11: lb/ft of bars of carbon steel, by the
        # side, the diameter or across flats in inches.
        (Section(INCH, INCH), 3.403),
        (Section(2 * INCH, 0.25 * INCH), 3.403 * 0.5),
        (Section.round(INCH), 2.673),
        (Section.regular(Form.HEXAGON, INCH), 2.945),
        (Section.regular(Form.OCTAGON, INCH), 2.817),
    ],
)
def test_printed_weights_of_bars_in_pounds_a_foot(section: Section, weight: float) -> None:
    assert mass_of(section, FOOT) == pytest.approx(weight * POUND, rel=1e-3)


# The Engineering ToolBox, Mild Steel - Round Bars Weight (page 1795): mm and kg/m, as rounded there.
ROUNDS = {6: 0.22, 8: 0.39, 10: 0.62, 12: 0.89, 16: 1.58, 20: 2.47, 25: 3.85, 32: 6.31, 40: 9.86, 50: 15.4, 60: 22.2}


@pytest.mark.parametrize(("diameter", "weight"), ROUNDS.items())
def test_a_printed_table_of_round_bars(diameter: int, weight: float) -> None:
    assert mass_of(Section.round(diameter * MM), 1.0) == pytest.approx(weight, abs=0.006, rel=1e-3)


@pytest.mark.parametrize(
    ("celsius", "longer"),
    # EN 1993-1-2:2005, clause 3.4.1.1, worked by hand: 1.2e-5 t + 0.4e-8 t^2 - 2.416e-4, then 1.1e-2, then 2e-5 t -
    # 6.2e-3. Formulas as printed in a software maker's knowledge base (Dlubal, article 001496).
    [(20, 0.0), (500, 0.006 + 0.001 - 0.0002416), (800, 0.011), (1000, 0.0138), (1200, 0.0178)],
)
def test_hot_steel_is_longer_and_lighter_by_the_standard(celsius: float, longer: float) -> None:
    assert expansion(kelvin(celsius)) == pytest.approx(longer, abs=1e-9)
    assert density_of(kelvin(celsius)).value == pytest.approx(7850 / (1 + longer) ** 3)


@pytest.mark.parametrize("celsius", [950, 1000, 1100, 1200])
def test_hot_steel_is_as_heavy_as_the_lattice_of_austenite(celsius: float) -> None:
    # Seki and Nagata, ISIJ International 45 (2005) 1789: lattice parameter of pure iron, 3.5519 + 8.1593e-5 T angstrom;
    # as printed in the data of the neutron library NCrystal. Four atoms of 55.845 g/mol in each cube.
    lattice = 4 * 55.845e-3 / 6.02214076e23 / ((3.5519 + 8.1593e-5 * kelvin(celsius)) * 1e-10) ** 3
    found = density_of(kelvin(celsius))
    assert found.least is not None
    assert found.most is not None
    assert found.least < lattice < found.most
    assert found.value == pytest.approx(lattice, rel=0.01)

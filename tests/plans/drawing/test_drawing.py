"""Drawings to scale, as plain data and as SVG."""

from __future__ import annotations

from itertools import pairwise
from xml.etree import ElementTree

import pytest

from plans.drawing import Drawing, Measure, Note, Part, Pattern, as_svg, box, lanes
from plans.units import Units

SVG = "{http://www.w3.org/2000/svg}"


def area(points: str) -> float:
    """Of a polygon, by Gauss's shoelace."""
    corners = [tuple(map(float, point.split(","))) for point in points.split()]
    return abs(sum(x * b - a * y for (x, y), (a, b) in pairwise([*corners, corners[0]]))) / 2


def test_svg_is_to_scale_and_takes_no_text_for_markup() -> None:
    flat = Part(box(0.0, 0.0, 0.04, 0.01), Pattern.DOTTED, "a <b> & c")
    wedge = Part(((0.0, 0.0), (0.02, 0.0), (0.02, 0.01)), Pattern.SOLID)
    ground = Part(box(0.03, 0.0, 0.04, 0.01), Pattern.EMPTY)
    measures = (
        Measure((0.0, 0.0), (0.04, 0.0), lambda units: units.length(0.04)),
        Measure((0.04, 0.0), (0.04, 0.01), lambda units: units.length(0.01)),
    )
    found = Drawing("<what>", (flat, wedge, ground), measures, (Note((0.01, 0.005), "here"),))
    svg = ElementTree.fromstring(as_svg(found, Units.INCH))
    whole, part, taken = (area(one.attrib["points"]) for one in svg.findall(f"{SVG}polygon")[:3])
    # 40 x 10 mm = 400 mm2, half of 20 x 10 mm = 100 mm2, 10 x 10 mm = 100 mm2
    assert part / whole == pytest.approx(0.25, rel=0.005)
    assert taken / whole == pytest.approx(0.25, rel=0.005)
    texts = [one.text for one in svg.iter(f"{SVG}text")]
    assert texts == ["1 9/16 in", "13/32 in", "here", "a <b> & c"]
    assert svg.findtext(f"{SVG}title") == "<what>"
    (tile,) = svg.iter(f"{SVG}pattern")
    assert tile.attrib["id"] == "steel-dotted"
    assert tile[0].attrib["fill"] == "Canvas", "where it lies on a part that is filled, its dots would not be seen"


def test_a_dimension_stands_on_the_side_that_it_lies_nearer_to() -> None:
    below, above = Measure((0.0, 0.0), (0.02, 0.0), "below"), Measure((0.0, 0.01), (0.02, 0.01), "above")
    left, right = Measure((0.0, 0.0), (0.0, 0.01), "left"), Measure((0.04, 0.0), (0.04, 0.01), "right")
    found = Drawing("", (Part(box(0.0, 0.0, 0.04, 0.01), Pattern.SOLID),), (below, above, left, right))
    assert found.beside(level=True, far=False) == (below,)
    assert found.beside(level=True, far=True) == (above,)
    assert found.beside(level=False, far=False) == (left,)
    assert found.beside(level=False, far=True) == (right,)


def test_what_would_overlap_goes_further_out() -> None:
    assert lanes([(0, 4), (6, 9), (3, 5), (2, 7), (9, 12)]) == [0, 0, 1, 2, 0]

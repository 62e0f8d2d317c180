"""The section of a double edge from what a caliper says of it, by hand."""

from __future__ import annotations

from math import hypot

import pytest

from plans.bench import BenchError, DoubleEdge, Face, Measured, section_of

# An even one: 24 mm across, edges of 1 mm, 6 mm at the ridge. Each bevel is 12 mm across and rises 2.5 mm.
EVEN = Measured((hypot(12, 2.5) / 1000,) * 4, (1e-3, 1e-3), 6e-3)


def test_an_even_section_has_its_ridge_in_the_middle() -> None:
    found = section_of(EVEN)
    assert found.width == pytest.approx(24e-3, abs=1e-9)
    assert found.offsets == pytest.approx((0.0, 0.0), abs=1e-9)
    assert (found.front.height, found.back.height) == pytest.approx((3e-3, 3e-3), abs=1e-9)


def test_a_ridge_off_the_middle() -> None:
    # Its front ridge lies 13 mm from the first edge, its back ridge 12.4 mm: 1 mm and 0.4 mm beyond the middle.
    made = DoubleEdge(24e-3, Face(0.6e-3, 0.4e-3, 13e-3, 2.9e-3), Face(0.6e-3, 0.4e-3, 12.4e-3, 3.3e-3))
    assert made.edges == pytest.approx((1.2e-3, 0.8e-3))
    assert made.widths[0] == pytest.approx(hypot(13, 2.3) / 1000)
    assert made.widths[1] == pytest.approx(hypot(11, 2.5) / 1000)
    found = section_of(made.measured)
    assert found.offsets == pytest.approx((1e-3, 0.4e-3), abs=1e-8)
    assert found.offset == pytest.approx(0.7e-3, abs=1e-8)
    assert found.front.height == pytest.approx(2.9e-3, abs=1e-8)


@pytest.mark.parametrize(
    ("measured", "given"),
    [
        (Measured((0.0, 0.01, 0.01, 0.01), (1e-3, 1e-3), 6e-3), "widths"),
        (Measured((0.01,) * 4, (0.0, 1e-3), 6e-3), "edges"),
        (Measured((0.01,) * 4, (1e-3, 7e-3), 6e-3), "ridge"),
        (Measured((0.002,) * 4, (1e-3, 1e-3), 6e-3), "ridge"),
        # Front bevels of 28 mm and back bevels of 20 mm lie on no one blade that is 3 mm thick.
        (Measured((0.014, 0.014, 0.010, 0.010), (1e-3, 1e-3), 3e-3), "ridge"),
    ],
)
def test_what_makes_no_section(measured: Measured, given: str) -> None:
    with pytest.raises(BenchError) as caught:
        section_of(measured)
    assert caught.value.given == given

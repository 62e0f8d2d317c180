"""Glow colours beside colorimetry."""

from __future__ import annotations

import pytest

from plans.warmth.glow import hue, luminance, tristimulus


def chromaticity(kelvin: float) -> tuple[float, float]:
    """The chromaticity x and y that follow from the program's X, Y and Z."""
    x, y, z = tristimulus(kelvin)
    return x / (x + y + z), y / (x + y + z)


@pytest.mark.parametrize(("kelvin", "x", "y"), [(1000, 0.6528, 0.3444), (1500, 0.5857, 0.3931), (2000, 0.5267, 0.4133)])
def test_chromaticity_of_a_black_body(kelvin: float, x: float, y: float) -> None:
    # Planck with c2 = 1.4388e-2 m K and the CIE 1931 observer as tabled by Wyszecki & Stiles.
    assert chromaticity(kelvin) == pytest.approx((x, y), abs=5e-4)


def test_illuminant_a() -> None:
    # ISO/CIE 11664-2: x 0.44758, y 0.40745; 2848 K with c2 of 1.435e-2 is 2855.5 K with today's.
    assert chromaticity(2855.5) == pytest.approx((0.44758, 0.40745), abs=2e-5)


def test_hue_at_1200_in_srgb() -> None:
    # IEC 61966-2-1, brightest channel at 255, negative ones clipped.
    assert all(abs(ours - theirs) <= 2 for ours, theirs in zip(hue(1200 + 273.15), (255, 100, 0), strict=True))


def test_luminance_at_1000() -> None:
    # 683 times the integral of radiance and observer, evaluated elsewhere: 438 cd/m2.
    assert luminance(1000 + 273.15) == pytest.approx(438.0, rel=0.02)

"""A twisted bar."""

from __future__ import annotations

from itertools import pairwise
from math import cos, dist, pi, sin, sqrt

import pytest

from plans.billets.errors import BilletError
from plans.billets.twist import twisted
from plans.shapes import Section


def test_a_square_by_hand() -> None:
    found = twisted(Section(0.012, 0.012), 0.040, 0.200)
    # Faces: pi 12 / 40 = 0.94248, its arc tangent 43.30 degrees, sqrt(1 + 0.94248^2) = 1.37414.
    assert found.angle.value == pytest.approx(43.304, abs=1e-3)
    assert found.stretch.value == pytest.approx(1.37414, abs=1e-5)
    # Corners, 12 sqrt(2) apart: pi 16.9706 / 40 = 1.33287, 53.12 degrees, 1.66630.
    assert (found.angle.most, found.stretch.most) == (pytest.approx(53.12, abs=0.01), pytest.approx(1.66630, abs=1e-5))
    assert found.turns.value == pytest.approx(5.0)
    # A round of 144 mm2: 2 sqrt(144 / pi) = 13.541 mm. From corner to flat (16.971 - 12) / 2 = 2.485 mm.
    assert found.round_diameter.value == pytest.approx(13.541e-3, abs=1e-6)
    assert found.groove.value == pytest.approx(2.4853e-3, abs=1e-7)
    assert not found.angle.outside


def test_a_line_that_is_wound_point_by_point_is_as_long() -> None:
    pitch, radius, steps = 0.020, 0.006, 5000
    line = [
        (radius * cos(2 * pi * k / steps), radius * sin(2 * pi * k / steps), pitch * k / steps)
        for k in range(steps + 1)
    ]
    long = sum(dist(one, other) for one, other in pairwise(line))
    found = twisted(Section.round(2 * radius), pitch, 1.0)
    assert found.stretch.value == pytest.approx(long / pitch, rel=1e-6)
    assert (found.stretch.most, found.groove.value) == (None, 0.0)


def test_tighter_than_is_safe_is_said() -> None:
    bar = Section(0.010, 0.010)
    safe = twisted(bar, 0.010, 0.1).least_pitch
    assert safe.basis == "common practice"
    assert twisted(bar, 0.99 * safe.value, 0.1).angle.outside
    assert not twisted(bar, 1.01 * safe.value, 0.1).angle.outside


def test_a_flat_does_not_twist_evenly() -> None:
    with pytest.raises(BilletError, match=r"section: only a square or a round"):
        twisted(Section(0.012, 0.012 / sqrt(2)), 0.040, 0.1)

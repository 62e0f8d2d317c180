"""A twisted bar: how its lines run, how far its outside is stretched, and how tight it can be twisted.

A line on the surface at a diameter d winds once round in a pitch p, at an angle a to the bar's length with
tan a = pi d / p, and is sqrt(1 + (pi d / p)^2) times as long as it was.
"""

from __future__ import annotations

from math import atan, degrees, hypot, pi, sqrt
from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.reckoned import Reckoned
from plans.record import record
from plans.shapes import Form, Section

HELIX: Final = "geometry of a helix: tan a = pi d / p"
"""Source of the angle and the stretch, as it is cited."""
LEAST_PITCH, TIGHTEST, EASY = 1.5, 1.0, 2.5
"""Least safe pitch in sides of the bar, and the range in which smiths put it: common practice, no source."""


@record
class Twist:
    """What a pitch makes of a bar."""

    angle: Reckoned
    """Angle of the lines to the bar's length, where the faces are [degrees]; `most` at the corners."""
    stretch: Reckoned
    """How many times as long a line of the surface becomes, at the faces; `most` at the corners."""
    turns: Reckoned
    """Whole turns on the length."""
    least_pitch: Reckoned
    """Pitch below which welds open and corners tear [m]."""
    round_diameter: Reckoned
    """Diameter of the round bar that it makes when it is forged to one: the same area [m]."""
    groove: Reckoned
    """Depth of the hollows between the corners, to be hammered out or ground off to come to the round inside [m]."""


def twisted(section: Section, pitch: float, length: float) -> Twist:
    """What twisting a square or round bar to a pitch comes to; the bar keeps its length.

    Args:
        section: a square or a round
        pitch: length of one whole turn [m]
        length: length that is twisted [m]

    Raises:
        BilletError: the section is neither square nor round, or the pitch or the length is none that can be.
    """
    above_zero(pitch=pitch, length=length)
    if section.form not in (Form.FLAT, Form.ROUND) or section.width != section.thickness:
        raise BilletError("section", 'only a square or a round twists evenly: write "square 12 mm" or "round 12 mm"')
    across = section.width
    corner = across if section.is_round else across * sqrt(2)
    tight = pitch < LEAST_PITCH * across
    where = "at the surface" if section.is_round else "in the middle of the faces; the range goes to the corners"
    said = f"{where}; the bar evenly hot and no shorter than before" + ("; tighter than is safe" if tight else "")
    angle, steepest = (degrees(atan(pi * wide / pitch)) for wide in (across, corner))
    stretch, longest = (hypot(1.0, pi * wide / pitch) for wide in (across, corner))
    ends = (None, None, None, None) if section.is_round else (angle, steepest, stretch, longest)
    area = "the same area; none is lost to scale"
    hollow = "from the corners down to the middle of the faces; a round has none"
    return Twist(
        Reckoned(angle, "arithmetic", said, HELIX, ends[0], ends[1], tight),
        Reckoned(stretch, "arithmetic", said, HELIX, ends[2], ends[3], tight),
        Reckoned(length / pitch, "arithmetic", "counted at the tongs' end against the vice", "arithmetic"),
        Reckoned(
            LEAST_PITCH * across,
            "common practice",
            f"at a full welding heat, {LEAST_PITCH:g} sides of the bar; the range is {TIGHTEST:g} to "
            f"{EASY:g}; tighter, welds open and corners tear",
            "common practice, no source",
            TIGHTEST * across,
            EASY * across,
        ),
        Reckoned(2 * sqrt(section.area / pi), "arithmetic", area, "arithmetic"),
        Reckoned((corner - across) / 2, "arithmetic", hollow, "plane geometry"),
    )

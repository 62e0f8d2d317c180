"""The reckoning of a twist."""

from __future__ import annotations

from plans.billets import twist_drawn, twisted
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import as_asked
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import ANGLE, LENGTH, NUMBER, TIMES, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.units import Units

_TAKEN = 0.1
"""Length on which turns are counted where none is given [m]."""


def reckon_twist(section: Section, pitch: float, length: float | None = None) -> Reckoning:
    """How the lines of a twisted bar run, how far its outside is stretched, and how many turns that takes.

    Args:
        section: a square or a round
        pitch: length of one whole turn [m]
        length: length that is twisted [m]; None for turns on 100 mm

    Raises:
        ReckonError: the section is neither square nor round, or the pitch or the length is none that can be.
    """
    checks.bar(section, length)
    on = _TAKEN if length is None else length
    with as_asked():
        found = twisted(section, pitch, on)

    def taken(units: Units) -> str:
        return f"on {units.length(on) if length is None else units.exact_length(on)}" + (
            " (taken)" if length is None else ""
        )

    asked = (
        of_the_section(section),
        given("pitch_mm", "pitch", pitch, TYPED_LENGTH),
        Given("length_mm", LENGTH.record(on), taken),
    )
    return Reckoning(
        "twist",
        asked,
        (
            Figure("angle_degrees", "lines lean off the length", found.angle, ANGLE),
            Figure("stretch", "outside stretched to", found.stretch, TIMES),
            Figure("turns", "turns", found.turns, NUMBER),
            Figure("least_pitch_mm", "least safe pitch", found.least_pitch, LENGTH),
            Figure("round_mm", "forged round", found.round_diameter, WIDTH),
            Figure("groove_mm", "hollows between corners", found.groove, WIDTH),
        ),
        drawing=twist_drawn(section, pitch),
    )

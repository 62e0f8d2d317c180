"""What a probe says at one moment."""

from __future__ import annotations

from enum import StrEnum

from plans.record import record


class ProbeOn(StrEnum):
    """Where the probe sits, and so whose temperature it tells."""

    WORK = "work"
    """On the work: it tells the temperature of its skin."""
    FIRE = "fire"
    """In the fire: it tells the temperature of the fire."""


@record
class Reading:
    """What the probe said at one moment, be it that it said nothing."""

    at: float
    """When, since the sitting began [s]."""
    kelvin: float | None
    """Temperature where the probe sits [K]; None where there is none."""
    fault: str | None = None
    """Why there is no temperature, or why it is not to be believed, e.g. "lost", "open circuit", "out of range";
    None where it is sound."""

"""What a probe says at one moment."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class ProbeOn(StrEnum):
    """Where the probe sits."""

    WORK = "work"
    FIRE = "fire"


@dataclass(frozen=True, slots=True)
class Reading:
    """A frozen snapshot of the probe; a lost probe is a snapshot too."""

    at: float
    """Seconds since the sitting began."""
    kelvin: float | None
    fault: str | None = None
    """Why there is no temperature, e.g. "lost", "open circuit", "out of range"."""

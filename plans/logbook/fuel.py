"""What the fire of a sitting burnt, by how long it burnt and by what the smith says that it burns in an hour."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Any, Final

from plans.phase import WARMING
from plans.record import record
from plans.shop import FuelRate
from plans.sitting import PhaseSpan
from plans.units import Units

_TURNED_DOWN: Final = 15 * 60.0
"""For longer than this nobody lets a fire burn with no work in it [s]; common practice, no source."""


@record
class Fuel:
    """Fuel that was burnt; it is as exact as the rate that the smith gave."""

    seconds: float
    """How long the fire burnt [s]."""
    rate: FuelRate
    """What it burns."""

    def text(self, units: Units) -> str:
        """It in the units that are set: "1.9 kg", "64 ft3"."""
        hours = self.seconds / 3600
        if self.rate.mass is not None:
            return units.mass(self.rate.mass * hours)
        return units.gas((self.rate.volume or 0.0) * hours)

    def to_record(self) -> dict[str, Any]:
        """It as a JSON object."""
        hours = self.seconds / 3600
        amounts = {"kg": self.rate.mass, "m3": self.rate.volume}
        burnt = {name: round(a_hour * hours, 4) for name, a_hour in amounts.items() if a_hour is not None}
        return {"burning_seconds": round(self.seconds, 2), **burnt}


def burning_seconds(spans: Iterable[PhaseSpan], breaks: Iterable[tuple[float, float]] = ()) -> float:
    """How long the fire burnt: from when the work first went in until it last came out, and what is in between.

    Left out is whatever lies between two times in the fire where that is more than a quarter of an hour, or where the
    sitting was gone on with; and what it took to bring the fire up before the first.

    Args:
        spans: the phases of the sitting in order
        breaks: from when until when it stood still, to be gone on with later [s]

    Returns:
        the time [s]; 0 where nothing went into the fire
    """
    away = list(breaks)
    fires = [(span.began, span.ended) for span in spans if span.phase in WARMING and span.ended > span.began]
    total = sum(ended - began for began, ended in fires)
    total -= sum(max(0.0, min(back, ended) - max(left, began)) for began, ended in fires for left, back in away)
    for (_, out), (again, _) in pairwise(fires):
        if again - out <= _TURNED_DOWN and not any(left < again and back > out for left, back in away):
            total += again - out
    return max(0.0, total)

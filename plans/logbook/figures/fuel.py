"""What the fire of a sitting burnt, by how long it burnt and by what the smith says that it burns in an hour."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Any, Final

from plans.phase import WARMING
from plans.record import record
from plans.shop import FuelRate
from plans.shown import show_clock, show_money
from plans.sitting import PhaseSpan, State, phase_spans, standstills
from plans.units import Units

TURNED_DOWN: Final = 15 * 60.0
"""For longer than this nobody lets a fire burn with no work in it [s]; common practice, no source."""


_KEPT: Final = 4
"""So many decimals of a kilogram, or of a cubic metre, are kept and shown; no rate tells more."""


@record
class Fuel:
    """Fuel that was burnt, and what it cost. It is as exact as the rate and the price that the smith gave."""

    seconds: float
    """How long the fire burnt [s]."""
    rate: FuelRate
    """What it burns in an hour, and what that costs."""

    @classmethod
    def burnt(cls, rate: FuelRate | None, state: State, ended: float) -> Fuel | None:
        """What the fire of a sitting burnt.

        Args:
            rate: what it burns in an hour; None where nobody said
            state: where the sitting stood in the end
            ended: the newest moment that is known of it [s]

        Returns:
            None without a rate
        """
        if rate is None:
            return None
        away = [
            (left, back)
            for left, back in standstills(state, ended)
            if back - left > TURNED_DOWN or (left, back) in state.breaks
        ]
        return cls(burning_seconds(phase_spans(state, ended), away), rate)

    @property
    def mass(self) -> float | None:
        """How much it was by weight [kg]; None where the rate is a volume."""
        return None if self.rate.mass is None else round(self.rate.mass * self.seconds / 3600, _KEPT)

    @property
    def volume(self) -> float | None:
        """How much it was by volume [m3]; None where the rate is a weight."""
        return None if self.rate.volume is None else round(self.rate.volume * self.seconds / 3600, _KEPT)

    @property
    def cost(self) -> float | None:
        """What it cost, in the currency of the rate; None where that has no price."""
        return None if self.rate.price is None else self.rate.price * (self.mass or self.volume or 0.0)

    def named(self, units: Units) -> list[tuple[str, str]]:
        """What there is to say of it, by its name: "fire burning", "1:21:00 at 1.40 kg/h"; "fuel", "1.89 kg"."""
        if not self.seconds:
            return []
        an_hour = amount(self.rate.mass, self.rate.volume, units)
        told = [
            ("fire burning", f"{show_clock(self.seconds)} at {an_hour}/h"),
            ("fuel", amount(self.mass, self.volume, units)),
        ]
        return told if self.cost is None else [*told, ("fuel cost", f"{show_money(self.cost)} {self.rate.currency}")]

    def to_record(self) -> dict[str, Any]:
        """It as a JSON object."""
        amounts = {"kg": self.mass, "m3": self.volume, "kg_per_hour": self.rate.mass, "m3_per_hour": self.rate.volume}
        burnt = {name: round(value, _KEPT) for name, value in amounts.items() if value is not None}
        cost = {} if self.cost is None else {"cost": round(self.cost, 4), "currency": self.rate.currency}
        return {"burning_seconds": round(self.seconds, 2), **burnt, **cost}


def amount(mass: float | None, volume: float | None, units: Units) -> str:
    """An amount of fuel in the units that are set: "1.90 kg", "64.0 ft3"; empty where there is none, or none was burnt.

    Args:
        mass: by weight [kg]; None where that is not how it is measured
        volume: by volume [m3]; likewise
        units: the units that are set
    """
    texts = (units.mass(mass) if mass else "", units.gas(volume) if volume else "")
    return ", ".join(filter(None, texts))


def burning_seconds(spans: Iterable[PhaseSpan], away: Iterable[tuple[float, float]] = ()) -> float:
    """How long the fire burnt: from when the work first went in until it last came out, and what is in between.

    Left out is what it took to bring the fire up before the first; whatever lies between two times in the fire where
    that is more than a quarter of an hour, or where nobody stood at the work; and when nobody did while it lay in it.

    Args:
        spans: the phases of the sitting in order
        away: from when until when nobody stood at the work, none over another [s]: breaks until the sitting was gone on
            with, and pauses of more than a quarter of an hour

    Returns:
        the time [s]; 0 where nothing went into the fire
    """
    gone = list(away)
    fires = [(span.began, span.ended) for span in spans if span.phase in WARMING and span.ended > span.began]
    total = sum(ended - began for began, ended in fires)
    total -= sum(max(0.0, min(back, ended) - max(left, began)) for began, ended in fires for left, back in gone)
    for (_, out), (again, _) in pairwise(fires):
        if again - out <= TURNED_DOWN and not any(left < again and back > out for left, back in gone):
            total += again - out
    return max(0.0, total)

"""What a sitting is found by, beside what a list shows of it; the index keeps it, so that a search reads no sitting."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, Final

from plans.record import record
from plans.record_values import list_of, maybe_celsius, maybe_number, maybe_seconds, text_of
from plans.units import celsius, kelvin

if TYPE_CHECKING:  # a first screen lists sittings, and has no use for what those load
    from plans.logbook.figures import HeatFigures, Loss, SittingFigures
    from plans.logbook.fuel import Fuel
    from plans.plan import Plan

_DEEPEST: Final = 1e4
"""No depth that is lost is larger [mm]."""
_MOST_BURNT: Final = 1e6
"""No sitting burnt more [kg or m3]."""


@record
class Facts:
    """What a sitting is found by. Figures are None where its figures have not been worked out, or nobody knew them."""

    steels: tuple[str, ...]
    """The steels of its plan, each once, as the plan calls them."""
    notes: tuple[str, ...]
    """The notes that the smith left, in order."""
    peak: float | None
    """The hottest that the skin of the work was in any heat [K]."""
    in_fire: float | None
    """Time in the fire, of all heats together [s]."""
    soaked: float | None
    """Time soaked, of all heats together [s]."""
    struck: float | None
    """Time struck, of all heats together [s]."""
    too_cold: float | None
    """Time struck below the cold limit, of all heats together [s]."""
    decarb: float | None
    """Depth to which carbon was lost, as likely [m]."""
    scale: float | None
    """Depth of metal lost to scale on each face, as likely [m]."""
    fuel_mass: float | None = None
    """What its fire burnt, by the rate that its shop had then [kg]; None where that said nothing, or a volume."""
    fuel_volume: float | None = None
    """Likewise where that rate is a volume [m3]."""

    def to_record(self) -> dict[str, Any]:
        """The facts as a JSON object, units in the key names."""
        return {
            "steels": list(self.steels),
            "notes": list(self.notes),
            "peak_celsius": None if self.peak is None else round(celsius(self.peak), 1),
            "in_fire_seconds": self.in_fire,
            "soak_seconds": self.soaked,
            "strike_seconds": self.struck,
            "too_cold_seconds": self.too_cold,
            "decarb_mm": None if self.decarb is None else round(self.decarb * 1000, 4),
            "scale_loss_mm": None if self.scale is None else round(self.scale * 1000, 4),
            "fuel_kg": self.fuel_mass,
            "fuel_m3": self.fuel_volume,
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Facts:
        """The facts from a JSON object that `to_record` made.

        Raises:
            ValueError, KeyError, TypeError: these are none.
        """
        peak = maybe_celsius(record["peak_celsius"])
        decarb, scale = (maybe_number(record[key], 0.0, _DEEPEST) for key in ("decarb_mm", "scale_loss_mm"))
        return cls(
            tuple(map(text_of, list_of(record["steels"]))),
            tuple(map(text_of, list_of(record["notes"]))),
            None if peak is None else kelvin(peak),
            maybe_seconds(record["in_fire_seconds"]),
            maybe_seconds(record["soak_seconds"]),
            maybe_seconds(record["strike_seconds"]),
            maybe_seconds(record["too_cold_seconds"]),
            None if decarb is None else decarb / 1000,
            None if scale is None else scale / 1000,
            # Earlier versions did not write them.
            *(maybe_number(record.get(key), 0.0, _MOST_BURNT) for key in ("fuel_kg", "fuel_m3")),
        )


def facts_of(plan: Plan | None, notes: Iterable[str], figures: SittingFigures | None, fuel: Fuel | None) -> Facts:
    """What a sitting is found by.

    Args:
        plan: what it followed; None where this version can't read it
        notes: what the smith left
        figures: its figures; None where they have not been worked out
        fuel: what its fire burnt; None where its shop did not say how much that is in an hour
    """
    from plans.reader import steels_of

    heats = () if figures is None else figures.heats
    cost = None if figures is None else figures.cost
    peaks = [heat.peak for heat in heats if heat.peak is not None]

    def together(time: Callable[[HeatFigures], float]) -> float | None:
        return None if figures is None else round(sum(map(time, heats)), 3)

    return Facts(
        () if plan is None else steels_of(plan),
        tuple(notes),
        max(peaks, default=None),
        together(lambda heat: heat.in_fire),
        together(lambda heat: heat.soak),
        together(lambda heat: heat.strike),
        together(lambda heat: heat.too_cold),
        _likely(None if cost is None else cost.decarb),
        _likely(None if cost is None else cost.scale),
        None if fuel is None or fuel.mass is None else round(fuel.mass, 4),
        None if fuel is None or fuel.volume is None else round(fuel.volume, 4),
    )


def _likely(loss: Loss | None) -> float | None:
    return None if loss is None else loss.value

"""What a sitting is found by, beside what a list shows of it; the index keeps it, so that a search reads no sitting."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from plans.record import record
from plans.record_values import MOST_OF_ALL, count_of, list_of, maybe_celsius, maybe_number, maybe_seconds, text_of
from plans.units import celsius, kelvin

VERSION: Final = 2
"""Counts up with what sittings are found by: of one that was kept under a lower number it is worked out anew."""
_DEEPEST: Final = 1e4
"""No depth that is lost is larger [mm]."""
_MOST_BURNT: Final = 1e6
"""No sitting burnt more [kg or m3]."""
_MOST: Final = 1e4
"""No rating, warp in mm, twist in degrees or Rockwell hardness is larger."""


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
    reheats: int | None = None
    """How often its work went back into the fire within a step."""
    at_welding_heat: float | None = None
    """Time at welding heat, of all heats together [s]; None where nothing was welded, or an earlier version worked its
    figures out."""
    hardness: float | None = None
    """The hardness that was measured last, Rockwell C."""
    rating: int | None = None
    """What its smith gives it, 5 the best."""
    warp: float | None = None
    """How far out of straight its work came [m]."""
    twist_degrees: float | None = None
    """How far it is out of plane from end to end [degrees]."""
    version: int = VERSION
    """The number that it was kept under."""

    @property
    def is_whole(self) -> bool:
        """Whether it has all that this version searches by."""
        return self.version >= VERSION

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
            "reheats": self.reheats,
            "at_welding_heat_seconds": self.at_welding_heat,
            "hardness_hrc": self.hardness,
            "rating": self.rating,
            "warp_mm": None if self.warp is None else round(self.warp * 1000, 3),
            "twist_degrees": self.twist_degrees,
            "version": self.version,
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Facts:
        """The facts from a JSON object that `to_record` made.

        Raises:
            ValueError, KeyError, TypeError: these are none.
        """
        peak = maybe_celsius(record["peak_celsius"])
        decarb, scale = (maybe_number(record[key], 0.0, _DEEPEST) for key in ("decarb_mm", "scale_loss_mm"))
        # From the fuel on, earlier versions did not write them.
        mass, volume = (maybe_number(record.get(key), 0.0, _MOST_BURNT) for key in ("fuel_kg", "fuel_m3"))
        counts = (record.get(key) for key in ("reheats", "rating"))
        reheats, rating = (None if count is None else count_of(count, 0, MOST_OF_ALL) for count in counts)
        found = ("hardness_hrc", "warp_mm", "twist_degrees")
        hardness, warp, twist = (maybe_number(record.get(key), 0.0, _MOST) for key in found)
        return cls(
            steels=tuple(map(text_of, list_of(record["steels"]))),
            notes=tuple(map(text_of, list_of(record["notes"]))),
            peak=None if peak is None else kelvin(peak),
            in_fire=maybe_seconds(record["in_fire_seconds"]),
            soaked=maybe_seconds(record["soak_seconds"]),
            struck=maybe_seconds(record["strike_seconds"]),
            too_cold=maybe_seconds(record["too_cold_seconds"]),
            decarb=None if decarb is None else decarb / 1000,
            scale=None if scale is None else scale / 1000,
            fuel_mass=mass,
            fuel_volume=volume,
            reheats=reheats,
            at_welding_heat=maybe_seconds(record.get("at_welding_heat_seconds")),
            hardness=hardness,
            rating=rating,
            warp=None if warp is None else warp / 1000,
            twist_degrees=twist,
            version=count_of(record.get("version", 1), 1, MOST_OF_ALL),
        )

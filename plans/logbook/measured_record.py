"""What was measured by hand, as JSON has it: units in the key names, steps counted from 1."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from plans.sitting import Measurement


def measured_record(measurements: Iterable[Measurement]) -> dict[str, list[dict[str, Any]]]:
    """The key `measured`, with a record for each time that something was; no key where nothing was."""
    records = [{"at_seconds": one.at, "step": one.step + 1, "heat": one.heat} | _figures(one) for one in measurements]
    return {"measured": records} if records else {}


def _figures(one: Measurement) -> dict[str, Any]:
    measured = one.measured
    lengths = {name: getattr(measured, name) for name in ("width", "thickness", "length", "bevel", "decarb")}
    figures = {f"{name}_mm": round(value * 1000, 3) for name, value in lengths.items() if value is not None}
    if measured.mass is not None:
        figures["mass_g"] = round(measured.mass * 1000, 3)
    if measured.hardness is not None:
        figures["hardness_hrc"] = measured.hardness
    return figures | ({"file": measured.file} if measured.file else {})

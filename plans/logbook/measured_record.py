"""What was measured by hand, as JSON has it: units in the key names, steps counted from 1."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Final

from plans.measured import FILED, LEAST, LEAST_HRC, MOST, MOST_HRC, Measured
from plans.record_values import Record, number_of
from plans.sitting import Measurement

_LENGTHS: Final = ("width", "thickness", "length", "bevel", "decarb")


def measured_record(measurements: Iterable[Measurement]) -> dict[str, list[dict[str, Any]]]:
    """The key `measured`, with a record for each time that something was; no key where nothing was."""
    records = [
        {"at_seconds": one.at, "step": one.step + 1, "heat": one.heat} | figures_record(one.measured)
        for one in measurements
    ]
    return {"measured": records} if records else {}


def figures_record(measured: Measured) -> Record:
    """The figures alone, as keys of a JSON object; what was not measured has none."""
    lengths = {name: getattr(measured, name) for name in _LENGTHS}
    figures: Record = {f"{name}_mm": round(value * 1000, 3) for name, value in lengths.items() if value is not None}
    if measured.mass is not None:
        figures["mass_g"] = round(measured.mass * 1000, 3)
    if measured.hardness is not None:
        figures["hardness_hrc"] = measured.hardness
    return figures | ({"file": measured.file} if measured.file else {})


def figures_from_record(record: Mapping[str, Any]) -> Measured:
    """The inverse of `figures_record`: each figure as it could have been typed.

    Raises:
        ValueError, TypeError: a figure is none that can be, or there is none at all.
    """

    def scaled(key: str, dimension: str) -> float | None:
        if key not in record:
            return None
        return number_of(record[key], LEAST[dimension] * 1000, MOST[dimension] * 1000) / 1000

    file = record.get("file", "")
    if file not in ("", *FILED):
        raise ValueError("a file does nothing else")
    width, thickness, length, bevel, decarb = (scaled(f"{name}_mm", "length") for name in _LENGTHS)
    measured = Measured(
        width,
        thickness,
        length,
        bevel=bevel,
        decarb=decarb,
        mass=scaled("mass_g", "mass"),
        hardness=number_of(record["hardness_hrc"], LEAST_HRC, MOST_HRC) if "hardness_hrc" in record else None,
        file=file,
    )
    if measured == Measured():
        raise ValueError("nothing is measured there")
    return measured

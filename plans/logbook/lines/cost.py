"""What a sitting cost the steel, in words: the same for the log's text and for the review."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plans.units import Units

HEADING = "What it cost the steel, modelled"
_LOSSES = (("carbon lost to a depth of", "decarb_mm"), ("metal lost to scale, each face", "scale_loss_mm"))


def cost_lines(steel: Mapping[str, Any] | None, units: Units = Units.METRIC) -> list[str]:
    """A line for each thing that was lost or evened out, with what it may be in truth; none where nothing got hot.

    Args:
        steel: as the log keeps it under that name
        units: that lengths are in
    """
    if not steel:
        return []
    lines = [
        f"{name} {_depth(found['value'], units)} "
        f"(between {_depth(found['least'], units, unit=False)} and {_depth(found['most'], units, unit=False)})"
        for name, key in _LOSSES
        if (found := steel[key])
    ]
    if layers := steel["layers"]:
        line = f"layers of {_depth(layers['layer_mm'], units)}: {layers['difference_left']:.0%} of their difference"
        line += " in carbon is left"
        if layers.get("least") is not None:
            line += f" (between {layers['least']:.0%} and {layers['most']:.0%})"
        lines.append(line)
    return lines


def _depth(millimetres: float, units: Units, *, unit: bool = True) -> str:
    return units.depth(millimetres / 1000, unit=unit)

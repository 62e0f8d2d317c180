"""What a sitting cost the steel, in words: the same for the log's text and for the review."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from plans.shown import INCH

HEADING = "What it cost the steel, modelled"
_LOSSES = (("carbon lost to a depth of", "decarb_mm"), ("metal lost to scale, each face", "scale_loss_mm"))


def cost_lines(steel: Mapping[str, Any] | None, inch: bool = False) -> list[str]:
    """A line for each thing that was lost or evened out, with what it may be in truth; none where nothing got hot.

    Args:
        steel: as the log keeps it under that name
        inch: lengths in inches
    """
    if not steel:
        return []
    lines = [
        f"{name} {_length(found['value'], inch)} "
        f"(between {_length(found['least'], inch, unit=False)} and {_length(found['most'], inch, unit=False)})"
        for name, key in _LOSSES
        if (found := steel[key])
    ]
    if layers := steel["layers"]:
        line = f"layers of {_length(layers['layer_mm'], inch)}: {layers['difference_left']:.0%} of their difference"
        line += " in carbon is left"
        if layers.get("least") is not None:
            line += f" (between {layers['least']:.0%} and {layers['most']:.0%})"
        lines.append(line)
    return lines


def _length(millimetres: float, inch: bool, unit: bool = True) -> str:
    name = (" in" if inch else " mm") if unit else ""
    # Two digits: more is not known.
    return f"{millimetres / 1000 / INCH if inch else millimetres:.2g}{name}"

"""What a sitting cost the steel, in words: the same for the log's text and for the review."""

from __future__ import annotations

from plans.logbook.figures import LayersLeft, Loss, SteelCost
from plans.units import Units

COST_HEADING = "What it cost the steel, modelled"
"""The heading above the lines."""


def cost_lines(cost: SteelCost | None, units: Units) -> list[str]:
    """A line for each thing that was lost or evened out, with what it may be in truth; none where nothing got hot."""
    if cost is None:
        return []
    losses = (("carbon lost to a depth of", cost.decarb), ("metal lost to scale, each face", cost.scale))
    lines = [f"{name} {loss_text(loss, units)}" for name, loss in losses if loss is not None]
    return lines if cost.layers is None else [*lines, _layers(cost.layers, units)]


def loss_text(loss: Loss, units: Units) -> str:
    """A depth with what it may be in truth: "0.5 mm (between 0.3 and 0.8)"."""
    line = units.depth(loss.value)
    if loss.least is None or loss.most is None:
        return line
    return f"{line} (between {units.depth(loss.least, unit=False)} and {units.depth(loss.most, unit=False)})"


def _layers(layers: LayersLeft, units: Units) -> str:
    line = f"layers of {units.depth(layers.thickness)}: {layers.difference_left:.0%} of their difference"
    line += " in carbon is left"
    if layers.least is None or layers.most is None:
        return line
    return f"{line} (between {layers.least:.0%} and {layers.most:.0%})"

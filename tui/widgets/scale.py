"""An upright scale that shows where the work is between its limits."""

from __future__ import annotations

from typing import ClassVar

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from plans.record import record
from plans.text import plain
from plans.units import Units
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.contrast import RGB, glow_shown
from tui.widgets.label_rows import rows_for_labels
from tui.widgets.plain import fill

_BODY = {(False, False): "  ", (True, False): "▀▀", (False, True): "▄▄", (True, True): "██"}
_GUTTER = 4
"""Cells of body, axis and the space after it."""


@record
class ScaleData:
    """What a scale shows."""

    limits: tuple[tuple[float, str], ...] = ()
    """Temperature [K] and label, the most important first: where there are more than rows, the last ones go."""
    skin: float | None = None
    """Temperature of the skin [K]; None where it is not known."""
    middle: float | None = None
    """Temperature of the middle [K]; None where it is not known."""
    low: float | None = None
    """Foot of the scale [K]; None lets the limits decide."""
    high: float | None = None
    """Head of the scale [K]; None lets the limits decide."""

    @property
    def ends(self) -> tuple[float, float]:
        """Foot and head [K]: a little beyond the limits; where there are fewer than two, around the work too."""
        known = [kelvin for kelvin, _ in self.limits]
        if len(known) < 2:
            known += [kelvin for kelvin in (self.skin, self.middle) if kelvin is not None] or [293.15]
        low, high = min(known), max(known)
        room = max(high - low, 50.0)
        foot = low - 0.35 * room if self.low is None else self.low
        head = high + 0.1 * room if self.high is None else self.high
        return foot, max(head, foot + 1.0)


@record
class ScaleLine:
    """One row: the body and the axis, then a label and what kind it is (`limit`, `skin`, `middle` or `axis`)."""

    body: str
    """The cells of the work's body, which reaches from skin to middle."""
    axis: str
    """The cells of the axis, with a tick at a limit."""
    label: str
    """The label, filled to the width that is left."""
    kind: str
    """What the label is: `limit`, `skin`, `middle` or `axis`."""


def scale_lines(height: int, width: int, data: ScaleData, units: Units = Units.METRIC) -> list[ScaleLine]:
    """The scale, `height` rows of `width` cells each.

    On the left a body that reaches from skin to middle, then the axis with a tick at each limit, then the labels, each
    on a row of its own and as near to its place as the others let it. What is off the scale has an arrow.
    """
    rows = height - 1 if height > 2 else height
    low, high = data.ends

    def half_row(kelvin: float) -> int:
        return min(max(0, int((high - kelvin) / (high - low) * 2 * rows)), 2 * rows - 1)

    work = [
        (kelvin, kind, kind) for kelvin, kind in ((data.skin, "skin"), (data.middle, "middle")) if kelvin is not None
    ]
    named = [*work, *((kelvin, plain(label), "limit") for kelvin, label in data.limits)][:rows]
    named.sort(key=lambda label: -label[0])
    places = rows_for_labels([half_row(kelvin) / 2 - 0.25 for kelvin, _, _ in named], rows)
    ticks = {half_row(kelvin) // 2 for kelvin, _ in data.limits if low <= kelvin <= high}
    halves = [half_row(kelvin) for kelvin, _, _ in work]
    filled = range(min(halves), max(halves) + 1) if halves else range(0)
    label_width = max(0, width - _GUTTER)
    labels = {}
    for row, (kelvin, name, kind) in zip(places, named, strict=True):
        off = "▲" if kelvin > high else "▼" if kelvin < low else ""
        labels[row] = (fill(f"{units.degrees(kelvin)} {name} {off}", label_width), kind)
    lines = []
    for row in range(rows):
        label, kind = labels.get(row, (" " * label_width, "axis"))
        axis = "┼" if row in ticks else "┬" if row == 0 else "│"
        lines.append(_cut(ScaleLine(_BODY[2 * row in filled, 2 * row + 1 in filled], axis, label, kind), width))
    if rows < height:
        lines.append(_cut(ScaleLine("  ", "┴", fill(units.degree, label_width), "axis"), width))
    return lines


def _cut(line: ScaleLine, width: int) -> ScaleLine:
    """The line where there is no room for labels."""
    if width >= _GUTTER:
        return ScaleLine(line.body, line.axis + " ", line.label, line.kind)
    whole = (line.body + line.axis + " ")[:width]
    return ScaleLine(whole[:2], whole[2:], "", line.kind)


class UprightScale(CachedDrawing):
    """The scale as a widget."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "scale--axis",
        "scale--limit",
        "scale--skin",
        "scale--middle",
        "scale--body",
    }
    DEFAULT_CSS = """
    UprightScale { width: 18; height: 1fr; padding-left: 1; }
    UprightScale > .scale--axis { color: $text-muted; }
    UprightScale > .scale--limit { color: $text-muted; }
    UprightScale > .scale--skin { text-style: bold; }
    UprightScale > .scale--body { color: $warning; }
    """

    data: Shown[ScaleData] = Shown(ScaleData())
    glow: Shown[RGB | None] = Shown(None)
    """Colour of the body; None leaves the theme's."""
    units: Shown[Units] = Shown(Units.METRIC)
    """The units that the labels are in."""

    def show(self, data: ScaleData, *, glow: RGB | None = None) -> None:
        """Show the work between its limits, its body in the colour of its glow."""
        self.data, self.glow = data, glow

    def draw(self, width: int, height: int) -> list[Strip]:
        styles = {kind: self.look(f"scale--{kind}") for kind in ("limit", "skin", "middle", "axis")}
        body = self.look("scale--body")
        if (glow := glow_shown(self.glow, self.app)) is not None:
            body += Style(color=Color.from_rgb(*glow))
        strips = []
        for line in scale_lines(height, width, self.data, self.units):
            pieces = (
                Segment(line.body, body),
                Segment(line.axis, styles["axis"]),
                Segment(line.label, styles[line.kind]),
            )
            strips.append(Strip([piece for piece in pieces if piece.text], width))
        return strips

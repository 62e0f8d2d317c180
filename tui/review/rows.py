"""The list of a review: heats by step, what they cost the steel, how the work cooled, then calls, then notes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from textual.content import Content
from textual.widgets.option_list import Option

from plans.logbook.lines import cooling
from plans.logbook.lines.cost import HEADING, cost_lines
from plans.shown import show_clock
from plans.text import plain
from plans.units import UNKNOWN, Units, kelvin
from tui.review.review_data import Review
from tui.screens.listing import gap, heading, row

_HEADS = ("heat", "in fire", "soak", "leaving", "struck", "lowest", "too cold", "air/hold", "peak", "basis")
_WIDTHS = (5, 8, 7, 8, 7, 7, 9, 9, 6, 10)


@dataclass(frozen=True, slots=True)
class Stop:
    """Where a line of the list stands on the curve."""

    step: int
    """From 0."""
    heat: int
    at: float
    """Where the reading line goes [s]."""
    began: float
    ended: float


def column_heads() -> str:
    """The line above the list."""
    return row(_HEADS, _WIDTHS)


def review_options(
    review: Review, units: Units = Units.METRIC, shop_factor: float | None = None
) -> tuple[list[Option], dict[str, Stop]]:
    """The lines, and where each stands.

    Args:
        review: what is shown
        units: that every figure is shown in
        shop_factor: the cooling factor that the shop file says, to stand beside what was learned
    """
    options: list[Option] = []
    stops: dict[str, Stop] = {}

    def add(text: Content, stop: Stop) -> None:
        name = str(len(stops))
        stops[name] = stop
        options.append(Option(text, id=name))

    for step in review.kept.figures.get("steps", ()):
        heats = [heat for heat in review.heats if heat.step + 1 == step["step"]]
        if not heats:
            continue
        options.append(heading(f"{step['step']}  {step['title']}"))
        for heat in heats:
            stop = Stop(heat.step, heat.figures["heat"], heat.left_fire, heat.began, heat.ended)
            add(_heat(heat.figures, units), stop)
    last = review.heats[-1] if review.heats else None
    step, number = (last.step, last.figures["heat"]) if last is not None else (0, 1)
    whole = Stop(step, number, review.end, 0.0, review.end)
    if cost := cost_lines(review.kept.figures.get("steel"), units):
        options += [gap(), heading(HEADING)]
        for line in cost:
            add(Content(f"  {line}"), whole)
    learned = review.kept.figures.get("learned")
    told = [
        (line, Stop(stay["step"] - 1, stay["heat"], stay["at_seconds"], stay["at_seconds"], stay["at_seconds"]))
        for stay, line in cooling.stay_lines(learned)
    ]
    if (factor := cooling.factor_line(learned, shop_factor)) is not None:
        told.append((factor, whole))
    if told:
        options += [gap(), heading(cooling.HEADING)]
        for line, stop in told:
            add(Content(f"  {line}"), stop)
    if review.calls:
        options += [gap(), heading("Calls")]
        for call in review.calls:
            text = f"{show_clock(call.at):>8}  {call.call.row.sign} {call.call.value}"
            text += f", step {call.step + 1}, heat {call.heat}"
            if call.kelvin is not None:
                text += f", {units.temperature(call.kelvin)}, {call.basis.value}"
            add(Content(text), Stop(call.step, call.heat, call.at, call.at, call.at))
    if notes := review.kept.figures.get("notes"):
        options += [gap(), heading("Notes")]
        for note in notes:
            at = note["at_seconds"]
            add(
                Content(f"{show_clock(at):>8}  {plain(note['text'])}"), Stop(note["step"] - 1, note["heat"], at, at, at)
            )
    if not options:
        options.append(heading("No heat was begun, nothing was called, nothing was noted."))
    return options, stops


def _heat(heat: Mapping[str, Any], units: Units) -> Content:
    cold = heat["too_cold_seconds"] >= 0.5
    cells = (
        f"  {heat['heat']}",
        _time(heat["in_fire_seconds"]),
        _time(heat["soak_seconds"]),
        _degrees(heat["leaving_celsius"], units),
        _time(heat["strike_seconds"]),
        _degrees(heat["lowest_struck_celsius"], units),
        f"{heat['too_cold_seconds']:.0f} s" if cold else "",
        _time(heat["air_seconds"] + heat["hold_seconds"]),
        _degrees(heat["peak_celsius"], units),
        heat["basis"],
    )
    text = Content(row(cells, _WIDTHS))
    if cold:
        end = sum(_WIDTHS[:7])
        text = text.stylize("bold $error", end - len(cells[6]), end)
    return text


def _time(seconds: float) -> str:
    return show_clock(seconds) if seconds else ""


def _degrees(celsius: float | None, units: Units) -> str:
    return UNKNOWN if celsius is None else units.degrees(kelvin(celsius))

"""A sitting as text: what `log show` prints."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from plans.logbook.lines import cooling
from plans.logbook.lines.cost import HEADING, cost_lines
from plans.shown import show_clock
from plans.text import printable
from plans.units import UNKNOWN, Units, kelvin


def sitting_text(outline: Mapping[str, Any], shop_factor: float | None = None, units: Units = Units.METRIC) -> str:
    """Heats, calls and notes of one sitting.

    Args:
        outline: as `log show --json` prints it
        shop_factor: the cooling factor that the shop file says, to stand beside what was learned
        units: that every figure is shown in
    """
    return "\n".join(map(printable, _lines(outline, shop_factor, units)))


def table(heading: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Columns lined up, the first to the left and the others to the right."""
    widths = [max(len(row[column]) for row in (heading, *rows)) for column in range(len(heading))]
    return [
        "  ".join(
            cell.ljust(width) if column == 0 else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in (heading, *rows)
    ]


def _lines(outline: Mapping[str, Any], shop_factor: float | None, units: Units) -> Iterator[str]:
    started = datetime.fromisoformat(outline["started"])
    rehearsal = ", a rehearsal" if outline.get("rehearsal") else ""
    yield f"{outline['id']}  {outline['title']}"
    yield f"{started:%Y-%m-%d %H:%M}, {outline['state']}{rehearsal}"
    for step in outline.get("steps", ()):
        yield ""
        yield f"{step['step']} {step['title']}"
        if step["heats"]:
            yield from ("  " + line for line in table(_HEADING, [_heat(heat, units) for heat in step["heats"]]))
    if cost := cost_lines(outline.get("steel"), units):
        yield ""
        yield HEADING
        yield from (f"  {line}" for line in cost)
    learned = outline.get("learned")
    told = [line for _, line in cooling.stay_lines(learned)]
    if (factor := cooling.factor_line(learned, shop_factor)) is not None:
        told.append(factor)
    if told:
        yield ""
        yield cooling.HEADING
        yield from (f"  {line}" for line in told)
    if calls := outline.get("calls"):
        yield ""
        yield "Calls"
        for call in calls:
            yield f"  {show_clock(call['at_seconds']):>8}  {call['call']}, step {call['step']}, heat {call['heat']}"
    if notes := outline.get("notes"):
        yield ""
        yield "Notes"
        for note in notes:
            yield f"  {show_clock(note['at_seconds']):>8}  {note['text']}"


_HEADING = ("heat", "in fire", "soak", "leaving", "struck", "lowest", "too cold", "air or hold", "peak", "basis")


def _heat(heat: Mapping[str, Any], units: Units) -> tuple[str, ...]:
    return (
        str(heat["heat"]),
        _time(heat["in_fire_seconds"]),
        _time(heat["soak_seconds"]),
        _degrees(heat["leaving_celsius"], units),
        _time(heat["strike_seconds"]),
        _degrees(heat["lowest_struck_celsius"], units),
        f"{heat['too_cold_seconds']:.0f} s" if heat["too_cold_seconds"] >= 0.5 else "",
        _time(heat["air_seconds"] + heat["hold_seconds"]),
        _degrees(heat["peak_celsius"], units),
        heat["basis"],
    )


def _time(seconds: float) -> str:
    return show_clock(seconds) if seconds else ""


def _degrees(celsius: float | None, units: Units) -> str:
    return UNKNOWN if celsius is None else units.temperature(kelvin(celsius))

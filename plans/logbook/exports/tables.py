"""The tables of a page: heats by step, how the work cooled, calls, notes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from plans.logbook.exports.timeline import Timeline
from plans.logbook.exports.writing import degree_sign, in_markup
from plans.plan import Step
from plans.shown import show_clock
from plans.units import Units, celsius, kelvin
from plans.warmth.glow import screen_glow


def heat_tables(timeline: Timeline, units: Units) -> Iterator[str]:
    """A table of heats for each step that was come to."""
    yield "<section><h2>Heats</h2>"
    steps = timeline.kept.figures.get("steps", ())
    if not steps:
        yield '<p class="quiet">The figures could not be worked out from the log.</p>'
    for shown in steps:
        step = timeline.plan.steps[shown["step"] - 1] if timeline.plan else None
        kind = "step-heats" if shown["heats"] else "step-heats bare"
        yield f'<div class="{kind}"><h3>{shown["step"]} {in_markup(shown["title"])}</h3>'
        if step is not None and (aims := _aims(step, units)):
            yield f'<p class="about">{aims}</p>'
        if shown["heats"]:
            yield from _heat_table(step.counts if step else "heat", shown["heats"], units)
        yield "</div>"
    yield "</section>"


def cooling_table(timeline: Timeline) -> Iterator[str]:
    """Hammer time as forecast and as measured, and the cooling factor; nothing where nothing was felt."""
    learned = timeline.kept.figures.get("learned")
    if not learned:
        return
    stays = [stay for stay in learned["stays"] if stay["hammer_time_forecast_seconds"] is not None]
    factor = learned["cooling_factor"]
    if not stays and factor is None:
        return
    yield "<section><h2>How the work cooled</h2>"
    if stays:
        rows = [
            (
                str(stay["step"]),
                str(stay["heat"]),
                f"{stay['hammer_time_forecast_seconds']:.0f} s",
                _happened(stay["hammer_time_measured_seconds"]),
            )
            for stay in stays
        ]
        yield from _table(("step", "heat", "hammer time, modelled", "hammer time, measured"), rows)
    if factor is not None:
        error, count = learned["cooling_factor_standard_error"], learned["stays_fitted"]
        about = "from one stay" if error is None else f"± {max(error, 0.01):.2f} from {count} stays"
        in_force = learned["cooling_factor_in_force"]
        yield (
            f'<p class="about">Cooling factor {factor:.2f} {about} outside the fire, fitted to the probe; '
            f"the sitting went by {in_force:.2f}.</p>"
        )
    yield "</section>"


def _happened(seconds: float | None) -> str:
    return "went back before" if seconds is None else f"{seconds:.0f} s"


def call_table(timeline: Timeline, units: Units) -> Iterator[str]:
    """What was called out to the smith; nothing where nothing was."""
    calls = timeline.state.calls
    if not calls:
        return
    rows = [
        (
            show_clock(call.at),
            call.call.value,
            str(call.step + 1),
            str(call.heat),
            _degrees(None if call.kelvin is None else celsius(call.kelvin), units),
            "" if call.kelvin is None else call.basis.value,
        )
        for call in calls
    ]
    yield "<section><h2>Calls</h2>"
    yield from _table(("at", "call", "step", "heat", "skin", "basis"), rows, text=(1,))
    yield "</section>"


def note_table(timeline: Timeline) -> Iterator[str]:
    """What the smith left, numbered as in the trace; nothing where there is none."""
    notes = timeline.state.notes
    if not notes:
        return
    rows = [
        (str(number), show_clock(note.at), str(note.step + 1), str(note.heat), in_markup(note.text))
        for number, note in enumerate(notes, 1)
    ]
    yield "<section><h2>Notes</h2>"
    yield from _table(("", "at", "step", "heat", "note"), rows, text=(4,), free=True)
    yield "</section>"


def _aims(step: Step, units: Units) -> str:
    """What the step was to reach, in a line; empty where nothing is said."""
    section = [] if step.reach is None else [units.section(step.reach)]
    length = [] if step.reach_length is None else [f"{units.length(step.reach_length)} long"]
    aims = ", ".join(section + length)
    return f"to reach {aims}" if aims else ""


def _time(seconds: float | None) -> str:
    return show_clock(seconds) if seconds else ""


def _degrees(value: float | None, units: Units) -> str:
    return "" if value is None else f"{units.degrees(kelvin(value))} {degree_sign(units)}"


def _glowing(value: float | None, units: Units) -> str:
    """A temperature with a spot of its own colour."""
    if value is None:
        return ""
    colour = "".join(f"{channel:02x}" for channel in screen_glow(max(kelvin(value), 0.0)))
    return f'<i style="background:#{colour}"></i>{_degrees(value, units)}'


def _too_cold(seconds: float | None) -> str:
    return f'<span class="alarmed">{show_clock(seconds)}</span>' if seconds and seconds >= 0.5 else ""


def _columns(units: Units) -> tuple[tuple[str, str, Callable[[Any], str]], ...]:
    """Each column of a heat's figures: its heading, its key in the figures, and how a figure is shown."""
    return (
        ("in fire", "in_fire_seconds", _time),
        ("soak", "soak_seconds", _time),
        ("leaving", "leaving_celsius", partial(_glowing, units=units)),
        ("struck", "strike_seconds", _time),
        ("lowest struck", "lowest_struck_celsius", partial(_glowing, units=units)),
        ("too cold", "too_cold_seconds", _too_cold),
        ("air", "air_seconds", _time),
        ("held", "hold_seconds", _time),
        ("peak", "peak_celsius", partial(_degrees, units=units)),
        ("basis", "basis", str),
    )


def _heat_table(counts: str, heats: Sequence[Mapping[str, Any]], units: Units) -> Iterator[str]:
    columns = _columns(units)
    cells = [[show(heat.get(key)) for _, key, show in columns] for heat in heats]
    used = [index for index in range(len(columns)) if any(row[index] for row in cells)]
    rows = ([str(heat["heat"]), *(row[index] for index in used)] for heat, row in zip(heats, cells, strict=True))
    yield from _table([counts, *(columns[index][0] for index in used)], rows)


def _table(
    heading: Sequence[str], rows: Iterable[Sequence[str]], text: Sequence[int] = (), free: bool = False
) -> Iterator[str]:
    """A table of cells that are markup already; the columns of `text` stand to the left, `free` if they may be long."""
    kinds = [f' class="text{" free" if free else ""}"' if index in text else "" for index in range(len(heading))]
    yield '<div class="wide"><table>'
    headings = (f"<th{kind}>{name}</th>" for kind, name in zip(kinds, heading, strict=True))
    yield f"<thead><tr>{''.join(headings)}</tr></thead><tbody>"
    for row in rows:
        yield "<tr>" + "".join(f"<td{kind}>{cell}</td>" for kind, cell in zip(kinds, row, strict=True)) + "</tr>"
    yield "</tbody></table></div>"

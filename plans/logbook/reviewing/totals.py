"""What a sitting comes to all together: time in the fire, at welding heat, struck, too cold, and reheats."""

from __future__ import annotations

from typing import Any

from plans.logbook.figures import LEAST_TOO_COLD, Fuel, SittingFigures
from plans.logbook.lines import short_time
from plans.logbook.reviewing.timeline import Timeline
from plans.plan import StepKind
from plans.record import record
from plans.shown import show_clock
from plans.sitting import standstills
from plans.units import Units


@record
class Totals:
    """All heats of a sitting together, those that were cut off too; pauses are left out."""

    in_fire: float
    """In the fire [s]."""
    at_welding_heat: float
    """With the skin as hot as a weld wants it, in the steps that weld [s]; 0 where none does, or nobody knew it."""
    struck: float
    """Struck [s]."""
    too_cold: float
    """Struck below the cold limit [s]."""
    reheats: int
    """How often the work went back into the fire within its step."""
    fuel: Fuel | None = None
    """What the fire burnt; None where the shop did not say how much that is in an hour, and of a rehearsal."""

    def named(self, units: Units) -> list[tuple[str, str]]:
        """Each that there is anything of, by its name: "in the fire", "12:40"."""
        long = (("in the fire", self.in_fire), ("at welding heat", self.at_welding_heat), ("struck", self.struck))
        told = [(name, show_clock(seconds)) for name, seconds in long if seconds >= 0.5]
        if self.too_cold >= LEAST_TOO_COLD:
            told.append(("too cold", short_time(self.too_cold)))
        if self.reheats:
            told.append(("reheats", str(self.reheats)))
        return told if self.fuel is None else [*told, *self.fuel.named(units)]

    def to_record(self) -> dict[str, Any]:
        """They as a JSON object."""
        return {
            "in_fire_seconds": self.in_fire,
            "at_welding_heat_seconds": self.at_welding_heat,
            "strike_seconds": self.struck,
            "too_cold_seconds": self.too_cold,
            "reheats": self.reheats,
        } | ({} if self.fuel is None else {"fuel": self.fuel.to_record()})


def totals(timeline: Timeline) -> Totals | None:
    """What the figures of a sitting come to; None where they could not be worked out."""
    figures = timeline.kept.figures
    if figures is None:
        return None
    return Totals(
        round(sum(heat.in_fire for heat in figures.heats), 2),
        round(_at_welding_heat(timeline, figures), 2),
        round(sum(heat.strike for heat in figures.heats), 2),
        round(figures.too_cold, 2),
        sum(step.reheats for step in figures.steps),
        Fuel.burnt(timeline.kept.header.burns, timeline.state, timeline.ended),
    )


def _at_welding_heat(timeline: Timeline, figures: SittingFigures) -> float:
    """How long the skin was as hot as a weld wants it [s]: as its heats have it, or, in figures that an earlier version
    worked out, by the traces."""
    welds = [step for step in figures.steps if step.kind is StepKind.WELD]
    if all(heat.at_welding_heat is not None for step in welds for heat in step.heats):
        return sum(heat.at_welding_heat or 0.0 for step in welds for heat in step.heats)
    skin, pauses, total = timeline.skin, standstills(timeline.state, timeline.ended), 0.0
    steps = () if timeline.plan is None else timeline.plan.steps
    for shown in welds if steps else ():
        for heat in shown.heats:
            if (hot := steps[shown.step].welding_from(heat.heat)) is not None:
                stretches = skin.in_heat(timeline.spans_of(shown.step, heat.heat), pauses)
                total += sum(seconds for _, seconds, kelvin, _ in stretches if kelvin >= hot)
    return total

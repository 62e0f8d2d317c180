"""The one figure that matters now, as large as the screen allows: what it is, how much, and between what it may lie."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from math import inf

from plans.phase import PhaseKind
from plans.reading import ProbeOn
from plans.record import record
from plans.shapes import coldest_place
from plans.shown import show_clock
from plans.sitting.calls import PROMPTS, Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis
from plans.units import UNKNOWN, Units
from plans.warmth import Part, Span


class MainFigureKind(StrEnum):
    """What the one figure that matters now can be; its value is what is written beside it."""

    WHOLE = "whole sitting"
    """How long the sitting took."""
    PAUSED = "paused for"
    """How long the pause has lasted."""
    READY = "waiting for you"
    """How long the next thing has been waited for."""
    FIRE_WANTED = "fire wanted"
    """How hot the plan wants the fire."""
    FIRE_NOW = "the fire now"
    """How hot the fire is, as a probe in it has it, while it is waited for or too cold."""
    UNTIL_HEAT = "until at heat"
    """Time until the skin is at heat."""
    SOAK_LEFT = "soak left"
    """Time until the soak is done."""
    HAMMER_TIME = "hammer time"
    """Time in which the work may be struck."""
    THIN_TIME = "hammer time, {thin}"
    """Time in which the thin part of the work may be struck."""
    THIN_COLD = "{thin} is cold"
    """Time in which the rest may be struck, when its thin part may not."""
    BELOW_LIMIT = "below its limit"
    """How warm work is that must not be struck."""
    UNTIL_COLD = "until cold enough"
    """Time until the work has cooled as far as the plan says."""
    OUT_OF_FIRE = "out of the fire"
    """How long the work has been out of the fire: on its way to the quench, or for flux."""
    TO_OVEN = "to the oven, before it may crack"
    """What is left of the time that the plan allows from the quench to the oven."""
    SO_FAR = "in this phase for"
    """How long the phase has lasted."""
    LEFT = "time left"
    """What is left of a set time."""

    @property
    def counts(self) -> bool:
        """Whether it only counts the clock, so that there is nothing measured or modelled about it."""
        return self in _COUNTS


_COUNTS = frozenset(
    {
        MainFigureKind.WHOLE,
        MainFigureKind.PAUSED,
        MainFigureKind.READY,
        MainFigureKind.OUT_OF_FIRE,
        MainFigureKind.SO_FAR,
    }
)


_HAMMER_TIMES = frozenset({MainFigureKind.HAMMER_TIME, MainFigureKind.THIN_TIME, MainFigureKind.THIN_COLD})
_LONG = 100.0
"""Hammer time is shown in seconds alone below this [s]."""
_CORNER = "corner"


@record
class MainFigure:
    """The one figure that matters now: a time, a temperature, or neither where it is not known."""

    kind: MainFigureKind
    """What the figure is."""
    basis: Basis
    """What the figure stands on: measured, modelled or planned."""
    seconds: float | None = None
    """The figure where it is a time [s]; below 0 where a time that the plan allows is over."""
    kelvin: float | None = None
    """The figure where it is a temperature [K]."""
    as_clock: bool = True
    """Whether a time is read as a clock has it, "4:10", rather than in seconds alone, "42"."""
    least: float | None = None
    """The least that a modelled time may be by what is not known, which calls go by where that is safer [s]."""
    most: float | None = None
    """The most that it may be [s]; None where nothing is modelled, or where it may never come."""
    thin: str = ""
    """What the thin part of the work is called, where the figure is about that."""

    @property
    def label(self) -> str:
        """What is written beside the figure: "hammer time", "soak left", "tang is cold"."""
        return self.kind.value.format(thin=self.thin)

    def text(self, units: Units) -> str:
        """The figure without its unit, as it is drawn: "42", "4:10", "1290"; "--" where it is not known."""
        if self.kelvin is not None:
            return units.degrees(self.kelvin)
        if self.seconds is None:
            return UNKNOWN
        return show_clock(self.seconds) if self.as_clock else f"{max(0.0, self.seconds):.0f}"

    @property
    def range_text(self) -> str:
        """The range of a modelled time, as it stands beside the figure: "29 to 46"; empty where there is none."""
        if self.least is None:
            return ""
        show = show_clock if self.as_clock else lambda seconds: f"{max(0.0, seconds):.0f}"
        return f"{show(self.least)} to {'never' if self.most is None else show(self.most)}"

    def later(self, seconds: float) -> MainFigure | None:
        """A modelled time as it was forecast, so much later [s]; None where it can't be told from that."""
        if self.seconds is None or self.least is None or self.seconds <= seconds:
            return None
        most = None if self.most is None else self.most - seconds
        return replace(self, seconds=self.seconds - seconds, least=max(0.0, self.least - seconds), most=most)

    def unit(self, units: Units) -> str:
        """The unit of the figure: "s", "degC" or "degF"; empty beside a clock's, and where it is not known."""
        if self.kelvin is not None:
            return units.degree
        return "" if self.as_clock or self.seconds is None else "s"


def main_figure(sitting: Sitting, at: float) -> MainFigure:
    """The one figure that matters in a sitting now.

    Args:
        sitting: to be looked at
        at: the time [s]
    """
    state = sitting.state
    if state.ended_at is not None:
        return MainFigure(MainFigureKind.WHOLE, Basis.MEASURED, state.ended_at)
    if state.paused_at is not None:
        return MainFigure(MainFigureKind.PAUSED, Basis.MEASURED, at - state.paused_at)
    if state.left_fire_at is not None:
        return MainFigure(MainFigureKind.OUT_OF_FIRE, Basis.MEASURED, at - state.left_fire_at, as_clock=False)
    if state.looked_since is not None:
        return MainFigure(MainFigureKind.OUT_OF_FIRE, Basis.MEASURED, at - state.looked_since, as_clock=False)
    if PROMPTS & state.alarms:
        called_at = state.called_at(PROMPTS & state.alarms) or at
        return MainFigure(MainFigureKind.READY, Basis.MEASURED, at - called_at)
    step, target = sitting.current_step, sitting.current_step.target(state.heat)
    match state.phase:
        case PhaseKind.READY | PhaseKind.FIRE if target is not None and _fire_counts(sitting):
            return MainFigure(MainFigureKind.FIRE_NOW, Basis.MEASURED, kelvin=sitting.probe.kelvin)
        case PhaseKind.READY if (left := _until_temper(sitting, at)) is not None:
            return MainFigure(MainFigureKind.TO_OVEN, Basis.PLANNED, left)
        case PhaseKind.READY if target is not None:
            return MainFigure(MainFigureKind.FIRE_WANTED, Basis.PLANNED, kelvin=target.fire)
        case PhaseKind.FIRE if target is not None:
            return _modelled(MainFigureKind.UNTIL_HEAT, _until(sitting, Part.SKIN, target.heat_to))
        case PhaseKind.SOAK if target is not None and sitting.current_phase.seconds is None:
            middle_at = target.heat_to - step.even_within
            return _modelled(MainFigureKind.SOAK_LEFT, _until(sitting, Part.MIDDLE, middle_at))
        case PhaseKind.STRIKE if step.keep_above is not None:
            return _hammer_time(sitting, step.keep_above)
        case PhaseKind.AIR if sitting.current_phase.until is not None:
            # The middle is the last to cool; a probe knows the skin only, and the phase ends by what it says.
            part = Part.SKIN if sitting.is_measured else Part.MIDDLE
            return _modelled(MainFigureKind.UNTIL_COLD, _until(sitting, part, sitting.current_phase.until))
        case _:
            return _set_time(sitting, at)


def _hammer_time(sitting: Sitting, cold: float) -> MainFigure:
    skin = sitting.skin
    if Call.TOO_COLD in sitting.state.alarms and skin is not None:
        return MainFigure(MainFigureKind.BELOW_LIMIT, skin[1], kelvin=skin[0])
    warm, exposed = sitting.warm, (sitting.exposure, sitting.leading)
    # The range of what is not shown is not asked for: it is most of a forecast.
    parts: list[tuple[str, Part | None, float | None]] = [
        (name, part, warm.likely_until(*exposed, part, cold))
        for name, part in ((coldest_name(sitting), Part.COLDEST), ("", Part.FACE))
    ]
    if (thin := warm.until_thin_is_cold(sitting.exposure, cold)) is not None:
        parts.insert(0, (sitting.current_step.thin_name, None, thin.likely))
    parts.sort(key=lambda part: inf if part[2] is None else part[2])
    gone = [name for name, _, likely in parts if likely is not None and likely <= 0]
    if "" in gone:
        return _modelled(MainFigureKind.HAMMER_TIME, Span(0.0, 0.0, 0.0))
    name, part = next((name, part) for name, part, likely in parts if likely is None or likely > 0)
    left = thin if part is None else _until(sitting, part, cold)
    if gone:
        return _modelled(MainFigureKind.THIN_COLD, left, thin=gone[-1])
    if name and name != _CORNER:
        return _modelled(MainFigureKind.THIN_TIME, left, thin=name)
    return _modelled(MainFigureKind.HAMMER_TIME, left)


def coldest_name(sitting: Sitting) -> str:
    """What the coldest place of the work is called while it cools: "corner", "edge", "underside"."""
    section = sitting.warm.section
    return _CORNER if section is None else coldest_place(section)


def _until(sitting: Sitting, part: Part, kelvin: float) -> Span | None:
    return sitting.warm.until(sitting.exposure, sitting.leading, part, kelvin)


def _modelled(kind: MainFigureKind, span: Span | None, thin: str = "") -> MainFigure:
    """A time of the warm model, with its range."""
    struck = kind in _HAMMER_TIMES
    if span is None:
        return MainFigure(kind, Basis.MODELLED, thin=thin)
    as_clock = not struck or span.likely >= _LONG
    return MainFigure(kind, Basis.MODELLED, span.likely, None, as_clock, span.least, span.most, thin)


def _fire_counts(sitting: Sitting) -> bool:
    """Whether a probe in the fire tells what is waited for: the fire itself, or one that is too cold."""
    in_fire = sitting.probe_on is ProbeOn.FIRE and sitting.probe.kelvin is not None
    return in_fire and (sitting.state.phase is PhaseKind.READY or Call.FIRE_COLD in sitting.state.alarms)


def _until_temper(sitting: Sitting, at: float) -> float | None:
    """What is left of the time that the plan allows from the quench to the oven [s]; None where there is no hurry."""
    first, quenched = sitting.current_step.phases[0], sitting.state.began_at(PhaseKind.QUENCH)
    if first.kind is not PhaseKind.OVEN or first.within is None or quenched is None or sitting.state.heat > 1:
        return None
    return first.within - (at - quenched)


def _set_time(sitting: Sitting, at: float) -> MainFigure:
    """What is left of a set time, or how long it has been where nothing is set."""
    elapsed = sitting.state.elapsed(at)
    seconds = sitting.current_phase.seconds
    if seconds is None:
        return MainFigure(MainFigureKind.SO_FAR, Basis.MEASURED, elapsed)
    kind = MainFigureKind.SOAK_LEFT if sitting.state.phase is PhaseKind.SOAK else MainFigureKind.LEFT
    return MainFigure(kind, Basis.PLANNED, max(0.0, seconds - elapsed))

"""The work's stays outside the fire, as a probe on it felt them, and the work as it left the fire."""

from __future__ import annotations

from itertools import pairwise
from statistics import median

from plans.blows import USUAL, Blows, StruckBy
from plans.phase import OUTSIDE, PhaseKind
from plans.reading import ProbeOn
from plans.record import record
from plans.shapes import Section
from plans.sitting import GRID, MEDIAN_OF, Believed, Sitting, Skin, phase_spans, plan_as_measured, spans_by_model
from plans.warmth import ROOM, Surroundings, WarmModel, of_a_section, still_air, striking

_BEFORE = 30.0
"""So long before it leaves the fire the model begins to follow the skin, so that the inside is as it was [s]."""
_FOLLOWING = 2.0
"""Steps in which it does so [s]."""


@record
class Stay:
    """One stay on the anvil or in the air, up to the first pause and for as long as the probe was heard."""

    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat within the step, from 1."""
    phase: PhaseKind
    """Struck, or cooled in the air."""
    began: float
    """When the work left the fire, in seconds since the sitting began."""
    section: Section
    """Cross-section of the work."""
    length: float | None
    """Length of what was heated [m]; None where the plan does not say."""
    blows: Blows
    """What strikes the work, and how long it touches; of no account where it is not struck."""
    keep_above: float | None
    """Cold limit [K]; None where the work is not struck, or the plan has no limit."""
    felt: tuple[tuple[float, float], ...]
    """Seconds since it began, and the median of five readings round that moment [K]; all from before the probe was
    first lost."""

    @property
    def is_struck(self) -> bool:
        """Whether the work was struck; else it cooled in the air."""
        return self.phase is PhaseKind.STRIKE

    def around(self, air: float, contact: float) -> Surroundings:
        """What the work gave its heat to.

        Args:
            air: how many times as much it gave to the air as the warm model has it by itself
            contact: how many times the contact conductance of the tools was what the warm model has by itself
        """
        in_air = still_air(convection=of_a_section(self.section, ROOM)).scaled(air)
        return striking(self.blows, in_air, contact) if self.is_struck else in_air

    def fell_below(self, kelvin: float) -> float | None:
        """When the skin was felt to fall below a temperature, in seconds since it began; None if it never did."""
        for (at, above), (later, below) in pairwise(self.felt):
            if above >= kelvin > below:
                return at + (later - at) * (above - kelvin) / (above - below)
        return None


def stays(sitting: Sitting) -> list[Stay]:
    """Every stay outside the fire of which a probe on the work tells something, in order."""
    if sitting.probe_on is not ProbeOn.WORK or not sitting.warm.known:
        return []
    pauses = sitting.state.pauses(sitting.now)
    slow = spans_by_model(sitting.state, sitting.now)
    skin = Skin(sitting.believed, sitting.warm, slow)
    found = []
    shape: tuple[Section, float | None] | None = None
    plan = plan_as_measured(sitting.plan, sitting.state)
    for part in phase_spans(sitting.state, sitting.now):
        step = plan.steps[part.step]
        if (section := step.section_at(part.heat)) is not None:
            shape = section, step.length
        if part.phase not in OUTSIDE or shape is None or _skin(skin, part.began) is None:
            continue
        if any(start < part.ended and end > part.began for start, end in slow):
            # The probe is too slow for it, and would teach its own lag.
            continue
        ended = min([part.ended, *(start for start, end in pauses if end > part.began)])
        if felt := _felt(sitting.believed, part.began, ended):
            cold = step.keep_above if part.phase is PhaseKind.STRIKE else None
            blows = step.blows or USUAL[StruckBy.HAND]
            found.append(Stay(part.step, part.heat, part.phase, part.began, *shape, blows, cold, felt))
    return found


def leaving(sitting: Sitting, stay: Stay) -> WarmModel:
    """The work as it left the fire, its skin led along what the probe said before."""
    skin = Skin(sitting.believed, sitting.warm, spans_by_model(sitting.state, sitting.now))
    at = max(GRID, stay.began - _BEFORE)
    while (kelvin := _skin(skin, at)) is None:
        at += GRID
    model = WarmModel(stay.section, stay.length, kelvin)
    while at < stay.began:
        seconds = min(_FOLLOWING, stay.began - at)
        at += seconds
        kelvin = _skin(skin, at) or kelvin
        model.step_following(seconds, kelvin)
    return model


def _skin(skin: Skin, at: float) -> float | None:
    """As it was last in the half second before a time [K]; None where neither probe nor model knows it."""
    kelvins = [kelvin for _, kelvin, _ in skin.over(max(0.0, at - GRID), at)]
    return kelvins[-1] if kelvins else None


def _felt(believed: Believed, began: float, ended: float) -> tuple[tuple[float, float], ...]:
    """Each reading as the median of itself and two on either side: what is fitted afterwards must not lag."""
    measured = believed.measured
    heard = [(measured.times[index] - began, measured.kelvins[index]) for index in believed.unbroken(began, ended)]
    side = MEDIAN_OF // 2
    kelvins = [kelvin for _, kelvin in heard]
    return tuple(
        (heard[index][0], median(kelvins[index - side : index + side + 1])) for index in range(side, len(heard) - side)
    )

"""The work's stays outside the fire, as a probe on it felt them, and the work as it left the fire."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import isnan
from statistics import median

from plans.phase import OUTSIDE, PhaseKind
from plans.reading import ProbeOn
from plans.section import Section
from plans.sitting import GRID, MEDIAN_OF, Believed, Sitting, phase_spans
from plans.warmth import Surroundings, WarmModel, still_air, striking

_BEFORE = 30.0
"""So long before it leaves the fire the model begins to follow the skin, so that the inside is as it was [s]."""
_FOLLOWING = 2.0
"""Steps in which it does so [s]."""


@dataclass(frozen=True, slots=True)
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
    keep_above: float | None
    """Cold limit [K]; None where the work is not struck, or the plan has no limit."""
    felt: tuple[tuple[float, float], ...]
    """Seconds since it began, and the median of five readings round that moment [K]; all from before the probe was
    first lost."""

    @property
    def around(self) -> Surroundings:
        """What the work gave its heat to, as the warm model has it by itself."""
        return striking(self.section) if self.phase is PhaseKind.STRIKE else still_air()

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
    found = []
    shape: tuple[Section, float | None] | None = None
    for part in phase_spans(sitting.state, sitting.now):
        step = sitting.plan.steps[part.step]
        if (section := step.section_at(part.heat)) is not None:
            shape = section, step.length
        if part.phase not in OUTSIDE or shape is None or isnan(_skin(sitting, part.began)):
            continue
        ended = min([part.ended, *(start for start, end in pauses if end > part.began)])
        if felt := _felt(sitting.believed, part.began, ended):
            cold = step.keep_above if part.phase is PhaseKind.STRIKE else None
            found.append(Stay(part.step, part.heat, part.phase, part.began, *shape, cold, felt))
    return found


def leaving(sitting: Sitting, stay: Stay) -> WarmModel:
    """The work as it left the fire, its skin led along what the probe said before."""
    at = max(GRID, stay.began - _BEFORE)
    while isnan(start := _skin(sitting, at)):
        at += GRID
    model = WarmModel(stay.section, stay.length, start)
    while at < stay.began:
        seconds = min(_FOLLOWING, stay.began - at)
        at += seconds
        model.step_following(seconds, _skin(sitting, at))
    return model


def _skin(sitting: Sitting, at: float) -> float:
    """At the last grid point up to a time, or the first or last that there is [K]."""
    return sitting.warm.skin[min(max(int(at / GRID) - 1, 0), sitting.warm.count - 1)]


def _felt(believed: Believed, began: float, ended: float) -> tuple[tuple[float, float], ...]:
    """Each reading as the median of itself and two on either side: what is fitted afterwards must not lag."""
    measured = believed.measured
    heard = [(measured.times[index] - began, measured.kelvins[index]) for index in believed.unbroken(began, ended)]
    side = MEDIAN_OF // 2
    kelvins = [kelvin for _, kelvin in heard]
    return tuple(
        (heard[index][0], median(kelvins[index - side : index + side + 1])) for index in range(side, len(heard) - side)
    )

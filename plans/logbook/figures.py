"""What came of a sitting: heats, soaks, temperatures, time struck too cold, calls and notes."""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from math import inf, isnan
from statistics import median
from typing import Any

from plans.phase import HOLDING, IDLE, WARMING
from plans.plan import PhaseKind
from plans.reading import ProbeOn
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis
from plans.sitting.senses import COLDEST, HOTTEST, MEDIAN_OF, SILENCE
from plans.sitting.state import State
from plans.sitting.warm import GRID
from plans.units import celsius

_HOLDS = 2.5
"""A reading stands for the work until the next one; for this long, where that comes after the probe was lost [s]."""
_MOSTLY = 0.8
"""A heat is measured when readings cover this share of it."""


@dataclass(frozen=True, slots=True)
class Span:
    """One phase, from its beginning to its end."""

    step: int
    """From 0."""
    heat: int
    phase: PhaseKind
    began: float
    ended: float
    seconds: float
    """How long it ran, pauses left out [s]."""


def spans(sitting: Sitting, until: float | None = None) -> list[Span]:
    """The phases of a sitting in order; the last one ends with the sitting, or at `until` [s]."""
    return spans_of(sitting.state, sitting.now if until is None else until)


def spans_of(state: State, until: float) -> list[Span]:
    """The phases of what was folded, in order; the last one ends with the sitting, or at `until` [s]."""
    end = state.ended_at if state.ended_at is not None else until
    found = []
    for index, begun in enumerate(state.begins):
        last = index + 1 == len(state.begins)
        ended = end if last else state.begins[index + 1].began
        paused = state.seconds_paused if last else state.seconds_paused_before[index + 1]
        if last and state.paused_at is not None:
            paused += end - state.paused_at
        seconds = ended - begun.began - (paused - state.seconds_paused_before[index])
        found.append(Span(begun.step, begun.heat, begun.phase, begun.began, ended, max(0.0, seconds)))
    return found


class Skin:
    """The work's skin through a sitting: measured where a probe on it was heard, modelled elsewhere."""

    def __init__(self, sitting: Sitting) -> None:
        self._modelled = sitting.warm.skin
        self._times = array("d")
        self._kelvins = array("d")
        if sitting.probe_on is not ProbeOn.WORK:
            return
        recent: list[float] = []
        for reading in sitting.measured:
            if reading.kelvin is None or not COLDEST <= reading.kelvin <= HOTTEST:
                continue
            if self._times and reading.at - self._times[-1] > SILENCE:
                recent.clear()
            recent = [*recent[1 - MEDIAN_OF :], reading.kelvin]
            self._times.append(reading.at)
            self._kelvins.append(median(recent))

    def over(self, began: float, ended: float) -> Iterator[tuple[float, float, Basis]]:
        """The skin between two times: for how long [s], at what temperature [K], on what basis."""
        index = bisect_left(self._times, began)
        if index and began < self._until(index - 1):
            index -= 1
        at = began
        while index < len(self._times) and self._times[index] < ended:
            start = max(began, self._times[index])
            yield from self._by_model(at, start)
            at = max(start, min(self._until(index), ended))
            yield at - start, self._kelvins[index], Basis.MEASURED
            index += 1
        yield from self._by_model(at, ended)

    def _until(self, index: int) -> float:
        """How long a reading stands for the work [s]."""
        following = self._times[index + 1] if index + 1 < len(self._times) else inf
        lost = following - self._times[index] > SILENCE
        return self._times[index] + _HOLDS if lost else following

    def _by_model(self, began: float, ended: float) -> Iterator[tuple[float, float, Basis]]:
        at = began
        while at < ended and self._modelled:
            index = int(at / GRID)
            following = min(ended, (index + 1) * GRID)
            if following <= at:
                return
            if (index + 1) * GRID > ended:
                # What the model came to afterwards tells nothing of this time: a word may lie between.
                index -= 1
            index = min(index, len(self._modelled) - 1)
            if index >= 0 and not isnan(self._modelled[index]):
                yield following - at, self._modelled[index], Basis.MODELLED
            at = following


def figures(sitting: Sitting) -> dict[str, Any]:
    """The figures of a sitting as the log keeps and shows them: steps with their heats, calls, notes."""
    state = sitting.state
    by_heat: dict[tuple[int, int], list[Span]] = {}
    for span in spans(sitting):
        by_heat.setdefault((span.step, span.heat), []).append(span)
    skin = Skin(sitting)
    pauses = state.pauses(sitting.now)
    steps: dict[int, dict[str, Any]] = {}
    for (number, heat), parts in sorted(by_heat.items()):
        step = sitting.plan.steps[number]
        shown = steps.setdefault(
            number, {"step": number + 1, "title": step.title, "kind": step.kind.value, "heats": []}
        )
        if any(part.phase not in IDLE for part in parts):
            shown["heats"].append({"heat": heat} | _heat(parts, pauses, skin, step.keep_above))
    return {
        "steps": [steps[number] for number in sorted(steps)],
        "calls": [
            {"at_seconds": call.at, "call": call.call.value, "step": call.step + 1, "heat": call.heat}
            for call in state.calls
        ],
        "notes": [
            {"at_seconds": note.at, "text": note.text, "step": note.step + 1, "heat": note.heat} for note in state.notes
        ],
    }


def _heat(parts: list[Span], pauses: list[tuple[float, float]], skin: Skin, keep_above: float | None) -> dict[str, Any]:
    peak: float | None = None
    leaving: float | None = None
    lowest: float | None = None
    too_cold = 0.0
    covered = {Basis.MEASURED: 0.0, Basis.MODELLED: 0.0}
    for part in parts:
        if part.phase in IDLE:
            continue
        running = _between(pauses, part.began, part.ended)
        for seconds, kelvin, basis in (piece for times in running for piece in skin.over(*times)):
            covered[basis] += seconds
            peak = kelvin if peak is None else max(peak, kelvin)
            if part.phase in WARMING:
                leaving = kelvin
            elif part.phase is PhaseKind.STRIKE:
                lowest = kelvin if lowest is None else min(lowest, kelvin)
                if keep_above is not None and kelvin < keep_above:
                    too_cold += seconds
    total = covered[Basis.MEASURED] + covered[Basis.MODELLED]
    measured = total > 0 and covered[Basis.MEASURED] / total >= _MOSTLY
    return {
        "in_fire_seconds": _seconds(parts, WARMING),
        "soak_seconds": _seconds(parts, {PhaseKind.SOAK}),
        "strike_seconds": _seconds(parts, {PhaseKind.STRIKE}),
        "air_seconds": _seconds(parts, {PhaseKind.AIR}),
        "hold_seconds": _seconds(parts, HOLDING),
        "too_cold_seconds": round(too_cold, 2),
        "peak_celsius": _celsius(peak),
        "leaving_celsius": _celsius(leaving),
        "lowest_struck_celsius": _celsius(lowest),
        "basis": (Basis.MEASURED if measured else Basis.MODELLED).value,
    }


def _between(pauses: list[tuple[float, float]], began: float, ended: float) -> Iterator[tuple[float, float]]:
    """What is left of a time when the pauses are taken out of it: what the work did then was not the smith's doing."""
    for start, end in pauses:
        if end > began and start < ended:
            if start > began:
                yield began, start
            began = end
    if began < ended:
        yield began, ended


def _seconds(parts: list[Span], kinds: set[PhaseKind] | frozenset[PhaseKind]) -> float:
    return round(sum(part.seconds for part in parts if part.phase in kinds), 2)


def _celsius(kelvin: float | None) -> float | None:
    return None if kelvin is None else round(celsius(kelvin), 1)

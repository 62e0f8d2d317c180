"""The work's skin through a sitting: measured where a probe on it is believed, modelled elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import isnan
from typing import Protocol

from plans.phase import IDLE
from plans.reading import ProbeOn
from plans.sitting.believed import Believed
from plans.sitting.events import Basis
from plans.sitting.phase_span import PhaseSpan

Stretch = tuple[float, float, Basis]
"""For how long the skin was so [s], its temperature [K], and whether that was measured or modelled."""


class Points(Protocol):
    """When each point of a modelled curve was."""

    def place_after(self, at: float) -> int:
        """The place, from 0, of the first point after a time [s], or that it would get."""

    def time(self, place: int) -> float:
        """When the point at a place was [s]."""


class Modelled(Protocol):
    """The skin as the warm model had it: run along in a sitting, or kept in a file."""

    @property
    def skin(self) -> Sequence[float]:
        """The skin at each point [K]; NaN where it was not known."""

    @property
    def kept(self) -> Points:
        """When each of them was."""


class Skin:
    """The skin as a sitting has it between any two times.

    Args:
        believed: what is believed of the probe
        warm: what the warm model has
        by_model: when the probe was too slow to go by, as `spans_by_model` has it: from, to [s], in order
    """

    def __init__(self, believed: Believed, warm: Modelled, by_model: Sequence[tuple[float, float]] = ()) -> None:
        self._believed = believed
        self._modelled, self._kept = warm.skin, warm.kept
        self._slow = by_model

    def over(self, began: float, ended: float) -> Iterator[Stretch]:
        """The skin between two times [s], in order; nothing for the time in which neither probe nor model knows it."""
        at = began
        for first, last in _between(self._slow, began, ended):
            for start, end, kelvin in self._believed.standing(first, last, ProbeOn.WORK):
                yield from self._by_model(at, start)
                yield end - start, kelvin, Basis.MEASURED
                at = end
        yield from self._by_model(at, ended)

    def in_heat(
        self, parts: Iterable[PhaseSpan], pauses: list[tuple[float, float]]
    ) -> Iterator[tuple[PhaseSpan, float, float, Basis]]:
        """The skin through the phases of a heat, the pauses left out, and the phases in which no heat goes on.

        Args:
            parts: the phases of the heat, in order
            pauses: every pause of the sitting, from and to [s]

        Yields:
            the phase, for how long [s], the temperature [K], and whether that was measured or modelled
        """
        for part in parts:
            if part.phase in IDLE:
                continue
            for times in _between(pauses, part.began, part.ended):
                for stretch in self.over(*times):
                    yield part, *stretch

    def peak(self, parts: Iterable[PhaseSpan], pauses: list[tuple[float, float]]) -> tuple[float, Basis] | None:
        """The hottest that the skin was in a heat [K], and whether that was measured or modelled; None if unknown.

        Args:
            parts: the phases of the heat, in order
            pauses: every pause of the sitting, from and to [s]
        """
        stretches = ((kelvin, basis) for _, _, kelvin, basis in self.in_heat(parts, pauses))
        return max(stretches, key=lambda stretch: stretch[0], default=None)

    def _by_model(self, began: float, ended: float) -> Iterator[Stretch]:
        at, count = began, len(self._modelled)
        while at < ended and count:
            index = self._kept.place_after(at)
            # After the last point that is kept it goes on as it was.
            then = self._kept.time(index) if index < count else ended
            following = min(ended, then)
            if following <= at:
                return
            if then > ended:
                # What the model came to afterwards tells nothing of this time: a word may lie between.
                index -= 1
            index = min(index, count - 1)
            if index >= 0 and not isnan(self._modelled[index]):
                yield following - at, self._modelled[index], Basis.MODELLED
            at = following


def _between(out: Sequence[tuple[float, float]], began: float, ended: float) -> Iterator[tuple[float, float]]:
    """What is left of a time when others are taken out of it, as pauses: what the work did then was nobody's doing."""
    for start, end in out:
        if end > began and start < ended:
            if start > began:
                yield began, start
            began = end
    if began < ended:
        yield began, ended

"""Readings at a pace that a sitting can use: about twenty a second, however many a probe says.

A fast probe tells nothing that a slower one doesn't: steel changes by a few kelvin between two of twenty readings a
second. Handed on one by one, a thousand a second would keep keys, screen and log from being minded.
"""

from __future__ import annotations

from collections.abc import Iterable

from plans.reading import Reading

PER_SECOND = 22.0
"""So many are handed on [1/s]; a little more than twenty, as the clock of a probe that says twenty is not ours."""
AT_ONCE = 4
"""So many may come at once, from a probe that is slow on the whole, and are handed on as they are."""


class Slots:
    """Hands on what a slow probe says as it comes, and of what a fast one says the median of each slot.

    Each reading takes room, which comes back at `PER_SECOND`. While there is none, readings are held; when there is
    again, they are handed on together: of the temperatures the median, and each fault among them once.
    """

    def __init__(self) -> None:
        self._room = float(AT_ONCE)
        self._at = 0.0
        self._held: list[Reading] = []

    def hold(self, readings: Iterable[Reading]) -> None:
        """Take in what the probe said, in order; `due` tells when it is to be handed on."""
        self._held += readings

    def due(self, at: float) -> list[Reading]:
        """What is to be handed on at `at` [s], in order; empty while there is nothing, or no room for it."""
        self._room = min(float(AT_ONCE), self._room + max(0.0, at - self._at) * PER_SECOND)
        self._at = at
        if not self._held or self._room < 1.0:
            return []
        if len(self._held) <= self._room:
            readings, self._held = self._held, []
            self._room -= len(readings)
            return readings
        self._room -= 1.0
        return self.rest()

    def rest(self) -> list[Reading]:
        """What is still held, handed on now, room or no room, as when the probe goes away."""
        readings, self._held = self._held, []
        return _thinned(readings)

    @property
    def wait(self) -> float | None:
        """How long it takes, from the last `due` on, until there is room for what is held [s]; None if none is."""
        return max(0.0, 1.0 - self._room) / PER_SECOND if self._held else None


def _thinned(readings: list[Reading]) -> list[Reading]:
    """The reading with the median of the temperatures, and the last one with each fault, in order."""
    kept = {reading.fault: number for number, reading in enumerate(readings) if reading.kelvin is None}
    warm = sorted((reading.kelvin, number) for number, reading in enumerate(readings) if reading.kelvin is not None)
    if warm:
        kept[None] = warm[(len(warm) - 1) // 2][1]
    return [readings[number] for number in sorted(kept.values())]

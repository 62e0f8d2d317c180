"""A thermocouple with its faults: it lags, it is noisy, it spikes, it falls silent, and it keeps no even time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp
from random import Random

from tests.listening.played.forge import ROOM, Forge, Watcher


@dataclass(frozen=True)
class Faults:
    """How bad it is."""

    noise: float = 2.0
    """Standard deviation: a temperature difference [K]."""
    hertz: float = 4.0
    lag: float = 0.0
    """Time constant of a thermocouple in a hole [s]."""
    spikes: float = 0.005
    missing: float = 0.02
    silences: float = 1 / 600
    """Stretches of 5 to 20 s with nothing, so many a second."""
    jitter: float = 0.3
    """How unevenly it speaks, as a share of its interval."""
    contacts: float = 0.0
    """Loose contacts of 0.2 to 1.5 s, so many an hour: it reads the room, its top, too little, or nothing."""


class Thermometer(Watcher):
    """Hands on what the thermocouple says: seconds, and degC or nothing."""

    def __init__(self, faults: Faults, chance: Random, hand_on: Callable[[float, float | None], None]) -> None:
        self._faults, self._chance, self._hand_on = faults, chance, hand_on
        self._felt: float | None = None
        self._next = 0.0
        self._silent_until = -1.0
        self._loose_until = -1.0
        self._loose: float | None = None
        self.silences: list[tuple[float, float]] = []

    def look(self, forge: Forge) -> None:
        faults, chance = self._faults, self._chance
        skin = forge.work.skin
        if self._felt is None or not faults.lag:
            self._felt = skin
        self._felt += (1 - exp(-forge.moment / faults.lag)) * (skin - self._felt) if faults.lag else 0.0
        if (
            faults.contacts
            and forge.at >= self._loose_until
            and chance.random() < faults.contacts * forge.moment / 3600
        ):
            self._loose_until = forge.at + chance.uniform(0.2, 1.5)
            self._loose = chance.choice((ROOM, 1370.0, skin - chance.uniform(30, 300), None))
        if forge.at < self._next - forge.moment / 2:
            return
        self._next = max(self._next, forge.at - forge.moment)
        self._next += chance.uniform(1 - faults.jitter, 1 + faults.jitter) / faults.hertz
        if forge.at < self._silent_until:
            return
        if chance.random() < faults.silences / faults.hertz:
            self._silent_until = forge.at + chance.uniform(5, 20)
            self.silences.append((forge.at, self._silent_until))
            return
        if forge.at < self._loose_until:
            self._hand_on(forge.at, self._loose)
            return
        if chance.random() < faults.missing:
            self._hand_on(forge.at, None)
            return
        spike = chance.choice((-1, 1)) * chance.uniform(60, 400) if chance.random() < faults.spikes else 0.0
        self._hand_on(forge.at, self._felt + chance.gauss(0, faults.noise) + spike)

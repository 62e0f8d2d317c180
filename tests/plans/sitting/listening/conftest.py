"""A shop for tests: traces of work heated and cooled by physics that shares nothing with the program's."""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest


class Shop:
    """Newton's law with radiation for a plate, a lump of latent heat on cooling, and a noisy probe.

    `thickness` in mm; `noise` is a standard deviation in degC; half a percent of spikes, two percent missing.
    """

    def __init__(self, thickness: float = 12.0, noise: float = 2.0, hertz: float = 4.0, seed: int = 1) -> None:
        self.thickness, self.noise, self.hertz = thickness, noise, hertz
        self.chance = random.Random(seed)
        self.at, self.celsius = 0.0, 20.0
        self.transforms = True
        self._latent = 0.0
        self.rows: list[tuple[float, float | None]] = []
        self.outs: list[float] = []
        self.ins: list[float] = []
        self.arrests: list[float] = []

    def go(self, seconds: float, around: float, chill: float = 1.0) -> None:
        """So long in surroundings of that temperature; `chill` is what the anvil takes besides."""
        end, step = self.at + seconds, 0.05
        while self.at < end:
            self.at += step
            hot, other = self.celsius + 273.15, around + 273.15
            flux = 0.8 * 5.67e-8 * (hot**4 - other**4) + (15 if around < 500 else 25) * (hot - other)
            rate = -chill * flux / (7850 * 640 * self.thickness / 2000)
            if self.transforms and rate < 0 and self.celsius < 690 and self._latent < 55:
                # The arrest: what would have cooled it by 55 degC goes into the change.
                if self._latent == 0.0:
                    self.arrests.append(self.at)
                self._latent -= rate * step
                rate *= -0.05
            self.celsius += rate * step
            if self.celsius > 800:
                self._latent = 0.0
            if not self.rows or self.at >= self.rows[-1][0] + 1 / self.hertz - 1e-9:
                self.rows.append((self.at, self._felt()))

    def _felt(self) -> float | None:
        if self.chance.random() < 0.02:
            return None
        spike = self.chance.choice((-1, 1)) * self.chance.uniform(50, 300) if self.chance.random() < 0.005 else 0.0
        return self.celsius + self.chance.gauss(0, self.noise) + spike

    def put_in(self, fire: float, until: float, soak: float = 30.0) -> None:
        """Into the fire, until it has come up, and then held."""
        self.ins.append(self.at)
        while self.celsius < until:
            self.go(1.0, fire)
        self.go(soak, fire)

    def take_out(self, down_to: float, chill: float = 1.0) -> None:
        """Out, and down to a temperature."""
        self.outs.append(self.at)
        while self.celsius > down_to:
            self.go(0.5, 20.0, chill)


@pytest.fixture
def shop() -> Callable[..., Shop]:
    """A shop with work of a thickness, a probe of so much noise and so many readings a second, and a seed."""
    return Shop

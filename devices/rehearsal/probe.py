"""The probe in the rehearsal: slow, noisy, sometimes silent, and not always making sense."""

from __future__ import annotations

from math import exp
from random import Random

from plans.units import celsius

_LAG = 0.5
"""First-order lag [s]."""
_EVERY = 0.25
"""From one line to the next [s]."""
_JUNK = (b"probe: warming up", b"#?!~~", b"\x1b[2J\x1b[31m\xff\xf0", b"", b"--.-")
"""Lines without a figure in them, so that no pattern takes one for a reading."""


class Probe:
    """Turns the skin's temperature into lines of text: a bare number in degC with one decimal.

    Args:
        chance: everything random comes from this generator, so that the same seed makes the same lines
    """

    def __init__(self, chance: Random) -> None:
        self._chance = chance
        self._shown: float | None = None
        self._silent_from = chance.uniform(300.0, 900.0)
        self._silent_until = self._silent_from + chance.uniform(10.0, 20.0)

    def lines(self, at: float, seconds: float, skin: float) -> tuple[bytes, ...]:
        """What the probe sends at one moment.

        Args:
            at: the moment, by rehearsal time [s]
            seconds: since the moment before [s]
            skin: true temperature of the work's skin [K]

        Returns:
            either nothing, or one reading, which a line of junk may come before; each line with its end
        """
        chance = self._chance
        kept = exp(-seconds / _LAG)
        self._shown = skin if self._shown is None else kept * self._shown + (1.0 - kept) * skin
        degrees = celsius(self._shown) + chance.gauss(0.0, 2.0)
        # Of the many lines of a long moment one that came, and makes sense, stands for all.
        lines = seconds / _EVERY
        if chance.random() < 0.005**lines:
            degrees += chance.choice((-1.0, 1.0)) * chance.uniform(40.0, 250.0)
        missing = chance.random() < 0.02**lines
        junk = chance.random() < 0.003
        if missing or self._silent_from <= at < self._silent_until:
            return ()
        reading = b"%.1f\r\n" % degrees
        return (chance.choice(_JUNK) + b"\r\n", reading) if junk else (reading,)

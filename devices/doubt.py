"""A reading that jumps impossibly is flagged until the next one bears it out."""

from __future__ import annotations

from plans.reading import Reading

JUMPED = "jumped"
"""The fault of a reading that lies too far from the one before, until the next one bears it out."""
_STALE_AFTER = 3.0
"""A reading that comes longer after the last believed one than this is not compared with it [s]."""


class Doubt:
    """Withholds the temperature of a lone outlier among a probe's readings, which are shown to it in order.

    A real step (the probe is put into the fire) costs one reading; a spike costs only itself.

    Args:
        jump: the largest temperature difference from one reading to the next that is believed at once [K]
    """

    def __init__(self, jump: float) -> None:
        self._jump = jump
        self._believed: Reading | None = None
        self._doubted: Reading | None = None

    def judge(self, reading: Reading) -> Reading:
        """The reading itself, a fault too; or in place of an outlier one without a temperature, its fault `JUMPED`."""
        if reading.kelvin is None:
            return reading
        bears_out = self._is_near(self._doubted, reading)
        fresh = self._believed is not None and reading.at - self._believed.at <= _STALE_AFTER
        if fresh and not bears_out and not self._is_near(self._believed, reading):
            self._doubted = reading
            return Reading(reading.at, None, JUMPED)
        self._believed, self._doubted = reading, None
        return reading

    def _is_near(self, before: Reading | None, reading: Reading) -> bool:
        if before is None or before.kelvin is None or reading.kelvin is None:
            return False
        return abs(reading.kelvin - before.kelvin) <= self._jump

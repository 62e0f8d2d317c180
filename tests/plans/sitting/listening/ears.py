"""Probe and turning points as the engine joins them, for tests of what is heard without a plan."""

from __future__ import annotations

from collections.abc import Iterable

from plans.shapes import Section
from plans.sitting.senses import Probe
from plans.sitting.turning import Turn, TurningPoints, fall_within


def turns_in(
    readings: Iterable[tuple[float, float | None]], section: Section | None = None, fastest: float | None = None
) -> list[tuple[float, Turn]]:
    """When each turn could be told, and the turn.

    Args:
        readings: seconds and temperatures as they came [K]; None for nothing
        section: of the work; None where it is not known
        fastest: the fastest that it can change [K/s]; None where that is not known
    """
    probe, turns = Probe(), TurningPoints()
    if fastest is not None:
        probe.fastest = fastest
    found = []
    for at, kelvin in readings:
        if kelvin is None or not probe.hear(at, kelvin):
            continue
        assert probe.kelvin is not None
        if probe.anew:
            turns.forget()
        turn = turns.hear(at, probe.kelvin, within=fall_within(section, probe.kelvin))
        if turn is not None:
            found.append((at, turn))
    return found

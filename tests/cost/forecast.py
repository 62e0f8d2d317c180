"""What a forecast costs, beside scipy's solve_ivp on the same bar, and through the arrest beside a plain soak."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from time import perf_counter

from tests.outside.bar_by_scipy import COLD, FIRE, SECTIONS, SOAKED, soak_in

from plans.section import Section
from plans.warmth.forecast import hammer_time, soak_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air
from tests.cost.row import Row, Timed, by_turns

BLACK = 400.0 + 273.15
"""Cooled to this, the arrest has been passed [K]."""


def rows() -> Iterator[Row]:
    """One soak against scipy's, and for each section the way through the arrest against its soak."""
    section = SECTIONS[0]
    model = WarmModel(section, None, COLD)
    # As few cells for scipy as for us, though it is less exact with them.
    ours, theirs = by_turns(
        7,
        _timed(lambda: soak_time(model, fire(FIRE), SOAKED)),
        _timed(lambda: soak_in(model.bar.count, section)),
    )
    yield Row("forecast of a soak", ours, "scipy's solve_ivp, LSODA", theirs, 1 / 20)
    for section in SECTIONS:
        through, soak = _through_the_arrest(section)
        size = f"{section.width * 1000:g} x {section.thickness * 1000:g} mm{', round' if section.is_round else ''}"
        yield Row(f"forecast through the arrest, {size}", through, "a soak of the same section", soak, 1.5)


def _through_the_arrest(section: Section) -> list[float]:
    cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
    return by_turns(
        15,
        _timed(lambda: hammer_time(hot, still_air(COLD), BLACK)),
        _timed(lambda: soak_time(cold, fire(FIRE), SOAKED)),
    )


def _timed(forecast: Callable[[], object]) -> Timed:
    def once(_: int) -> float:
        begun = perf_counter()
        forecast()
        return perf_counter() - begun

    return once

"""Calls in words: the same for the log's text, the review and the page."""

from __future__ import annotations

from plans.shown import show_duration
from plans.sitting import Called
from plans.units import Units


def call_text(called: Called, units: Units, *, place: bool = True, taken_back: bool = False) -> str:
    """A call in words: "too cold, step 2, heat 1, 1137 degC, measured".

    Args:
        called: the call
        units: the units that are set
        place: whether its step and its heat are told
        taken_back: whether the word that it came of was
    """
    where = [f"step {called.step + 1}", f"heat {called.heat}"] if place else []
    return ", ".join([called.call.value, *where, *about(called, units, taken_back=taken_back)])


def about(called: Called, units: Units, *, taken_back: bool = False) -> list[str]:
    """What a call was about, part by part: a temperature and what that stands on, a time and what was wanted."""
    parts = [] if called.kelvin is None else [units.temperature(called.kelvin), called.basis.value]
    if called.took is not None:
        wanted = "" if called.wanted is None else f" of {show_duration(called.wanted)}"
        parts.append(f"{show_duration(called.took)}{wanted}")
    return [*parts, "taken back"] if taken_back else parts

"""What a sitting tells of the shop, in words: the same for the log's text and for the review."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

HEADING = "How the work cooled: forecast modelled, what happened measured"


def stay_lines(learned: Mapping[str, Any] | None) -> Iterator[tuple[Mapping[str, Any], str]]:
    """Each stay on the anvil whose hammer time was forecast, and a line about what came of the forecast.

    Args:
        learned: as the log keeps it under that name
    """
    for stay in learned["stays"] if learned else ():
        forecast, happened = stay["hammer_time_forecast_seconds"], stay["hammer_time_measured_seconds"]
        if forecast is None:
            continue
        came = "back in the fire before" if happened is None else f"happened {happened:.0f} s"
        yield stay, f"hammer time, step {stay['step']}, heat {stay['heat']}: forecast {forecast:.0f} s, {came}"


def factor_line(learned: Mapping[str, Any] | None, shop_factor: float | None = None) -> str | None:
    """The cooling factor with its spread, beside the one in force; None where none was found.

    Args:
        learned: as the log keeps it under that name
        shop_factor: what the shop file says; None where nobody asks it
    """
    if not learned or learned["cooling_factor"] is None:
        return None
    return f"cooling factor {factor_text(learned)}; {_beside(learned['cooling_factor_in_force'], shop_factor)}"


def factor_text(learned: Mapping[str, Any]) -> str:
    """The cooling factor, how far off it may be, and from how many stays outside the fire it comes."""
    factor, spread, count = (
        learned[key] for key in ("cooling_factor", "cooling_factor_standard_error", "stays_fitted")
    )
    if spread is None:
        return f"{factor:.2f} from one stay, its spread unknown"
    return f"{factor:.2f} +- {max(spread, 0.01):.2f} from {count} stays"


def _beside(in_force: float, shop_factor: float | None) -> str:
    if shop_factor is None:
        return f"this sitting went by {in_force:.2f}"
    # What a sitting went by is kept to three digits.
    if round(shop_factor, 2) == round(in_force, 2):
        return f"the shop file says {shop_factor:.2f}"
    return f"went by {in_force:.2f}, shop file now {shop_factor:.2f}"

"""What a sitting tells of the shop, in words: the same for the log's text and for the review."""

from __future__ import annotations

from collections.abc import Iterator

from plans.logbook.figures import Learned, StayLearned

COOLING_HEADING = "How the work cooled: forecast modelled, what happened measured"
"""The heading above the lines."""


def forecast_stays(learned: Learned | None) -> list[StayLearned]:
    """The stays on the anvil whose hammer time was forecast, in order; none where nothing was learned."""
    return [] if learned is None else [stay for stay in learned.stays if stay.forecast is not None]


def stay_lines(learned: Learned | None) -> Iterator[tuple[StayLearned, str]]:
    """Each stay on the anvil whose hammer time was forecast, and a line about what came of the forecast."""
    for stay in forecast_stays(learned):
        came = "back in the fire before" if stay.happened is None else f"happened {stay.happened:.0f} s"
        yield stay, f"hammer time, step {stay.step + 1}, heat {stay.heat}: forecast {stay.forecast:.0f} s, {came}"


def factor_line(learned: Learned | None, shop_factor: float | None = None) -> str | None:
    """The cooling factor with its spread, beside the one in force; None where none was found.

    Args:
        learned: what the sitting tells
        shop_factor: what the shop file says; None where nobody asks it
    """
    if learned is None or learned.factor is None:
        return None
    return f"cooling factor {factor_text(learned)}; {_beside(learned.went_by, shop_factor)}"


def factor_text(learned: Learned) -> str:
    """The cooling factor, how far off it may be, and from how many stays outside the fire it comes.

    Raises:
        ValueError: no factor was found.
    """
    if learned.factor is None:
        raise ValueError("no cooling factor was found")
    if learned.spread is None:
        return f"{learned.factor:.2f} from one stay, its spread unknown"
    return f"{learned.factor:.2f} +- {shown_spread(learned.spread):.2f} from {learned.fitted} stays"


def shown_spread(spread: float) -> float:
    """A standard error of the cooling factor as it is shown: never as nothing, which no measurement has."""
    return max(spread, 0.01)


def _beside(in_force: float, shop_factor: float | None) -> str:
    if shop_factor is None:
        return f"this sitting went by {in_force:.2f}"
    # What a sitting went by is kept to three digits.
    if round(shop_factor, 2) == round(in_force, 2):
        return f"the shop file says {shop_factor:.2f}"
    return f"went by {in_force:.2f}, shop file now {shop_factor:.2f}"

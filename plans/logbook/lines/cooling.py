"""What a sitting tells of the shop, in words: the same for the log's text and for the review."""

from __future__ import annotations

from collections.abc import Iterator

from plans.logbook.figures import Factor, Forecast, Learned, StayLearned
from plans.shop import KEYS, Shop

COOLING_HEADING = "How the skin cooled: forecast modelled, what came of it measured"
"""The heading above the lines: the probe sits on the skin, and it is the skin's hammer time that they tell."""


def forecast_stays(learned: Learned | None) -> list[tuple[StayLearned, Forecast]]:
    """The stays on the anvil whose hammer time was forecast, in order, each with its forecast."""
    stays = () if learned is None else learned.stays
    return [(stay, stay.forecast) for stay in stays if stay.forecast is not None]


def stay_lines(learned: Learned | None) -> Iterator[tuple[StayLearned, str]]:
    """Each stay on the anvil whose hammer time was forecast, and a line about what came of the forecast."""
    for stay, forecast in forecast_stays(learned):
        came = "went back before" if stay.happened is None else f"was {stay.happened:.0f} s"
        yield stay, f"hammer time, step {stay.step + 1}, heat {stay.heat}: forecast {forecast_text(forecast)}, {came}"


def forecast_text(forecast: Forecast) -> str:
    """A forecast with its range: "31 s (22 to 44)"."""
    if forecast.least is None:
        return f"{forecast.likely:.0f} s"
    most = "more" if forecast.most is None else f"{forecast.most:.0f}"
    return f"{forecast.likely:.0f} s ({forecast.least:.0f} {'or' if forecast.most is None else 'to'} {most})"


def named_factors(learned: Learned) -> list[tuple[str, Factor]]:
    """The factors that were found, each with its name: how fast the air cools work here, and how fast the tools do."""
    if learned.contact is None:
        # A sitting from before these were told apart.
        return [("factor of air and anvil", factor) for factor in learned.found.values()]
    return [(key.replace("_", " "), factor) for key, factor in learned.found.items()]


def factor_lines(learned: Learned | None, shop: Shop | None = None) -> list[str]:
    """Each factor that was found with its spread, beside the one in force.

    Args:
        learned: what the sitting tells
        shop: what the shop file says; None where nobody asks it
    """
    if learned is None:
        return []
    ours: list[float | None] = [None] * len(learned.found)
    if shop is not None and learned.contact is not None:
        ours = [getattr(shop, KEYS[key].attribute) for key in learned.found]
    return [
        f"{name} {factor_text(factor)}; {_beside(factor.went_by, shop_factor)}"
        for (name, factor), shop_factor in zip(named_factors(learned), ours, strict=True)
    ]


def factor_text(factor: Factor) -> str:
    """A factor, how far off it may be, and from how many stays outside the fire it comes.

    Raises:
        ValueError: no factor was found.
    """
    if factor.value is None:
        raise ValueError("no factor was found")
    if factor.spread is None:
        return f"{factor.value:.2f} from one stay, its spread unknown"
    return f"{factor.value:.2f} +- {shown_spread(factor.spread):.2f} from {factor.stays} stays"


def shown_spread(spread: float) -> float:
    """A standard error of a factor as it is shown: never as nothing, which no measurement has."""
    return max(spread, 0.01)


def _beside(in_force: float, shop_factor: float | None) -> str:
    if shop_factor is None:
        return f"this sitting went by {in_force:.2f}"
    # What a sitting went by is kept to three digits.
    if round(shop_factor, 2) == round(in_force, 2):
        return f"the shop file says {shop_factor:.2f}"
    return f"went by {in_force:.2f}, shop file now {shop_factor:.2f}"

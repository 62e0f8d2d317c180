"""The shop: the smith's own figures."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Final, NamedTuple

from plans.record import record

LEAST_FACTOR: Final = 0.3
MOST_FACTOR: Final = 3.0
"""No shop cools work so much more slowly or quickly than the warm model has it; then something else is wrong."""


LEAST_CONTACT: Final = 0.1
MOST_CONTACT: Final = 10.0
"""No contact lets through so much less or more than it is taken for; then something else is wrong."""


LEAST_SCALE: Final = 0.01
MOST_SCALE: Final = 4.0
"""No fire takes so much less or more metal than free air would; then something else is wrong."""


MOST_FUEL: Final = 200.0
"""No forge of one smith burns more in an hour [kg or m3]."""


MOST_PRICE: Final = 1e9
"""No kg or m3 of a fuel costs more, in whatever currency."""


LONGEST_CURRENCY: Final = 8
"""Most characters of what a smith calls the currency."""


class FireAir(StrEnum):
    """How a shop's fire is set; its value is how it is written."""

    RICH = "rich"
    """More fuel than burns: a soft, yellowish flame that licks out of the door."""
    NEUTRAL = "neutral"
    """As much air as burns the fuel up."""
    LEAN = "lean"
    """More air than fuel: a hard, roaring flame, or work that lies in the blast of a coal fire."""


@record
class FuelRate:
    """How much a fire burns in an hour, by weight or by volume, and what that costs where the smith said it.

    Raises:
        ValueError: both amounts are given, or none; the amount is not above 0 and at most `MOST_FUEL`; the price is not
            above 0 and at most `MOST_PRICE`; a price has no currency, or a currency no price.
    """

    mass: float | None = None
    """Charcoal, coke, coal or bottled gas by weight [kg]."""
    volume: float | None = None
    """Gas from the main, or charcoal by the sack [m3]."""
    price: float | None = None
    """What one kg or one m3 of it costs, in `currency`; None where nobody said."""
    currency: str = ""
    """As the smith calls it: "EUR", "$"; up to `LONGEST_CURRENCY` characters. Empty without a price."""

    def __post_init__(self) -> None:
        given = [amount for amount in (self.mass, self.volume) if amount is not None]
        if len(given) != 1 or not 0 < given[0] <= MOST_FUEL:
            raise ValueError(f"a fire burns more than 0 and at most {MOST_FUEL:g} kg or m3 in an hour")
        if self.price is not None and not 0 < self.price <= MOST_PRICE:
            raise ValueError(f"a fuel costs more than 0 and at most {MOST_PRICE:g} for a kg or m3")
        if (self.price is None) != (not self.currency) or len(self.currency) > LONGEST_CURRENCY:
            raise ValueError(f"a price has a currency of 1 to {LONGEST_CURRENCY} characters")


@record
class Shop:
    """What was learned of a shop; as it ships, the warm model's own figures hold.

    Raises:
        ValueError: a factor lies outside what a shop can have, or a standard error is below 0.
    """

    cooling_factor: float = 1.0
    """What the work gives to the air is so many times what the warm model has by itself: emissivity and draught."""
    cooling_spread: float | None = None
    """Standard error of `cooling_factor`; None where it was not learned, or is not known."""
    contact_factor: float = 1.0
    """The contact conductance of the anvil is so many times what the warm model has by itself."""
    contact_spread: float | None = None
    """Standard error of `contact_factor`; None where it was not learned, or is not known."""
    fire: FireAir | None = None
    """How its fire is usually set; None where nobody said."""
    scale_factor: float | None = None
    """Metal that goes to scale, as measured, is so many times what free air would take; None where nobody measured."""
    fuel: FuelRate | None = None
    """How much its fire burns; None where nobody said."""

    def __post_init__(self) -> None:
        if not LEAST_FACTOR <= self.cooling_factor <= MOST_FACTOR:
            raise ValueError(f"a shop's cooling factor lies between {LEAST_FACTOR:g} and {MOST_FACTOR:g}")
        if not LEAST_CONTACT <= self.contact_factor <= MOST_CONTACT:
            raise ValueError(f"a shop's contact factor lies between {LEAST_CONTACT:g} and {MOST_CONTACT:g}")
        if self.scale_factor is not None and not LEAST_SCALE <= self.scale_factor <= MOST_SCALE:
            raise ValueError(f"a shop's scale factor lies between {LEAST_SCALE:g} and {MOST_SCALE:g}")
        if any(
            spread is not None and not 0 <= spread <= MOST_CONTACT
            for spread in (self.cooling_spread, self.contact_spread)
        ):
            raise ValueError("the standard error of a shop's factor can't be below 0")


class ShopKey(NamedTuple):
    """A key of the files that keep a shop."""

    attribute: str
    """The attribute of `Shop` that it stands for."""
    least: float
    """The smallest number that it may hold."""
    most: float
    """The largest."""
    spread_of: str | None = None
    """The key whose standard error it is; None for a factor."""
    unit: str = "as the warm model ships"
    """What a factor of 1 stands for."""


KEYS: Final[Mapping[str, ShopKey]] = {
    "cooling_factor": ShopKey("cooling_factor", LEAST_FACTOR, MOST_FACTOR),
    "cooling_standard_error": ShopKey("cooling_spread", 0.0, MOST_CONTACT, "cooling_factor"),
    "contact_factor": ShopKey("contact_factor", LEAST_CONTACT, MOST_CONTACT),
    "contact_standard_error": ShopKey("contact_spread", 0.0, MOST_CONTACT, "contact_factor"),
    "scale_factor": ShopKey("scale_factor", LEAST_SCALE, MOST_SCALE, unit="what free air takes"),
}
"""Every key that holds a number by its name, in the order in which the smith's shop file and the log have them."""
FIRE_KEY: Final = "fire"
"""The key that says how the fire is set."""
FUEL_KEY: Final = "fuel_per_hour"
"""The key that says how much the fire burns."""
PRICE_KEY: Final = "fuel_price"
"""The key that says what that costs."""

"""What the smith wrote in the shop file of the fire's fuel: how much it burns in an hour, and what that costs."""

from __future__ import annotations

from dataclasses import replace
from re import fullmatch, search
from typing import Final

from plans.quantities import Dimension, QuantityError, parse, pattern
from plans.quantity_grammar import LONGEST
from plans.shop import FUEL_KEY, LONGEST_CURRENCY, MOST_FUEL, MOST_PRICE, PRICE_KEY, FuelRate
from plans.text import plain
from plans.toml import TomlTable, shown

_BURNT: Final[tuple[Dimension, ...]] = ("mass", "volume")
_AN_HOUR: Final = " *(?:/ *h|per hour|an hour)?"
_RATE: Final = f'{FUEL_KEY} = "1.4 kg", "3 lb", "1.8 m^3" or "65 ft^3"'
_PRICE: Final = r" *([0-9]+(?:\.[0-9]+)?) *([^\s\d/.,]\S*?)(?: +per +| */ *)(.+)"
"""Number, currency, and for how much it is: a unit, or so many of one."""
_RIGHT: Final = f'{PRICE_KEY} = "1.90 EUR per kg" or "24.50 EUR per 11 kg"'


def fuel_of(table: TomlTable) -> FuelRate | None:
    """How much the fire burns and what that costs; None where nobody said, or not so that it can be read.

    What is wrong is noted in the table's faults. A wrong price leaves the rate as it is.
    """
    rate = _rate(table)
    if PRICE_KEY not in table.values:
        return rate
    if rate is None:
        if FUEL_KEY not in table.values:
            table.value(PRICE_KEY, f"says what fuel costs, but no {FUEL_KEY} how much burns", f"write {_RATE} as well")
        return None
    return _priced(table, rate)


def _rate(table: TomlTable) -> FuelRate | None:
    if FUEL_KEY not in table.values:
        return None
    written = f"is {shown(table.values[FUEL_KEY])}"
    found = fullmatch(f"(.*?){_AN_HOUR}", _text(table, FUEL_KEY))
    kind = None if found is None else _kind(found[1])
    if found is None or kind is None:
        table.shape(FUEL_KEY, written, f"write a weight or a volume that burns in an hour: {_RATE}")
    elif (amount := _amount(found[1], kind)) is None or amount > MOST_FUEL:
        table.value(FUEL_KEY, written, f"write more than 0 and at most {MOST_FUEL:g} kg or m^3")
    else:
        return FuelRate(amount) if kind == "mass" else FuelRate(volume=amount)
    return None


def _priced(table: TomlTable, rate: FuelRate) -> FuelRate:
    """The rate with its price; as it is where that is wrong."""
    text, written = _text(table, PRICE_KEY), f"is {shown(table.values[PRICE_KEY])}"
    found = fullmatch(_PRICE, text)
    of = "" if found is None else found[3] if found[3][:1].isdecimal() else f"1 {found[3]}"
    kind = _kind(of)
    if found is None or kind is None or len(found[2]) > LONGEST_CURRENCY or plain(found[2]) != found[2]:
        why = "a comma is not read; " if search("[0-9],[0-9]", text) else ""
        table.shape(PRICE_KEY, written, f"{why}write how much of which currency, and for what: {_RIGHT}")
    elif kind != ("volume" if rate.mass is None else "mass"):
        by, per = ("a volume", "m^3 or ft^3") if rate.mass is None else ("a weight", "kg or lb")
        table.value(PRICE_KEY, f"{written}, but {FUEL_KEY} is {by}", f"write what it costs per {per}")
    elif (amount := _amount(of, kind)) is None or not 0 < (price := float(found[1]) / amount) <= MOST_PRICE:
        table.value(PRICE_KEY, written, f"write more than 0, for more than 0: {_RIGHT}")
    else:
        return replace(rate, price=price, currency=found[2])
    return rate


def _text(table: TomlTable, key: str) -> str:
    """What stands behind a key; empty where that is no text, or longer than any quantity."""
    text = table.values[key]
    return text if isinstance(text, str) and len(text) <= LONGEST else ""


def _kind(text: str) -> Dimension | None:
    return next((kind for kind in _BURNT if fullmatch(pattern(kind), text)), None)


def _amount(text: str, kind: Dimension) -> float | None:
    """How much that is in SI; None where it can't be, or is nothing."""
    try:
        return parse(text, kind) or None
    except QuantityError:
        return None

"""What a steel is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from difflib import get_close_matches
from math import isfinite
from typing import Final, Self

from plans.steel.errors import SteelError

MOST_CARBON: Final = 2.1
"""More carbon than this is cast iron [mass %]."""
LEAST_IRON: Final = 50.0
"""An alloy with less iron is no steel [mass %]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """The elements of a steel [mass %]; the rest is iron. An element that is not known is 0.

    Raises:
        SteelError: a share is no number, below zero, or together they are no steel.
    """

    carbon: float
    manganese: float = 0.0
    silicon: float = 0.0
    chromium: float = 0.0
    nickel: float = 0.0
    molybdenum: float = 0.0
    vanadium: float = 0.0
    tungsten: float = 0.0
    copper: float = 0.0
    cobalt: float = 0.0
    aluminium: float = 0.0
    titanium: float = 0.0
    arsenic: float = 0.0
    phosphorus: float = 0.0
    sulphur: float = 0.0

    def __post_init__(self) -> None:
        for symbol, share in self.shares().items():
            if not isfinite(share) or not 0 <= share <= 100:
                raise SteelError(f"{symbol} is {share:g} %: a share of the mass lies between 0 and 100 %")
        if self.carbon > MOST_CARBON:
            raise SteelError(f"C is {self.carbon:g} %: above {MOST_CARBON} % it is cast iron, no steel; give less")
        if self.iron < LEAST_IRON:
            raise SteelError(
                f"only {self.iron:.4g} % is left for iron: check the shares, they are per cent of the mass"
            )

    @classmethod
    def of(cls, shares: Mapping[str, float]) -> Self:
        """A composition from chemical symbols in any case, e.g. `{"C": 0.75, "Mn": 0.4, "ni": 2.0}` [mass %].

        Raises:
            SteelError: a symbol is not known or comes twice, carbon is missing, or the shares are no steel.
        """
        known = {symbol.lower(): name for symbol, name in SYMBOLS.items()}
        named: dict[str, float] = {}
        for symbol, share in shares.items():
            name = known.get(symbol.strip().lower())
            if name is None:
                near = get_close_matches(symbol.strip().capitalize(), SYMBOLS, n=1, cutoff=0.5)
                hint = f"did you mean {near[0]}? " if near else ""
                raise SteelError(f'"{symbol}" is no element that counts here: {hint}known are {", ".join(SYMBOLS)}')
            if name in named:
                raise SteelError(f'"{symbol}" is given twice')
            named[name] = share
        if "carbon" not in named:
            raise SteelError("C is missing: give the carbon content, e.g. C = 0.75")
        return cls(**named)

    @property
    def iron(self) -> float:
        """What is left for iron [mass %]."""
        return 100.0 - sum(self.shares().values())

    def share(self, symbol: str) -> float:
        """The share of one element by its symbol, e.g. "Mn" [mass %]."""
        share: float = getattr(self, SYMBOLS[symbol])
        return share

    def shares(self) -> dict[str, float]:
        """All shares by symbol, iron left out [mass %]."""
        return {symbol: self.share(symbol) for symbol in SYMBOLS}

    def __str__(self) -> str:
        """Carbon and the other elements that there are: "C 0.75, Mn 0.4, Ni 2 %"."""
        there = (f"{symbol} {share:.3g}" for symbol, share in self.shares().items() if share or symbol == "C")
        return ", ".join(there) + " %"


SYMBOLS: Final[dict[str, str]] = dict(
    zip(
        ("C", "Mn", "Si", "Cr", "Ni", "Mo", "V", "W", "Cu", "Co", "Al", "Ti", "As", "P", "S"),
        (field.name for field in fields(Composition)),
        strict=True,
    )
)
"""Chemical symbols and the names of the shares, in the order in which they are shown."""

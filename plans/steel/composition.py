"""The composition of a steel: the share of each element by mass, and what is no steel at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from difflib import get_close_matches
from math import isfinite
from typing import Final, Self

from plans.steel.errors import SteelError

MOST_CARBON: Final = 2.1
"""Most carbon that a steel may hold; with more it is cast iron [mass %]."""
LEAST_IRON: Final = 50.0
"""Least iron that a steel must hold; an alloy with less is none [mass %]."""
PURE_NICKEL: Final = 98.0
"""Least nickel of what is sold as pure nickel, which smiths weld into billets beside steel [mass %]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """The shares of the elements of a steel by mass [mass %]; the rest is iron. An element that is not known is 0.

    Pure nickel has one too, as smiths weld it in beside steel; no formula has a figure for it.

    Raises:
        SteelError: a share is not from 0 to 100 %, there is more carbon than `MOST_CARBON`, or less iron than
            `LEAST_IRON` in what is no pure nickel.
    """

    carbon: float
    """Carbon [mass %]."""
    manganese: float = 0.0
    """Manganese [mass %]."""
    silicon: float = 0.0
    """Silicon [mass %]."""
    chromium: float = 0.0
    """Chromium [mass %]."""
    nickel: float = 0.0
    """Nickel [mass %]."""
    molybdenum: float = 0.0
    """Molybdenum [mass %]."""
    vanadium: float = 0.0
    """Vanadium [mass %]."""
    tungsten: float = 0.0
    """Tungsten [mass %]."""
    copper: float = 0.0
    """Copper [mass %]."""
    cobalt: float = 0.0
    """Cobalt [mass %]."""
    aluminium: float = 0.0
    """Aluminium [mass %]."""
    titanium: float = 0.0
    """Titanium [mass %]."""
    arsenic: float = 0.0
    """Arsenic [mass %]."""
    phosphorus: float = 0.0
    """Phosphorus [mass %]."""
    sulphur: float = 0.0
    """Sulphur [mass %]."""

    def __post_init__(self) -> None:
        for symbol, share in self.shares().items():
            if not isfinite(share) or not 0 <= share <= 100:
                raise SteelError(f"{symbol} is {share:g} %: a share of the mass lies between 0 and 100 %")
        if self.carbon > MOST_CARBON:
            raise SteelError(f"C is {self.carbon:g} %: above {MOST_CARBON} % it is cast iron, no steel; give less")
        if self.iron < (0 if self.is_nickel else LEAST_IRON):
            raise SteelError(
                f"only {self.iron:.4g} % is left for iron: check the shares, they are per cent of the mass"
            )

    @classmethod
    def of(cls, shares: Mapping[str, float]) -> Self:
        """A composition from chemical symbols in any case, e.g. `{"C": 0.75, "Mn": 0.4, "ni": 2.0}` [mass %].

        Raises:
            SteelError: a symbol is not known or comes twice, carbon is missing, or the shares are none of a steel.
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
    def is_nickel(self) -> bool:
        """Whether it is pure nickel, and no steel."""
        return self.nickel >= PURE_NICKEL

    @property
    def iron(self) -> float:
        """Share of iron: what the other elements leave of 100 % [mass %]."""
        return 100.0 - sum(self.shares().values())

    def share(self, symbol: str) -> float:
        """The share of one element [mass %].

        Args:
            symbol: one of `SYMBOLS`, e.g. "Mn"

        Raises:
            KeyError: the symbol is not one of `SYMBOLS`.
        """
        share: float = getattr(self, SYMBOLS[symbol])
        return share

    def shares(self) -> dict[str, float]:
        """The shares of all elements by chemical symbol, in the order of `SYMBOLS` and without iron [mass %]."""
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
"""Chemical symbols, each with the name of its attribute of `Composition`, in the order in which they are shown."""

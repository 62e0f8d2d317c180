"""The shop: the smith's own figures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

LEAST_FACTOR: Final = 0.3
MOST_FACTOR: Final = 3.0
"""No shop cools work so much more slowly or quickly than the warm model has it; then something else is wrong."""


@dataclass(frozen=True, slots=True)
class Shop:
    """What was learned of a shop; as it ships, the warm model's own figures hold."""

    cooling_factor: float = 1.0
    """What the work gives to air and anvil is so many times what the warm model has by itself: emissivity, draught and
    contact together."""

    def __post_init__(self) -> None:
        if not LEAST_FACTOR <= self.cooling_factor <= MOST_FACTOR:
            raise ValueError(f"a shop's cooling factor lies between {LEAST_FACTOR:g} and {MOST_FACTOR:g}")

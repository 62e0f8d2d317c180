"""What the trade calls the heats by their colour: one of several charts, whose names lie up to 200 K apart.

A name is a hint by eye and light, so it is shown with its range and never stands for a temperature.

References:
    .. [1] W. A. J. Chapman, Workshop Technology, Part 1, 5th ed., 1972, as quoted by others, ranges and names; the book
       itself was not at hand.
    .. [2] M. White and F. W. Taylor, Colors of heated steel corresponding to different degrees of temperature,
       Transactions of the ASME 21, 1899: temperatures as quoted by others, 566 for a 556 that is no whole number of
       degF in tens; the names are from memory.
    .. [3] Stirling Consolidated Boiler Co., A Book of Steam for Engineers, 1905, p. 50.
"""

from __future__ import annotations

from bisect import bisect
from enum import StrEnum
from itertools import pairwise
from typing import Final

from plans.record import record
from plans.units import Units, kelvin as to_kelvin

COLOUR_SPREAD: Final = 50.0
"""How far a heat judged by its colour on one chart may be off, either way, in a shop's light; from memory: a
temperature difference [K]."""
CHARTS_APART: Final = 200.0
"""How far two charts may have one name apart, as orange at 899 and deep orange at 1100 degC: a temperature difference
[K]."""
BLACK_HEAT: Final = "black heat"
"""What the trade calls steel that is too cold to glow."""


class HeatNames(StrEnum):
    """A chart of names; its value is how the setting calls it."""

    CHAPMAN = "chapman"
    """A textbook of the workshop, 1972, in ranges: cherry red 815 to 870 degC, orange from 982 [1]_."""
    TAYLOR = "taylor"
    """Measured at a steel works, 1899: cherry red 746 degC, orange 899 [2]_."""
    STIRLING = "stirling"
    """A book for boiler rooms, 1905: full cherry red 900 degC, deep orange 1100 [3]_."""

    @property
    def source(self) -> str:
        """Where the chart is from."""
        return _SOURCES[self]

    @property
    def basis(self) -> str:
        """What the chart stands on: "published", or "from memory" where its names are."""
        return "from memory" if self is HeatNames.TAYLOR else "published"


USUAL_NAMES: Final = HeatNames.CHAPMAN
"""The chart where none is set: it is the youngest, prints ranges, and has the names of today's textbooks."""


@record
class HeatName:
    """A heat by the name of its colour, with the range that the chart has it for."""

    name: str
    """The name: "orange"."""
    low: float | None
    """Where it begins [K]; None for black heat."""
    high: float | None
    """Where the next one begins [K]; None for the hottest."""

    def range_text(self, units: Units) -> str:
        """The range to the nearest five degrees, without the unit: "980-1095", "below 425", "from 1315"."""
        if self.low is None or self.high is None:
            return f"from {_fives(self.low, units)}" if self.high is None else f"below {_fives(self.high, units)}"
        return f"{_fives(self.low, units)}-{_fives(self.high, units)}"

    def text(self, units: Units) -> str:
        """The name with its range: "orange 980-1095"; "black heat" says enough by itself."""
        return self.name if self.low is None else f"{self.name} {self.range_text(units)}"


def heat_name(kelvin: float, names: HeatNames = USUAL_NAMES) -> HeatName:
    """What a chart calls the colour of hot steel.

    Args:
        kelvin: temperature of the skin [K]
        names: the chart
    """
    begins, called = _BEGINS[names], _CALLED[names]
    place = bisect(begins, kelvin)
    low = begins[place - 1] if place else None
    return HeatName(called[place], low, begins[place] if place < len(begins) else None)


def _fives(kelvin: float | None, units: Units) -> int:
    return 0 if kelvin is None else 5 * round(units.to_degrees(kelvin) / 5)


_CHAPMAN: Final = (
    (426, "black red"),
    (594, "very dark red"),
    (705, "dark red"),
    (815, "cherry red"),
    (871, "light cherry red"),
    (982, "orange"),
    (1093, "yellow"),
    (1259, "yellow white"),
    (1315, "white"),
)
"""Where each name begins [degC] [1]."""
_TAYLOR: Final = (
    (532, "black red"),
    (566, "blood red"),
    (635, "dark cherry red"),
    (677, "medium cherry red"),
    (746, "full cherry red"),
    (843, "light cherry red"),
    (899, "orange"),
    (941, "light orange"),
    (996, "yellow"),
    (1079, "light yellow"),
    (1205, "white"),
)
"""Names by temperature [degC] [2]."""
_STIRLING: Final = (
    (525, "just visible red"),
    (700, "dull red"),
    (800, "dull cherry red"),
    (900, "full cherry red"),
    (1000, "clear cherry red"),
    (1100, "deep orange"),
    (1200, "clear orange"),
    (1300, "white heat"),
    (1400, "bright white"),
    (1500, "dazzling white"),
)
"""Names by temperature [degC] [3]; the chart's 699 degC, rounded from degF, is its 700."""


def _halfway(points: tuple[tuple[int, str], ...]) -> list[float]:
    """Where each name of a chart of single temperatures begins: half way, and for the first as far below [K]."""
    at = [to_kelvin(celsius) for celsius, _ in points]
    halves = [(low + high) / 2 for low, high in pairwise(at)]
    return [2 * at[0] - halves[0], *halves]


_SOURCES: Final = {
    HeatNames.CHAPMAN: "Chapman, Workshop Technology, Part 1, 5th ed., 1972, as quoted by others",
    HeatNames.TAYLOR: "White and Taylor, Trans. ASME 21, 1899, as quoted by others; the names from memory",
    HeatNames.STIRLING: "Stirling Consolidated Boiler Co., A Book of Steam for Engineers, 1905, p. 50",
}
_BEGINS: Final = {
    HeatNames.CHAPMAN: [to_kelvin(celsius) for celsius, _ in _CHAPMAN],
    HeatNames.TAYLOR: _halfway(_TAYLOR),
    HeatNames.STIRLING: _halfway(_STIRLING),
}
_CALLED: Final = {
    names: (BLACK_HEAT, *(name for _, name in chart))
    for names, chart in zip(HeatNames, (_CHAPMAN, _TAYLOR, _STIRLING), strict=True)
}

"""The oxide colours that run over bright steel as it is tempered: a hint at its temperature, and no measure.

References:
    .. [1] W. H. Dooley, Applied Science for Metal Workers, 1919, table of tempering colours.
"""

from __future__ import annotations

from plans.record import record
from plans.units import ZERO_CELSIUS

SPREAD = 10.0
"""How far apart tables put one oxide colour, either way: a temperature difference [K]."""

NOTE = (
    "bright plain carbon steel free of oil, a few minutes at temperature; in a long hold each colour comes earlier, on "
    "alloyed steel later, and it tells of the skin only"
)
"""What the table of oxide colours holds for, in words."""
SOURCE = "W. H. Dooley, Applied Science for Metal Workers, 1919"
"""The book that the table of oxide colours is from, as a source is cited."""


@record
class OxideColour:
    """An oxide colour, and the temperature at which the table has it."""

    name: str
    """What the table calls the colour, e.g. "straw yellow"."""
    kelvin: float
    """Temperature of the temper that gives it [K]."""


def _fahrenheit(degrees: float) -> float:
    return (degrees - 32) * 5 / 9 + ZERO_CELSIUS


COLOURS = (
    OxideColour("very pale yellow", _fahrenheit(430)),
    OxideColour("straw yellow", _fahrenheit(460)),
    OxideColour("dark straw", _fahrenheit(480)),
    OxideColour("brownish yellow", _fahrenheit(500)),
    OxideColour("yellow tinged with purple", _fahrenheit(520)),
    OxideColour("light purple", _fahrenheit(530)),
    OxideColour("dark purple", _fahrenheit(550)),
    OxideColour("dark blue", _fahrenheit(570)),
    OxideColour("pale blue", _fahrenheit(610)),
    OxideColour("blue tinged with green", _fahrenheit(630)),
)
"""The oxide colours of the table, from the coldest up [1]_."""


def oxide_colour(kelvin: float) -> OxideColour | None:
    """The oxide colour that bright steel takes at a temperature: the nearest of the table.

    Args:
        kelvin: temperature of the temper [K]

    Returns:
        None more than `SPREAD` below or above the table, where steel is bright or grey.
    """
    if not COLOURS[0].kelvin - SPREAD <= kelvin <= COLOURS[-1].kelvin + SPREAD:
        return None
    return min(COLOURS, key=lambda colour: abs(colour.kelvin - kelvin))

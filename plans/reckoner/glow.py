"""The reckoning of the glow: what colour a heat is, how bright, and what the trade calls it."""

from __future__ import annotations

from plans.reckoned import Reckoned
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, given
from plans.reckoner.kinds import DIFFERENCE, LUMINANCE, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.units import in_both
from plans.warmth import (
    BLACKEST,
    CHARTS_APART,
    COLOUR_SPREAD,
    DULLEST,
    HOTTEST,
    USUAL_NAMES,
    HeatNames,
    heat_name,
    hue,
    luminance,
)

_COLORIMETRY = "Planck's law; CIE 1931 observer, ISO/CIE 11664-1; sRGB, IEC 61966-2-1"
_SPREAD = "by this chart; eyes differ by this much either way, by the light in the shop"


def reckon_glow(at: float, names: HeatNames = USUAL_NAMES) -> Reckoning:
    """The colour of steel at a temperature: its hue in sRGB, its luminance, and its name on a published chart.

    Args:
        at: temperature of the steel [K]
        names: the chart

    Raises:
        ReckonError: the temperature is not above absolute zero, or no fire is so hot.
    """
    if not 0 < at <= HOTTEST:
        raise ReckonError("at", f"{in_both(at)}: give a temperature above absolute zero and up to {in_both(HOTTEST)}")
    red, green, blue = hue(at)
    found = heat_name(at, names)
    black_body = "of a black body, which scaled steel is nearly"
    return Reckoning(
        "glow",
        (given("at_celsius", "at", at, TEMPERATURE),),
        (
            Fact(
                "name",
                "colour",
                found.name,
                lambda units: f"{found.name}, {found.range_text(units)} {units.degree}",
                names.basis,
                lambda units: (
                    "in a dim shop it looks brighter than by day; "
                    f"other charts have the name up to {units.difference(CHARTS_APART)} from here"
                ),
                names.source,
            ),
            Figure(
                "name_spread_kelvin",
                "right to",
                Reckoned(COLOUR_SPREAD, "from memory", f"{_SPREAD}; from memory", names.source),
                DIFFERENCE,
            ),
            Fact(
                "srgb",
                "hue",
                [red, green, blue],
                f"#{red:02x}{green:02x}{blue:02x}  {red} {green} {blue}",
                "modelled",
                lambda units: (
                    f"{black_body}; brightest channel at 255, what sRGB can't show is clipped; "
                    f"below {units.absolute(500.0)} that of {units.absolute(500.0)}"
                ),
                _COLORIMETRY,
            ),
            Figure(
                "luminance_cd_m2",
                "luminance",
                Reckoned(
                    luminance(at),
                    "modelled",
                    f"of a black body; scaled steel gives {DULLEST:g} to {BLACKEST:g} of it",
                    _COLORIMETRY,
                    DULLEST * luminance(at),
                    luminance(at),
                ),
                LUMINANCE,
            ),
        ),
    )

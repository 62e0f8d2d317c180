"""The reckoning of a weight: what a bar or a taper of steel weighs, cold or at a heat."""

from __future__ import annotations

from plans.drawing import STEELS, Drawing, cut_across, sides_of
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_bar
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import AREA, DENSITY, LENGTH, LINE_MASS, MASS, SHARE, TEMPERATURE, VOLUME
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Body, Section
from plans.steel import Grade, density_of, expansion
from plans.units import Units, kelvin

_COLD = kelvin(20)
_GEOMETRY = "plane and solid geometry, exact for every section"
_SIZES = "corners sharp and sizes as given, {when}; a rolled bar may be some per cent off them"
_NEAR_COLD = 1.0
"""How near to 20 degC a piece counts as cold: a temperature difference [K]."""


def reckon_weight(
    section: Section, length: float, grade: Grade | None = None, at: float = _COLD, end: Section | None = None
) -> Reckoning:
    """What a piece of steel weighs, and where it balances.

    Args:
        section: its cross-section
        length: its length [m]
        grade: of its steel; None for any carbon steel
        at: temperature at which it has these sizes [K]
        end: section that it tapers to over its length; None where it stays as it is

    Raises:
        ReckonError: the section, the length or the temperature is none that can be.
    """
    checks.bar(section, length)
    checks.warmth_of_steel("at", at)
    if end is not None:
        try:
            checks.bar(end, length)
        except ReckonError as error:
            raise ReckonError("taper-to", error.why) from None
    body, heavy, hot = Body(section, length, end), density_of(at, grade), abs(at - _COLD) > _NEAR_COLD
    sizes = _SIZES.format(when="measured hot" if hot else "cold")

    def times(factor: float) -> Reckoned:
        """The density times a volume, with its range."""
        return heavy.times(factor, lambda units: f"{units.text(heavy.validity)}; {sizes}")

    def exact(value: float) -> Reckoned:
        return Reckoned(value, "arithmetic", sizes, _GEOMETRY)

    return Reckoning(
        "weight",
        tuple(_asked(section, length, grade, at, end)),
        (
            Figure("mass_kg", "it weighs", times(body.volume), MASS),
            Figure("mass_per_metre_kg", "by its length", times(body.volume / length), LINE_MASS),
            Figure("volume_cm3", "volume", exact(body.volume), VOLUME),
            Figure("centre_mm", "balances along", exact(body.centre), LENGTH),
            Figure("area_mm2", "area of the section", exact(section.area), AREA),
            Figure("around_mm", "round the section", exact(section.around), LENGTH),
            Figure("density_kg_m3", "density", heavy, DENSITY),
            *((Figure("expansion_fraction", "longer than cold by", _longer(at, heavy), SHARE),) if hot else ()),
        ),
        drawing=_drawn(section, end),
    )


def _drawn(section: Section, end: Section | None) -> Drawing:
    """The bar cut across, and beside it where it tapers to."""
    parts, measures = [cut_across(section, STEELS[0])], [*sides_of(section)]
    if end is not None:
        beside = (1.2 * section.width + end.width / 2, 0.0)
        parts.append(cut_across(end, STEELS[1], beside, "its end"))
        measures += sides_of(end, beside)
    return Drawing("the bar cut across", tuple(parts), tuple(measures))


def _asked(section: Section, length: float, grade: Grade | None, at: float, end: Section | None) -> list[Given]:
    asked = [*of_the_bar(section, length)]
    if end is not None:
        asked.append(Given("taper_to", Units.METRIC.section(end), lambda units: f"tapers to {units.section(end)}"))
    if grade is not None:
        asked.append(Given("steel", grade.name, grade.name))
    return [*asked, given("at_celsius", "at", at, TEMPERATURE)]


def _longer(at: float, heavy: Reckoned) -> Reckoned:
    said = "what a piece that is measured hot will be shorter by when cold"
    return Reckoned(expansion(at), "published", said, heavy.source, outside=heavy.outside)

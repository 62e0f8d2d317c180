"""The reckonings of carbon: how deep a skin loses it, and how far it evens out between the layers of a billet."""

from __future__ import annotations

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.errors import ReckonError, blamed
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import DIFFUSIVITY, MASS_PERCENT, SECONDS, SHARE, TEMPERATURE, THIN
from plans.reckoner.reckoning import Reckoning
from plans.steel import (
    AUSTENITE,
    CARBON_FACTOR,
    carbon_difference_left,
    check_steel,
    decarb_depth,
    diffusivity,
    grinding_allowance,
    hold,
    spread_to_even_out,
)
from plans.units import Units

EVEN = 0.05
"""Share of their first difference in carbon below which layers count as evened out."""


def _asked(at: float, seconds: float) -> tuple[Given, ...]:
    checks.warmth_of_steel("at", at)
    checks.time("for", seconds)
    return given("at_celsius", "at", at, TEMPERATURE), given("for_seconds", "for", seconds, SECONDS)


def _content(carbon: float) -> Given:
    blamed("carbon", check_steel, 1.0, carbon)
    return given("carbon_percent", "carbon", carbon, MASS_PERCENT)


def of_the_share(share: float) -> Given:
    """Where the depth of decarb ends, as it was given: at the share of the core's carbon that is left there."""
    return Given("share", SHARE.record(share), f"to where {SHARE.text(share)} of the carbon is left")


def reckon_decarb(
    carbon: float, at: float, seconds: float, share: float = 0.95, thickness: float | None = None
) -> Reckoning:
    """How deep a skin loses its carbon in a time at one temperature, and what to grind away.

    Args:
        carbon: content of the steel [% by mass]
        at: temperature of the skin [K]
        seconds: time at that temperature [s]
        share: share of the core's carbon that is left at the depth asked for, between 0 and 1
        thickness: thickness of the piece, where it is thin [m]

    Raises:
        ReckonError: the carbon, temperature, time, share or thickness is none that can be.
    """
    content, times = _content(carbon), _asked(at, seconds)
    if carbon == 0:
        raise ReckonError("carbon", "0 %: iron without carbon has none to lose")
    if not 0 < share < 1:
        raise ReckonError("share", f"{share:g}: give the share of the core's carbon that is left, e.g. 0.95")
    if thickness is not None and not checks.THINNEST <= thickness <= checks.THICKEST:
        raise ReckonError("thickness", "give one from 0.1 mm to 1 m")
    history = hold(at, seconds)
    return Reckoning(
        "carbon",
        (content, *times, of_the_share(share)),
        (
            Figure("decarb_depth_mm", "decarb a face", decarb_depth(history, carbon, share, thickness), THIN),
            Figure("grinding_allowance_mm", "leave for grinding", _safe(history, carbon, share, thickness), THIN),
            *_diffusivities(at, carbon),
        ),
    )


def _safe(history: tuple[tuple[float, float], ...], carbon: float, share: float, thickness: float | None) -> Reckoned:
    """The most that the decarburized depth may be: what is safe to grind away."""
    depth = grinding_allowance(history, carbon, share, thickness)
    said = "each face: the decarb at its deepest, where an edge will be"
    return Reckoned(depth.most or depth.value, "modelled", said, depth.source, outside=depth.outside)


def _diffusivities(at: float, carbon: float | None) -> tuple[Figure, ...]:
    textbook = diffusivity(at)
    if carbon is None:
        return (Figure("diffusivity_m2_s", "diffusivity", textbook, DIFFUSIVITY),)
    return (
        Figure("diffusivity_m2_s", "diffusivity", diffusivity(at, carbon), DIFFUSIVITY),
        Figure("textbook_diffusivity_m2_s", "diffusivity, textbook", textbook, DIFFUSIVITY),
    )


def reckon_layers(layer: float, at: float, seconds: float, carbon: float | None = None) -> Reckoning:
    """How much of the difference in carbon between equal layers is left after a time at one temperature.

    By the textbook's diffusivity; with a mean carbon content by Agren's beside it, which suits blade steels better.

    Args:
        layer: thickness of one layer [m]
        at: temperature of the middle [K]
        seconds: time at that temperature [s]
        carbon: mean content of the stack [% by mass]; None where it is not known

    Raises:
        ReckonError: the layer, temperature, time or carbon is none that can be.
    """
    if not 1e-9 <= layer <= checks.THICKEST:
        raise ReckonError("layer", "give the thickness of one layer, above zero and up to 1 m")
    times = _asked(at, seconds)
    asked = [given("layer_mm", "layers of", layer, THIN), *times]
    if carbon is not None:
        asked.append(_content(carbon))
    found = [*_left("", layer, at, seconds, None)]
    if carbon is not None:
        found += _left("agren_", layer, at, seconds, carbon)
    return Reckoning("carbon", tuple(asked), (*found, *_diffusivities(at, carbon)))


def _left(prefix: str, layer: float, at: float, seconds: float, carbon: float | None) -> tuple[Figure, Figure]:
    """What is left of the difference, and when it would have evened out, by one diffusivity."""
    rate = diffusivity(at, carbon)
    by = ", its carbon" if prefix else ""
    when = None
    if at >= AUSTENITE:
        needed = spread_to_even_out(EVEN, layer) / rate.value

        def said(units: Units) -> str:
            left = f"until no more than {EVEN * 100:.0f} % of the difference is left"
            return f"{left}; {units.text(rate.validity)}"

        when = Reckoned(
            needed, "modelled", said, rate.source, needed / CARBON_FACTOR, needed * CARBON_FACTOR, rate.outside
        )
    return (
        Figure(
            f"{prefix}remaining_fraction",
            f"difference left{by}",
            carbon_difference_left([(hold(at, seconds), layer)], carbon),
            SHARE,
        ),
        Figure(f"{prefix}even_seconds", f"even after{by}", when, SECONDS, "never: colder than austenite"),
    )

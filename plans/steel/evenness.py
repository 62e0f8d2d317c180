"""How far carbon evens out between the layers of a billet, by diffusion.

References:
    .. [1] J. Crank, The Mathematics of Diffusion, 2nd ed., Clarendon Press 1975, sections 2.2 and 2.3.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import erfc, exp, inf, isfinite, log, pi, sqrt

from plans.reckoned import Reckoned
from plans.steel.carbon import CARBON_FACTOR, spread_over
from plans.steel.errors import SteelError
from plans.steel.history import History
from plans.units import Units

_SHORT = 0.15
"""D t / L^2 below which images are summed and above which waves are; both are exact here, and few terms do."""


def remaining_fraction(spread: float, layer: float) -> float:
    """Share of the difference in carbon that is left between the middles of neighbouring layers, from 1 down to 0.

    For many equal layers of two steels in turn, by the full series [1]_.

    Args:
        spread: integral of D dt [m2]
        layer: thickness of one layer [m]

    Raises:
        SteelError: the layer is not thicker than 0, or the spread is below 0.
    """
    time = _in_layers(spread, layer)
    if time == 0:
        return 1.0
    if time < _SHORT:
        # Method of images: an error function for each joint, seen from the middle of a layer.
        return 1 - 2 * sum(_sign(k) * erfc((2 * k + 1) / (4 * sqrt(time))) for k in range(4))
    return 4 / pi * sum(_sign(n) / (2 * n + 1) * exp(-(((2 * n + 1) * pi) ** 2) * time) for n in range(4))


def _sign(term: int) -> float:
    return -1.0 if term % 2 else 1.0


def _in_layers(spread: float, layer: float) -> float:
    if not 0 < layer < inf:
        raise SteelError(f"layers of {layer * 1000:g} mm: give a thickness above 0")
    if not (isfinite(spread) and spread >= 0):
        raise SteelError(f"integral of D dt of {spread:g} m2: give one from 0 up")
    return spread / layer**2


def spread_to_even_out(remaining: float, layer: float) -> float:
    """Integral of D dt until no more than `remaining` of the difference between layers is left [m2] [1]_.

    The inverse of `remaining_fraction`; divided by D it is a time.

    Args:
        remaining: share of the difference in carbon, between 0 and 1
        layer: thickness of one layer [m]

    Raises:
        SteelError: `remaining` is not between 0 and 1, or the layer is not thicker than 0.
    """
    if not 0 < remaining < 1:
        raise SteelError(f"a remaining share of {remaining:g}: give one between 0 and 1")
    _in_layers(0.0, layer)
    # The first wave alone is never lower than the series, so what it needs is enough; the answer lies below.
    low, high = 0.0, layer**2 * max(0.0, log(4 / pi / remaining)) / pi**2
    for _ in range(60):
        middle = (low + high) / 2
        if remaining_fraction(middle, layer) > remaining:
            low = middle
        else:
            high = middle
    return high


def carbon_difference_left(stages: Iterable[tuple[History, float]], carbon: float | None = None) -> Reckoned:
    """Share of the difference in carbon that is left between the layers of a stack in the end, from 1 down to 0 [1]_.

    Drawing a stack out makes its layers thinner, so a history comes in stages of one thickness each; what counts is the
    sum of D dt over the thickness squared. `least` and `most` are for a diffusivity that is `CARBON_FACTOR` times as
    large and as small, about as far as sources differ.

    Args:
        stages: times [s] and temperatures [K] of the middle, each with the thickness of one layer [m]
        carbon: mean content of the stack, for Agren's diffusivity [% by mass]; the textbook's constants without it

    Raises:
        SteelError: a layer is not thicker than 0, the carbon content is not from 0 to 2 %, or there is no stage.
    """
    spreads = []
    time = 0.0
    for history, layer in stages:
        spreads.append(spread_over(history, carbon))
        time += _in_layers(spreads[-1].value, layer)
    if not spreads:
        raise SteelError("no history: give at least one temperature with its time")

    def validity(units: Units) -> str:
        said = "for equal layers in turn and carbon only; nickel, manganese and chromium hardly move: the pattern stays"
        return "; ".join([said, *dict.fromkeys(units.text(spread.validity) for spread in spreads)])

    source = f"{Units.METRIC.text(spreads[0].source)}; series of Crank, The Mathematics of Diffusion"
    left, least, most = (remaining_fraction(time * times, 1.0) for times in (1.0, CARBON_FACTOR, 1 / CARBON_FACTOR))
    return Reckoned(left, "modelled", validity, source, least, most, any(spread.outside for spread in spreads))

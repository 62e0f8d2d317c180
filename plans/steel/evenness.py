"""How far carbon evens out between the layers of a billet.

References:
    .. [1] J. Crank, The Mathematics of Diffusion, 2nd ed., Clarendon Press 1975, sections 2.2 and 2.3.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import erfc, exp, inf, isfinite, log, pi, sqrt

from plans.reckoned import Reckoned
from plans.steel.carbon import FACTOR, check_steel, spread_over
from plans.steel.errors import SteelError
from plans.steel.history import History
from plans.units import Units

_SHORT = 0.15
"""Of D t / L^2; below it the images are summed, above it the waves; both are exact here, and few terms do."""


def remaining_fraction(spread: float, layer: float) -> float:
    """How much of the difference in carbon is left between the middles of neighbouring layers, from 1 down to 0.

    Equal layers of two steels in turn, many of them; full series [1]_.

    Args:
        spread: integral of D dt [m2]
        layer: thickness of one layer [m]

    Raises:
        SteelError: the layer has no thickness, or the spread is below 0.
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


def first_term(spread: float, layer: float) -> float:
    """The first wave of `remaining_fraction` alone: right within 1 % once less than 0.8 is left, too high before."""
    return 4 / pi * exp(-(pi**2) * _in_layers(spread, layer))


def _in_layers(spread: float, layer: float) -> float:
    if not 0 < layer < inf:
        raise SteelError(f"layers of {layer * 1000:g} mm: give a thickness above 0")
    if not (isfinite(spread) and spread >= 0):
        raise SteelError(f"integral of D dt of {spread:g} m2: give one from 0 up")
    return spread / layer**2


def spread_to_even_out(remaining: float, layer: float) -> float:
    """Integral of D dt until no more than `remaining` of the difference between layers is left [m2] [1]_.

    Raises:
        SteelError: `remaining` is not between 0 and 1, or the layer has no thickness.
    """
    if not 0 < remaining < 1:
        raise SteelError(f"a remaining share of {remaining:g}: give one between 0 and 1")
    _in_layers(0.0, layer)
    # The first term is never lower than the series, so what it needs is enough; the answer lies below.
    low, high = 0.0, layer**2 * max(0.0, log(4 / pi / remaining)) / pi**2
    for _ in range(60):
        middle = (low + high) / 2
        if remaining_fraction(middle, layer) > remaining:
            low = middle
        else:
            high = middle
    return high


def evenness(
    stages: Iterable[tuple[History, float]], carbon: float | None = None, longest_gap: float = inf
) -> Reckoned:
    """How much of the difference in carbon is left between layers in the end: `remaining_fraction`.

    Drawing a stack out makes its layers thinner, so a history comes in stages of one thickness each; what counts is the
    sum of D dt over the thickness squared. `least` and `most` are for a diffusivity twice as large and half as large,
    about as far as sources differ.

    Args:
        stages: times [s] and temperatures [K] of the middle, each with the thickness of one layer [m]
        carbon: mean content of the stack [% by mass]; the textbook's constants without it
        longest_gap: readings further apart than this have a gap between them [s]

    Raises:
        SteelError: a thickness or the carbon is impossible, or there is no stage.
    """
    spreads = []
    time = 0.0
    for history, layer in stages:
        spreads.append(spread_over(history, carbon, longest_gap))
        time += _in_layers(spreads[-1].value, layer)
    if not spreads:
        raise SteelError("no history: give at least one temperature with its time")
    notes = dict.fromkeys(Units.METRIC.text(spread.validity) for spread in spreads)
    validity = (
        "for equal layers in turn and carbon only; nickel, manganese and chromium hardly move, so the pattern stays; "
        + "; ".join(notes)
    )
    source = f"{spreads[0].source}; series of Crank, The Mathematics of Diffusion"
    left, least, most = (remaining_fraction(time * times, 1.0) for times in (1.0, FACTOR, 1 / FACTOR))
    return Reckoned(left, "modelled", validity, source, least, most, any(spread.outside for spread in spreads))


def mean_carbon(layers: Sequence[tuple[float, float]]) -> float:
    """Carbon content of a laminate once it is even [% by mass].

    Args:
        layers: thickness or number [any unit], and carbon content [% by mass], of each layer or kind of layer

    Raises:
        SteelError: there is no layer, or one with a thickness not above 0 or an impossible content.
    """
    for thickness, carbon in layers:
        check_steel(1.0, carbon)
        if not 0 < thickness < inf:
            raise SteelError(f"a layer of {thickness:g}: give a thickness above 0")
    total = sum(thickness for thickness, _ in layers)
    if not total:
        raise SteelError("no layers: give the thickness and the carbon content of each")
    return sum(thickness * carbon for thickness, carbon in layers) / total

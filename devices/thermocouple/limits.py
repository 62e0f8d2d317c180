"""What a thermocouple may be off when new, and how hot a wire may get.

References:
    .. [1] IEC 60584-1:2013, tolerances (formerly IEC 60584-2).
    .. [2] ASTM E230, recommended upper temperature limits for protected thermocouples, 8 to 28 AWG, as catalogues of
       makers of thermocouples print them (Watlow, Sensor and Controller Catalog; Convectronics for type B).
"""

from __future__ import annotations

from collections.abc import Callable

from devices.errors import DeviceError
from devices.thermocouple.functions import Kind, Range, where
from plans.reckoned import Reckoned
from plans.record import record
from plans.units import ZERO_CELSIUS, Units, both, exactly_in_both


@record
class _Class:
    low: float
    high: float
    off: Callable[[float], float]
    """How far off at a temperature in degC, from `low` to `high` [degC]."""


def _share(least: float, share: float, low: float, high: float) -> _Class:
    return _Class(low, high, lambda celsius: max(least, share * abs(celsius)))


_NOBLE = {
    1: _Class(0, 1600, lambda celsius: 1.0 + 0.003 * max(0.0, celsius - 1100)),
    2: _share(1.5, 0.0025, 0, 1600),
}
_CLASSES = {
    Kind.K: {1: _share(1.5, 0.004, -40, 1000), 2: _share(2.5, 0.0075, -40, 1200)},
    Kind.N: {1: _share(1.5, 0.004, -40, 1000), 2: _share(2.5, 0.0075, -40, 1200)},
    Kind.S: _NOBLE,
    Kind.R: _NOBLE,
    Kind.B: {2: _share(0.0, 0.0025, 600, 1700)},
    Kind.J: {1: _share(1.5, 0.004, -40, 750), 2: _share(2.5, 0.0075, -40, 750)},
}


def tolerance(kind: Kind, tolerance_class: int, kelvin: float) -> Reckoned:
    """How far a new thermocouple may be off, either way: a temperature difference [K] [1]_.

    Args:
        kind: its type
        tolerance_class: 1 or 2
        kelvin: temperature of its warm end [K]

    Raises:
        DeviceError: the standard has no such class for the type, or none at this temperature; the text says where.

    References:
        .. [1] IEC 60584-1:2013, tolerances (formerly IEC 60584-2).
    """
    celsius = kelvin - ZERO_CELSIUS
    found = _CLASSES[kind].get(tolerance_class)
    if found is None:
        known = " or ".join(map(str, _CLASSES[kind]))
        raise DeviceError(where(kind), f"no tolerance class {tolerance_class} is known", f"Choose class {known}.")
    held = Range(found.low + ZERO_CELSIUS, found.high + ZERO_CELSIUS)
    if kelvin not in held:
        what = f"class {tolerance_class} says nothing about {exactly_in_both(kelvin)}, only about {held}"
        raise DeviceError(where(kind), what, "Choose another class or type.")
    source = f"IEC 60584-1:2013, tolerance class {tolerance_class}"

    def validity(units: Units) -> str:
        return f"for new wire, from {held.text(units)}; after long in the fire it drifts further"

    if kind is Kind.J:
        return Reckoned(found.off(celsius), "from memory", validity, f"{source}, from memory")
    return Reckoned(found.off(celsius), "published", validity, source)


# Thinnest diameter for which a limit holds [m], and the limit [degC], thickest first: 8, 14, 20, 24 and 28 AWG. The
# standard's own limits are in degF; these are rounded as they are usually printed.
_BASE_METAL = ((3.25e-3, 1260.0), (1.6e-3, 1093.0), (0.8e-3, 982.0), (0.51e-3, 870.0), (0.32e-3, 870.0))
_NOBLE_METAL = ((0.5e-3, 1480.0),)
_WIRES = {
    Kind.K: _BASE_METAL,
    Kind.N: _BASE_METAL,
    Kind.S: _NOBLE_METAL,
    Kind.R: _NOBLE_METAL,
    Kind.B: ((0.5e-3, 1700.0),),
    Kind.J: ((3.25e-3, 760.0), (1.6e-3, 593.0), (0.8e-3, 482.0), (0.51e-3, 370.0), (0.32e-3, 370.0)),
}
_E230 = "ASTM E230, upper limits for protected thermocouples, as catalogues of makers print them"
_SLACK = 0.03
"""A wire sold by gauge may be a little thinner than its name, as a share."""


def wire_limit(kind: Kind, diameter: float) -> Reckoned:
    """How hot a thermocouple's wire in a closed tube may be kept for long [K] [2]_.

    Between two sizes of the standard the thinner one's limit holds.

    Args:
        kind: type of the thermocouple
        diameter: of one wire, not of the tube [m]

    Raises:
        DeviceError: the wire is thinner than the thinnest that is known here; the text says which that is.

    References:
        .. [2] ASTM E230, recommended upper temperature limits for protected thermocouples.
    """
    sizes = _WIRES[kind]
    for size, celsius in sizes:
        if diameter >= size * (1 - _SLACK):

            def validity(units: Units, size: float = size) -> str:
                return (
                    f"for {units.wire(size)} wire in a closed tube or sheath, within {units.difference(10.0)}; "
                    "bare wire in a fire lasts less, and a thinner wire drifts sooner"
                )

            return Reckoned(celsius + ZERO_CELSIUS, "published", validity, _E230)
    thinnest = sizes[-1][0]
    what = (
        f"no limit is known for wire of {both(lambda units: units.wire(diameter))}, "
        f"only from {both(lambda units: units.wire(thinnest))}"
    )
    raise DeviceError(where(kind), what, "Give the diameter of one wire, or use a thicker one.")


def wire_limits(kind: Kind) -> tuple[tuple[float, Reckoned], ...]:
    """How hot each wire of a type may be kept for long, for every size that the standard lists, thickest first [2]_.

    Returns:
        pairs of a wire's diameter [m] and its limit [K]

    References:
        .. [2] ASTM E230, recommended upper temperature limits for protected thermocouples.
    """
    return tuple((size, wire_limit(kind, size)) for size, _ in _WIRES[kind])

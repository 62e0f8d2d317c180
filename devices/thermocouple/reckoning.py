"""What a thermocouple's millivolts mean, or what it gives at a temperature, as an answer of the reckoner."""

from __future__ import annotations

from typing import Any

from devices.errors import DeviceError
from devices.thermocouple.functions import Kind, emf, reference_range
from devices.thermocouple.inversion import inverse_range, temperature
from devices.thermocouple.limits import tolerance, wire_limits
from plans.reckoned import Reckoned
from plans.reckoner import (
    DIFFERENCE,
    FINE_TEMPERATURE,
    LENGTH,
    MILLIVOLTS,
    TEMPERATURE,
    Fact,
    Figure,
    Given,
    ReckonError,
    Reckoning,
    given,
)
from plans.units import ZERO_CELSIUS, Units, celsius, exactly_in_both

_CLASSES = (1, 2)


def _functions(units: Units) -> str:
    """The source of every figure here, and how well it was turned round."""
    close = DIFFERENCE.text(0.001, units)
    return f"ITS-90 reference functions, NIST Monograph 175 (1993) = IEC 60584-1; turned round to below {close}"


def thermocouple(
    kind: Kind, volts: float | None = None, at: float | None = None, cold_junction: float = ZERO_CELSIUS
) -> Reckoning:
    """Temperature from what is measured at a thermocouple's ends, or what is measured there at a temperature.

    With it come the tolerances of new wire at that temperature and how hot the type's wires may be kept.

    Args:
        kind: type of the thermocouple
        volts: what is measured [V]
        at: temperature of the warm end, in place of `volts` [K]
        cold_junction: temperature of the wires' ends [K]

    Raises:
        ReckonError: both or neither of `volts` and `at` are given, or one is outside the type's range.
    """
    if (volts is None) == (at is None):
        raise ReckonError(
            "mv", "give either the millivolts, e.g. 41.276, or the temperature of the warm end (at), and not both"
        )
    kelvin = at if at is not None else _warm_end(kind, volts or 0.0, cold_junction)
    if at is None:
        asked = given("millivolts", "measured", volts or 0.0, MILLIVOLTS)
        answer = Figure("celsius", "warm end", _with_tolerance(kind, kelvin), FINE_TEMPERATURE)
    else:
        asked = given("at_celsius", "warm end", at, TEMPERATURE)
        answer = Figure("millivolts", "measured", _emf(kind, at, cold_junction), MILLIVOLTS)
    return Reckoning(
        "thermocouple",
        (
            Given("type", kind.value, f"type {kind}"),
            asked,
            given("cold_junction_celsius", "cold junction", cold_junction, TEMPERATURE),
        ),
        (answer, *(_tolerance(kind, number, kelvin) for number in _CLASSES), _wires(kind, kelvin)),
    )


def _warm_end(kind: Kind, volts: float, cold_junction: float) -> float:
    _cold_emf(kind, cold_junction)
    try:
        return temperature(kind, volts, cold_junction)
    except DeviceError as error:
        raise ReckonError("mv", f"{error.what}. {error.do}") from None


def _cold_emf(kind: Kind, cold_junction: float) -> None:
    """A `ReckonError` unless a cold junction can be so warm."""
    if cold_junction not in reference_range(kind):
        known = reference_range(kind)
        what = f"{exactly_in_both(cold_junction)}: give the temperature where its wires end"
        raise ReckonError("cold-junction", f"{what}, from {known}")


def _emf(kind: Kind, at: float, cold_junction: float) -> Reckoned:
    _cold_emf(kind, cold_junction)
    try:
        volts = emf(kind, at, cold_junction)
    except DeviceError as error:
        raise ReckonError("at", f"{error.what}. {error.do}") from None
    held = reference_range(kind)
    return Reckoned(
        volts, "published", lambda units: f"from {held.text(units)}; the cold junction goes off as emf", _functions
    )


def _with_tolerance(kind: Kind, kelvin: float) -> Reckoned:
    """The temperature, give or take what new wire of class 2 may be off."""
    held = inverse_range(kind)
    try:
        off = tolerance(kind, 2, kelvin).value
    except DeviceError:
        off = None

    def validity(units: Units) -> str:
        said = f"from {held.text(units)}; the cold junction is added as emf"
        return said if off is None else f"{said}; the range is that of new wire of class 2"

    if off is None:
        return Reckoned(kelvin, "published", validity, _functions)
    return Reckoned(kelvin, "published", validity, _functions, kelvin - off, kelvin + off)


def _tolerance(kind: Kind, number: int, kelvin: float) -> Figure:
    key, label = f"tolerance_class_{number}_kelvin", f"class {number}, either way"
    try:
        return Figure(key, label, tolerance(kind, number, kelvin), DIFFERENCE)
    except DeviceError:
        return Figure(
            key, label, None, DIFFERENCE, lambda units: f"none for type {kind} at {units.temperature(kelvin)}"
        )


def _wires(kind: Kind, kelvin: float) -> Fact:
    """How hot each wire of this type may get."""
    known = wire_limits(kind)
    kept: list[dict[str, Any]] = [
        {"wire_mm": LENGTH.record(size), "celsius": round(celsius(limit.value))} for size, limit in known
    ]

    def text(units: Units) -> str:
        return ", ".join(f"{units.temperature(limit.value)} for {units.wire(size)}" for size, limit in known)

    first = known[0][1]

    def validity(units: Units) -> str:
        said = (
            f"diameter of one wire, in a closed tube, within {units.difference(10.0)}; bare wire in a fire lasts less"
        )
        return said if kelvin <= first.value else f"at {units.temperature(kelvin)} none of them lasts; {said}"

    return Fact("wire_limits", "wire lasts to", kept, text, "published", validity, Units.METRIC.text(first.source))

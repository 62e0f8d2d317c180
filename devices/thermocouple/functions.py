"""The reference functions of ITS-90: emf over temperature for types K, N, S, R, B and J, reference junction at 0 degC.

Each piece is a polynomial in degC that gives millivolts; type K above 0 degC has an exponential term on top.

References:
    .. [1] Burns, Scroger, Strouse, Croarkin, Guthrie, NIST Monograph 175, 1993; the same in IEC 60584-1.
"""

from __future__ import annotations

from bisect import bisect_left
from enum import StrEnum
from math import exp

from devices.errors import DeviceError
from plans.record import record
from plans.units import ZERO_CELSIUS, Units, both, exactly_in_both


class Kind(StrEnum):
    """Type of a thermocouple, by its letter."""

    K = "K"
    """Nickel with chromium against nickel with aluminium."""
    N = "N"
    """Nickel with chromium and silicon against nickel with silicon."""
    S = "S"
    """Platinum with 10 % of rhodium against platinum."""
    R = "R"
    """Platinum with 13 % of rhodium against platinum."""
    B = "B"
    """Platinum with 30 % of rhodium against platinum with 6 %; next to nothing comes from it below 250 degC."""
    J = "J"
    """Iron against copper with nickel."""


@record
class _Piece:
    upto: float
    """Where the next piece begins, or the function ends [degC]."""
    terms: tuple[float, ...]
    """From the constant upwards [mV/degC^n]."""
    bump: tuple[float, float, float] | None = None
    """a0, a1 and a2 of a0 exp(a1 (t - a2)^2)."""


_COLDEST = {Kind.K: -270.0, Kind.N: -270.0, Kind.S: -50.0, Kind.R: -50.0, Kind.B: 0.0, Kind.J: -210.0}
"""Where each function begins [degC]."""

# fmt: off
_PIECES = {
    Kind.K: (
        _Piece(0.0, (
            0.0, 0.039450128025, 2.3622373598e-05, -3.2858906784e-07, -4.9904828777e-09, -6.7509059173e-11,
            -5.7410327428e-13, -3.1088872894e-15, -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23,
        )),
        _Piece(1372.0, (
            -0.017600413686, 0.038921204975, 1.8558770032e-05, -9.9457592874e-08, 3.1840945719e-10, -5.6072844889e-13,
            5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26,
        ), (0.1185976, -0.0001183432, 126.9686)),
    ),
    Kind.N: (
        _Piece(0.0, (
            0.0, 0.026159105962, 1.0957484228e-05, -9.3841111554e-08, -4.6412039759e-11, -2.6303357716e-12,
            -2.2653438003e-14, -7.6089300791e-17, -9.3419667835e-20,
        )),
        _Piece(1300.0, (
            0.0, 0.025929394601, 1.571014188e-05, 4.3825627237e-08, -2.5261169794e-10, 6.4311819339e-13,
            -1.0063471519e-15, 9.9745338992e-19, -6.0863245607e-22, 2.0849229339e-25, -3.0682196151e-29,
        )),
    ),
    Kind.S: (
        _Piece(1064.18, (
            0.0, 0.00540313308631, 1.2593428974e-05, -2.32477968689e-08, 3.22028823036e-11, -3.31465196389e-14,
            2.55744251786e-17, -1.25068871393e-20, 2.71443176145e-24,
        )),
        _Piece(1664.5, (
            1.32900444085, 0.00334509311344, 6.54805192818e-06, -1.64856259209e-09, 1.29989605174e-14,
        )),
        _Piece(1768.1, (
            146.628232636, -0.258430516752, 0.000163693574641, -3.30439046987e-08, -9.43223690612e-15,
        )),
    ),
    Kind.R: (
        _Piece(1064.18, (
            0.0, 0.00528961729765, 1.39166589782e-05, -2.38855693017e-08, 3.56916001063e-11, -4.62347666298e-14,
            5.00777441034e-17, -3.73105886191e-20, 1.57716482367e-23, -2.81038625251e-27,
        )),
        _Piece(1664.5, (
            2.95157925316, -0.00252061251332, 1.59564501865e-05, -7.64085947576e-09, 2.05305291024e-12,
            -2.93359668173e-16,
        )),
        _Piece(1768.1, (
            152.232118209, -0.268819888545, 0.000171280280471, -3.45895706453e-08, -9.34633971046e-15,
        )),
    ),
    Kind.B: (
        _Piece(630.615, (
            0.0, -0.00024650818346, 5.9040421171e-06, -1.3257931636e-09, 1.5668291901e-12, -1.694452924e-15,
            6.2990347094e-19,
        )),
        _Piece(1820.0, (
            -3.8938168621, 0.02857174747, -8.4885104785e-05, 1.5785280164e-07, -1.6835344864e-10, 1.1109794013e-13,
            -4.4515431033e-17, 9.8975640821e-21, -9.3791330289e-25,
        )),
    ),
    Kind.J: (
        _Piece(760.0, (
            0.0, 0.050381187815, 3.047583693e-05, -8.568106572e-08, 1.3228195295e-10, -1.7052958337e-13,
            2.0948090697e-16, -1.2538395336e-19, 1.5631725697e-23,
        )),
        _Piece(1200.0, (
            296.45625681, -1.4976127786, 0.0031787103924, -3.1847686701e-06, 1.5720819004e-09, -3.0691369056e-13,
        )),
    ),
}
# fmt: on

_ENDS = {kind: [piece.upto for piece in pieces[:-1]] for kind, pieces in _PIECES.items()}


_ROUNDING = 1e-9
"""How far beyond an end of its range a temperature may lie by rounding alone [K]."""


@record
class Range:
    """A range of temperatures, both ends included; `in` asks whether a temperature [K] lies in it."""

    lowest: float
    """The coldest temperature of the range [K]."""
    highest: float
    """The hottest temperature of the range [K]."""

    def __contains__(self, kelvin: float) -> bool:
        # What comes out of degC by way of kelvin may lie a rounding beyond an end.
        return self.lowest - _ROUNDING <= kelvin <= self.highest + _ROUNDING

    def text(self, units: Units) -> str:
        """The range in the units that are set: "-270 to 1372 degC"."""
        return f"{units.to_degrees(self.lowest):g} to {units.exact_temperature(self.highest)}"

    def __str__(self) -> str:
        return both(self.text)


def reference_range(kind: Kind) -> Range:
    """The temperatures for which the standard has a reference function of this type [1]_.

    References:
        .. [1] NIST Monograph 175, 1993; the same in IEC 60584-1.
    """
    return Range(_COLDEST[kind] + ZERO_CELSIUS, _PIECES[kind][-1].upto + ZERO_CELSIUS)


def millivolts_and_slope(kind: Kind, celsius: float) -> tuple[float, float]:
    """What a thermocouple gives at a temperature, and how much more a degree above it.

    Args:
        kind: its type
        celsius: temperature of the warm end, within the type's reference range [degC]

    Returns:
        emf against a cold junction at 0 degC [mV], and the Seebeck coefficient [mV/degC]
    """
    piece = _PIECES[kind][bisect_left(_ENDS[kind], celsius)]
    emf = slope = 0.0
    for term in reversed(piece.terms):
        slope = slope * celsius + emf
        emf = emf * celsius + term
    if piece.bump is not None:
        height, width, middle = piece.bump
        bump = height * exp(width * (celsius - middle) ** 2)
        emf += bump
        slope += bump * 2 * width * (celsius - middle)
    return emf, slope


def where(kind: Kind) -> str:
    """How an error names a thermocouple of this type, as "type K thermocouple"."""
    return f"type {kind} thermocouple"


def _raw(kind: Kind, kelvin: float, what: str, do: str) -> float:
    known = reference_range(kind)
    if kelvin not in known:
        raise DeviceError(where(kind), f"{what} of {exactly_in_both(kelvin)} is out of its range, {known}", do)
    return millivolts_and_slope(kind, kelvin - ZERO_CELSIUS)[0]


def cold_millivolts(kind: Kind, cold_junction: float) -> float:
    """Emf of a cold junction against 0 degC.

    Args:
        kind: type of the thermocouple
        cold_junction: temperature where its wires end [K]

    Returns:
        the emf, which a meter does not see and which is added to what it reads [mV]

    Raises:
        DeviceError: the cold junction is outside the reference function; the text says its range.
    """
    return _raw(kind, cold_junction, "a cold junction", "Give the temperature where its wires end.")


def emf(kind: Kind, kelvin: float, cold_junction: float = ZERO_CELSIUS) -> float:
    """What a thermocouple gives between its warm end and its cold junction [V].

    Args:
        kind: its type
        kelvin: temperature of the warm end [K]
        cold_junction: temperature where its wires end [K]

    Raises:
        DeviceError: one of the temperatures is outside the reference function; the text says its range.

    References:
        .. [1] NIST Monograph 175, 1993; the same in IEC 60584-1. Emfs are taken from one another, never temperatures.
    """
    warm = _raw(kind, kelvin, "a temperature", "Choose a type that reaches it.")
    return (warm - cold_millivolts(kind, cold_junction)) / 1000


def kind_of(letter: str) -> Kind:
    """The type of thermocouple that a letter names, small or large, blanks around it or not.

    Raises:
        DeviceError: no type of that letter is known here; the text names those that are.
    """
    try:
        return Kind(letter.strip().upper())
    except ValueError:
        known = ", ".join(Kind)
        shown = letter.strip()[:10]
        raise DeviceError("thermocouple", f"no type {shown!r} is known", f"Choose one of {known}.") from None

"""The table of the calls to the smith: a row each, so that a new call is declared in one place."""

from __future__ import annotations

from enum import StrEnum
from typing import Self

from plans.sitting.call_row import CallRow, Role, Shape
from plans.sitting.saying import Kind


class Call(StrEnum):
    """What is called out to the smith."""

    row: CallRow
    """What is known of this call."""
    _value_: str

    def __new__(cls, name: str, row: CallRow | None = None) -> Self:
        """A call by the name that screens show and logs write, with its row."""
        assert row is not None, "only a member is made here; looking one up by its name is not"
        call = str.__new__(cls, name)
        call._value_ = name
        call.row = row
        return call

    @classmethod
    def _missing_(cls, value: object) -> Call | None:
        """A call by the name that earlier versions wrote."""
        return cls.ARREST if value == "arrest seen" else None

    SOAK_DONE = (
        "soak done",
        CallRow(
            Role.PROMPT,
            advice="take it out",
            spoken="soak done, take it out",
            kind=Kind.NOW,
            bell=(0.0, 0.5),
            sign="♦",
            shape=Shape.DIAMOND,
            marks=("▄▄▄▄▄▄ ▀█▀ ", "====== \\/ "),
        ),
    )
    """The work is warm through, or its set time is over."""
    TOO_COLD = (
        "too cold",
        CallRow(
            Role.ALARM,
            advice="stop striking, back in the fire",
            spoken="back in the fire, too cold",
            kind=Kind.LIMIT,
            bell=(0.0, 0.2, 0.4),
            sign="▼",
            shape=Shape.DOWN,
            marks=("▀▀▀▀▀ ▄▄▄▄▄   ", "----- _____   "),
            rank=5,
            eased="warm enough again",
        ),
    )
    """The skin fell below the cold limit while it was struck."""
    TOO_HOT = (
        "too hot",
        CallRow(
            Role.ALARM,
            advice="out of the fire, it may burn",
            spoken="too hot, out of the fire",
            kind=Kind.LIMIT,
            bell=(0.0, 0.2, 0.4, 0.6, 0.8),
            sign="▲",
            shape=Shape.UP,
            marks=("▄█", "/^"),
            rank=7,
            eased="no longer too hot",
        ),
    )
    """The skin rose above the burn limit in the fire."""
    OVER_HEAT = (
        "too hot for this heat",
        CallRow(
            Role.ALARM,
            advice="turn the fire down, or take it out",
            spoken="too hot for this heat",
            kind=Kind.LIMIT,
            bell=(0.0, 0.2, 0.4, 1.2),
            sign="▲",
            shape=Shape.UP,
            marks=("▄█▄█ ", "/^^ "),
            rank=6,
            eased="down to its heat again",
        ),
    )
    """The skin rose above what a heat treatment may have, while it can still be put right."""
    FIRE_COLD = (
        "fire too cold",
        CallRow(
            Role.SPELL,
            advice="it can't bring the work to its heat: turn it up, or take the work out meanwhile",
            spoken="the fire is too cold for this heat",
            kind=Kind.FIRE,
            bell=(0.0, 0.6),
            sign="▼",
            shape=Shape.DOWN,
            marks=("▄▄  ▀▀  ", "/   v   "),
            eased="the fire is hot enough",
        ),
    )
    """The fire, as a probe in it has it, is below what this heat is to bring the work to."""
    FLUX_NOW = (
        "flux now",
        CallRow(
            Role.PROMPT,
            advice="out, brush and flux, straight back",
            spoken="flux now",
            kind=Kind.NOW,
            bell=(0.0, 0.3, 0.6),
            sign="♦",
            shape=Shape.DIAMOND,
            marks=("▄█▄ ▀ ▄ ", "/\\ : . "),
        ),
    )
    """The skin is as hot as the plan wants it for the flux."""
    SOAKED_TOO_LONG = (
        "soaked too long",
        CallRow(
            Role.ALARM,
            advice="out of the fire",
            spoken="soaked too long, take it out",
            kind=Kind.LIMIT,
            bell=(0.0, 0.2, 0.9, 1.1),
            sign="!",
            shape=Shape.SQUARE,
            marks=("▄▄▄▄▄▄██", "======##"),
            rank=4,
        ),
    )
    """The work lies in the fire longer than is good for it."""
    TIME_UP = (
        "time up",
        CallRow(
            Role.PROMPT,
            advice="go on",
            spoken="time is up",
            kind=Kind.NOW,
            bell=(0.0, 0.7),
            sign="♦",
            shape=Shape.DIAMOND,
            marks=("█ ▄ ▄ ▄ ", "| . . . "),
        ),
    )
    """A set time is over."""
    COLD_ENOUGH = (
        "cold enough",
        CallRow(
            Role.PROMPT,
            advice="go on",
            spoken="cold enough",
            kind=Kind.NOW,
            bell=(0.0, 0.7, 1.4),
            sign="♦",
            shape=Shape.DIAMOND,
            marks=("▀▀▀   ███   ", "'''   |||   "),
        ),
    )
    """The temperature that an air phase waits for has come."""
    PROBE_LOST = (
        "probe lost",
        CallRow(
            Role.STATE,
            advice="going by the warm model",
            spoken="probe lost, going by the model",
            kind=Kind.PROBE,
            bell=(0.0, 1.0),
            sign="?",
            shape=Shape.CROSS,
            marks=("▄▄▄▄   ▀   ", "----   ?   "),
            rank=1,
        ),
    )
    """The probe is silent, or says that it is lost."""
    PROBE_BACK = (
        "probe back",
        CallRow(
            Role.PASSING,
            advice="going by the probe again",
            spoken="probe back",
            kind=Kind.PROBE,
            bell=(0.0, 1.0, 1.5),
            sign="+",
            shape=Shape.PLUS,
            marks=("▄▄▄▄███", "----+++"),
        ),
    )
    """The probe that was lost is believed again."""
    AT_HEAT = (
        "at heat",
        CallRow(
            Role.PROMPT,
            advice="say when you go on",
            spoken="at heat",
            kind=Kind.NOW,
            bell=(0.0, 0.3),
            sign="♦",
            shape=Shape.DIAMOND,
            marks=("▄█▄ ▄█▄ █████ ", "/\\ /\\ ##### "),
        ),
    )
    """The skin is at heat, and only the smith may begin what follows."""
    ARREST = (
        "possible arrest",
        CallRow(
            Role.PASSING,
            advice="a draught can look like it",
            spoken="possible arrest",
            kind=Kind.SEEN,
            bell=(0.0, 0.15),
            sign="≈",
            shape=Shape.WAVE,
            marks=("▀▀▀▄▄▄▄▄▄▀▀▀", "\\------\\   "),
        ),
    )
    """The fall paused as it does when the steel transforms; a draught can look like it."""
    LOOKED = (
        "looked at or fluxed",
        CallRow(
            Role.SPELL,
            advice="the same heat goes on; out ends it",
            spoken="looked at, the same heat goes on",
            kind=Kind.SEEN,
            bell=(0.0, 0.15, 0.6),
            sign="↓",
            shape=Shape.ARROW,
            marks=("▄▄▀▀▄▄ █ ", "__''__ | "),
            eased="back in the fire",
        ),
    )
    """The work came out of the fire for a look or for flux, as the smith said or as the probe felt below its heat."""
    GOES_ON = (
        "back in before the arrest",
        CallRow(
            Role.PASSING,
            advice="the same cycle goes on",
            spoken="back in before the arrest",
            kind=Kind.SEEN,
            bell=(0.0, 0.15, 0.6, 0.75),
            sign="↑",
            shape=Shape.UP,
            marks=("▄▀▄▀ ▄▄ ", "/\\/\\ ^^ "),
        ),
    )
    """The work went back in before it transformed, and before what its air phase waits for: that was no cycle."""
    AWAITS_WORD = (
        "waits for your word",
        CallRow(
            Role.PASSING,
            advice="this step hears no fire; say next when it is done",
            spoken="waiting for your word",
            kind=Kind.SEEN,
            bell=(0.0, 0.3, 1.3),
            sign="?",
            shape=Shape.CROSS,
            marks=("█▀█   ▄   ", "[?]   .   "),
        ),
    )
    """The work was heard going into a fire, and the step that goes on has none left: only a word ends it."""
    PROBE_SLOW = (
        "probe too slow",
        CallRow(
            Role.SPELL,
            advice="hammer time goes by the warm model",
            spoken="this probe is too slow for hammer time, going by the model",
            kind=Kind.PROBE,
            bell=(0.0, 1.0, 2.0),
            sign="?",
            shape=Shape.CROSS,
            marks=("▄ ▄ ▄ ▄▄▄▄▄", ". . . -----"),
        ),
    )
    """The probe lags, or speaks seldom, for so long that the work would be cold before it said so."""
    FIRE_FELL = (
        "fire fell",
        CallRow(
            Role.PASSING,
            advice="its door was opened, or work went in",
            spoken="the fire fell",
            kind=Kind.SEEN,
            bell=(0.0, 0.15, 1.0, 1.15),
            sign="↓",
            shape=Shape.ARROW,
            marks=("▄█▄ ▀ ▀ ", "/\\ v v "),
        ),
    )
    """The fire's temperature fell: its door was opened, or work went in."""
    PEAK_MISSED = (
        "peak missed",
        CallRow(
            Role.PASSING,
            advice="this heat was not what the plan wants",
            spoken="that heat missed its temperature",
            kind=Kind.MISSED,
            bell=(0.0, 0.2, 1.0),
            sign="!",
            shape=Shape.SQUARE,
            marks=("▄█▄   ▀▀▀   ", "/\\   ---   "),
        ),
    )
    """The heat of a normalizing, an annealing or a hardening stayed under its target or went too far over it."""
    SOAK_SHORT = (
        "soak cut short",
        CallRow(
            Role.PASSING,
            advice="that was less than the plan wants",
            spoken="soak cut short",
            kind=Kind.MISSED,
            bell=(0.0, 0.2, 1.0, 1.2),
            sign="!",
            shape=Shape.SQUARE,
            marks=("▄▄▄▄▄▄▀▀▀", "======---"),
        ),
    )
    """The work came out before its soak was done."""
    HOLD_SHORT = (
        "hold cut short",
        CallRow(
            Role.PASSING,
            advice="this was not as long as the plan wants",
            spoken="cut short",
            kind=Kind.MISSED,
            bell=(0.0, 0.2, 1.0, 1.6),
            sign="!",
            shape=Shape.SQUARE,
            marks=("█ ▄   ▀▀▀   ", "| .   ---   "),
        ),
    )
    """A quench, an oven hold or a dip was ended before its set time."""
    QUENCH_LATE = (
        "quench late",
        CallRow(
            Role.PASSING,
            advice="it may not have hardened",
            spoken="late into the quench",
            kind=Kind.MISSED,
            bell=(0.0, 0.8, 1.0),
            sign="!",
            shape=Shape.SQUARE,
            marks=("▀▀▄▄ █ ", "~~~~ | "),
        ),
    )
    """The work was too long on the way to the quench, or too cold on the way in."""
    TEMPER_LATE = (
        "temper late",
        CallRow(
            Role.ALARM,
            advice="temper it now, it may crack",
            spoken="temper it now",
            kind=Kind.LIMIT,
            bell=(0.0, 0.2, 0.9, 1.1, 1.8, 2.0),
            sign="!",
            shape=Shape.SQUARE,
            marks=("████ ▀▄▀▄ ", "[##] /\\/\\ "),
            rank=3,
        ),
    )
    """The work waits for the oven longer since its quench than the plan allows."""


def _of(*roles: Role) -> frozenset[Call]:
    return frozenset(call for call in Call if call.row.role in roles)


PROMPTS = _of(Role.PROMPT)
"""Calls that say "it is time"."""
ALARMS = _of(Role.ALARM)
"""Calls that something goes wrong now."""
STATES = _of(Role.STATE)
"""Calls that outlast the phase in which they came."""
SPELLS = _of(Role.SPELL)
"""Calls that something is so for a while, at most as long as the phase."""
PASSING = _of(Role.PASSING)
"""Calls that tell what was, and then hold no longer."""
URGENCY = tuple(sorted((call for call in Call if call.row.rank), key=lambda call: -call.row.rank))
"""Calls that something is wrong, the most urgent first."""

"""What happens in a sitting, as frozen facts that can be logged, replayed and compared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from plans.plan import PhaseKind
from plans.reading import Reading
from plans.shown import ZERO_CELSIUS


class Word(StrEnum):
    """What the smith can say."""

    NEXT = "next"
    """End this phase and begin the next: the one word that a gloved hand needs."""
    OUT = "out"
    """The work is out of the fire, whatever the clock thought."""
    REPEAT = "repeat"
    """One heat more of this step than was planned."""
    ON = "on"
    """What this step is for is reached: on to the next step, heats left or not."""
    BACK = "back"
    """Begin the phase before this one again."""
    UNDO = "undo"
    """Take the last word back, as if it had not been said."""
    PAUSE = "pause"
    RESUME = "resume"
    FINISH = "finish"
    NOTE = "note"
    ACKNOWLEDGE = "acknowledge"
    """The cautions have been read."""


class Call(StrEnum):
    """What is said to the smith."""

    SOAK_DONE = "soak done"
    TOO_COLD = "too cold"
    TOO_HOT = "too hot"
    SOAKED_TOO_LONG = "soaked too long"
    TIME_UP = "time up"
    """A set time, or the temperature that an air phase waits for, has come."""
    PROBE_LOST = "probe lost"
    PROBE_BACK = "probe back"


class Basis(StrEnum):
    """Where a figure comes from."""

    MEASURED = "measured"
    MODELLED = "modelled"
    PLANNED = "planned"


class Cause(StrEnum):
    """Who ended the phase before."""

    WORD = "word"
    TEMPERATURE = "temperature"
    CLOCK = "clock"


@dataclass(frozen=True, slots=True)
class Said:
    """A word of the smith."""

    at: float
    word: Word
    text: str = ""


@dataclass(frozen=True, slots=True)
class Begun:
    """A phase began; the one before it ended at the same moment."""

    at: float
    step: int
    """From 0."""
    heat: int
    """From 1."""
    phase: PhaseKind
    cause: Cause = Cause.WORD


@dataclass(frozen=True, slots=True)
class Called:
    """A call to the smith."""

    at: float
    call: Call
    step: int
    heat: int
    kelvin: float | None = None
    """The temperature that it is about [K]."""
    basis: Basis = Basis.MODELLED


@dataclass(frozen=True, slots=True)
class Eased:
    """What a call was about is over, without the smith's doing."""

    at: float
    call: Call


@dataclass(frozen=True, slots=True)
class WentOn:
    """The program was started again in the middle of the sitting."""

    at: float


@dataclass(frozen=True, slots=True)
class Ended:
    """The sitting is over: the plan is done, or the smith said finish."""

    at: float


Event = Said | Begun | Called | Eased | WentOn | Ended
"""Times are seconds since the sitting began."""

Entry = Event | Reading
"""What the log of a sitting is made of, in order."""


@dataclass(frozen=True, slots=True)
class Tick:
    """Time has passed and nothing else; never logged."""

    at: float


def to_record(event: Event) -> dict[str, Any]:
    """The event as JSON would have it, units in the key names, temperatures in degC; steps count from 1."""
    record: dict[str, Any] = {"at_seconds": round(event.at, 3)}
    match event:
        case Said(word=word, text=text):
            record |= {"event": "word", "word": word.value}
            if text:
                record["text"] = text
        case Begun(step=step, heat=heat, phase=phase, cause=cause):
            record |= {"event": "phase", "step": step + 1, "heat": heat, "phase": phase.value, "by": cause.value}
        case Called(call=call, step=step, heat=heat, kelvin=kelvin, basis=basis):
            record |= {"event": "call", "call": call.value, "step": step + 1, "heat": heat}
            record |= {"celsius": None if kelvin is None else round(kelvin - ZERO_CELSIUS, 2), "basis": basis.value}
        case Eased(call=call):
            record |= {"event": "eased", "call": call.value}
        case WentOn():
            record |= {"event": "went on"}
        case Ended():
            record |= {"event": "ended"}
    return record


def from_record(record: Mapping[str, Any]) -> Event:
    """The inverse of `to_record`.

    Raises:
        ValueError, KeyError, TypeError: the record is not one of ours.
    """
    at = float(record["at_seconds"])
    match record["event"]:
        case "word":
            return Said(at, Word(record["word"]), str(record.get("text", "")))
        case "phase":
            return Begun(
                at, int(record["step"]) - 1, int(record["heat"]), PhaseKind(record["phase"]), Cause(record["by"])
            )
        case "call":
            celsius = record["celsius"]
            kelvin = None if celsius is None else float(celsius) + ZERO_CELSIUS
            return Called(
                at, Call(record["call"]), int(record["step"]) - 1, int(record["heat"]), kelvin, Basis(record["basis"])
            )
        case "eased":
            return Eased(at, Call(record["call"]))
        case "went on":
            return WentOn(at)
        case "ended":
            return Ended(at)
        case other:
            raise ValueError(f"unknown event {other!r}")

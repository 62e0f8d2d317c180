"""What happens in a sitting, as frozen facts that can be logged, replayed and compared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from plans.phase import PhaseKind
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.units import ZERO_CELSIUS


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
    """The clock stands; the work is taken to lie in the air."""
    RESUME = "resume"
    """The pause is over."""
    FINISH = "finish"
    """The sitting is over, whatever the plan still has."""
    NOTE = "note"
    """Keep a line of text with the sitting."""
    ACKNOWLEDGE = "acknowledge"
    """The cautions have been read."""

    @property
    def is_aside(self) -> bool:
        """Whether it says nothing of where the work is, and undo passes over it: a note, or cautions read."""
        return self in (Word.NOTE, Word.ACKNOWLEDGE)


class Basis(StrEnum):
    """What a figure stands on."""

    MEASURED = "measured"
    """A probe, or the clock."""
    MODELLED = "modelled"
    """The warm model."""
    PLANNED = "planned"
    """The plan alone."""


class Cause(StrEnum):
    """What made a phase begin, and so ended the one before."""

    WORD = "word"
    """The smith said so."""
    TEMPERATURE = "temperature"
    """The skin came to heat."""
    PROBE = "probe"
    """The probe on the work felt it go in or come out."""
    CLOCK = "clock"
    """The time of grace was over."""

    @property
    def by_itself(self) -> bool:
        """Whether no word was needed; undo takes such a phase back as if it had been begun by a word."""
        return self is not Cause.WORD


@dataclass(frozen=True, slots=True)
class Said:
    """A word of the smith."""

    at: float
    """When it was said [s]."""
    word: Word
    """Which word it was."""
    text: str = ""
    """The line that a note keeps, never markup; empty for any other word."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A phase began; the one before it ended at the same moment."""

    at: float
    """When the sitting knew of it [s]."""
    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat in the step, from 1."""
    phase: PhaseKind
    """What kind of phase it is."""
    cause: Cause = Cause.WORD
    """What made it begin."""
    happened: float | None = None
    """When the phase really began, where that could only be told later, at `at` [s]; None where it was `at`."""

    @property
    def began(self) -> float:
        """When the phase really began [s]."""
        return self.at if self.happened is None else self.happened


@dataclass(frozen=True, slots=True)
class Called:
    """A call to the smith."""

    at: float
    """When it was called out [s]."""
    call: Call
    """What was called out."""
    step: int
    """Number of the step that went on, from 0."""
    heat: int
    """Number of the heat in that step, from 1."""
    kelvin: float | None = None
    """The temperature that it is about [K]; None where it is about none, or where that was not known."""
    basis: Basis = Basis.MODELLED
    """What that temperature stands on."""
    happened: float | None = None
    """When what it tells of really was, where that could only be told later, at `at` [s]; None where it was `at`."""


@dataclass(frozen=True, slots=True)
class Eased:
    """What a call was about is over, without the smith's doing."""

    at: float
    """When it was over [s]."""
    call: Call
    """The call that no longer holds."""


@dataclass(frozen=True, slots=True)
class WentOn:
    """The program was started again in the middle of the sitting."""

    at: float
    """When the program was started again [s]."""
    probe_on: ProbeOn | None = None
    """Where the probe sits from now on; None without one."""
    paused_since: float | None = None
    """Since when the sitting counts as paused [s]: a long break is a pause that goes on. None where time ran on."""


@dataclass(frozen=True, slots=True)
class Ended:
    """The sitting is over: the plan is done, or the smith said finish."""

    at: float
    """When it was over [s]."""


@dataclass(frozen=True, slots=True)
class LeftFire:
    """The work is on its way from the fire to the quench."""

    at: float
    """When the sitting knew of it [s]."""
    happened: float | None = None
    """When the work really left the fire, where a probe felt it later, at `at` [s]; None where the smith said it."""


Event = Said | Begun | Called | Eased | WentOn | Ended | LeftFire
"""Something that happened in a sitting; its times are seconds since the sitting began."""

Entry = Event | Reading
"""What the log of a sitting is made of, in order."""


@dataclass(frozen=True, slots=True)
class Tick:
    """Time has passed and nothing else; never logged."""

    at: float
    """The time that it is now [s]."""


def event_to_record(event: Event) -> dict[str, Any]:
    """The event as JSON would have it, units in the key names, temperatures in degC; steps count from 1."""
    record: dict[str, Any] = {"at_seconds": round(event.at, 3)}
    match event:
        case Said(word=word, text=text):
            record |= {"event": "word", "word": word.value}
            if text:
                record["text"] = text
        case Begun(step=step, heat=heat, phase=phase, cause=cause):
            record |= {"event": "phase", "step": step + 1, "heat": heat, "phase": phase.value, "by": cause.value}
            record |= _dated(event.happened)
        case Called(call=call, step=step, heat=heat, kelvin=kelvin, basis=basis):
            record |= {"event": "call", "call": call.value, "step": step + 1, "heat": heat}
            record |= {"celsius": None if kelvin is None else round(kelvin - ZERO_CELSIUS, 2), "basis": basis.value}
            record |= _dated(event.happened)
        case Eased(call=call):
            record |= {"event": "eased", "call": call.value}
        case WentOn(probe_on=probe_on, paused_since=since):
            record |= {"event": "went on", "probe_on": None if probe_on is None else probe_on.value}
            record |= {} if since is None else {"stood_since_seconds": round(since, 3)}
        case Ended():
            record |= {"event": "ended"}
        case LeftFire(happened=happened):
            record |= {"event": "left fire"} | _dated(happened)
    return record


def _dated(happened: float | None) -> dict[str, float]:
    return {} if happened is None else {"happened_seconds": round(happened, 3)}


def event_from_record(record: Mapping[str, Any]) -> Event:
    """The event that `event_to_record` made a record of.

    Raises:
        ValueError, KeyError, TypeError: the record is not one of ours.
    """
    at = float(record["at_seconds"])
    happened = float(record["happened_seconds"]) if "happened_seconds" in record else None
    match record["event"]:
        case "word":
            return Said(at, Word(record["word"]), str(record.get("text", "")))
        case "phase":
            step, heat = int(record["step"]) - 1, int(record["heat"])
            return Begun(at, step, heat, PhaseKind(record["phase"]), Cause(record["by"]), happened)
        case "call":
            celsius = record["celsius"]
            kelvin = None if celsius is None else float(celsius) + ZERO_CELSIUS
            step, heat = int(record["step"]) - 1, int(record["heat"])
            return Called(at, Call(record["call"]), step, heat, kelvin, Basis(record["basis"]), happened)
        case "eased":
            return Eased(at, Call(record["call"]))
        case "went on":
            probe_on = None if record["probe_on"] is None else ProbeOn(record["probe_on"])
            since = float(record["stood_since_seconds"]) if "stood_since_seconds" in record else None
            return WentOn(at, probe_on, since)
        case "ended":
            return Ended(at)
        case "left fire":
            return LeftFire(at, happened)
        case other:
            raise ValueError(f"unknown event {other!r}")

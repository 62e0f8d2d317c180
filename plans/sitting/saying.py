"""What can be said aloud: a sentence, how urgent it is, and what it is about."""

from __future__ import annotations

from enum import IntEnum, StrEnum
from math import floor

from plans.record import record


class Volume(StrEnum):
    """How much is said."""

    FEW = "few"
    """What calls for a hand, what has gone wrong, and the cadence that a step asks for."""
    NORMAL = "normal"
    """Also the countdown, steps and heats, what ended by itself, and what was seen."""
    ALL = "all"
    """Also every phase and target, and what is over by itself."""

    def covers(self, other: Volume) -> bool:
        """Whether what belongs to `other` is said at this volume."""
        return _LEVELS.index(self) >= _LEVELS.index(other)


_LEVELS = tuple(Volume)


class Urgency(IntEnum):
    """How urgent a sentence is: the greater, the sooner it is said."""

    ASIDE = 0
    """What is good to know: where the sitting stands."""
    NOTICE = 1
    """What happened, and that a word was heard."""
    COUNTDOWN = 2
    """How much time is left."""
    PROMPT = 3
    """It is time for the next thing."""
    ALARM = 4
    """Something goes wrong now: it cuts off what is less urgent."""


class Kind(StrEnum):
    """What a sentence is about: a newer one of the same kind takes the place of one that still waits."""

    LIMIT = "limit"
    """A limit of temperature or time that is passed, or held again."""
    QUENCH = "quench"
    """The way from the fire to the quench."""
    NOW = "now"
    """The phase that began, and the call that it is time for the next one."""
    COUNTDOWN = "countdown"
    """How much hammer time or soak is left."""
    FIRE = "fire"
    """The fire that is too cold for this heat, or hot enough again."""
    PROBE = "probe"
    """The probe that is lost, or back."""
    SEEN = "seen"
    """What the temperatures showed: an arrest, a fire that fell, a thin part that is cold."""
    MISSED = "missed"
    """What of the plan was not kept."""
    WORD = "word"
    """The word that was just given, so that the smith knows it was heard."""
    STEP = "step"
    """Which step it is."""
    COUNT = "count"
    """Which heat of the step it is."""
    TARGET = "target"
    """What the heat aims at."""
    CADENCE = "cadence"
    """The beat at which the work is turned."""


@record
class Saying:
    """One sentence. The texts are plain words, but for a step's title, which is as its plan has it."""

    text: str
    """The sentence."""
    urgency: Urgency
    """How soon it must be said."""
    kind: Kind
    """What it is about."""
    through_mute: bool = False
    """Whether it is said though the smith has muted."""

    @property
    def good_for(self) -> float:
        """How long it may wait to be said; later it would mislead [s]."""
        return _GOOD_FOR.get(self.kind, 6.0)


_GOOD_FOR = {Kind.COUNTDOWN: 1.5, Kind.CADENCE: 1.0, Kind.QUENCH: 3.0}

_NUMBERS = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)


def number(count: float) -> str:
    """A count in words up to twenty, in figures beyond: there every speech program says it alike."""
    whole = floor(count + 0.5)
    return _NUMBERS[whole] if 0 <= whole < len(_NUMBERS) else str(whole)


def spelled_out(count: float, unit: str) -> str:
    """A count in words with its unit, as it is said aloud: "one second", "twenty seconds", "45 seconds"."""
    words = number(count)
    return f"{words} {unit}" if words == "one" else f"{words} {unit}s"

"""What can be said aloud: a sentence, how urgent it is, and what it is about."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum, StrEnum
from math import floor


class Volume(StrEnum):
    """How much is said."""

    FEW = "few"
    """What calls for a hand, what has gone wrong, and the cadence that a step asks for."""
    NORMAL = "normal"
    """Also the countdown, steps and heats, what ended by itself, and what was seen."""
    ALL = "all"
    """Also every phase and target, and what still holds, again and again."""

    def covers(self, other: Volume) -> bool:
        """Whether what belongs to `other` is said at this volume."""
        return _LEVELS.index(self) >= _LEVELS.index(other)


_LEVELS = tuple(Volume)


class Urgency(IntEnum):
    """The greater, the sooner."""

    ASIDE = 0
    NOTICE = 1
    COUNTDOWN = 2
    PROMPT = 3
    ALARM = 4
    """Cuts off what is less urgent."""


class Kind(StrEnum):
    """What a sentence is about: a newer one of the same kind takes the place of one that still waits."""

    LIMIT = "limit"
    QUENCH = "quench"
    NOW = "now"
    """The phase that began, and the call that it is time for the next one."""
    COUNTDOWN = "countdown"
    PROBE = "probe"
    SEEN = "seen"
    MISSED = "missed"
    WORD = "word"
    STEP = "step"
    COUNT = "count"
    TARGET = "target"
    CADENCE = "cadence"


@dataclass(frozen=True, slots=True)
class Saying:
    """One sentence. The texts are plain words, but for a step's title, which is as its plan has it."""

    text: str
    urgency: Urgency
    kind: Kind

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


def counted(count: float, unit: str) -> str:
    """A count with its unit: "one second", "twenty seconds", "45 seconds"."""
    words = number(count)
    return f"{words} {unit}" if words == "one" else f"{words} {unit}s"

"""The figures that several sittings teach together, and how each is said."""

from __future__ import annotations

from typing import Any

from plans.logbook.lines import shown_spread
from plans.record import record
from plans.shown import counted, show_clock


@record
class FactorFigure:
    """A factor on what the warm model has by itself."""

    value: float
    """Its mean over the sittings."""
    spread: float
    """How far that of one more sitting may lie off: a standard error, with what sittings differ by among themselves."""

    @property
    def text(self) -> str:
        """It with its range: "1.12 +- 0.05"."""
        return f"{self.value:.2f} +- {shown_spread(self.spread):.2f}"

    def to_record(self) -> dict[str, Any]:
        """It as a JSON object."""
        return {"value": round(self.value, 3), "standard_error": round(self.spread, 3)}


@record
class RangeFigure:
    """The middle one of several figures, and the ends."""

    middle: float
    """Their median."""
    least: float
    """The least of them."""
    most: float
    """The greatest of them."""
    is_share: bool
    """Whether they are shares, from 0 to 1; else counts."""

    @property
    def text(self) -> str:
        """The middle one with the ends: "22 % (15 to 28)", "3 (2 to 5)"."""
        times, unit = (100, " %") if self.is_share else (1, "")
        middle, least, most = (f"{round(value * times, 1):g}" for value in (self.middle, self.least, self.most))
        return f"{middle}{unit} ({least} to {most})"

    def to_record(self) -> dict[str, Any]:
        """They as a JSON object; shares from 0 to 1."""
        return {"median": round(self.middle, 4), "least": round(self.least, 4), "most": round(self.most, 4)}


@record
class ShareFigure:
    """A share that was measured at several steps, pooled."""

    value: float
    """The share; below 0 where it is the other way round."""
    error: float
    """Its standard error."""
    least: float
    """The smallest of the steps."""
    most: float
    """The largest."""

    @property
    def shown_error(self) -> float:
        """Its standard error, a tenth of a per cent at least: no measurement has an error of nothing."""
        return max(self.error, 0.001)

    @property
    def text(self) -> str:
        """It with its standard error, and the ends: "1.8 % +- 0.3 (1.1 to 2.6)"."""
        shares = self.value, self.shown_error, self.least, self.most
        value, error, least, most = (f"{share * 100:.1f}" for share in shares)
        return f"{value} % +- {error} ({least} to {most})"

    def to_record(self) -> dict[str, Any]:
        """It as a JSON object; shares from 0 to 1."""
        shares = {"mean": self.value, "standard_error": self.shown_error, "least": self.least, "most": self.most}
        return {name: round(share, 5) for name, share in shares.items()}


@record
class SoakFigure:
    """How welds came out, beside how long they soaked: counts and ends, from which no limit follows."""

    sound: int
    """Welds that were found sound."""
    flawed: int
    """Welds that were found flawed."""
    shortest_sound: float | None
    """The shortest soak of a sound one [s]; None where there is none."""
    longest_flawed: float | None
    """The longest soak of a flawed one [s]; None where there is none."""

    @property
    def text(self) -> str:
        """The counts with the ends: "6 sound, shortest soak 0:45; 2 flawed, longest 1:00"."""
        sound = "none sound" if self.shortest_sound is None else f"{self.sound} sound, shortest soak"
        flawed = "none flawed" if self.longest_flawed is None else f"{self.flawed} flawed, longest soak"
        parts = ((sound, self.shortest_sound), (flawed, self.longest_flawed))
        return "; ".join(name if soak is None else f"{name} {show_clock(soak)}" for name, soak in parts)

    def to_record(self) -> dict[str, Any]:
        """They as a JSON object."""
        return {
            "sound": self.sound,
            "flawed": self.flawed,
            "shortest_soak_sound_seconds": self.shortest_sound,
            "longest_soak_flawed_seconds": self.longest_flawed,
        }


Figure = FactorFigure | RangeFigure | ShareFigure | SoakFigure


def rests_text(sittings: int, count: int, noun: str, first: str, last: str) -> str:
    """What a figure rests on: "12 stays, 4 sittings, 2026-03-01 to 2026-04-02"."""
    when = first if first == last else f"{first} to {last}"
    return f"{counted(count, noun)}, {counted(sittings, 'sitting')}, {when}"

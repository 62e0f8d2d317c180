"""What came of a sitting, as the smith finds it: each weld, how straight, whole and fine the work is, a rating."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from enum import StrEnum
from typing import Any, Final

from plans.logbook.afterwards.lessons import check_schema
from plans.record import record
from plans.record_values import (
    Record,
    count_of,
    list_of,
    maybe_moment,
    maybe_number,
    maybe_stamp,
    records_of,
    step_of,
    switch_of,
)
from plans.shown import counted

BEST: Final = 5
"""The highest rating; the lowest is 1."""
MOST_WARP: Final = 1.0
"""No work is further out of straight [m]."""
MOST_TWIST: Final = 360.0
"""No work is further out of plane from end to end [degrees]."""
_SCHEMA: Final = 1


class Flaw(StrEnum):
    """What can be wrong with a weld."""

    DELAMINATION = "delamination"
    """It opens between two layers."""
    COLD_SHUT = "cold shut"
    """A fold or an end that never joined."""
    INCLUSION = "inclusion"
    """Scale or flux is shut in."""
    BURNT = "burnt"
    """It was too hot: it crumbles or sparks."""


class Grain(StrEnum):
    """How a broken piece looks."""

    FINE = "fine"
    """Grey and even, like silk."""
    MEDIUM = "medium"
    """Some glitter."""
    COARSE = "coarse"
    """It glitters like sugar."""


@record
class WeldOutcome:
    """What came of the weld of one step."""

    step: int
    """Number of the step, from 0."""
    flaws: tuple[Flaw, ...] = ()
    """What is wrong with it; empty where it is sound."""


@record
class Outcome:
    """What came of a sitting; what has not been said is None, or is not among the welds."""

    welds: tuple[WeldOutcome, ...] = ()
    """The welds that were looked at, by their steps."""
    warp: float | None = None
    """How far out of straight it came [m]; 0 for straight."""
    twist_degrees: float | None = None
    """How far it is out of plane from end to end [degrees]; 0 for none."""
    cracked: bool | None = None
    """Whether there are cracks."""
    grain: Grain | None = None
    """How a broken piece, or one that was broken for it, looks."""
    rating: int | None = None
    """What the smith gives it, from 1 to `BEST`."""
    changed: datetime | None = None
    """When something of it was said last: wall time with its offset."""

    def weld(self, step: int) -> WeldOutcome | None:
        """What came of the weld of a step; None where that was not said."""
        return next((weld for weld in self.welds if weld.step == step), None)

    def with_weld(self, step: int, flaws: tuple[Flaw, ...] | None) -> Outcome:
        """Make an outcome with one weld found sound (no flaws) or flawed; None takes back what was said of it."""
        others = [weld for weld in self.welds if weld.step != step]
        mine = [] if flaws is None else [WeldOutcome(step, flaws)]
        return replace(self, welds=tuple(sorted([*others, *mine], key=lambda weld: weld.step)))

    @property
    def short(self) -> str:
        """In a few words, without figures that have a unit: "1 weld sound, cold shut, cracked, rated 4"; may be
        empty."""
        sound = sum(not weld.flaws for weld in self.welds)
        flaws = dict.fromkeys(flaw.value for weld in self.welds for flaw in weld.flaws)
        parts = [f"{counted(sound, 'weld')} sound"] if sound else []
        parts += flaws
        parts += [name for name, much in (("warped", self.warp), ("twisted", self.twist_degrees)) if much]
        parts += [] if self.cracked is None else ["cracked" if self.cracked else "no cracks"]
        parts += [] if self.grain is None else [f"grain {self.grain.value}"]
        parts += [] if self.rating is None else [f"rated {self.rating}"]
        return ", ".join(parts)


def tells_flaw(short: str) -> bool:
    """Whether an outcome in a few words, as `Outcome.short` has it, tells of a weld that is flawed."""
    return any(flaw.value in short for flaw in Flaw)


def in_a_word(short: str) -> str:
    """An outcome in a few words, as `Outcome.short` has it, in one word and its rating: "flawed 2/5", "sound", "3/5".

    The worst that is said is the word; empty where neither a word nor a rating is said.
    """
    said = short.split(", ")
    worst = next((word for word in ("cracked", "warped", "twisted") if word in said), "")
    sound = "sound" if any(part.endswith(" sound") for part in said) else ""
    word = "flawed" if tells_flaw(short) else worst or sound
    rating = next((f"{part.removeprefix('rated ')}/{BEST}" for part in said if part.startswith("rated ")), "")
    return " ".join(filter(None, (word, rating)))


def outcome_record(outcome: Outcome) -> Record:
    """The outcome as a JSON object, units in the key names; steps are counted from 1."""
    return {
        "schema": _SCHEMA,
        "welds": [{"step": weld.step + 1, "flaws": [flaw.value for flaw in weld.flaws]} for weld in outcome.welds],
        "warp_mm": None if outcome.warp is None else round(outcome.warp * 1000, 3),
        "twist_degrees": outcome.twist_degrees,
        "cracked": outcome.cracked,
        "grain": None if outcome.grain is None else outcome.grain.value,
        "rating": outcome.rating,
        "changed": maybe_stamp(outcome.changed),
    }


def outcome_from_record(record: Mapping[str, Any]) -> Outcome:
    """The outcome from a JSON object that `outcome_record` made.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError: it is none.
    """
    check_schema(record, _SCHEMA)
    welds = tuple(
        WeldOutcome(step_of(item["step"]), tuple(Flaw(flaw) for flaw in list_of(item["flaws"])))
        for item in records_of(record["welds"])
    )
    if len({weld.step for weld in welds}) < len(welds):
        raise ValueError("two outcomes of one weld")
    warp = maybe_number(record["warp_mm"], 0.0, MOST_WARP * 1000)
    return Outcome(
        welds,
        None if warp is None else warp / 1000,
        maybe_number(record["twist_degrees"], 0.0, MOST_TWIST),
        None if record["cracked"] is None else switch_of(record["cracked"]),
        None if record["grain"] is None else Grain(record["grain"]),
        None if record["rating"] is None else count_of(record["rating"], 1, BEST),
        maybe_moment(record["changed"]),
    )

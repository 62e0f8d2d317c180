"""A sitting in one line: what lists show of it, and what the index keeps, so that a list need read nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from enum import StrEnum
from typing import Any

from plans.logbook.afterwards import Label, in_a_word
from plans.logbook.facts import Facts
from plans.logbook.teaching import VERSION, Teaches
from plans.record import record
from plans.record_values import (
    MOST_OF_ALL,
    check_year,
    count_of,
    maybe_seconds,
    moment_of,
    record_of,
    switch_of,
    text_of,
)


class Progress(StrEnum):
    """How far a sitting has come, as lists and files write it."""

    RUNNING = "running"
    """Its journal is being written."""
    UNFINISHED = "unfinished"
    """It was left before its end, by the smith or by a crash, and can be gone on with."""
    FINISHED = "finished"
    """Its plan is done, or the smith said finish."""


@record
class Summary:
    """A sitting in one line, as the index keeps it."""

    id: str
    """Id of the sitting, e.g. `20261125-091502-drawknife`."""
    plan: str
    """Name of the plan, as its file has it."""
    title: str
    """Title of the plan, as the smith reads it."""
    started: datetime
    """When it began: wall time with its offset."""
    ended: datetime | None
    """Wall time of its last entry; None while it is running, or before its journal was folded."""
    state: Progress
    """How far it has come."""
    rehearsal: bool
    """Whether the forge was simulated."""
    heats: int | None
    """How many heats were done; None where its figures have not been worked out."""
    calls: int | None
    """How many calls were made; None where its figures have not been worked out."""
    seconds: float | None = None
    """How long it took, breaks left out [s]; None while it is running, and in the index of the first versions."""
    outcome: str = ""
    """What came of it, in a few words, as the smith said; empty where nothing was said."""
    label: Label = Label()
    """What the smith has written on it."""
    facts: Facts | None = None
    """What it is found by; None while it is running, and where one of the first versions kept it; see
    `is_searchable`."""
    teaches: Teaches | None = None
    """What it teaches of its shop; None while it is running, and where an earlier version kept it."""
    damaged: bool = False
    """Whether its file was found damaged; then all this is as it was before that, as far as is known. The index alone
    keeps it: a file can't say it of itself."""

    @property
    def called(self) -> str:
        """What it is called: by the title that the smith gave it, or by that of its plan."""
        return self.label.title or self.title

    @property
    def is_searchable(self) -> bool:
        """Whether it has all that a search looks at."""
        return self.facts is not None and self.facts.is_whole

    @property
    def outcome_word(self) -> str:
        """What came of it in a word and its rating, for a list: "flawed 2/5"; empty where nothing is said."""
        return in_a_word(self.outcome)

    def to_record(self) -> dict[str, Any]:
        """The summary as a JSON object; times are ISO 8601."""
        return {
            "id": self.id,
            "plan": self.plan,
            "title": self.title,
            "started": stamp(self.started),
            "ended": None if self.ended is None else stamp(self.ended),
            "state": self.state.value,
            "rehearsal": self.rehearsal,
            "heats": self.heats,
            "calls": self.calls,
            "length_seconds": self.seconds,
            "outcome_in_short": self.outcome,
            "label": self.label.to_record(),
            "found_by": None if self.facts is None else self.facts.to_record(),
            "teaches": None if self.teaches is None else self.teaches.to_record(),
        }

    def to_shown_record(self) -> dict[str, Any]:
        """The summary as a JSON object for whoever asked; what it teaches, `log taught` puts together."""
        shown = {name: value for name, value in self.to_record().items() if name != "teaches"}
        return shown | {"damaged": self.damaged}

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Summary:
        """The summary from a JSON object that `to_record` made.

        Raises:
            ValueError, KeyError, TypeError: it is no summary.
        """
        heats, calls = (
            None if record[key] is None else count_of(record[key], 0, MOST_OF_ALL) for key in ("heats", "calls")
        )
        return cls(
            text_of(record["id"]),
            text_of(record["plan"]),
            text_of(record["title"]),
            check_year(moment_of(record["started"])),
            None if record["ended"] is None else moment_of(record["ended"]),
            Progress(record["state"]),
            switch_of(record["rehearsal"]),
            heats,
            calls,
            maybe_seconds(record.get("length_seconds")),
            text_of(record.get("outcome_in_short", "")),
            Label.from_record(record_of(record.get("label", {}))),
            None if (facts := record.get("found_by")) is None else Facts.from_record(facts),
            _teaches(record.get("teaches")),
        )


def _teaches(record: object) -> Teaches | None:
    found = {} if record is None else record_of(record)
    return Teaches.from_record(found) if found.get("version") == VERSION else None


def newest_first(summaries: Iterable[Summary]) -> list[Summary]:
    """Sittings in the order in which they are listed."""
    return sorted(summaries, key=lambda summary: (summary.started, summary.id), reverse=True)


def stamp(moment: datetime) -> str:
    """A wall time as the logbook's files have it."""
    return moment.isoformat(timespec="milliseconds")

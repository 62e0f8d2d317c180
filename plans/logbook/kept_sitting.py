"""One sitting whole, as `sittings/<id>.json` keeps it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from datetime import datetime
from typing import Any

from plans.logbook import header as headers
from plans.logbook.figures import SittingFigures
from plans.logbook.figures_record import to_record as to_figures_record
from plans.logbook.header import Header
from plans.logbook.log import Log
from plans.logbook.measured_record import measured_record
from plans.logbook.summary import Progress, Summary
from plans.logbook.trace_segments import encode
from plans.logbook.whole_files import to_json
from plans.record import record
from plans.sitting import folded, length
from plans.trace import Trace


@record
class WorkedOut:
    """What the log alone does not say, and the sitting's engine does."""

    figures: SittingFigures | None
    """The figures; None where nobody could work them out."""
    skin: Trace = field(default_factory=Trace)
    """Skin of the work as the warm model has it, a point a second."""
    middle: Trace = field(default_factory=Trace)
    """Middle of the work as the warm model has it, a point a second."""


WorkOut = Callable[[Header, Log], WorkedOut]
"""Works a sitting out: from a running engine at the end of a sitting, by replaying the log after a crash."""


def checked(worked: WorkedOut) -> WorkedOut:
    """Hand back what was worked out, if it can be kept in a file.

    Raises:
        ValueError, TypeError, AttributeError, OverflowError: JSON does not have it, or it is not finite.
    """
    to_json(figures_record(worked.figures))
    encode(worked.skin)
    encode(worked.middle)
    return worked


@record
class KeptSitting:
    """A sitting as it was loaded from the logbook or is to be kept there."""

    header: Header
    """What was known of it when it began, and of each time that it was gone on with."""
    log: Log
    """Every event and every reading, in order."""
    state: Progress
    """How far it has come."""
    figures: SittingFigures | None = None
    """Its figures; None where nobody could work them out."""
    skin: Trace = field(default_factory=Trace)
    """Skin of the work as the warm model has it, a point a second."""
    middle: Trace = field(default_factory=Trace)
    """Middle of the work as the warm model has it, a point a second."""
    misfit: str = ""
    """Why what its file had worked out is not of its log, and was left out; empty where it is."""

    @property
    def left_at(self) -> float:
        """When it was left, as far as is known: where it was cut off, with its last entry [s]."""
        # The model ran on until the program put the sitting away; its last point is the last whole second.
        return max(self.log.last_at, self.skin.times[-1] if self.skin else 0.0)

    @property
    def ended(self) -> datetime:
        """Wall time of the last entry of its log."""
        return self.header.wall_time(self.log.last_at)

    @property
    def summary(self) -> Summary:
        """The sitting in one line, as the index keeps it."""
        head = self.header
        ended = None if self.state is Progress.RUNNING else self.ended
        heats, calls = (None, None) if self.figures is None else (self.figures.done, len(self.figures.calls))
        return Summary(
            head.id,
            head.plan,
            head.title,
            head.started,
            ended,
            self.state,
            head.rehearsal,
            heats,
            calls,
            None if ended is None else round(length(folded(self.log.events), self.left_at), 3),
        )

    def outline(self) -> dict[str, Any]:
        """The summary, the probe, and the figures as a JSON object."""
        record = self.summary.to_record()
        del record["heats"], record["calls"]
        return record | {"probe": headers.to_record(self.header)["probe"]} | self._figures()

    def _figures(self) -> dict[str, Any]:
        return figures_record(self.figures) | measured_record(folded(self.log.events).measurements)


def figures_record(figures: SittingFigures | None) -> dict[str, Any]:
    """The figures as a JSON object; an empty one where nobody could work them out."""
    return {} if figures is None else to_figures_record(figures)

"""One sitting whole, as `sittings/<id>.json` keeps it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from datetime import datetime
from typing import Any

from plans.logbook import header as headers
from plans.logbook.afterwards import (
    Label,
    LaterMeasurements,
    Outcome,
    Photographs,
    SittingLessons,
    later_record,
    lessons_record,
    outcome_record,
    photographs_record,
)
from plans.logbook.disk import to_json
from plans.logbook.figures import Fuel, SittingFigures, SteelCost, figures_to_record
from plans.logbook.header import Header
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.log import Log
from plans.logbook.measured_record import measured_record
from plans.logbook.summary import Progress, Summary
from plans.logbook.ticked_record import ticked_record
from plans.logbook.trace_segments import encode
from plans.record import record
from plans.shown import counted
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
    outcome: Outcome | None = None
    """What came of it, as its smith found; None where nothing was said."""
    lessons: SittingLessons | None = None
    """What was learned in it, and which lessons of others were said in it; None where there are none."""
    unread: str = ""
    """Why something that was said of it afterwards can't be read, and stays in its file as it is; empty where all
    can."""
    label: Label | None = None
    """What the smith has written on it; None where nobody has looked: what its file has stays there."""
    measured_later: LaterMeasurements | None = None
    """What was measured by hand when it was over; None where nothing was."""
    photographs: Photographs | None = None
    """The photographs of its work; None where there are none."""

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
    def damage(self) -> str:
        """What can't be read of what was said of it afterwards, and stays in its file as it is; empty for nothing."""
        later, photographs = self.measured_later, self.photographs
        lost = [(0 if later is None else len(later.damaged), "later measurement")]
        lost.append((0 if photographs is None else len(photographs.damaged), "photograph"))
        return "; ".join(part for part in (self.unread, *(counted(*one) for one in lost if one[0])) if part)

    @property
    def called(self) -> str:
        """What it is called: by the title that the smith gave it, or by that of its plan."""
        return (self.label or Label()).title or self.header.title

    @property
    def cost(self) -> SteelCost | None:
        """What it cost the steel; None where that was not worked out."""
        return None if self.figures is None else self.figures.cost

    @property
    def summary(self) -> Summary:
        """The sitting in one line, as the index keeps it."""
        # Whoever lists sittings has no use for what these load.
        from plans.logbook.search import facts_of
        from plans.logbook.teaching import teaches_of

        head = self.header
        ended = None if self.state is Progress.RUNNING else self.ended
        told = folded(self.log.events)
        plan = plan_if_known(head)
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
            None if ended is None else round(length(told, self.left_at), 3),
            "" if self.outcome is None else self.outcome.short,
            self.label or Label(),
            facts_of(
                plan,
                (note.text for note in told.notes),
                told,
                self.measured_later,
                self.figures,
                self.outcome,
                Fuel.burnt(head.burns, told, self.left_at),
            ),
            teaches_of(plan, told, self.measured_later, self.figures, self.outcome),
        )

    def outline(self) -> dict[str, Any]:
        """The summary, the probe, and the figures as a JSON object."""
        record = self.summary.to_record()
        del record["heats"], record["calls"], record["outcome_in_short"], record["found_by"], record["teaches"]
        record |= {"probe": headers.to_record(self.header)["probe"]} | self._figures()
        return record | said_afterwards(self)

    def _figures(self) -> dict[str, Any]:
        state = folded(self.log.events)
        said = measured_record(state.measurements) | ticked_record(state, plan_if_known(self.header))
        return figures_record(self.figures) | said


OUTCOME, LESSONS, MEASURED_LATER, PHOTOGRAPHS = "outcome", "lessons", "measured_later", "photographs"
"""The keys of what its smith said of a sitting when it was over."""


def said_afterwards(kept: KeptSitting) -> dict[str, Any]:
    """What its smith said of a sitting when it was over, as keys of a JSON object; what was not said has none."""
    said = {} if kept.lessons is None else {LESSONS: lessons_record(kept.lessons)}
    said |= {} if kept.outcome is None else {OUTCOME: outcome_record(kept.outcome)}
    said |= {} if kept.measured_later is None else {MEASURED_LATER: later_record(kept.measured_later)}
    return said | ({} if kept.photographs is None else {PHOTOGRAPHS: photographs_record(kept.photographs)})


def figures_record(figures: SittingFigures | None) -> dict[str, Any]:
    """The figures as a JSON object; an empty one where nobody could work them out."""
    return {} if figures is None else figures_to_record(figures)

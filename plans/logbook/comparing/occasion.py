"""The steps of many sittings, as trends and habits need them: figures and outcome, and nothing of logs and traces."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import Outcome, WeldOutcome
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.figures import StepFigures
from plans.logbook.summary import Progress
from plans.plan import StepKind
from plans.record import record


@record
class Occasion:
    """One sitting, with those of its steps that are asked about."""

    sitting: str
    """Id of the sitting."""
    plan: str
    """Name of its plan."""
    started: datetime
    """When it began: wall time with its offset."""
    steps: tuple[StepFigures, ...]
    """The steps that are asked about, one at least."""
    outcome: Outcome | None = None
    """What came of the sitting; None where nothing was said."""
    fuel_mass: float | None = None
    """What its fire burnt in all [kg]; None where nobody knows, or where not all of its steps are asked about."""
    fuel_volume: float | None = None
    """Likewise where that was metered [m3]."""

    @property
    def welds(self) -> tuple[tuple[StepFigures, WeldOutcome], ...]:
        """The welds among its steps of which it was said what came of them, each with that."""
        if self.outcome is None:
            return ()
        found = ((step, self.outcome.weld(step.step)) for step in self.steps if step.kind is StepKind.WELD)
        return tuple((step, weld) for step, weld in found if weld is not None)


def occasions(logbook: Logbook, plan: str | None = None, kind: StepKind | None = None) -> Iterator[Occasion]:
    """The sittings that have such steps, the oldest first, each read when it is asked for.

    A sitting counts that is finished, or of which it was said what came of it: a weld that opened ends many a sitting
    early. Those that are archived are left out. One that can't be read is told in the logbook's messages.

    Args:
        logbook: where they are kept
        plan: name of a plan, for its sittings alone
        kind: a kind of step, for those alone

    Raises:
        LogbookError: the folder can't be read.
    """
    for summary in reversed(logbook.summaries()):
        # Without an end it was not put away yet.
        if summary.ended is None or summary.label.archived or (plan is not None and summary.plan != plan):
            continue
        if summary.state is not Progress.FINISHED and not summary.outcome:
            continue
        try:
            outcome, figures = logbook.steps_done(summary.id)
        except LogbookError as error:
            logbook.messages.append(str(error))
            continue
        facts = summary.facts
        burnt = (None, None) if facts is None else (facts.fuel_mass, facts.fuel_volume)
        yield from of_kind([Occasion(summary.id, summary.plan, summary.started, figures, outcome, *burnt)], kind)


def of_kind(found: Iterable[Occasion], kind: StepKind | None) -> Iterator[Occasion]:
    """The sittings that have steps of a kind in which a heat was begun, with those alone; None for any kind."""
    for one in found:
        if steps := tuple(step for step in one.steps if step.heats and kind in (None, step.kind)):
            # A fire burns for the whole sitting, not for a kind of step.
            yield (
                replace(one, steps=steps)
                if kind is None
                else replace(one, steps=steps, fuel_mass=None, fuel_volume=None)
            )

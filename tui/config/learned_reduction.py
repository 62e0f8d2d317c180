"""What a heat takes off in this shop, as its logbook tells."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from tui.config.folders import user_folders

if TYPE_CHECKING:
    from plans.blows import StruckBy
    from plans.logbook import KeptSitting, Logbook
    from plans.press import Drawn
    from plans.reckoned import Reckoned

_NEWEST: Final = 3
"""Sittings that are looked at, the newest that are finished: hands and tools change, and each takes time to read."""


@lru_cache(maxsize=4)
def reduction_learned(by: StruckBy) -> Reckoned | None:
    """Share of the area that a heat takes off, by the newest sittings whose plans drew a bar from section to section.

    Looked up once in a run of the program.

    Args:
        by: what the work was struck with

    Returns:
        the share, from 0 to 1; None where the logbook tells of none, or can't be read
    """
    from plans.press import learned_reduction

    places = user_folders()
    if not places.logbook.exists():
        return None
    from plans.logbook import Logbook, LogbookError

    logbook = Logbook(places.logbook)
    try:
        return learned_reduction([drawn for kept in _newest(logbook) for drawn in drawn_in(kept, by)])
    except LogbookError:
        return None
    finally:
        logbook.close()


def _newest(logbook: Logbook) -> Iterator[KeptSitting]:
    from plans.logbook import LogbookError, Progress

    finished = [one for one in logbook.summaries() if one.state is Progress.FINISHED and not one.rehearsal]
    for summary in finished[:_NEWEST]:
        try:
            yield logbook.load(summary.id)
        except LogbookError:
            continue  # `heatbook log` says what is wrong with it


def drawn_in(kept: KeptSitting, by: StruckBy) -> Iterator[Drawn]:
    """What was drawn in a sitting: each step whose section before and after is known, with the heats it took.

    Where a section was measured it counts, else that of the plan.

    Args:
        kept: the sitting
        by: what the work was struck with
    """
    from plans.blows import Blows
    from plans.errors import PlansError
    from plans.logbook import with_later
    from plans.plan import StepKind
    from plans.press import Drawn
    from plans.reader import read_plan
    from plans.sitting import folded, plan_as_measured, sections_measured

    try:
        plan = read_plan(kept.header.source, kept.header.plan, "the plan of this sitting", kept=True)
    except PlansError:
        return  # of a later version
    state = with_later(folded(kept.log.events), kept.measured_later)
    measured, plan = sections_measured(plan, state), plan_as_measured(plan, state)
    for figures in () if kept.figures is None else kept.figures.steps:
        step = plan.steps[figures.step]
        after = measured.get(figures.step, step.reach)
        if step.kind not in (StepKind.DRAW, StepKind.FORGE) or step.section is None or after is None:
            continue
        tool = (step.blows or Blows()).by
        if tool is by and figures.done and after.area < step.section.area:
            yield Drawn(step.section.area, after.area, figures.done, figures.step in measured)

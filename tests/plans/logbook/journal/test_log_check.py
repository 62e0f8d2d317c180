"""A log that was read, held against its plan and against itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.logbook.journal.log_check import check_log
from plans.logbook.log import Log
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.events import Begun, Called, Entry, Said, WentOn, Word

FIRE = Begun(1.0, 0, 1, PhaseKind.FIRE)


def test_what_a_sitting_wrote_is_right(tell: Callable[..., Any], trial: Plan) -> None:
    told = tell().say(Word.NEXT).wait(3).say("a line", Word.OUT, Word.UNDO).feel(900, 2).say(Word.PAUSE)
    # What came to pass in the break is told behind it.
    told.entries += told.sitting.take(WentOn(told.at + 900, None, None, told.at))
    told.at += 900
    told.say(Word.IN)
    assert check_log(Log(told.entries), trial).step == 0


WRONG: dict[str, tuple[list[Entry], str]] = {
    "readings go back": ([Reading(2.0, 300.0), Reading(1.0, 300.0)], "readings go back in time"),
    "events go back": ([FIRE, Said(0.5, Word.NEXT)], "event 2 goes back in time"),
    "an event before its reading": ([Reading(2.0, 300.0), FIRE], "event 1 goes back in time"),
    "a reading before its event": ([FIRE, Reading(0.5, 300.0)], "behind event 1 goes back in time"),
    "a step beyond the plan": ([Begun(1.0, 4, 1, PhaseKind.FIRE)], "it names a step that the plan does not have"),
    "a call beyond the plan": ([FIRE, Called(1.0, Call.TOO_COLD, 9, 1)], "it names a step"),
    "a phase of another step": ([Begun(1.0, 0, 1, PhaseKind.QUENCH)], "it names a phase that the step does not have"),
    "what is still to come": ([Begun(1.0, 0, 1, PhaseKind.FIRE, happened=7.0)], "it tells of what was still to come"),
    "a break that is still to come": ([FIRE, WentOn(5.0, None, 6.0)], "it tells of what was still to come"),
}


@pytest.mark.parametrize(("entries", "why"), WRONG.values(), ids=WRONG.keys())
def test_what_no_sitting_wrote_is_refused(entries: list[Entry], why: str, trial: Plan) -> None:
    with pytest.raises(ValueError, match=why):
        check_log(Log(entries), trial)


def test_where_the_plan_can_not_be_read_it_is_not_asked() -> None:
    assert check_log(Log([Begun(1.0, 40, 1, PhaseKind.QUENCH)]), None).step == 40

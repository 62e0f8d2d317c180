"""Items of a checklist are ticked by a word that the log keeps, and that undo takes back."""

from __future__ import annotations

import pytest

from plans.logbook.lines import checklist_lines
from plans.plan import Plan
from plans.sitting import Sitting, folded
from plans.sitting.event_record import event_from_record, event_to_record
from plans.sitting.events import Event, Said, Word
from plans.sitting.words import WordError, parse_word
from plans.units import Units


def say(sitting: Sitting, log: list[Event], at: float, typed: str) -> None:
    log += [entry for entry in sitting.take(parse_word(typed, at)) if isinstance(entry, Event)]


def test_ticks_are_logged_taken_off_and_undone_and_come_again_from_the_log(plan: Plan) -> None:
    sitting = Sitting(plan)
    log = [entry for entry in sitting.open() if isinstance(entry, Event)]
    for at, typed in ((1.0, "tick 1"), (2.0, "TICK item 2"), (3.0, "tick step 1 item 1 off"), (4.0, "undo")):
        say(sitting, log, at, typed)
    assert [(one.item, one.at) for one in sitting.state.ticked] == [(0, 1.0), (1, 2.0)]
    say(sitting, log, 5.0, "redo")
    assert Said(2.0, Word.TICK, "step 1 item 2") in log, "the log names the step, whatever goes on when it is read"
    again = folded(event_from_record(event_to_record(event)) for event in log)
    assert again.ticked == sitting.state.ticked
    assert again.begins == sitting.state.begins, "a tick says nothing of where the work is"


@pytest.mark.parametrize("typed", ["tick 3", "tick 0", "tick", "tick step 2 item 1", "tick 1 off", "tick flux"])
def test_a_tick_that_means_nothing_is_refused(plan: Plan, typed: str) -> None:
    sitting = Sitting(plan)
    sitting.open()
    with pytest.raises(WordError):
        sitting.take(parse_word(typed, 1.0))
    assert sitting.state.ticked == ()


def test_what_was_not_ticked_when_its_step_ended_is_named(plan: Plan) -> None:
    sitting = Sitting(plan)
    log = [entry for entry in sitting.open() if isinstance(entry, Event)]
    assert checklist_lines(sitting.state, plan, Units.METRIC) == []
    say(sitting, log, 1.0, "tick 1")
    assert "still open: no shadow left" in checklist_lines(sitting.state, plan, Units.METRIC)[0].text
    for at in (2.0, 3.0):  # doubted, then meant
        say(sitting, log, at, "on")
    (line,) = checklist_lines(sitting.state, plan, Units.METRIC)
    assert (line.step, line.at, line.text) == (0, 1.0, "step 1, 1 of 2 ticked; not ticked: no shadow left")
    say(sitting, log, 4.0, "tick step 1 item 1 off")
    assert checklist_lines(sitting.state, plan, Units.METRIC) == []

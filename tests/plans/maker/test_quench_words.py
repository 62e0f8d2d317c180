"""The words of hardening and temper suit what the work is quenched in."""

from __future__ import annotations

import re

import pytest

from plans.maker import propose, text_of
from plans.making import Part, What
from plans.phase import PhaseKind
from plans.plan import Step
from plans.reader import AnswerKeys, read_plan


def quench_and_temper(answers: AnswerKeys) -> str:
    """All that is said in the two steps."""
    steps = [step.keys for step in propose(answers).steps if step.part in (Part.HARDEN, Part.TEMPER)]
    return " ".join(text for one in steps for text in (one.title, one.instruction, *one.checklist, *one.cautions))


def words(said: str) -> set[str]:
    return set(re.findall(r"\w+", said.lower()))


@pytest.mark.parametrize("what", [What.SINGLE_EDGED, What.CYCLES, What.WEDGE])
@pytest.mark.parametrize("steel", ["A2", "D2", "S7"])
def test_what_hardens_in_air_is_told_of_plates_and_of_no_bath(steel: str, what: What) -> None:
    said = quench_and_temper(AnswerKeys(what=what, steel=steel))
    assert "plates" in said
    assert "gloves" in said
    assert not {"oil", "lid", "bath"} & words(said)
    assert "up and down" not in said
    assert ("poll" in said) is (what is What.WEDGE)


def test_a_cue_stands_by_each_phase_of_it() -> None:
    plan = read_plan(text_of(propose(AnswerKeys(steel="A2"))), "", "plan")
    step: Step = next(step for step in plan.steps if step.title == "Harden it in air")
    assert {phase.kind for phase in step.phases if phase.cue} >= {PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.AIR}


def test_brine_has_no_lid_and_leaves_no_oil() -> None:
    # W1 in a section over 8 mm goes into brine, by its sheet
    said = quench_and_temper(AnswerKeys(steel="W1", thickness=0.012, width=0.04))
    assert "brine" in said
    assert not {"lid", "oil"} & words(said)
    assert "its lid beside it" in quench_and_temper(AnswerKeys(steel="1084"))

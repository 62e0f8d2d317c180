"""What is counted as ground off is ground in a step of the plan, down to the measures that were asked for."""

from __future__ import annotations

import pytest

from plans.maker import applies, propose
from plans.making import Part, What
from plans.reader import AnswerKeys
from plans.stock import LossKind


@pytest.mark.parametrize("what", [one for one in What if one is not What.CYCLES])
def test_what_is_ground_off_is_ground(what: What) -> None:
    proposal = propose(AnswerKeys(what=what))
    assert LossKind.GRINDING in {loss.kind for loss in proposal.losses}
    assert Part.GRIND in [step.part for step in proposal.steps]


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        (AnswerKeys(what=What.WEDGE, edge=0.0013), "{1.3 mm}"),
        (AnswerKeys(what=What.BAR, width=0.041, thickness=0.007), "{41 x 7 mm}"),
    ],
)
def test_it_is_ground_to_what_was_asked_for(answers: AnswerKeys, said: str) -> None:
    (step,) = (step.keys for step in propose(answers).steps if step.part is Part.GRIND)
    assert said in step.instruction
    assert said in " ".join(step.checklist)
    assert ("edge" in {name for group in applies(answers) for name in group.answers}) is (answers.edge is not None)

"""What a heat takes as scale in the shop goes into the plan, and stays there; lengths against constant volume."""

import pytest

from plans.maker import propose, taken, text_of
from plans.making import Part, What
from plans.reader import AnswerKeys, made_from, read_plan
from plans.reckoned import Reckoned
from plans.units import Units

LEARNED = Reckoned(0.0412, "modelled", "of the steel a heat, over 6 steps", "the logbook", 0.031, 0.0504)
MOVED_ON = Reckoned(0.06, "modelled", "of the steel a heat, over 9 steps", "the logbook", 0.05, 0.07)


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
def test_a_plan_holds_the_loss_that_it_was_made_with(units: Units) -> None:
    first = text_of(propose(AnswerKeys(), units, scale=LEARNED), units)
    comments = " ".join(first.replace("#", " ").split())
    assert (
        "learned: By constant volume, 4.1 % of it gone to scale in each heat: of the steel a heat, over 6" in comments
    )
    assert "from 3.1 to 5.0 %" in comments
    answers = made_from(first, "plan")
    assert answers is not None
    assert answers.scale == pytest.approx(0.0412)
    assert text_of(propose(answers, units, scale=LEARNED), units) == first, "the same shop, the same file"
    elsewhere = [text_of(propose(answers, units, scale=there), units) for there in (None, MOVED_ON)]
    for text in elsewhere:
        plans = [read_plan(one, "", "plan") for one in (first, text)]
        assert plans[0].steps == plans[1].steps, "another shop, or none, makes the same plan of it"
        assert plans[0].bars == plans[1].bars
    usual = text_of(propose(AnswerKeys(), units), units)
    assert made_from(usual, "plan") == AnswerKeys()
    assert "\nscale" not in usual, "nothing is said where nothing was learned"


def test_the_length_that_heats_leave_follows_from_the_loss() -> None:
    # Constant volume: length x area before, times 1 - loss for each heat, is length x area after.
    proposal = propose(AnswerKeys(what=What.BAR), scale=LEARNED)
    (step,) = (one.keys for one in proposal.steps if one.part is Part.DRAW)
    bar = proposal.bars[0]
    assert step.reach is not None
    assert isinstance(step.heats, int)
    ends = bar.length * bar.section.area * (1 - 0.0412) ** step.heats / step.reach.area
    assert step.reach_length == pytest.approx(ends, abs=0.5e-3), "to the millimetre that is marked"
    chosen = taken(proposal, "scale")
    assert chosen is not None
    assert (chosen.value, chosen.why.basis) == (pytest.approx(0.0412), "learned")


def test_what_cannot_be_written_is_no_loss_of_a_plan() -> None:
    assert propose(AnswerKeys(), scale=Reckoned(0.4, "modelled", "", "")).answers.scale == pytest.approx(0.15)
    assert propose(AnswerKeys(scale=0.03), scale=LEARNED).answers.scale == pytest.approx(0.03), "his own word stands"
    assert propose(AnswerKeys(what=What.CYCLES), scale=LEARNED).answers.scale is None, "nothing is forged there"

"""What no smith can build is refused, and what won't be as it was asked for is told with what would mend it."""

from __future__ import annotations

from typing import Any

import pytest

from plans.maker import MakeError, propose, refused_words
from plans.making import CORED, Build, CoreKind, Part, What
from plans.reader import AnswerKeys
from plans.shapes import Section
from plans.units import Units, kelvin

ROUND = Section.round(0.012)


@pytest.mark.parametrize(
    ("answers", "answer", "said"),
    [
        # a point is closed round a core, and these have none
        ({"what": What.BAR, "build": Build.CORE}, "build", "a bar has none"),
        ({"what": What.DRAWKNIFE, "build": Build.CORE}, "build", "a drawknife has none"),
        ({"what": What.WEDGE, "build": Build.WRAPPED}, "build", "a wedge has none"),
        ({"build": Build.LAMINATE, "bar": ROUND}, "bar", "no flat faces"),
        ({"build": Build.LAMINATE, "other_bar": ROUND}, "other_bar", "no flat faces"),
        ({"build": Build.CORE, "bar": ROUND}, "bar", "no flat faces"),
        ({"build": Build.FOLDED, "pieces": 1}, "pieces", "no stack"),
        ({"build": Build.CORE, "core": CoreKind.LAYERED, "pieces": 1}, "pieces", "no stack"),
    ],
)
def test_what_no_smith_can_build_is_refused(answers: dict[str, Any], answer: str, said: str) -> None:
    with pytest.raises(MakeError, match=said) as refused:
        propose(AnswerKeys(**answers))
    assert refused.value.answer == answer


def is_refused(answers: AnswerKeys) -> bool:
    try:
        propose(answers)
    except MakeError:
        return True
    return False


@pytest.mark.parametrize("what", What)
def test_what_is_offered_can_be_built_and_what_is_not_offered_is_refused(what: What) -> None:
    of_it, beside = refused_words(AnswerKeys(what=what), "build"), AnswerKeys(build=Build.CORE)
    assert {build.value for build in CORED if is_refused(AnswerKeys(what=what, build=build))} == set(of_it)
    # asked the other way round: it is the building that has to change then
    assert (what.value in refused_words(beside, "what")) == (Build.CORE.value in of_it)
    assert {error.answer for error in of_it.values()} <= {"build"}


def test_a_round_bar_that_meets_no_other_is_taken() -> None:
    assert propose(AnswerKeys(bar=ROUND, thickness=0.003)).bars[0].section == ROUND
    cable = propose(AnswerKeys(build=Build.BUNDLE, other_bar=Section.round(0.03), bar=ROUND, pattern=("1080",)))
    assert [bar.section for bar in cable.bars] == [Section.round(0.03)]


@pytest.mark.parametrize(
    ("answers", "answer", "said"),
    [
        ({"steel": "1018"}, "steel", "too little carbon"),
        ({"build": Build.FOLDED, "pattern": ("1084", "1018")}, "pattern", "1018 does not harden"),
        ({"build": Build.TWISTED, "pattern": ("wrought iron", "1095")}, "pattern", "wrought iron does not harden"),
        # 25 pieces doubled 8 times, like faces meeting, are 6145 layers: in 4 mm each has 0.65 micrometres
        ({"build": Build.FOLDED, "pieces": 25, "folds": 8}, "folds", "0.00065 mm"),
        ({"temper": kelvin(640)}, "temper", "leaves 1084 soft"),
        # circles in a plane cover pi / sqrt 12 of it at the most: 90.7 % (Lagrange, for lattices)
        ({"build": Build.BUNDLE, "loss": 0.05}, "loss", "9 % air"),
        # a hand hammer takes off 15 to 25 % of the area a heat: common practice, no source
        ({"reduction": 0.8}, "reduction", "25 % at most"),
    ],
)
def test_what_would_fail_is_told_as_serious(answers: dict[str, Any], answer: str, said: str) -> None:
    serious = [one for one in propose(AnswerKeys(**answers)).concerns if one.serious and one.answer == answer]
    assert [one for one in serious if said in Units.METRIC.text(one.what)]
    assert all(Units.METRIC.text(one.mend) for one in serious)


@pytest.mark.parametrize(
    "answers",
    [
        {"build": Build.FOLDED, "folds": 4},  # 97 layers
        {"build": Build.FOLDED, "pattern": ("1084", "1018"), "what": What.BAR},
        {"build": Build.FOLDED, "pattern": ("1084", "1018"), "leave_out": (Part.HARDEN,)},
        {"build": Build.CORE, "pattern": ("wrought iron",), "core": CoreKind.PLAIN},
        {"reduction": 0.25},
        {"build": Build.BUNDLE, "loss": 0.3, "pattern": ("1080",)},
    ],
)
def test_what_is_sound_is_left_alone(answers: dict[str, Any]) -> None:
    about = {"pattern", "folds", "temper", "loss", "reduction"}
    assert not [one for one in propose(AnswerKeys(**answers)).concerns if one.serious and one.answer in about]


def test_a_cable_of_two_steels_is_doubted() -> None:
    told = [one for one in propose(AnswerKeys(build=Build.BUNDLE)).concerns if one.answer == "pattern"]
    assert ["a cable is of one steel" in Units.METRIC.text(one.what) for one in told] == [True]

"""Which answers are asked for: those that change the plan, and no others."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, Final

import pytest

from plans.blows import StruckBy
from plans.maker import MakeError, applies, parts_of, propose, settle, taken, text_of
from plans.making import OPTIONAL, Build, CoreKind, Part, What
from plans.reader import AnswerKeys, keys_of
from plans.shapes import Section
from plans.units import kelvin

OTHERS: Final[dict[str, Any]] = {
    "length": 0.17,
    "width": 0.034,
    "edge": 0.0007,
    "point": 0.03,
    "tang_length": 0.09,
    "tang": Section(0.012, 0.004),
    "steel": "1095",
    "back": "1045",
    "pattern": ("1095", "L6"),
    "bar": Section(0.02, 0.018),
    "other_bar": Section(0.03, 0.006),
    "pieces": 9,
    "folds": 3,
    "cores": 3,
    "twist": 0.08,
    "core_share": 0.3,
    "loss": 0.5,
    "struck_by": StruckBy.PRESS,
    "reduction": 0.1,
    "scale": 0.05,
    "temper": kelvin(215),
    "hardness": 57,
    "dips": 5,
    "dip": 333.0,
}
"""For each answer one that is not usual."""


def made(answers: AnswerKeys) -> str:
    try:
        return text_of(propose(answers)).partition("\n[made_from]\n")[0]
    except MakeError as error:
        return str(error)


@pytest.mark.parametrize(
    ("what", "build"),
    [(What.DRAWKNIFE, Build.LAID_EDGE), (What.CYCLES, Build.WRAPPED)],
)
def test_what_changes_the_plan_is_asked_for_and_nothing_else(what: What, build: Build) -> None:
    answers = AnswerKeys(what=what, build=build, core=CoreKind.TWISTED)
    plan, asked = made(answers), {one for group in applies(answers) for one in group.answers}
    changes = {name for name, value in OTHERS.items() if made(replace(answers, **{name: value})) != plan}
    assert changes == asked & OTHERS.keys()
    steps = {step.part for step in propose(answers).steps}
    assert set(parts_of(answers)) == steps & set(OPTIONAL)


@pytest.mark.parametrize(
    "answers",
    [
        AnswerKeys(steel="1018"),
        AnswerKeys(leave_out=(Part.HARDEN,)),
        AnswerKeys(build=Build.CORE, core=CoreKind.PLAIN, pattern=("1084",)),
        AnswerKeys(build=Build.FOLDED, pattern=("1018", "wrought iron")),
    ],
)
def test_no_part_is_asked_for_that_the_steels_leave_no_room_for(answers: AnswerKeys) -> None:
    steps = {step.part for step in propose(answers).steps}
    # the quench is offered all the same: that it is left out is said, with the reason
    assert set(parts_of(answers)) - {Part.HARDEN} == steps & set(OPTIONAL) - {Part.HARDEN}
    asked = {one for group in applies(answers) for one in group.answers}
    assert ("temper" in asked) is ("hardness" in asked) is (Part.TEMPER in steps)
    assert ("dips" in asked) is (Part.ETCH in steps)


def test_an_answer_left_over_from_another_build_changes_nothing() -> None:
    assert settle(AnswerKeys(build=Build.FOLDED, core=CoreKind.TWISTED)).pieces == 7
    assert settle(AnswerKeys(build=Build.WRAPPED, core=CoreKind.TWISTED)).pieces == 5


def test_what_is_said_of_a_key_that_is_absent_is_what_is_taken() -> None:
    said = {name: one.otherwise for name, one in keys_of(AnswerKeys).items()}
    edges = {f"{settle(AnswerKeys(what=what)).edge * 1e3:g} mm" for what in What}
    assert set(re.findall(r"[\d.]+ mm", said["edge"])) == edges
    long, short = (settle(AnswerKeys(length=length, width=0.03)).point for length in (0.2, 0.08))
    assert (long, short) == (pytest.approx(1.5 * 0.03), pytest.approx(0.08 / 2))
    assert {"one and a half times", "half the length"} <= set(
        re.findall(r"one and a half times|half the length", said["point"])
    )
    pairs = [("1084", "15N20"), ("1084", "1095")]
    dips = {taken(propose(AnswerKeys(build=Build.FOLDED, pattern=pair)), "dips") for pair in pairs}
    assert {str(one.value) for one in dips if one} == set(re.findall(r"\d", said["dips"]))


def test_every_answer_belongs_to_a_group() -> None:
    kinds = [AnswerKeys(build=build, core=core) for build in Build for core in (None, CoreKind.TWISTED)]
    assert {one for answers in kinds for group in applies(answers) for one in group.answers} == set(keys_of(AnswerKeys))


def test_what_is_taken_without_an_answer_gives_the_same_plan_where_it_is_answered() -> None:
    proposal = propose(AnswerKeys(build=Build.LAMINATE))
    found = {one: taken(proposal, one) for group in applies(proposal.answers) for one in group.answers}
    chosen = {one: what.value for one, what in found.items() if what is not None}
    assert chosen.keys() > {"length", "tang", "bar", "other_bar", "temper", "dips", "dip", "reduction"}
    again = propose(replace(proposal.answers, **chosen))
    assert [step.keys.heats for step in again.steps] == [step.keys.heats for step in proposal.steps]
    assert again.stock == pytest.approx(proposal.stock)

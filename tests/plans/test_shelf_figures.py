"""What a plan of the shelf says it is about is so: its figures are those of its bars, answers and steps."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from plans.maker import propose, text_of
from plans.plan import Plan
from plans.reader import SHELF, AnswerKeys, made_from, read_plan
from plans.shapes import Section
from plans.stock import LossKind
from plans.units import celsius

NAMES = sorted(path.stem for path in SHELF.glob("*.toml"))
ROUGH = 0.02
"""A measure of `about` may be rounded by so much."""
BESIDE = {("kitchen-billet", 180.0)}
"""Measures of what may become of it later: the blade that the bar is long enough for."""


def plan_of(name: str) -> Plan:
    return read_plan((SHELF / f"{name}.toml").read_text("utf-8"), name, name)


def sides(*sections: Section | None) -> Iterator[float]:
    for one in sections:
        if one is not None:
            yield from (one.width, one.thickness)


def lengths_of(plan: Plan) -> Iterator[float]:
    """Every length that the plan holds, and what bars of one section come to together [m]."""
    for bar in plan.bars:
        yield from (bar.length, *sides(bar.section))
        yield sum(one.length for one in plan.bars if one.section == bar.section)
    for step in plan.steps:
        yield from sides(step.section, step.reach)
        yield from (one for one in (step.length, step.reach_length, step.thin_length) if one is not None)
    answers = made_from(plan.source, plan.name)
    assert answers is not None
    asked = (answers.length, answers.width, answers.thickness, answers.tang_length)
    yield from (one for one in asked if one is not None)
    if plan.bars:
        settled = propose(answers).settled
        yield from (settled.length, settled.width, settled.thickness, settled.tang_length)


@pytest.mark.parametrize("name", [name for name in NAMES if plan_of(name).bars])
def test_the_lengths_that_a_plan_is_said_to_take_are_its_own(name: str) -> None:
    plan = plan_of(name)
    own = [1000 * one for one in lengths_of(plan)]
    told = re.findall(r"\{([^}]*) mm\}", plan.about)
    assert told
    for number in (float(one) for braces in told for one in braces.split(" x ")):
        near = any(number == pytest.approx(one, rel=ROUGH) for one in own)
        assert near or (name, number) in BESIDE, f"{number:g} mm"


@pytest.mark.parametrize("name", [name for name in NAMES if "degC}" in plan_of(name).about])
def test_the_temperatures_that_a_plan_is_said_to_have_are_its_own(name: str) -> None:
    plan = plan_of(name)
    own = {round(celsius(target.heat_to)) for step in plan.steps for target in step.targets}
    own |= {int(one) for one in re.findall(r'(?m)^at = "(\d+) degC"', plan.source)}
    told = re.findall(r"\{([^}]*) degC\}", plan.about)
    assert {int(one) for braces in told for one in re.findall(r"\d+", braces)} <= own


def test_four_fifths_of_a_folded_billet_are_lost() -> None:
    assert "four fifths go to scale" in " ".join(plan_of("folded-knife").about.split())
    answers = made_from(plan_of("folded-knife").source, "folded-knife")
    assert answers is not None
    proposal = propose(answers)
    lost = {loss.kind: loss.volume / proposal.stock for loss in proposal.losses}
    assert lost[LossKind.SCALE] + lost[LossKind.ENDS] + lost[LossKind.GRINDING] == pytest.approx(0.8, abs=0.05)


def test_where_a_figure_comes_from_is_said_in_one_way() -> None:
    bases = "asked|arithmetic|modelled|published|from memory|common practice"
    for text in (*(plan_of(name).source for name in NAMES), text_of(propose(AnswerKeys()))):
        assert not re.search(rf"# (?:{bases}): [a-z]", text)

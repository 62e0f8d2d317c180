"""The plans that ship and the maker don't drift apart: each is what it makes of the plan's answers, but for its words.

What was changed by hand stands beside it in the file: "# by hand: why" at a key, "# by hand (keys): why" above some of
them, "# by hand, step: why" at a step that the maker does not have.
"""

from __future__ import annotations

import re
from dataclasses import fields
from functools import cache

import pytest

from plans.editing import Draft, draft_of
from plans.maker import Proposal, propose
from plans.making import Build, What
from plans.phase import PhaseKind
from plans.plan import StepKind
from plans.reader import SHELF, AnswerKeys, BarKeys, StepKeys, made_from, notes_on, read_plan, write_keys
from plans.units import Units

NAMES = sorted(path.stem for path in SHELF.glob("*.toml"))
WORDS = {"title", "instruction", "checklist", "cautions", "cues", "phases"}
FIGURES = [field.name for field in fields(StepKeys) if field.name not in WORDS]


@cache
def text(name: str) -> str:
    return (SHELF / f"{name}.toml").read_text("utf-8")


@cache
def draft(name: str) -> Draft:
    return draft_of(text(name), name)


@cache
def answers(name: str) -> AnswerKeys:
    found = made_from(text(name), name)
    assert found is not None
    return found


@cache
def proposal(name: str) -> Proposal:
    return propose(answers(name))


def by_hand(table: str) -> tuple[bool, set[str]]:
    """Whether a table of a file is none of the maker's, and which of its keys were changed by hand."""
    flat = re.sub(r"\n# (?!by hand|\w+ = )", " ", table)
    keys = {key.strip() for named in re.findall(r"# by hand \(([^)]*)\):", flat) for key in named.split(",")}
    keys |= set(re.findall(r"^(\w+) = .*# by hand:", flat, re.MULTILINE))
    keys |= set(re.findall(r"^# by hand:.*\n(\w+) = ", flat, re.MULTILINE))
    return "# by hand, step:" in flat, keys


def tables(name: str, kind: str) -> list[str]:
    """The tables of a file: each with its comments, those above its header among them."""
    headers = list(re.finditer(r"(?m)^(?:#.*\n)*\[\[(\w+)\]\]\n", text(name)))
    ends = [header.start() for header in headers[1:]] + [None]
    parts = zip(headers, ends, strict=True)
    return [text(name)[header.start() : end] for header, end in parts if header[1] == kind]


def figures(keys: StepKeys | BarKeys) -> dict[str, object]:
    """What a table holds besides its words, as the file writes it."""
    return {name: value for name, value in write_keys(keys, Units.METRIC).items() if name not in WORDS}


@pytest.mark.parametrize("name", NAMES)
def test_each_plan_is_what_the_maker_makes_of_its_answers(name: str) -> None:
    made = list(proposal(name).steps)
    for table, one in zip(tables(name, "step"), draft(name).steps, strict=True):
        added, keys = by_hand(table)
        assert keys <= set(FIGURES), keys
        if added:
            continue
        step = made.pop(0)
        assert one.keys.kind == step.keys.kind, one.keys.title
        mine, its = figures(one.keys), figures(step.keys)
        differ = {key for key in mine.keys() | its.keys() if mine.get(key) != its.get(key)}
        assert differ == keys, f"{one.keys.title}: {[(key, mine.get(key), its.get(key)) for key in differ ^ keys]}"
    assert made == []


@pytest.mark.parametrize("name", NAMES)
def test_each_plan_starts_from_the_bars_of_the_maker(name: str) -> None:
    made = sorted((figures(bar) for bar in proposal(name).bars), key=lambda bar: str(bar["steel"]))
    mine = zip(tables(name, "bar"), draft(name).bars, strict=True) if made else []
    for (table, one), its in zip(sorted(mine, key=lambda pair: pair[1].keys.steel), made, strict=True):
        _, keys = by_hand(table)
        bar = figures(one.keys)
        assert {key for key in bar if bar[key] != its[key] and key != "name"} == keys


@pytest.mark.parametrize("name", NAMES)
def test_each_plan_is_worded_by_hand_and_can_be_followed(name: str) -> None:
    plan = read_plan(text(name), name, name)
    assert notes_on(plan, name) == ()
    assert plan.title == answers(name).title
    assert len(plan.title) <= 40
    assert len(plan.about) > 100
    assert plan.about != proposal(name).about
    said = {step.keys.instruction for step in proposal(name).steps}
    assert sum(step.instruction not in said for step in plan.steps) >= len(plan.steps) / 2
    for table in tables(name, "step"):
        assert "#" in table, "where its figures come from"


@pytest.mark.parametrize("name", NAMES)
def test_nothing_that_the_maker_finds_serious_ships(name: str) -> None:
    assert not [concern for concern in proposal(name).concerns if concern.serious]


def test_the_shelf_has_every_kind_of_step_and_phase_and_everything_that_can_be_made() -> None:
    steps = [step for name in NAMES for step in read_plan(text(name), name, name).steps]
    assert {step.kind for step in steps} == set(StepKind)
    assert {phase.kind for step in steps for phase in step.phases} == set(PhaseKind) - {PhaseKind.READY}
    assert {answers(name).what for name in NAMES} == set(What)
    assert {answers(name).build for name in NAMES} == set(Build)

"""A whole plan as a text: read back it is the same plan, and it stands there as a smith would write it."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from plans.editing import Draft, DraftTable, draft_of, toml_of
from plans.plan import Plan, StepKind
from plans.reader import SHELF, PlanKeys, StepKeys, read_plan
from plans.reader.keys import OvenKeys
from plans.units import Units, kelvin

TEXTS = {path.stem: path.read_text("utf-8") for path in sorted(SHELF.glob("*.toml"))}


def plan_of(text: str) -> Plan:
    return replace(read_plan(text, "one", "one.toml"), source="")


@pytest.mark.parametrize("name", TEXTS)
def test_a_plan_written_by_hand_is_written_with_the_same_lines(name: str) -> None:
    text = toml_of(draft_of(TEXTS[name], name))
    assert plan_of(text) == plan_of(TEXTS[name])
    short = {line for line in text.splitlines() if '"' in line and len(line) < 80}
    assert short <= {re.sub('(?<=["\\]\\d])  #.*', "", line) for line in TEXTS[name].splitlines()}
    assert max(len(line) for line in text.splitlines() if not line.startswith(("cautions", '  "'))) <= 118


@pytest.mark.parametrize("name", TEXTS)
def test_in_inches_it_is_the_same_plan_but_for_rounding(name: str) -> None:
    inch, hand = plan_of(toml_of(draft_of(TEXTS[name], name), Units.INCH)), plan_of(TEXTS[name])
    for one, other in zip(inch.steps, hand.steps, strict=True):
        assert (one.title, one.instruction, one.checklist, one.heats) == (
            other.title,
            other.instruction,
            other.checklist,
            other.heats,
        )
        for target, wanted in zip(one.targets, other.targets, strict=True):
            assert (target.fire, target.heat_to) == pytest.approx((wanted.fire, wanted.heat_to), abs=0.3)
        if other.reach is not None:
            assert one.reach is not None
            assert one.reach.area == pytest.approx(other.reach.area, rel=0.011)
            assert one.reach_length == pytest.approx(other.reach_length, rel=0.005)


def test_where_a_figure_comes_from_stands_beside_it_or_above_it() -> None:
    draft = draft_of(TEXTS["normalize"], "normalize")
    oven = StepKeys("Temper", StepKind.TEMPER, oven=OvenKeys(kelvin(205), 7200.0))
    long = "common practice, and " + "a long reason " * 10
    step = DraftTable(oven, {"kind": "asked", "oven.at": "published: from the card", "oven.seconds": long})
    text = toml_of(replace(draft, steps=(step,)), comment="One.\n\nTwo.")
    assert text.startswith("# One.\n#\n# Two.\n\nheatbook = 1\n")
    assert 'kind = "temper"  # asked\n' in text
    assert '[step.oven]\nat = "205 degC"  # published: from the card\n# common practice, and a long reason' in text
    assert plan_of(text).steps[0].phases[0].at == kelvin(205)


@given(
    st.text(st.characters(exclude_categories=["C", "Zl", "Zp"], exclude_characters="{}"), min_size=1, max_size=60),
    st.integers(1, 2000),
)
def test_any_text_reads_back(line: str, length: int) -> None:
    line = line.strip() or "x"
    body = (f'"{line}" \\ """ ' * 2000)[:length].strip() or "x"
    step = StepKeys(line, StepKind.BENCH, body, checklist=(line, line), cautions=(line,))
    (read,) = draft_of(toml_of(Draft(PlanKeys(1, line, body), (), (DraftTable(step),))), "any").steps
    assert (read.keys.title, read.keys.checklist, read.keys.cautions) == (line, (line, line), (line,))
    assert read.keys.instruction == " ".join(body.split())

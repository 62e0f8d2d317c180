"""Where lessons are said once a title is another one or a step is gone: in the plan that taught them, in no other."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from plans.logbook import LogbookError, SittingLessons, Tie, at_step
from plans.logbook.afterwards.lessons import Recalled
from plans.logbook.afterwards.said_at import steps_of
from plans.plan import Plan, StepKind
from plans.reader import read_plan

NOW = datetime(2026, 3, 14, 9, 0, tzinfo=UTC)
TEXT = """
heatbook = 1
title = "{title}"

[[bar]]
name = "bar"
steel = "{steel}"
section = "30 x 10 mm"
length = "200 mm"
"""
STEP = """
[[step]]
title = "{}"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
section = "30 x 10 mm"
"""


def plan(name: str, *titles: str, title: str = "A knife", steel: str = "1084") -> Plan:
    return read_plan(TEXT.format(title=title, steel=steel) + "".join(map(STEP.format, titles)), name, "x.toml")


def taught(tie: Tie, step: int, by: str = "knife", text: str = "keep it square") -> Recalled:
    (lesson,) = SittingLessons().learned(text, tie, step, NOW, by).written
    return Recalled(f"20260314-090000-{by}", lesson, 0)


def said(one: Recalled, plan: Plan) -> list[int]:
    """The steps, from 0, at which it is said; where it may be put is the same."""
    found = [step for step in range(len(plan.steps)) if at_step((one,), plan, step)]
    assert found == list(steps_of(one.lesson, plan))
    return found


@pytest.mark.parametrize(
    ("titles", "learned_at", "steps"),
    [
        (("Bar", "Tang", "Point"), 1, [1]),
        (("Tang", "Bar", "Point"), 1, [0]),  # under its title, wherever that stands
        (("Bar", "Draw the tang", "Point"), 1, [1]),  # retitled
        (("Bar", "Point", "Draw the tang"), 2, [2]),  # the nearest to where it was
        (("Bar", "Point"), 2, [1]),
    ],
)
def test_a_lesson_of_a_step_follows_it_to_another_title(
    titles: tuple[str, ...], learned_at: int, steps: list[int]
) -> None:
    one = taught(Tie(StepKind.DRAW, "Tang"), learned_at)
    assert said(one, plan("knife", *titles)) == steps
    assert said(one, plan("knife-2", *titles)) == steps, "in a copy too"
    other = steps if "Tang" in titles else []
    assert said(one, plan("sword", *titles)) == other, "in another plan only under its title"


def test_a_lesson_of_a_plan_follows_it_to_another_title() -> None:
    one = taught(Tie(plan="A knife"), 0)
    assert said(one, plan("knife", "Bar", "Tang", title="A short knife")) == [0, 1]
    assert said(one, plan("sword", "Bar", title="A sword")) == []
    assert said(one, plan("sword", "Bar", title="A knife, 3")) == [0]


def test_what_tells_plans_apart_besides_a_title_still_does() -> None:
    one = taught(Tie(StepKind.DRAW, "Tang", steel="1084"), 0)
    assert said(one, plan("knife", "Draw the tang")) == [0]
    assert said(one, plan("knife", "Draw the tang", steel="O1")) == []
    assert said(taught(Tie(StepKind.WELD, "Weld"), 0), plan("knife", "Draw the tang")) == [], "no step of its kind"
    assert said(taught(Tie(StepKind.DRAW), 0), plan("sword", "Tang")) == [0], "it names no title"


def test_plans_whose_names_have_no_letters_of_ascii_are_told_apart() -> None:
    one = taught(Tie(StepKind.DRAW, "Хвостовик"), 0, by="нож")
    assert said(one, plan("нож", "Tang")) == [0]
    assert said(one, plan("топор", "Tang")) == []


def test_a_line_that_was_learned_twice_is_read_once() -> None:
    found = (taught(Tie(StepKind.DRAW), 0, text=text) for text in ("Keep it square", "keep it square", "hotter"))
    said = at_step(tuple(found), plan("knife", "Tang"), 0)
    assert sorted(one.lesson.text.casefold() for one in said) == ["hotter", "keep it square"]


def test_the_same_of_the_same_is_refused_however_it_comes_about() -> None:
    tie, other = Tie(StepKind.DRAW), Tie(StepKind.WELD)
    lessons = SittingLessons().learned("keep it square", tie, 0, NOW, "knife")
    with pytest.raises(LogbookError, match="stands there already: lesson 1"):
        lessons.learned("Keep it square", tie, 0, NOW, "knife")
    lessons = lessons.learned("keep it square", other, 0, NOW, "knife").learned("hotter", tie, 0, NOW, "knife")
    with pytest.raises(LogbookError, match="stands there already: lesson 1"):
        lessons.changed(3, lambda one: one.edited("keep it square", NOW))
    retired = lessons.changed(1, lambda one: replace(one, retired=NOW)).learned("keep it square", tie, 0, NOW, "knife")
    with pytest.raises(LogbookError, match="stands there already: lesson 4"):
        retired.changed(1, lambda one: replace(one, retired=None))


def test_former_words_are_known_while_a_plan_may_say_them() -> None:
    lesson = SittingLessons().learned("hot", Tie(StepKind.DRAW), 0, NOW, "knife").written[0]
    assert lesson.edited("hotter", NOW).former == (), "no plan says it"
    edited = lesson.put("knife-2").edited("hotter", NOW + timedelta(days=1))
    assert edited.former == ("hot",)
    assert edited.edited("hot", NOW).former == ("hotter",)
    assert edited.put_back("knife-2").former == ()

"""The plans at hand: in which group each stands, by which words it is found, and what its picture shows."""

from __future__ import annotations

from pathlib import Path

import pytest

from plans.at_hand import Group, group_of, has_words, list_plans, sections_drawn, words_of
from plans.drawing import STEELS
from plans.plan import StepKind
from plans.reader import find_plan, read_plan
from plans.units import Units
from tests.shelf_plans import shelf_plans

LOOK = '[[step]]\ntitle = "Look"\nkind = "bench"\n'
HEAD = 'heatbook = 1\ntitle = "Hook"\n'


@pytest.mark.parametrize(
    ("kinds", "group"),
    [
        ("bench weld draw normalize", Group.WELDED),
        ("bench draw normalize", Group.FORGED),
        ("forge harden temper etch", Group.FORGED),
        ("bench normalize", Group.TREATED),
        ("anneal", Group.TREATED),
        ("harden temper", Group.TREATED),
        ("etch bench", Group.FINISHED),
        ("bench", Group.FINISHED),
    ],
)
def test_a_plan_stands_where_its_hardest_step_belongs(kinds: str, group: Group) -> None:
    assert group_of({StepKind(kind) for kind in kinds.split()}) is group


def test_a_glance_at_what_ships_tells_what_reading_it_does() -> None:
    listed = list_plans(None)
    assert all(plan.found is None for plan in listed), "nothing was read"
    assert [(plan.title, plan.group) for plan in listed] == [(p.title, p.group) for p in (q.read() for q in listed)]
    assert {plan.name for plan in listed} == {plan.name for plan in shelf_plans(None)}
    order = list(Group)
    assert [plan.group for plan in listed] == sorted((plan.group for plan in listed), key=order.index)


@pytest.mark.parametrize(
    ("text", "title", "group", "at_once"),
    [
        (HEAD + LOOK, "Hook", Group.FINISHED, True),
        (HEAD + LOOK.replace("bench", "weld"), "hook", Group.UNUSABLE, False),  # a weld needs a fire
        (HEAD.replace("Hook", "My \\u00e9tude") + LOOK, "My étude", Group.FINISHED, True),
        (HEAD + LOOK.replace('"bench"', "'bench'"), "Hook", Group.FINISHED, True),
        ("heatbook = 1\n" + LOOK, "hook", Group.UNUSABLE, True),
        ("\0", "hook", Group.UNUSABLE, True),
    ],
    ids=["usual", "seems good", "escape", "other quotes", "no title", "no text"],
)
def test_what_no_glance_tells_is_read(tmp_path: Path, text: str, title: str, group: Group, at_once: bool) -> None:
    (tmp_path / "hook.toml").write_text(text)
    (glanced,) = (plan for plan in list_plans(tmp_path) if plan.file.own)
    assert ((glanced.title, glanced.group) == (title, group)) is at_once
    read = glanced.read()
    assert (read.title, read.group, read.is_usable) == (title, group, group is not Group.UNUSABLE)


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ("", {"drawknife", "kitchen-billet", "normalize"}),
        ("15n20", {"kitchen-billet"}),
        ("1018", {"drawknife"}),
        ("FOLD second", {"kitchen-billet"}),
        ("tang", {"drawknife", "kitchen-billet"}),
        ("tangs", {"drawknife"}),
        ("weld", {"drawknife", "kitchen-billet"}),
        ("treatment", {"normalize"}),
        ("weld 15n20 1018", set()),
    ],
)
def test_a_plan_is_found_by_all_of_its_texts(wanted: str, found: set[str]) -> None:
    plans = {name: find_plan(name, None) for name in ("drawknife", "kitchen-billet", "normalize")}
    texts = {name: words_of(plan, Units.METRIC) for name, plan in plans.items()}
    assert {name for name, text in texts.items() if has_words(text, wanted)} == found


def test_a_quantity_is_looked_for_as_it_is_shown() -> None:
    plan = find_plan("drawknife", None)
    assert has_words(words_of(plan, Units.METRIC), "230 mm")
    assert has_words(words_of(plan, Units.INCH), "9 1/16 in")
    assert not has_words(words_of(plan, Units.INCH), "230")


def test_the_picture_has_each_section_once_and_to_scale() -> None:
    drawn = sections_drawn(find_plan("drawknife", None))
    assert drawn is not None
    # the pair, the blade, a tang (the second is like the first), the bevelled blade, the same ground for the quench
    sides = [(max(x for x, _ in part.outline) - min(x for x, _ in part.outline)) * 1000 for part in drawn.parts]
    assert sides == pytest.approx([30, 32, 12, 37, 36.5])
    assert [part.pattern for part in drawn.parts] == [STEELS[1], *[STEELS[0]] * 3, STEELS[1]]
    lefts = [min(x for x, _ in part.outline) for part in drawn.parts]
    rights = [max(x for x, _ in part.outline) for part in drawn.parts]
    assert all(right < left for right, left in zip(rights, lefts[1:], strict=False)), "none lies on another"
    assert [Units.METRIC.text(one.shown) for one in drawn.measures][:2] == ["30 x 20 mm", "32 x 8 mm"]
    assert sections_drawn(read_plan(HEAD + LOOK, "hook", "hook.toml")) is None


def test_a_plan_is_found_by_the_beginning_of_a_word_and_not_by_its_end() -> None:
    assert has_words("A handle of 15N20", "hand 15n")
    assert not has_words("By hand", "and")

"""A plan made anew for other answers: what was changed by hand stays, and the rest follows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from plans.editing import (
    Draft,
    DraftTable,
    Remade,
    difference,
    draft_of,
    moved,
    remake,
    removed,
    repeated,
    toml_of,
    with_keys,
    with_new_step,
)
from plans.maker import draft_of_proposal, propose, text_of
from plans.making import Build
from plans.plan import StepKind
from plans.reader import SHELF, AnswerKeys, BarKeys, PlanKeys, QuenchKeys, StepKeys, read_plan
from plans.shapes import Section
from plans.toml import comments_in
from plans.units import Units, kelvin

FLAT = Section(0.03, 0.006)


def draft(steel: str, fire: float, *more: DraftTable[StepKeys], last: str = "Look") -> Draft:
    """A plan to harden a bar, with more steps before its last one."""
    harden = StepKeys(
        "Harden",
        StepKind.HARDEN,
        fire=kelvin(fire),
        heat_to=kelvin(fire - 20),
        section=FLAT,
        quench=QuenchKeys("oil at {55 degC}", 10.0),
    )
    long = f"common practice for {steel}, which is written here at such a length that it needs a line of its own" * 2
    why = {"fire": f"published for {steel}", "quench.seconds": "arithmetic", "heat_to": long}
    bar = DraftTable(BarKeys("it", steel, FLAT, 0.2), part="only")
    return Draft(
        PlanKeys(1, "Harden it", f"A bar of {steel}."),
        (bar,),
        (DraftTable(harden, why), *more, DraftTable(StepKeys(last, StepKind.BENCH), part="last")),
    )


OLD, NEW = draft("1084", 830), draft("O1", 810)
TEMPERED = DraftTable(StepKeys("Clean", StepKind.BENCH, "Wipe it."))
TEXT = toml_of(OLD, comment="Mine")


def made(old: Draft, text: str, new: Draft) -> Remade:
    return remake(old, text, new, Units.METRIC)


def told(remade: Remade) -> dict[str, list[str]]:
    return {
        name: list(getattr(remade, name).lines(Units.METRIC))
        for name in ("followed", "kept", "gave_way")
        if not getattr(remade, name).is_empty
    }


def test_a_plan_that_was_not_touched_becomes_the_new_one() -> None:
    drafts = [draft_of((SHELF / f"{name}.toml").read_text("utf-8"), name) for name in ("normalize", "drawknife")]
    remade = made(drafts[0], toml_of(drafts[0], Units.INCH), drafts[1])
    assert difference(remade.text, toml_of(drafts[1])).is_empty
    assert remade.kept.is_empty
    assert remade.gave_way.is_empty


def test_other_answers_give_what_they_would_have_given_at_once() -> None:
    proposals = [propose(answers) for answers in (AnswerKeys(), AnswerKeys(build=Build.LAID_EDGE, length=0.2))]
    old, new = (draft_of_proposal(one) for one in proposals)
    assert made(old, text_of(proposals[0]), new).text == text_of(proposals[1])


def test_the_same_answers_change_nothing_whatever_was_done_by_hand() -> None:
    text = (SHELF / "drawknife.toml").read_text("utf-8")
    by_hand = with_keys(moved(text, "step", 9, 1), {("step", 3, "fire"): "1290 degC"})
    remade = made(draft_of(text, "drawknife"), by_hand, draft_of(text, "drawknife"))
    assert remade.text == by_hand
    assert told(remade) == {"kept": ['step 4 "Set the weld": fire: 1300 degC -> 1290 degC']}


def test_figures_follow_with_where_they_come_from() -> None:
    remade = made(OLD, TEXT, NEW)
    assert remade.text == toml_of(NEW, comment="Mine")
    assert told(remade) == {
        "followed": [
            "about: A bar of 1084. -> A bar of O1.",
            'bar 1 "it": steel: 1084 -> O1',
            'step 1 "Harden": fire: 830 degC -> 810 degC',
            'step 1 "Harden": heat_to: 810 degC -> 790 degC',
        ]
    }


def test_what_was_changed_by_hand_stays_and_so_do_its_comments() -> None:
    text = with_keys(TEXT, {("step", 0, "heat_to"): "795 degC", ("step", 0, "quench", "for"): "8 s"}).replace(
        '"8 s"  # arithmetic', '"8 s" # as I do it\n# and so on'
    )
    remade = made(OLD, text, NEW)
    step = read_plan(remade.text, "", "").steps[0]
    assert (step.targets[0].fire, step.targets[0].heat_to) == (kelvin(810), kelvin(795))
    assert {"# as I do it", "# and so on", "# Mine"} <= set(comments_in(remade.text))
    assert told(remade)["kept"] == [
        'step 1 "Harden": heat_to: 790 degC -> 795 degC',
        'step 1 "Harden": quench.for: 10 s -> 8 s',
    ]


def test_what_would_make_no_sense_gives_way_and_is_told() -> None:
    text = with_keys(TEXT, {("step", 0, "heat_to"): "820 degC"})  # hotter than the fire will be
    remade = made(OLD, text, NEW)
    assert told(remade)["gave_way"] == ['step 1 "Harden": heat_to: 820 degC -> 790 degC']
    assert difference(remade.text, toml_of(NEW)).is_empty


def test_steps_come_and_go_and_those_of_the_smith_stay() -> None:
    more = draft("1084", 830, TEMPERED)
    text = with_new_step(repeated(TEXT, "step", 1), 1, StepKind.TEMPER, Units.METRIC)
    remade = made(OLD, text, more)
    titles = ["Harden", "Clean", "Temper", "Look", "Look, again"]
    assert [step.title for step in read_plan(remade.text, "", "").steps] == titles
    assert told(remade)["followed"] == ['step 2 "Clean": is new']
    back = made(more, remade.text, OLD)
    assert back.text == text
    assert told(back)["followed"] == ['step 2 "Clean": is gone']
    worded = with_keys(remade.text, {("step", 1, "instruction"): "Scrub it."})
    assert made(more, worded, OLD).text == worded
    assert made(more, removed(toml_of(more), "step", 1), more).text == removed(toml_of(more), "step", 1)


def test_an_order_that_was_not_changed_by_hand_follows() -> None:
    old = draft("1084", 830, TEMPERED)
    new = replace(old, steps=(old.steps[1], old.steps[0], old.steps[2]))
    remade = made(old, toml_of(old), new)
    assert remade.text == toml_of(new)
    assert told(remade) == {"followed": ['step 1 "Clean": moved, was step 2']}


def test_a_title_that_follows_is_no_new_step() -> None:
    worded = draft("1084", 830, last="Look it over")
    remade = made(OLD, with_keys(TEXT, {("step", 1, "instruction"): "With a lens."}), worded)
    keys: Mapping[str, Any] = {step.title: step.instruction for step in read_plan(remade.text, "", "").steps}
    assert keys == {"Harden": "", "Look it over": "With a lens."}

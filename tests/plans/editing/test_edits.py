"""Edits of a plan's text: what they change, that nothing else changes, and that a refused one changes nothing."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.editing import (
    History,
    added,
    moved,
    removed,
    repeated,
    split_step,
    with_heats,
    with_keys,
    with_made_from,
    with_new_step,
)
from plans.errors import PlanError
from plans.plan import StepKind
from plans.reader import SHELF, AnswerKeys, BarKeys, read_plan
from plans.shapes import Section
from plans.toml import comments_in
from plans.units import Units

DRAWKNIFE = (SHELF / "drawknife.toml").read_text("utf-8")
PLAN = """# Mine

heatbook = 1 # the first
title = "Bar" # a name

# the only one
[[bar]]
name = "it" # i
steel = "1084"
section = "1 in square"
length = "6 in" # short

# first
[[step]]
title = "Draw" # d
kind = "draw"
fire = ["1150 degC", "1140 degC", # falling
  # ever more
  "1130 degC"] # f
# no colder
keep_above = "900 degC" # k
reach = "20 x 20 mm"
reach_length = "240 mm"
heats = 3 # h
  checklist = [
    "one, and", # 1
    "two", # 2
  ]
# at the end of it

# second
# of all
[[step]] # s
title = 'Cool'
kind = "normalize"
fire = "900 degC"
# how
[step.air] # a
until = "480 degC" # u

[step.cues]
air = "still" # c

[[step]]
title = "Look"
kind = "bench" # last
"""


def step_of(text: str, index: int) -> dict[str, Any]:
    step: dict[str, Any] = tomllib.loads(text)["step"][index]
    return step


def lines_that_differ(before: str, after: str) -> tuple[list[str], list[str]]:
    """Lines that are gone and lines that are new."""
    old, new = Counter(before.splitlines()), Counter(after.splitlines())
    return list((old - new).elements()), list((new - old).elements())


def test_a_figure_is_set_in_its_line_and_the_comment_stays() -> None:
    text = with_keys(PLAN, {("step", 0, "keep_above"): "880 degC"})
    assert lines_that_differ(PLAN, text) == (
        ['keep_above = "900 degC" # k'],
        ['keep_above = "880 degC" # k'],
    )
    text = with_keys(PLAN, {("step", 0, "keep_above"): "880 degC"}, "asked")
    assert 'keep_above = "880 degC"  # asked\n' in text
    assert '"1 in"' in with_keys(PLAN, {("bar", 0, "length"): " 1 in "})


def test_a_new_key_stands_where_it_would_in_a_plan_written_by_hand() -> None:
    text = with_keys(
        PLAN,
        {("step", 0, "heat_to"): "1100 degC", ("step", 2, "cues", "bench"): "gloves", ("about",): "One.\n\nTwo."},
    )
    assert '"1130 degC"] # f\nheat_to = "1100 degC"\n# no colder\n' in text
    assert 'title = "Bar" # a name\nabout = """\nOne.\n\nTwo.\n"""\n' in text
    assert text.endswith('kind = "bench" # last\n\n[step.cues]\nbench = "gloves"\n')


def test_comments_between_the_lines_of_a_list_are_kept_above_it() -> None:
    text = with_keys(PLAN, {("step", 0, "fire"): "1150 degC", ("step", 0, "checklist"): "a\nb"})
    assert '# falling\n# ever more\nfire = "1150 degC" # f\n' in text
    assert '# 1\n# 2\n  checklist = [\n  "a",\n  "b",\n]\n' in text


def test_a_table_goes_with_its_last_key() -> None:
    text = with_keys(PLAN, {("step", 1, "cues", "air"): None, ("step", 0, "reach_length"): None})
    assert "cues" not in step_of(text, 1)
    gone = ["", "[step.cues]", 'air = "still" # c', 'reach_length = "240 mm"']
    assert sorted(lines_that_differ(PLAN, text)[0]) == sorted(gone)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({("step", 0, "fire"): "hot"}, '"Draw": fire is wrong: "hot" is no temperature'),
        ({("step", 0, "keep_above"): "1200 degC"}, "hotter than the fire"),
        ({("step", 0, "keepabove"): "1 degC"}, "perhaps keep_above"),
        ({("step", 0, "title"): "\x1b"}, "control characters"),
        ({("step", 0, "title"): "\udcff"}, "half a character"),
        ({("step", 0, "title", "x"): "y"}, "title can't be changed|title is|title.x can't"),
        ({("step", 3, "title"): "y"}, "there is no step 4; it has 3 steps"),
        ({("step", 2, "kind"): "temper"}, "oven"),
        ({("title",): None}, "title is missing"),
    ],
)
def test_what_the_reader_refuses_is_refused_in_its_words(typed: dict[Any, str | None], said: str) -> None:
    with pytest.raises(PlanError, match=said) as error:
        with_keys(PLAN, typed)
    assert all(fault.line is None for fault in error.value.faults)


def test_what_is_not_there_can_t_be_removed() -> None:
    bare = removed(with_keys(PLAN, {("step", 0, "section"): "1 in square"}), "bar", 0)
    with pytest.raises(PlanError, match="there is no bar 1; it has 0 bars"):
        removed(bare, "bar", 0)
    with pytest.raises(PlanError, match="there is no place 5 for a step; choose one from 1 to 4"):
        with_new_step(bare, 4, StepKind.BENCH, Units.METRIC)


def test_keys_that_make_sense_only_together_are_set_together() -> None:
    temper = {("step", 2, "kind"): "temper", ("step", 2, "oven", "at"): "200 degC", ("step", 2, "oven", "for"): "2 h"}
    assert step_of(with_keys(PLAN, temper), 2)["oven"] == {"at": "200 degC", "for": "2 h"}


def test_a_step_takes_its_comments_along() -> None:
    text = moved(PLAN, "step", 1, 0)
    assert "\n# second\n# of all\n[[step]] # s\n" in text
    assert text.index("# second") < text.index("# first") < text.index("# at the end of it") < text.index("Look")
    assert sorted(text) == sorted(PLAN)
    assert moved(text, "step", 0, 1) == PLAN


def test_a_step_once_more_says_so() -> None:
    text = repeated(PLAN, "step", 1)
    assert [step["title"] for step in tomllib.loads(text)["step"]] == ["Draw", "Cool", "Cool, again", "Look"]
    assert removed(text, "step", 2) == PLAN


def test_what_a_step_begins_with_goes_to_the_next_when_it_is_removed() -> None:
    welded = step_of(removed(DRAWKNIFE, "step", 2), 2)
    assert (welded["title"], welded["section"], welded["length"]) == ("Weld the whole length", "30 x 20 mm", "150 mm")


def test_a_split_step_holds_the_volume_and_its_temperatures() -> None:
    whole = read_plan(PLAN, "", "").steps[0]
    first, second = read_plan(split_step(PLAN, 0, 2, Units.METRIC), "", "").steps[:2]
    assert (first.title, second.title) == ("Draw", "Draw, continued")
    assert first.targets + second.targets == whole.targets
    assert (second.reach, second.reach_length, second.section) == (whole.reach, whole.reach_length, first.reach)
    # 25.4 mm square to 20 mm square in three equal shares: two thirds of the way is 25.4 x (20 / 25.4) ** (2 / 3) mm
    assert first.reach is not None
    assert first.reach_length is not None
    assert first.reach.width == pytest.approx(0.0254 * (20 / 25.4) ** (2 / 3), abs=5e-5)
    # two thirds of what the whole step loses, of 25.4 x 25.4 x 152.4 mm, in each heat the same share
    volume = 25.4**2 * 152.4 * (400 * 240 / (25.4**2 * 152.4)) ** (2 / 3)
    assert first.reach.area * first.reach_length == pytest.approx(volume * 1e-9, rel=0.005)


@pytest.mark.parametrize(
    ("heats", "said"),
    [
        (None, 'step 1 "Draw": has 3 heats, which can.t be split after 3; split it after 1 to 2'),
        (2, "has 2 heats, which can.t be split after 3; split it after 1$"),
        (1, "has 1 heat, which can.t be split; give it more first"),
    ],
)
def test_nothing_is_split_off_where_there_is_nothing(heats: int | None, said: str) -> None:
    text = PLAN if heats is None else with_heats(PLAN, 0, heats)
    with pytest.raises(PlanError, match=said):
        split_step(text, 0, 3, Units.METRIC)


def test_what_is_done_at_the_bench_is_not_split() -> None:
    text = 'heatbook = 1\ntitle = "By hand"\n[[step]]\ntitle = "Look"\nkind = "bench"\n'
    with pytest.raises(PlanError, match=r'step 1 "Look": is done at the bench, .*; repeat the step instead'):
        split_step(text, 0, 1, Units.METRIC)


def test_one_heat_more_keeps_the_last_temperature() -> None:
    assert step_of(with_heats(PLAN, 0, 4), 0)["fire"] == ["1150 degC", "1140 degC", "1130 degC", "1130 degC"]
    assert step_of(with_heats(PLAN, 0, 1), 0)["fire"] == ["1150 degC"]


@pytest.mark.parametrize("at", [0, 3])
def test_a_new_step_of_any_kind_can_be_followed(at: int) -> None:
    bars = PLAN.replace(
        "# first\n", '[[bar]]\nname = "b"\nsteel = "W1"\nsection = "1 in round"\nlength = "1 in"\n\n# first\n'
    )
    plan = with_keys(bars, {("step", 0, "section"): "1 in square"})
    for kind in StepKind:
        text = with_new_step(plan, at, kind, Units.METRIC)
        assert read_plan(text, "", "").steps[at].kind is kind
        assert removed(text, "step", at) == plan


def test_a_new_step_has_the_figures_of_the_one_before_of_its_kind() -> None:
    assert step_of(with_new_step(PLAN, 2, StepKind.NORMALIZE, Units.INCH), 2) == {
        "title": "Normalize",
        "kind": "normalize",
        "fire": "1652 degF",
        "air": {"until": "896 degF"},
    }


def test_answers_stand_in_a_table_of_their_own_whose_comments_stay() -> None:
    text = with_made_from(PLAN, AnswerKeys(length=0.2, steel="W1"), Units.METRIC)
    assert text == PLAN + '\n[made_from]\nlength = "200 mm"\nsteel = "W1"\n'
    text = text.replace('"200 mm"', '"200 mm" # as the old one')
    text = with_made_from(text, AnswerKeys(length=0.2, width=0.03175), Units.INCH)
    assert text == PLAN + '\n[made_from]\nlength = "200 mm" # as the old one\nwidth = "1 1/4 in"\n'


ODD = {
    "inline": 'heatbook = 1\ntitle = "a"\nstep = [\n  { title = "a", kind = "bench" }, # one\n]\n',
    "dotted": 'heatbook = 1\ntitle = "a"\n[[step]]\ntitle = "a"\nkind = "temper"\noven.at = "200 degC" # t\n'
    'oven.for = "1 h"',
    "apart": 'heatbook = 1\ntitle = "a"\n[[step]]\ntitle = "a"\nkind = "temper"\n[[bar]]\nname = "b"\nsteel = "1084"\n'
    'section = "1 in square"\nlength = "1 m"\n[step.oven]\nat = "200 degC"\nfor = "1 h"\n',
}


@pytest.mark.parametrize("text", ODD.values(), ids=ODD)
def test_a_plan_of_odd_toml_is_edited_or_refused(text: str) -> None:
    bar = BarKeys("new", "1095", Section(0.02, 0.01), 0.3)
    edits: list[Callable[[], str]] = [
        lambda: with_keys(text, {("step", 0, "title"): "b"}),
        lambda: with_keys(text, {("step", 0, "oven", "within"): "1 h"}),
        lambda: with_keys(text, {("step", 0, "instruction"): "Do.\n\nIt."}),
        lambda: repeated(text, "step", 0),
        lambda: added(text, "bar", 0, bar, Units.INCH),
    ]
    done = 0
    for edit in edits:
        try:
            after = edit()
        except PlanError:
            continue
        done += 1
        assert read_plan(after, "", "").steps[0].title
        assert not Counter(comments_in(text)) - Counter(comments_in(after))
    assert done >= 2


KEYS = ["title", "instruction", "fire", "heat_to", "keep_above", "soak", "heats", "reach", "checklist", "section"]
TYPED = ["x, y", "1100 degC", "1120 degC, 1110 degC", "3", "2 min", "18 x 12 mm", "auto", "one\ntwo", "1/2 in round"]
INDEX = st.integers(0, 4)
EDITS: st.SearchStrategy[Callable[[str], str]] = st.one_of(
    st.builds(
        lambda i, key, typed: lambda text: with_keys(text, {("step", i, key): typed}),
        INDEX,
        st.sampled_from(KEYS),
        st.sampled_from(TYPED),
    ),
    st.builds(lambda i, to: lambda text: moved(text, "step", i, to), INDEX, INDEX),
    st.builds(lambda i: lambda text: repeated(text, "step", i), INDEX),
    st.builds(lambda i, n: lambda text: split_step(text, i, n, Units.INCH), INDEX, st.integers(0, 3)),
    st.builds(lambda i, n: lambda text: with_heats(text, i, n), INDEX, st.integers(0, 5)),
    st.builds(
        lambda i, kind: lambda text: with_new_step(text, i, kind, Units.METRIC), INDEX, st.sampled_from(StepKind)
    ),
)


@given(edits=st.lists(EDITS, min_size=1, max_size=4), end=st.sampled_from(["\n", "\r\n"]))
def test_after_any_edits_the_plan_is_sound_its_comments_stand_and_undo_gives_it_back(
    edits: list[Callable[[str], str]], end: str
) -> None:
    begin = PLAN.replace("\n", end)
    history = History(begin)
    for edit in edits:
        try:
            history = history.to(edit(history.text))
        except PlanError:
            continue
        read_plan(history.text, "", "")
        assert not Counter(comments_in(begin)) - Counter(comments_in(history.text))
        assert history.text.count("\n") == history.text.count(end)
    last = history
    while history.before:
        history = history.undone()
    assert history.text == begin
    while history.after:
        history = history.redone()
    assert history == last

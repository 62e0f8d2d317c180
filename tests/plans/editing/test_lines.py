"""A line more in a plan's texts, and out again: what it says then, and that comments and order stay."""

from __future__ import annotations

import pytest

from plans.editing import LinePlace, difference, with_line, with_line_instead, without_line
from plans.errors import PlanError
from plans.reader import SHELF, read_plan
from plans.toml import comments_in

DRAWKNIFE = (SHELF / "drawknife.toml").read_text("utf-8")
LINE = "flux  at {880 degC}, not {dull} red"
SAID = "flux at {880 degC}, not {dull} red".replace("{", "{{").replace("}", "}}")


@pytest.mark.parametrize("place", LinePlace)
def test_a_line_is_put_where_it_shall_stand_once_and_comes_out_again(place: LinePlace) -> None:
    text = with_line(DRAWKNIFE, place, (2, 3), LINE)
    plan = read_plan(text, "x", "x.toml")
    texts = {
        LinePlace.INSTRUCTION: [plan.steps[step].instruction.split("\n\n")[0] for step in (2, 3)],
        LinePlace.CHECKLIST: [plan.steps[step].checklist[-1] for step in (2, 3)],
        LinePlace.CAUTIONS: [plan.steps[step].cautions[-1] for step in (2, 3)],
        LinePlace.ABOUT: [plan.about.split("\n\n")[-1]],
    }
    assert set(texts[place]) == {SAID}
    assert comments_in(text) == comments_in(DRAWKNIFE)
    assert with_line(text, place, (2, 3), LINE) == text
    assert difference(DRAWKNIFE, without_line(text, LINE)).is_empty


def test_a_line_that_is_too_long_there_is_refused() -> None:
    with pytest.raises(PlanError, match="checklist"):
        with_line(DRAWKNIFE, LinePlace.CHECKLIST, (0,), "x" * 161)


def test_a_line_takes_the_place_of_another_once_wherever_that_stands() -> None:
    text = with_line(
        with_line(DRAWKNIFE, LinePlace.CHECKLIST, [0], "flux sooner"), LinePlace.INSTRUCTION, [0], "flux sooner"
    )
    text = with_line(text, LinePlace.CHECKLIST, [0], "brush it")
    plan = read_plan(with_line_instead(text, "flux sooner", "flux at red"), "a", "a.toml")
    assert plan.steps[0].checklist[-2:] == ("flux at red", "brush it"), "where it stood"
    assert plan.steps[0].instruction.startswith("flux at red")
    again = read_plan(with_line_instead(text, "flux sooner", "brush it"), "a", "a.toml")
    assert again.steps[0].checklist.count("brush it") == 1, "what stands there already is not said twice"

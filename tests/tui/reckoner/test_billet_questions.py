"""The questions of billets as they are typed: each field's faults are told under its name."""

from __future__ import annotations

import pytest

from plans.drawing import as_svg
from plans.errors import PlansError
from plans.reckoner import ReckonError
from plans.units import INCH, Units
from tui.reckoner.questions import QUESTIONS
from tui.reckoner.typed import lengths
from tui.widgets.to_scale import drawn_to_scale

BLADE = {"face": "40 mm", "ridge": "6 mm", "edge": "0.8 mm"}


def test_lengths_share_the_unit_that_follows() -> None:
    assert lengths("12.7,25.4, 12.7 mm") == pytest.approx((0.0127, 0.0254, 0.0127))
    assert lengths("1/2, 1 1/4 in, 10 mm") == pytest.approx((INCH / 2, 1.25 * INCH, 0.010))
    assert lengths('1/2", 3 cm') == pytest.approx((INCH / 2, 0.03))
    for text in ("12, 25", "12 mm,", "12,, 13 mm", "12 mm, 5"):
        with pytest.raises(PlansError, match="is no length"):
            lengths(text)


@pytest.mark.parametrize(
    ("name", "typed", "given", "why"),
    [
        ("layers", {"meeting": "alike"}, "meeting", "say like or unlike"),
        ("layers", {"cut-in": "1"}, "cut-in", "from 2 to 20"),
        ("layers", {"folds": "2.5"}, "folds", "whole number"),
        ("layers", {"spine": "5 mm"}, "edge", "goes with spine"),
        ("layers", {"carbon": "0.8"}, "at", "welding heats"),
        ("layers", {"each": "3 mm"}, "each", "either steel"),
        ("twist", {"section": "20 x 10 mm"}, "section", "square or a round"),
        ("twist", {"section": "octagon 20 mm"}, "section", "square or a round"),
        ("twist", {"pitch": "0 mm"}, "pitch", "0.001 mm"),
        ("composite", {"core": "20 mm"}, "parts", "or else"),
        ("composite", {"parts": "", "core": "20 mm", "jacket": "12 mm"}, "jacket", "the core shows 16 mm of 40 mm"),
        ("composite", {"parts": "", "core": "40 mm"}, "core", "nothing of the face"),
        ("composite", {"parts": "", "core": "20 mm", "ridge": ""}, "ridge", "it is missing"),
        ("composite", {"parts": "12 mm"}, "parts", "two bars"),
        ("composite", {"edges": "3"}, "edges", "1 or 2"),
        ("composite", {"edge": "7 mm"}, "edge", "thinner than the ridge"),
        ("composite", {"lean": "50"}, "lean", "up to 45"),
        ("laminate", {"core": "0.4 mm"}, "core", "no thicker than the edge"),
        ("laminate", {"off": "2 mm"}, "off", "outside the spine"),
        ("notch", {"section": "round 20 mm"}, "section", "before it has bevels"),
        ("notch", {"section": "0.02 x 0.02 mm"}, "section", "thick"),
        ("wander", {"section": "0.02 x 0.02 mm"}, "section", "thick"),
        ("draw", {"length": "0.01 mm"}, "length", "from 0.1 mm"),
        ("draw", {"from": "0.02 x 0.02 mm"}, "from", "thick"),
        ("weight", {"steel": "1," * 5000}, "steel", "no steel is called"),
        ("notch", {"angle": "10"}, "angle", "from 20 to 120"),
        ("notch", {"drawn-to": "20 mm"}, "drawn-to", "gets thinner"),
        ("wander", {"front": "12 mm"}, "front", "begins and where it ends"),
        ("wander", {"back": "12, 32 mm"}, "back", "within its width"),
    ],
)
def test_faults_name_their_field(name: str, typed: dict[str, str], given: str, why: str) -> None:
    question = QUESTIONS[name]
    with pytest.raises(ReckonError, match=why) as error:
        question.ask(question.example() | typed)
    assert error.value.given == given


def test_a_notch_is_seen_open() -> None:
    found = QUESTIONS["notch"].ask({"section": "50 x 12 mm", "core": "16 mm"})
    assert found.drawing is not None
    rows = drawn_to_scale(found.drawing, Units.METRIC, 80, 16, blocks=True)
    steel = [[cell if cell in "░█" else " " for cell in row] for row in rows if "░" in row and "jacket" not in row]
    end = next(place for place in range(80) if steel[0][place] != " " == steel[0][place + 1])
    # Its mouth is 16 mm + 2 x 12.7 mm sin 30 degrees = 28.7 mm wide, of 50 mm.
    opened = sum(row[end] == " " for row in steel) / len(steel)
    assert abs(opened - 28.7 / 50) <= 1 / len(steel)
    for said in ("V 28.7 mm", "jacket 6.35 mm", "weld 28.7 mm"):
        assert any(said in row for row in rows), said


@pytest.mark.parametrize("name", ["layers", "twist", "composite", "laminate", "notch", "wander"])
def test_each_is_drawn_to_scale_with_its_dimensions(name: str) -> None:
    found = QUESTIONS[name].ask(QUESTIONS[name].example())
    assert found.drawing is not None
    rows = "\n".join(drawn_to_scale(found.drawing, Units.METRIC, 76, 10, blocks=False))
    svg = as_svg(found.drawing)
    for measure in found.drawing.measures:
        assert Units.METRIC.text(measure.shown) in rows
        assert f">{Units.METRIC.text(measure.shown)}</text>" in svg

"""With inches and degF set, everything that the reckoner says is in them: figures, footnotes, fields and pictures."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import pytest

from plans.steel import all_grades
from plans.units import Units
from tests.inches import metric
from tui.reckoner.pictures import picture
from tui.reckoner.question import Question
from tui.reckoner.questions import QUESTIONS

RACK = Path(__file__).parents[2] / "rack.toml"
MORE = (
    'cooling --section "wedge 1 1/2 x 3/8 in to 1/8 in" --from "1500 degF" --to "1200 degF" --air "68 degF" '
    '--emissivity 0.8 --convection "10 W/m^2/K"',
    'cooling --section "1 x 1 in" --from "2300 degF" --to "1650 degF" --struck-by press --contact "1 s" '
    '--contact-every "3 s"',
    'soak --section "round 1 in" --fire "2300 degF" --middle "2200 degF" --emissivity 0.8 --convection "20 W/m^2/K"',
    'steel D2 --at "1850 degF" --down-to "-100 degF"',
    'steel 1045 --at "1300 degF"',
    'steel 1095 --at "1200 degF"',
    "steel --c 1.1 --v 0.2 --cr 1 --ni 1 --mo 1 --w 1",
    'carbon --carbon 0.8 --layer "0.004 in" --at "2000 degF" --for "60 s"',
    'carbon --layer "0.004 in" --at "1200 degF" --for "60 s"',
    'carbon --carbon 0.8 --at "2200 degF" --for "10 min" --share 0.9 --thickness "1/8 in"',
    'scale --at "2200 degF" --for "5 min" --section "1 x 3/8 in"',
    'skin --carbon 0.8 --at "2200 degF" --for "4 min" --fire rich --scale-factor 0.4 --share 0.9',
    'temper --carbon 0.8 --at "400 degF" --for "2 h" --holds 2 --instead-at "450 degF" --constant 20',
    'temper --constant 20 --at "450 degF" --for "1 h"',
    'glow --at "800 degF"',
    'layers --pieces 8 --folds 2 --meeting unlike --each "1/4, 1/8 in" --spine "3/16 in" --edge "0.02 in" '
    '--bevel "1 in"',
    'composite --parts "1/2, 1/2 in" --face "1 in" --ridge "1/8 in" --edge "0.02 in" --edges 1 --lean 5',
    'composite --jacket "3/8 in" --trim "1/32 in" --face "1 1/2 in" --ridge "1/4 in" --edge "1/32 in"',
    'laminate --spine "3/16 in" --edge "0.02 in" --core "1/16 in" --bevel "1 in" --off "0.01 in"',
    'notch --section "2 x 3/16 in" --core "5/8 in" --jacket "1/8 in" --angle 45 --radius "1/16 in" --drawn-to "1/8 in" '
    '--grind "0.02 in"',
    *(f'thermocouple --type {letter} --at "{at} degF"' for letter in "KNSRBJ" for at in (600, 2100)),
    "thermocouple --type B --mv 10",
    f"stock carving-knife --rack '{RACK}' --heats 7",
    'stock carving-knife --section "1/2 x 1/2 in" --length "3 in" --bars 3 --at "2100 degF" --for "2 min" --carbon 0.8',
    'draw --from "1 x 1 in" --length "4 1/4 in" --to "1 1/4 x 5/16 in"',
    'weight --section "1 x 3/8 in" --length "12 in" --taper-to "wedge 1 x 1/4 in to 1/32 in" --steel "wrought iron" '
    '--at "2300 degF"',
    'squeeze --section "1 x 1 in" --at "2400 degF" --dies "3 in" --force "1 US ton" --to "3/4 in" --height "1 in" '
    '--carbon 0.4 --contact "10 ms"',
    'heats --section "1 x 1 in" --to "1/2 x 1/2 in" --struck-by press',
    'heats --section "1 x 1 in" --to "1/2 x 1/2 in" --reduction "30 %"',
    'forged --section "1 1/4 x 1/4 in" --edge "1/16 in" --edges 2 --widening "60 %"',
    'bevels --widths "1/2,1/2,1/2,1/2 in" --edges "1/32,1/32 in" --ridge "1/4 in" --within "0.01 in" '
    '--heights "0.15, 0.13 in" --decarb "0.01 in"',
    'bevels --widths "1/2,1/2,1/2,1/2 in" --edges "1/32,1/32 in" --ridge "1/4 in" --at "1650 degF" --for "5 min" '
    "--carbon 0.8",
    'profile --difference "1/32 in"',
)
"""What the examples leave out: every other field, and every other footnote."""


def asked(question: Question) -> Iterator[dict[str, str]]:
    yield from (typed(question, Units.INCH.text(example)) for example in question.examples)
    yield from (typed(question, words) for words in MORE if words.split()[0] == question.name)
    if question.name == "steel":
        yield from ({"grade": grade.name} for grade in all_grades())


def typed(question: Question, words: str) -> dict[str, str]:
    found: dict[str, str] = {}
    name = next((field.name for field in question.fields if field.bare), "")
    for word in shlex.split(words)[1:]:
        if word.startswith("--"):
            name = word.removeprefix("--")
        else:
            found[name] = f"{found.get(name, '')} {word}".strip()
    return found


@pytest.mark.parametrize("name", QUESTIONS)
def test_answers_and_what_they_stand_on(name: str) -> None:
    question, seen = QUESTIONS[name], ""
    for texts in asked(question):
        found = question.ask(texts, Units.INCH)
        said = "\n".join(found.lines(Units.INCH))
        assert metric(said) == [], texts
        assert [one.large(Units.INCH).unit for one in found.answer if one.large(Units.INCH).unit in UNITS] == []
        drawn = picture(name, question.read(texts), found, Units.INCH)
        axes = [] if drawn is None or drawn.curve is None else [drawn.curve.across, drawn.curve.up]
        assert [axis.unit for axis in axes if axis.unit in UNITS] == []
        seen += said
    assert re.search(r"degF|\d in\b", seen)


UNITS = ("degC", "K", "mm")


@pytest.mark.parametrize("name", QUESTIONS)
def test_what_a_field_says_of_itself(name: str) -> None:
    for field in QUESTIONS[name].fields:
        assert metric(f"{Units.INCH.text(field.about)} {Units.INCH.text(field.example)}") == []


def test_every_field_was_asked_with() -> None:
    for question in QUESTIONS.values():
        used = {field for texts in asked(question) for field in texts}
        left = {field.name for field in question.fields if field.stands_for != "PERCENT"} - used
        assert left == set()

"""A walk along broken plans, each a small edit of a good one: errors name file, line, key and what would be right."""

from __future__ import annotations

import re
from typing import NamedTuple

import pytest

from plans.errors import Fault, FaultKind, PlanError
from plans.reader import read_plan

GOOD = '''heatbook = 1
title = "A good plan"
about = """
What comes out."""

[[bar]]
name = "edge"
steel = "1084"
section = "30 x 20 mm"
length = "150 mm"

[[step]]
title = "Look it over"
kind = "bench"
checklist = [
  "Bright",
  "Flat",
]

[[step]]
title = "Weld it"
kind = "weld"
instruction = "Strike."
fire = "1300 degC"
heat_to = "1260 degC"
keep_above = "1100 degC"
burn_above = "1320 degC"
soak = "2 min"
soak_at_most = "5 min"
even_within = "15 K"
turn_every = "6 s"
heats = 2
length = "150 mm"
reach = "30 x 18 mm"
reach_length = "160 mm"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
keep_above = "900 degC"
heats = "auto"
reach = "32 x 8 mm"

[[step]]
title = "Normalize"
kind = "normalize"
fire = [
  "930 degC",
  "875 degC",
  "820 degC",
]
heat_to = ["900 degC", "845 degC", "790 degC"]
heats = 3

[step.air]
until = "480 degC"
for = "1 min"

[[step]]
title = "Harden"
kind = "harden"
fire = "830 degC"
heat_to = "800 degC"

[step.quench]
medium = "oil"
for = "10 s"
within = "3 s"

[[step]]
title = "Temper"
kind = "temper"
heats = 2
oven = { at = "200 degC", for = "2 h", within = "2 h" }

[[step]]
title = "Etch"
kind = "etch"
heats = 3

[step.dip]
medium = "ferric chloride"
for = "12 min"
'''

SHAPE, VALUE = FaultKind.SHAPE, FaultKind.VALUE


class Broken(NamedTuple):
    """An edit of the good plan and what must be said of it."""

    old: str
    new: str
    at: str
    """The text that the line at fault begins with, after the edit."""
    where: str
    key: str
    substance: str
    hint: str
    kind: FaultKind


TOP, EDGE, LOOK, WELD = "", 'bar 1 "edge"', 'step 1 "Look it over"', 'step 2 "Weld it"'
DRAW, NORMALIZE, HARDEN = 'step 3 "Draw it out"', 'step 4 "Normalize"', 'step 5 "Harden"'
TEMPER, ETCH = 'step 6 "Temper"', 'step 7 "Etch"'

LONG = "x" * 200
_ALONE = re.compile(r"\d ?(?:degC|mm|K)\b(?! \()")
"""A metric figure that is not followed by that in inches or degF; what an error quotes stands as it was written."""

BROKEN = [
    # the plan itself
    Broken("heatbook = 1", "heatbook = 2", "heatbook", TOP, "heatbook", "no version", "write heatbook = 1", SHAPE),
    Broken("heatbook = 1", "heatbook = true", "heatbook", TOP, "heatbook", "no version", "write heatbook = 1", SHAPE),
    Broken("heatbook = 1\n", "", "title", TOP, "heatbook", "is missing", "write ", SHAPE),
    Broken('title = "A good plan"', "title = 5", "title = 5", TOP, "title", "a bare number", "in quotes", SHAPE),
    Broken('"A good plan"', '"  "', "title", TOP, "title", "is empty", "write something", SHAPE),
    Broken('"A good plan"', f'"{LONG}"', "title", TOP, "title", "is 200 characters long", "say it in 60", SHAPE),
    Broken("A good plan", "A\\nplan", "title", TOP, "title", "several lines", "in one line", SHAPE),
    Broken("A good plan", "A \\u001b[31mplan", "title", TOP, "title", "control characters", "take them out", SHAPE),
    Broken("A good plan", "A \\u202eplan", "title", TOP, "title", "control characters", "take them out", SHAPE),
    Broken("What comes out.", "What\\u0007.", "about", TOP, "about", "control characters", "take them out", SHAPE),
    Broken("about =", "abuot =", "abuot", TOP, "abuot", "no key that is known", "perhaps about", SHAPE),
    Broken("about =", '"\\u001b[2J" =', '"\\u001b', TOP, "?[2J", "no key", "known are", SHAPE),
    Broken("about =", '"" =', '"" =', TOP, '""', "no key", "known are", SHAPE),
    Broken(
        "about =",
        "zzz =",
        "zzz",
        TOP,
        "zzz",
        "no key that is known",
        "known are heatbook, title, about, made_from, bar, step",
        SHAPE,
    ),
    # quantities in texts
    Broken("A good plan", "Cut {150 mn}", "title", TOP, "title", 'holds "{150 mn}"', 'write "{870 degC}"', VALUE),
    Broken("What comes out.", "In {4 min}.", "about", TOP, "about", "no temperature", '"{150 mm}"', VALUE),
    Broken("What comes out.", "{one}, {870 degC} {{", "about", TOP, "about", 'holds "{one}"', '"{{"', VALUE),
    Broken('name = "edge"', 'name = "edge, {25 x 10"', "name", 'bar 1 "edge, {25 x 10"', "name", "a {", "twice", VALUE),
    Broken('"Flat",', '"Flat to 1 mm}",', "  ", LOOK, "checklist[2]", "a } without", "twice", VALUE),
    Broken('"Strike."', '"Above {-300 degC}."', "instr", WELD, "instruction", "below absolute zero", "write", VALUE),
    Broken('medium = "oil"', 'medium = "oil, {warm}"', "medium", HARDEN, "quench.medium", '"{warm}"', "write", VALUE),
    # a bar
    Broken('length = "150 mm"\n\n[[step]]', "\n[[step]]", "[[bar]]", EDGE, "length", "is missing", "write ", SHAPE),
    Broken('name = "edge"\n', "", "[[bar]]", "bar 1", "name", "is missing", "write ", SHAPE),
    Broken('steel = "1084"', "steel = 1084", "steel", EDGE, "steel", "a bare number", "in quotes", SHAPE),
    Broken('"30 x 20 mm"', '"30 x 20"', "section", EDGE, "section", "unit is missing", '"25 x 10 mm"', SHAPE),
    Broken('"30 x 20 mm"', '"0 x 20 mm"', "section", EDGE, "section", "larger than zero", "", VALUE),
    Broken(
        '"30 x 20 mm"',
        '"30 x 20 m"',
        "section",
        EDGE,
        "section",
        "a side of 30000 mm",
        "0.5 mm (1/64 in) to 1000 mm",
        VALUE,
    ),
    Broken('length = "150 mm"', 'length = "15 km"', "length", EDGE, "length", "is not known", '"25 mm"', SHAPE),
    Broken(
        'length = "150 mm"',
        'length = "150 m"',
        "length",
        EDGE,
        "length",
        "150000 mm",
        "1 mm (3/64 in) to 20000 mm",
        VALUE,
    ),
    Broken('length = "150 mm"', 'length = "-15 mm"', "length", EDGE, "length", "below zero", '"25 mm"', SHAPE),
    # keys and types of a step
    Broken('kind = "bench"', 'kind = "bech"', "kind", LOOK, "kind", "'bech'", "perhaps 'bench'", SHAPE),
    Broken('kind = "bench"', 'kind = "zzz"', "kind", LOOK, "kind", "'zzz'", "weld, draw, forge", SHAPE),
    Broken('kind = "bench"\n', "", "[[step]]", LOOK, "kind", "is missing", "write ", SHAPE),
    Broken('title = "Look it over"\n', "", "[[step]]", "step 1", "title", "is missing", "write ", SHAPE),
    Broken('"Flat",', "3,", "  3,", LOOK, "checklist[2]", "a bare number", "in quotes", SHAPE),
    Broken('"Flat",', f'"{LONG}",', '  "x', LOOK, "checklist[2]", "200 characters", "say it in 160", SHAPE),
    Broken('instruction = "Strike."', "instruction = []", "instr", WELD, "instruction", "a list", "in quotes", SHAPE),
    Broken("keep_above", "keep_over", "keep_over", WELD, "keep_over", "no key", "perhaps keep_above", SHAPE),
    Broken("heats = 2", "heats = 0", "heats = 0", WELD, "heats", "is 0", "whole number from 1 to 99", SHAPE),
    Broken("heats = 2", "heats = 100", "heats = 100", WELD, "heats", "is 100", "whole number from 1 to 99", SHAPE),
    Broken("heats = 2", "heats = 2.5", "heats = 2.5", WELD, "heats", "is 2.5", '"auto"', SHAPE),
    Broken("heats = 2", "heats = inf", "heats = inf", WELD, "heats", "is", '"auto"', SHAPE),
    Broken("heats = 2", "heats = true", "heats = true", WELD, "heats", "True", '"auto"', SHAPE),
    Broken("heats = 2", 'heats = "two"', 'heats = "two"', WELD, "heats", "'two'", '"auto"', SHAPE),
    Broken("heats = 2", f"heats = 0x{'f' * 3900}", "heats = 0x", WELD, "heats", "far too large", "1 to 99", SHAPE),
    Broken('soak = "2 min"', "soak = 2", "soak = 2", WELD, "soak", "a bare number", '"4 min"', SHAPE),
    Broken('soak = "2 min"', 'soak = "automatic"', "soak", WELD, "soak", "begin with a number", '"4 min"', SHAPE),
    Broken('soak = "2 min"', 'soak = "2:00"', "soak", WELD, "soak", "minutes or hours", '"0:04:30"', SHAPE),
    Broken('soak = "2 min"', 'soak = "2 K"', "soak", WELD, "soak", "a temperature", '"4 min"', SHAPE),
    Broken('soak = "2 min"', 'soak = "0 s"', "soak", WELD, "soak", "0 s, beyond sense", "write something from", VALUE),
    Broken('soak = "2 min"', 'soak = "1 min 2 min"', "soak", WELD, "soak", "the larger one first", "", VALUE),
    # words that mean something else here than they look like
    Broken('kind = "bench"', 'kind = "quench"', "kind", LOOK, "kind", "'quench'", "perhaps 'harden'", SHAPE),
    Broken('kind = "bench"', 'kind = "Hardening"', "kind", LOOK, "kind", "'Hardening'", "perhaps 'harden'", SHAPE),
    Broken('kind = "bench"', 'kind = "heat-treat"', "kind", LOOK, "kind", "'heat-treat'", "perhaps 'harden'", SHAPE),
    Broken('kind = "bench"', 'kind = "saw"', "kind", LOOK, "kind", "'saw'", "perhaps 'bench'", SHAPE),
    Broken('kind = "weld"', 'kind = "forge weld"', "kind", WELD, "kind", "'forge weld'", "perhaps 'weld'", SHAPE),
    Broken('kind = "draw"', 'kind = "taper"', "kind", DRAW, "kind", "'taper'", "perhaps 'draw'", SHAPE),
    Broken('kind = "normalize"', 'kind = "normalise"', "kind", NORMALIZE, "kind", "'norm", "perhaps 'norm", SHAPE),
    Broken('kind = "temper"', 'kind = "bake"', "kind", TEMPER, "kind", "'bake'", "perhaps 'temper'", SHAPE),
    Broken(
        'instruction = "Strike."',
        'phases = ["fire", "hammer"]',
        "phases",
        WELD,
        "phases[2]",
        "'hammer'",
        "perhaps 'strike'",
        SHAPE,
    ),
    Broken(
        'heat_to = "800 degC"',
        'heat_to = "800 degC"\nphases = ["fire", "soaking", "quench"]',
        "phases",
        HARDEN,
        "phases[2]",
        "'soaking'",
        "perhaps 'soak'",
        SHAPE,
    ),
    Broken('steel = "1084"\n', 'steel = "1084"\nalloy = "x"\n', "alloy", EDGE, "alloy", "no key", "steel", SHAPE),
    Broken('instruction = "S', 'borax = "S', "borax", WELD, "borax", "no key", "perhaps flux_at", SHAPE),
    Broken("instruction =", "description =", "descr", WELD, "description", "no key", "perhaps instruction", SHAPE),
    Broken('for = "1 min"', 'time = "1 min"', "time", NORMALIZE, "air.time", "no key", "perhaps for", SHAPE),
    # cues and flux
    Broken(
        'kind = "bench"',
        'kind = "bench"\ncues = { strike = "light" }',
        "cues",
        LOOK,
        "cues.strike",
        "has no use: the step has no strike phase",
        "take it out, or add 'strike' to phases",
        VALUE,
    ),
    Broken(
        'instruction = "Strike."',
        'cues = { hammer = "light" }',
        "cues",
        WELD,
        "cues.hammer",
        "no key",
        "perhaps strike",
        SHAPE,
    ),
    Broken(
        'instruction = "Strike."',
        f'cues = {{ strike = "{LONG}" }}',
        "cues",
        WELD,
        "cues.strike",
        "200 characters long",
        "say it in 60",
        SHAPE,
    ),
    Broken('instruction = "Strike."', 'cues = "light"', "cues", WELD, "cues", "is text", "[step.cues]", SHAPE),
    Broken(
        'instruction = "Strike."',
        'flux_at = "870"',
        "flux_at",
        WELD,
        "flux_at",
        "the unit is missing",
        '"1250 degC"',
        SHAPE,
    ),
    Broken(
        'instruction = "Strike."',
        'flux_at = "1250 degC"',
        "flux_at",
        WELD,
        "flux_at",
        "1250 degC (2282 degF), beyond sense",
        "700 degC (1292 degF) to 1100 degC (2012 degF)",
        VALUE,
    ),
    Broken(
        '"845 degC", "790 degC"]',
        '"845 degC", "790 degC"]\nflux_at = "800 degC"',
        "flux_at",
        NORMALIZE,
        "flux_at",
        "800 degC (1472 degF), not below the heat, 790 degC",
        "lower it",
        VALUE,
    ),
    Broken('kind = "bench"', 'kind = "bench"\nflux_at = "870 degC"', "flux", LOOK, "flux_at", "no fire", "out", VALUE),
    # temperatures and limits of a weld
    Broken('"1300 degC"', '"1300"', "fire", WELD, "fire", "the unit is missing", '"1250 degC"', SHAPE),
    Broken('"1300 degC"', "1300", "fire", WELD, "fire", "a bare number", "with its unit", SHAPE),
    Broken('"1300 degC"', '"1.300,0 degC"', "fire", WELD, "fire", "a comma is not read", '"1250 degC"', SHAPE),
    Broken('"1300 degC"', '"nan degC"', "fire", WELD, "fire", "not begin with a number", '"1250 degC"', SHAPE),
    Broken('"1300 degC"', '"-300 degC"', "fire", WELD, "fire", "below absolute zero", "", VALUE),
    Broken(
        '"1300 degC"',
        '"2300 degC"',
        "fire",
        WELD,
        "fire",
        "2300 degC",
        "100 degC (212 degF) to 1700 degC (3092 degF)",
        VALUE,
    ),
    Broken(
        '"1300 degC"',
        '"90 degC"',
        "fire",
        WELD,
        "fire",
        "90 degC",
        "100 degC (212 degF) to 1700 degC (3092 degF)",
        VALUE,
    ),
    Broken('"1300 degC"', "[]", "fire", WELD, "fire", "is empty", "at least one", SHAPE),
    Broken('"1260 degC"', '"1310 degC"', "heat_to", WELD, "heat_to", "hotter than the fire, 1300 degC", "5 K", VALUE),
    Broken('"1260 degC"', '"1298 degC"', "heat_to", WELD, "heat_to", "too near the fire, 1300 degC", "5 K", VALUE),
    Broken('"1260 degC"', '["1260 degC"]', "heat_to", WELD, "heat_to", "1 temperatures for 2", "each heat", VALUE),
    Broken('"1100 degC"', '"1310 degC"', "keep", WELD, "keep_above", "hotter than the fire, 1300", "lower it", VALUE),
    Broken('"1100 degC"', '"1260 degC"', "keep", WELD, "keep_above", "not below the heat, 1260", "lower it", VALUE),
    Broken('"1320 degC"', '"1250 degC"', "burn", WELD, "burn_above", "not above the heat, 1260", "raise it", VALUE),
    Broken(
        '"5 min"',
        '"90 s"',
        "soak_at",
        WELD,
        "soak_at_most",
        "1 min 30 s, shorter than the soak (2 min)",
        "longer",
        VALUE,
    ),
    Broken(
        '"15 K"',
        '"150 K"',
        "even",
        WELD,
        "even_within",
        "150 K (270 degF), beyond sense",
        "1 K (2 degF) to 100 K (180 degF)",
        VALUE,
    ),
    Broken('"15 K"', '"15 mm"', "even", WELD, "even_within", "is a length", '"15 K"', SHAPE),
    Broken('"6 s"', '"90 s"', "turn", WELD, "turn_every", "1 min 30 s, beyond sense", "1 s to 1 min", VALUE),
    # what a phase needs
    Broken(
        'fire = "1300 degC"\nheat_to = "1260 degC"\n', "", "[[step]]", WELD, "fire", "missing", "of the fire", VALUE
    ),
    Broken('keep_above = "1100 degC"\n', "", "[[step]]", WELD, "keep_above", "is missing", "cold limit", VALUE),
    Broken('section = "30 x 20 mm"\n', "", "[[bar]]", EDGE, "section", "missing", "write ", SHAPE),
    Broken('instruction = "Strike."', "phases = []", "phases", WELD, "phases", "is empty", "at least one", SHAPE),
    Broken("instruction =", "phases =", "phases", WELD, "phases", "is text", "write a list", SHAPE),
    Broken(
        'instruction = "Strike."',
        'phases = ["ready", "fire", "soak", "strike"]',
        "phases",
        WELD,
        "phases[1]",
        "'ready'",
        "fire, soak, strike",
        SHAPE,
    ),
    Broken(
        'instruction = "Strike."',
        'phases = ["fire", "soak", "strike", "fire"]',
        "phases",
        WELD,
        "phases[4]",
        "'fire' again",
        "once",
        SHAPE,
    ),
    Broken(
        'instruction = "Strike."',
        'phases = ["soak", "fire", "strike"]',
        "phases",
        WELD,
        "phases",
        "soak that does not follow a fire",
        '"fire" straight before "soak"',
        VALUE,
    ),
    Broken(
        'kind = "bench"',
        'kind = "bench"\nphases = ["air", "bench"]',
        "phases",
        LOOK,
        "phases",
        "before anything is hot",
        'somewhere before "air"',
        VALUE,
    ),
    Broken(
        'kind = "bench"', 'kind = "bench"\nsoak = "1 min"', "soak", LOOK, "soak", "no soak phase", "take it out", VALUE
    ),
    Broken('kind = "bench"', 'kind = "temper"', "[[step]]", LOOK, "oven", "is missing", "[step.oven]", VALUE),
    Broken(
        'kind = "bench"',
        'kind = "bench"\nphases = ["strike"]\nkeep_above = "900 degC"',
        "phases",
        LOOK,
        "phases",
        "strike without a heat",
        '"fire" or "soak" straight before',
        VALUE,
    ),
    Broken(
        '[[bar]]\nname = "edge"\nsteel = "1084"\nsection = "30 x 20 mm"\nlength = "150 mm"\n',
        "",
        "[[step]]",
        WELD,
        "section",
        "is missing: the warm model needs it",
        '"25 x 10 mm"',
        VALUE,
    ),
    # drawing
    Broken(
        '"32 x 8 mm"', '"32 x 20 mm"', "reach", DRAW, "reach", "no smaller than the section, 30 x 18", "smaller", VALUE
    ),
    Broken('reach = "32 x 8 mm"\n', "", "heats", DRAW, "heats", "not said from which", "section and reach", VALUE),
    # normalizing
    Broken('  "820 degC",\n', "", "fire", NORMALIZE, "fire", "has 2 temperatures for 3 heats", "each heat", VALUE),
    Broken(
        '  "875 degC"',
        '  "848 degC"',
        'heat_to = ["900',
        NORMALIZE,
        "heat_to[2]",
        "845 degC (1553 degF), too near",
        "5 K",
        VALUE,
    ),
    Broken('  "875 degC"', '  "875 C."', '  "875', NORMALIZE, "fire[2]", "is not known", '"1250 degC"', SHAPE),
    Broken('  "875 degC"', '  "8750 degC"', '  "875', NORMALIZE, "fire[2]", "8750 degC", "1700 degC", VALUE),
    Broken('"480 degC"', '"800 degC"', "until", NORMALIZE, "air.until", "no cooler than the work, 790", "lower", VALUE),
    Broken('"480 degC"', '"20 degC"', "until", NORMALIZE, "air.until", "20 degC", "40 degC (104 degF) to", VALUE),
    Broken("until", "untill", "untill", NORMALIZE, "air.untill", "no key", "perhaps until", SHAPE),
    Broken('[step.air]\nuntil = "480 degC"\nfor', "air", "air", NORMALIZE, "air", "is text", "[step.air]", SHAPE),
    # quench, oven, dip
    Broken("[step.quench]", "[step.quensh]", "[step.qu", HARDEN, "quensh", "no key", "perhaps quench", SHAPE),
    Broken('medium = "oil"\n', "", "[step.quench]", HARDEN, "quench.medium", "is missing", "write ", SHAPE),
    Broken('for = "10 s"\n', "", "[step.quench]", HARDEN, "quench.for", "is missing", "write ", SHAPE),
    Broken('"10 s"', '"10 days"', "for", HARDEN, "quench.for", '"days" is not known', '"4 min"', SHAPE),
    Broken('"10 s"', '"-10 s"', "for", HARDEN, "quench.for", "below zero", '"4 min"', SHAPE),
    Broken('at = "200 degC", ', "", "oven", TEMPER, "oven.at", "is missing", "write ", SHAPE),
    Broken('"200 degC"', '"2000 degC"', "oven", TEMPER, "oven.at", "2000 degC", "1300 degC", VALUE),
    Broken('"2 h" }', '"200 h" }', "oven", TEMPER, "oven.within", "200 h", "to 168 h", VALUE),
    Broken('for = "12 min"', "for = 12:00:00", "for = 12:00", ETCH, "dip.for", "a date or a time", '"4 min"', SHAPE),
]


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(PlanError) as caught:
        read_plan(text, "mine", "plans/mine.toml")
    return caught.value.faults


def test_the_good_plan_is_good() -> None:
    assert len(read_plan(GOOD, "mine", "plans/mine.toml").steps) == 7


def test_there_are_at_least_forty() -> None:
    assert len(BROKEN) >= 40
    assert len({(broken.old, broken.new) for broken in BROKEN}) == len(BROKEN)


@pytest.mark.parametrize(
    "broken", BROKEN, ids=[f"{one.where or 'plan'}: {one.key} {one.substance}"[:70] for one in BROKEN]
)
def test_says_what_is_wrong_where_and_what_would_be_right(broken: Broken) -> None:
    assert GOOD.count(broken.old) >= 1
    text = GOOD.replace(broken.old, broken.new, 1)
    (fault,) = faults_of(text)
    line = fault.line
    assert line is not None
    assert text.split("\n")[line - 1].startswith(broken.at)
    assert (fault.where, fault.key, fault.kind) == (broken.where, broken.key, broken.kind)
    assert broken.substance in fault.what
    assert broken.hint in str(fault)
    assert _ALONE.findall(re.sub('"[^"]*"', "", f"{fault.what} {fault.hint}")) == [], "metric alone"
    where = f"{broken.where}: " if broken.where else ""
    assert str(fault).startswith(f"plans/mine.toml:{line}: {where}{broken.key} ")
    assert str(fault).isprintable()


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("heatbook = 1\ntitle = 'x'\n", 1, "step is missing"),
        ("heatbook = 1\ntitle = 'x'\nstep = []\n", 3, "step is empty"),
        ("heatbook = 1\ntitle = 'x'\nstep = 'weld'\n", 3, "step is text; write [[step]]"),
        ("heatbook = 1\ntitle = 'x'\nstep = [1]\n", 3, "step 1: is a bare number; write [[step]]"),
        ("heatbook = 1\ntitle = 'x'\n[step]\ntitle = 'y'\n", 3, "step is a table; write [[step]]"),
        (
            "heatbook = 1\ntitle = 'x'\n" + "[[step]]\ntitle = 'y'\nkind = 'bench'\n" * 100,
            3,
            "100 items; 99 are the most",
        ),
        ("heatbook = 1\ntitle = 'x\n", 2, "this is no TOML"),
        ("heatbook: 1\n", 1, "this is no TOML"),
    ],
)
def test_plans_without_steps(text: str, line: int, said: str) -> None:
    (fault,) = faults_of(text)
    assert fault.line == line
    assert said in str(fault)

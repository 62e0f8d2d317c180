"""The reckoner's command line: everything that it can be asked."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from plans.steel.grades import all_grades
from plans.units import Units
from tui.cli.main import main
from tui.reckoner.questions import QUESTIONS

Reckon = Callable[..., dict[str, Any]]

Say = Callable[..., list[str]]

EXAMPLES = [units.text(example) for units in Units for question in QUESTIONS.values() for example in question.examples]

COOLING = ("cooling", "--section", "25.4 x 25.4 mm", "--length", "100 mm", "--from", "1250 degC", "--to", "900 degC")

SOAK = ("soak", "--section", "round 25 mm", "--fire", "1250 degC", "--from", "20 degC", "--middle", "1200 degC")


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        (COOLING, {"seconds", "middle_celsius", "lumped_seconds", "biot_number"}),
        (
            (*COOLING, "--emissivity", "0.8", "--convection", "10 W/m^2/K", "--air", "20 degC"),
            {"seconds", "middle_celsius"},
        ),
        (SOAK, {"seconds", "skin_celsius", "biot_number"}),
        (
            ("steel", "--c", "0.75", "--mn", "0.4", "--si", "0.25", "--ni", "2.0"),
            {"ac1_celsius", "acm_celsius", "ms_celsius", "bs_celsius", "martensite_fraction"},
        ),
        (
            ("steel", "1045"),
            {
                *("ac1_celsius", "ac3_celsius", "ms_celsius", "bs_celsius", "martensite_fraction"),
                *("published_ac1_celsius", "published_ac3_celsius", "published_ms_celsius", "ac3_difference_kelvin"),
                *("normalizing_first_heat_celsius", "hardening_celsius", "tempering_spring_celsius"),
            },
        ),
        (
            ("steel", "1095", "--at", "800 degC"),
            {
                *("acm_celsius", "dissolved_carbon_percent", "hardened_ms_celsius", "hardened_martensite_fraction"),
                *("retained_austenite_fraction", "quenched_from_celsius"),
            },
        ),
        (
            ("carbon", "--carbon", "0.8", "--at", "1200 degC", "--for", "10 min"),
            {"diffusivity_m2_s", "textbook_diffusivity_m2_s", "decarb_depth_mm", "grinding_allowance_mm"},
        ),
        (
            ("carbon", "--layer", "0.1 mm", "--at", "1100 degC", "--for", "60 s"),
            {"remaining_fraction", "even_seconds", "diffusivity_m2_s"},
        ),
        (
            ("carbon", "--layer", "0.1 mm", "--at", "1100 degC", "--for", "60 s", "--carbon", "0.6"),
            {"remaining_fraction", "agren_remaining_fraction"},
        ),
        (("scale", "--at", "1200 degC", "--for", "5 min"), {"loss_mm", "scale_mm"}),
        (("scale", "--at", "1200 degC", "--for", "5 min", "--section", "25 x 10 mm"), {"loss_mm", "mass_fraction"}),
        (
            ("temper", "--carbon", "0.98", "--at", "200 degC", "--for", "2.5 h"),
            {"parameter", "constant", "hardness_hrc", "one_hour_celsius"},
        ),
        (("glow", "--at", "1000 degC"), {"srgb", "luminance_cd_m2", "name", "name_spread_kelvin"}),
        (("thermocouple", "--type", "K", "--mv", "41.276"), {"celsius", "tolerance_class_2_kelvin", "wire_limits"}),
        (("thermocouple", "--type", "K", "--mv", "41.276", "--cold-junction", "25 degC"), {"celsius"}),
        (("thermocouple", "--type", "K", "--at", "1000 degC"), {"millivolts", "tolerance_class_1_kelvin"}),
        (
            ("weight", "--section", "25 x 10 mm", "--length", "300 mm", "--steel", "D2", "--at", "1100 degC"),
            {"mass_kg", "mass_per_metre_kg", "volume_cm3", "centre_mm", "density_kg_m3", "expansion_fraction"},
        ),
    ],
)
def test_what_is_answered(reckon: Reckon, words: tuple[str, ...], keys: set[str]) -> None:
    found = reckon(*words)
    assert keys <= set(found)
    assert all(found[key] is not None for key in keys)
    assert found["reckoning"] == words[0]
    for key in keys:
        assert found["about"][key]["validity"]
        assert found["about"][key]["basis"] in ("modelled", "published", "from memory", "common practice", "arithmetic")


@pytest.mark.parametrize(
    ("grade", "key", "basis"),
    [
        ("52100", "hardening_celsius", "published"),
        ("W2", "hardening_celsius", "from memory"),
        ("5160", "remembered_ac1_celsius", "from memory"),
        ("C45U", "published_ac1_celsius", "published"),
        ("O1", "limits_percent", "published"),
        ("1.2519", "limits_percent", "from memory"),
        # its carbon was looked up, all else was not
        ("White 1", "limits_percent", "from memory"),
    ],
)
def test_published_is_said_only_of_what_was_looked_up(reckon: Reckon, grade: str, key: str, basis: str) -> None:
    found = reckon("steel", grade)
    assert found[key]
    assert found["about"][key]["basis"] == basis
    assert "from memory" in found["about"][key]["source"] + found["about"][key]["validity"] or basis == "published"
    for about in found["about"].values():
        if about.get("basis") == "published":
            assert "from memory" not in about["source"]


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_examples_of_the_help_work(reckon: Reckon, say: Say, example: str) -> None:
    words = shlex.split(example)
    found = reckon(*words)
    lines = say(*words)
    named = {key: about["source"] for key, about in found["about"].items() if about.get("source")}
    assert named
    text = " ".join(" ".join(lines).split())
    if "degF" in example:  # the record is metric throughout
        inch = {"1227 degC": "2241 degF", "below 0.001 K": "below 0.0018 degF"}
        for metric, other in inch.items():
            named = {key: source.replace(metric, other) for key, source in named.items()}
    assert all(" ".join(source.split()) in text for source in named.values())
    assert max(map(len, lines)) <= 100


@pytest.mark.parametrize("name", QUESTIONS)
def test_help_names_every_field(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reckon", name, "--help"]) == 0
    said = capsys.readouterr().out
    question = QUESTIONS[name]
    assert all(question.option(field.name) in said for field in question.fields)
    assert all(f"heatbook reckon {Units.METRIC.text(example)}" in said for example in question.examples)


def test_help_of_steel_names_every_grade(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reckon", "steel", "--help"]) == 0
    said = capsys.readouterr().out
    assert "[GRADE]" in said
    named = " ".join(said.split("grades:")[1].split())
    for grade in all_grades():
        assert re.search(rf"[:,] {re.escape(grade.name)}(?:,| |$)", named)
    assert max(map(len, said.splitlines())) <= 80


def test_help_lists_the_questions(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reckon", "--help"]) == 0
    said = capsys.readouterr().out
    assert all(name in said for name in QUESTIONS)


def test_people_read_figure_error_validity_and_source(say: Say) -> None:
    lines = say("scale", "--at", "1200 degC", "--for", "5 min")
    assert re.fullmatch(r"metal lost a face +0\.22 mm +0\.11 to 0\.44 mm +modelled", lines[0])
    assert lines[2:4] == ["", "at 1200 degC; for 5 min"]
    text = " ".join(" ".join(lines).split())
    assert "an upper bound" in text
    assert "factor of 2 either way" in text
    assert "from memory: Paidassi" in text


@pytest.mark.parametrize("example", EXAMPLES)
def test_what_was_asked_for_comes_first(reckon: Reckon, say: Say, example: str) -> None:
    words = shlex.split(example)
    brief, lines, record = say(*words, "--brief"), say(*words), reckon(*words)
    assert 1 <= len(brief) <= 3
    assert lines[: len(brief) + 1] == [*brief, ""]
    bases = "modelled|published|remembered, not looked up|common practice|arithmetic"
    assert all(re.search(rf"  +\S.*({bases})(, outside its range)?$", line) for line in brief)
    assert list(record)[: len(brief) + 2] == ["reckoning", "answer", *record["answer"]]
    assert all(record[key] is not None for key in record["answer"])


def test_a_glance_at_a_steel_tells_where_to_harden_temper_and_normalize_it(say: Say) -> None:
    brief = say("steel", "80CrV2", "--brief")
    assert [line.split(",")[0].split()[0] for line in brief] == ["hardening", "tempering", "normalizing"]
    assert say("steel", "D2", "--brief")[-1] == "normalizing  --"
    assert len(say("steel", "80CrV2")) > 50


def test_what_the_readme_shows_is_what_is_printed(say: Say) -> None:
    readme = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
    blocks = [part.split("```")[0] for part in readme.split("```console\n$ heatbook reckon ")[1:]]
    samples = [sample for block in blocks for sample in block.split("$ heatbook reckon ")]
    assert len(samples) == 4
    for sample in samples:
        asked, *printed = sample.splitlines()
        whole = printed[-1] != "..."
        lines = say(*shlex.split(asked))
        assert printed == lines if whole else printed[:-1] == lines[: len(printed) - 1]


def test_a_piece_to_scale_as_svg(say: Say, capsys: pytest.CaptureFixture[str]) -> None:
    blade = ("--face", "40 mm", "--ridge", "6 mm", "--edge", "0.8 mm")
    (svg,) = say("composite", "--parts", "12.7, 25.4, 12.7 mm", *blade, "--svg")
    assert [one.text for one in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")].count(
        "20 mm"
    ) == 1
    assert main(["reckon", "glow", "--at", "1000 degC", "--svg"]) == 2
    assert "glow has no piece that is drawn to scale" in capsys.readouterr().err


def test_brief_and_json_go_not_together(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reckon", "steel", "1084", "--brief", "--json"]) == 2
    assert "not allowed with" in capsys.readouterr().err


def test_a_formula_and_a_card_that_differ_are_shown_side_by_side(reckon: Reckon, say: Say) -> None:
    found = reckon("steel", "52100")
    low, high = found["published_acm_celsius"]
    assert found["acm_difference_kelvin"] == pytest.approx(found["acm_celsius"] - (low + high) / 2)
    assert any(re.match(r"Acm, difference +3\d\.\d K", line) for line in say("steel", "52100"))


def test_no_figure_says_why(reckon: Reckon, say: Say) -> None:
    found = reckon("steel", "D2")
    assert found["ms_celsius"] is None
    assert "Cr 12 %" in found["about"]["ms_celsius"]["why"]
    assert any(line.startswith("Ms ") and line.split()[1] == "--" for line in say("steel", "D2"))
    soft = reckon("temper", "--carbon", "0.8", "--at", "600 degC", "--for", "1 h")
    assert soft["hardness_hrc"] is None
    assert "not extrapolated" in soft["about"]["hardness_hrc"]["why"]


def test_a_heat_too_low_to_harden_at(reckon: Reckon) -> None:
    for steel, why in (("W2", "colder than Ac1"), ("1045", "colder than Ac3")):
        found = reckon("steel", steel, "--at", "700 degC")
        assert found["dissolved_carbon_percent"] is None
        assert "retained_austenite_fraction" not in found
        assert why in found["about"]["dissolved_carbon_percent"]["why"]


def test_hotter_dissolves_more_and_keeps_more_austenite(reckon: Reckon) -> None:
    cool, hot = (reckon("steel", "52100", "--at", f"{at} degC") for at in (800, 860))
    assert hot["dissolved_carbon_percent"] > cool["dissolved_carbon_percent"]
    assert hot["hardened_ms_celsius"] < cool["hardened_ms_celsius"]
    assert hot["retained_austenite_fraction"] > cool["retained_austenite_fraction"]


def test_deeper_cold_leaves_less_austenite(reckon: Reckon) -> None:
    room, cold = (reckon("steel", "1095", "--down-to", to) for to in ("20 degC", "-80 degC"))
    assert cold["retained_austenite_fraction"] < room["retained_austenite_fraction"]


def test_a_constant_that_was_given_is_called_so(reckon: Reckon, say: Say) -> None:
    found = reckon("temper", "--constant", "18", "--at", "200 degC", "--for", "2 h", "--instead-for", "1 h")
    assert found["constant"] == 18
    assert found["about"]["constant"]["basis"] == "as given"
    assert found["about"]["instead_at_celsius"]["range"] is None
    assert "range" not in found["about"]["instead_at_celsius"]["validity"]
    by_carbon = reckon("temper", "--carbon", "0.8", "--at", "200 degC", "--for", "2 h", "--instead-for", "1 h")
    low, high = by_carbon["about"]["instead_at_celsius"]["range"]
    assert low < by_carbon["instead_at_celsius"] < high
    assert "range" in by_carbon["about"]["instead_at_celsius"]["validity"]
    lines = say("temper", "--constant", "18", "--at", "200 degC", "--for", "2 h")
    assert any(re.fullmatch(r"constant +18 +as given", line) for line in lines)


def test_two_holds_do_more_than_one(reckon: Reckon) -> None:
    hold = ("temper", "--carbon", "0.8", "--at", "200 degC", "--for", "1 h")
    twice = reckon(*hold, "--holds", "2")
    assert twice["hardness_hrc"] < reckon(*hold)["hardness_hrc"]
    assert twice["parameter"] == pytest.approx(reckon(*hold[:-1], "2 h")["parameter"])


@pytest.mark.parametrize(
    ("words", "option", "value", "key"),
    [
        (COOLING, "--emissivity", "0.4", "seconds"),
        (COOLING, "--convection", "40 W/m^2/K", "seconds"),
        (COOLING, "--air", "300 degC", "seconds"),
        (SOAK, "--emissivity", "0.4", "seconds"),
        (SOAK, "--convection", "80 W/m^2/K", "seconds"),
        (COOLING, "--struck-by", "press", "seconds"),
        ((*COOLING, "--struck-by", "press"), "--contact", "2 s", "coldest_seconds"),
        ((*COOLING, "--struck-by", "press"), "--contact-every", "6 s", "face_seconds"),
        (SOAK[:-4], "--from", "500 degC", "seconds"),
        *(
            (("steel", "--c", "0.7"), f"--{symbol}", "0.1", key)
            for symbol, key in {
                **dict.fromkeys(("mn", "si", "cr", "ni", "mo"), "ms_celsius"),
                "w": "ac1_celsius",
                "as": "ac1_celsius",
            }.items()
        ),
        *(
            (("steel", "--c", "0.4"), f"--{symbol}", "0.1", "ac3_full_celsius")
            for symbol in ("v", "cu", "al", "ti", "p")
        ),
        (("carbon", "--carbon", "0.8", "--at", "1200C", "--for", "10min"), "--share", "0.5", "decarb_depth_mm"),
        (("temper", "--carbon", "0.8", "--at", "200C", "--for", "1h"), "--constant", "20", "parameter"),
        (("temper", "--carbon", "0.8", "--at", "200C", "--for", "1h"), "--holds", "3", "parameter"),
        (("thermocouple", "--type", "S", "--mv", "9"), "--cold-junction", "25C", "celsius"),
        (("thermocouple", "--type", "S", "--at", "900C"), "--cold-junction", "25C", "millivolts"),
    ],
)
def test_every_option_counts(reckon: Reckon, words: tuple[str, ...], option: str, value: str, key: str) -> None:
    start = (*words, "--middle", "1200 degC") if words[0] == "soak" and "--middle" not in words else words
    assert reckon(*start, option, value)[key] != pytest.approx(reckon(*start)[key], rel=1e-4)


def test_a_thin_piece_has_lost_more_than_the_depth_says(reckon: Reckon) -> None:
    words = ("carbon", "--carbon", "0.8", "--at", "1200 degC", "--for", "10 min")
    assert not reckon(*words)["about"]["decarb_depth_mm"]["outside"]
    thin = reckon(*words, "--thickness", "1.5 mm")["about"]["decarb_depth_mm"]
    assert thin["outside"]
    assert "both sides meet" in thin["validity"]


LOADED = """
import sys
from tui.cli.main import main
status = main(sys.argv[1:])
print(status, *sorted(sys.modules), file=sys.stderr)
"""


@pytest.mark.parametrize(
    ("words", "allowed"),
    [
        (("--help",), set()),
        (("reckon", "--help"), set()),
        (("reckon", "thermocouple", "--type", "K", "--mv", "41.276"), set()),
        (("reckon", "steel", "1084"), set()),
        (("reckon", "glow", "--at", "1000 degC"), set()),
    ],
)
def test_nothing_is_loaded_that_is_not_needed(words: tuple[str, ...], allowed: set[str]) -> None:
    done = subprocess.run([sys.executable, "-c", LOADED, *words], capture_output=True, text=True, check=True)
    status, *modules = done.stderr.split()
    assert status == "0"
    assert {"textual", "rich", "pint", "tinydb", "serial"} & set(modules) <= allowed
    if words == ("--help",):
        assert not any(module.startswith(("tui.reckoner", "plans.reckoner", "plans.steel")) for module in modules)

"""The JSON Schema and the reader hold the same things to be well formed."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable
from copy import deepcopy
from dataclasses import fields
from datetime import date
from pathlib import Path
from typing import Any, get_args

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from plans.errors import FaultKind, PlanError
from plans.phase import PhaseKind
from plans.plan import Phase, Step, StepKind
from plans.quantities import SECTION, Dimension, pattern
from plans.reader import made_from, read_plan
from plans.reader.answer_keys import AnswerKeys
from plans.reader.declaring import keys_of
from plans.reader.key_help import page
from plans.reader.key_table import README_FILE, readme
from plans.reader.keys import TABLES, AirKeys, BarKeys, CuesKeys, DipKeys, OvenKeys, PlanKeys, QuenchKeys, StepKeys
from plans.reader.schema import PAGE_FILE, SCHEMA_FILE, schema_text
from plans.reader.value_types import PHASES
from plans.toml.table import ONE_LINE, PARAGRAPHS
from tests.shelf_plans import shelf_plans

SCHEMA: dict[str, Any] = json.loads(SCHEMA_FILE.read_text("utf-8"))
STEP_KEYS = tuple(key.name for key in keys_of(StepKeys).values())
PHASE_KEYS = {
    phase: (
        tuple(key.name for key in keys_of(table).values()),
        tuple(key.name for key in keys_of(table).values() if key.required),
    )
    for phase, table in (
        (PhaseKind.AIR, AirKeys),
        (PhaseKind.QUENCH, QuenchKeys),
        (PhaseKind.OVEN, OvenKeys),
        (PhaseKind.DIP, DipKeys),
    )
}


def _matches(_: Any, expression: str, value: Any, __: Any) -> Any:
    # ECMA 262's $ matches at the very end alone, Python's also before a last line break
    if isinstance(value, str) and not re.search(expression.removesuffix("$") + r"\Z", value):
        yield jsonschema.ValidationError(f"{value!r} does not match")


_extend: Any = jsonschema.validators.extend
VALIDATOR = _extend(jsonschema.Draft202012Validator, {"pattern": _matches})(SCHEMA)


def toml(value: Any) -> str:
    """A value as TOML, tables inline."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, list):
        return "[" + ",\n".join(toml(item) for item in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{toml(key)} = {toml(item)}" for key, item in value.items()) + "}"
    return str(value)


def document(plan: dict[str, Any]) -> str:
    """The plan as a TOML text: steps and bars under headers where they are tables, anything else inline."""
    text, headed = "", ""
    for key, value in plan.items():
        if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
            for item in value:
                rows = "".join(f"{toml(name)} = {toml(one)}\n" for name, one in item.items())
                headed += f"[[{toml(key)}]]\n{rows}"
        else:
            text += f"{toml(key)} = {toml(value)}\n"
    return text + headed


def kinds(text: str) -> set[FaultKind]:
    """The kinds of fault that the reader finds, in what is followed and in the answers that it was made from."""
    found = set()
    for read in (lambda: read_plan(text, "mine", "mine.toml"), lambda: made_from(text, "mine.toml")):
        try:
            read()
        except PlanError as error:
            found |= {fault.kind for fault in error.faults}
    return found


# Plans that are well formed, though most of them make no sense

TEMPERATURE = (
    st.sampled_from(["1.5e3 K", "-5 °C", " 900 deg C ", "-300 degC", "1e99 K"])
    | st.integers(-400, 3000).map("{} degC".format)
    | st.integers(0, 3000).map("{} F".format)
)
DIFFERENCE = st.integers(0, 200).map("{} K".format)
LENGTH = st.sampled_from(["220 mm", "8 3/4 in", "¾ in", "1 ft 3 in", "3 in 1 ft", "0 mm", "900 m"])
TIME = st.sampled_from(["4 min", "90 s", "1 h 30 min", "1:12:08", "0 s", "2 1/2 h", "900 h"])
BAR_SECTION = st.sampled_from(
    [
        *("25 x 10 mm", "1 1/4 x 3/8 in", "round 25 mm", "1 in square", "0 x 3 mm", "9 x 9 m"),
        *("wedge 37 x 8 mm to 3.5 mm", "lens 1 1/2 x 1/4 in to 1/16 in", "diamond 9 x 8 mm to 8 mm"),
    ]
)
LINE = st.sampled_from(["Weld it", "x", " y ", 'a "b" [c]', "5 ° ✓", "z" * 30])
TEXT = LINE | st.sampled_from(["", "a\nb", "a\n\n\tb\n"])
HEATS = st.just("auto") | st.integers(1, 99)
ONE_OR_MORE = TEMPERATURE | st.lists(TEMPERATURE, min_size=1, max_size=4)

PHASE_TABLES = {
    PhaseKind.AIR: {"until": TEMPERATURE, "for": TIME},
    PhaseKind.QUENCH: {"medium": LINE, "for": TIME, "within": TIME},
    PhaseKind.OVEN: {"at": TEMPERATURE, "for": TIME, "within": TIME},
    PhaseKind.DIP: {"medium": LINE, "for": TIME},
}
OPTIONAL: dict[str, st.SearchStrategy[Any]] = {
    "instruction": TEXT,
    "phases": st.lists(st.sampled_from([phase.value for phase in PHASES]), min_size=1, unique=True),
    "fire": ONE_OR_MORE,
    "heat_to": ONE_OR_MORE,
    "flux_at": TEMPERATURE,
    "keep_above": TEMPERATURE,
    "burn_above": TEMPERATURE,
    "soak": st.just("auto") | TIME,
    "soak_at_most": TIME,
    "even_within": DIFFERENCE,
    "heats": HEATS,
    "section": BAR_SECTION,
    "length": LENGTH,
    "reach": BAR_SECTION,
    "reach_length": LENGTH,
    "thin": BAR_SECTION,
    "thin_length": LENGTH,
    "struck_by": st.sampled_from(["hand hammer", "press", "power hammer"]),
    "contact": TIME,
    "contact_every": TIME,
    "turn_every": TIME,
    "checklist": st.lists(LINE, max_size=3),
    "cautions": st.lists(LINE, max_size=3),
    "cues": st.dictionaries(st.sampled_from([phase.value for phase in PHASES]), LINE, max_size=3),
} | {
    phase.value: st.fixed_dictionaries(
        {key: values[key] for key in PHASE_KEYS[phase][1]},
        optional={key: values[key] for key in values if key not in PHASE_KEYS[phase][1]},
    )
    for phase, values in PHASE_TABLES.items()
}
BAR = st.fixed_dictionaries({"name": LINE, "steel": LINE, "section": BAR_SECTION, "length": LENGTH})
STEP = st.fixed_dictionaries({"title": LINE, "kind": st.sampled_from([k.value for k in StepKind])}, optional=OPTIONAL)
PLAN = st.fixed_dictionaries(
    {"heatbook": st.just(1), "title": LINE, "step": st.lists(STEP, min_size=1, max_size=3)},
    optional={"about": TEXT, "bar": st.lists(BAR, min_size=1, max_size=2)},
)

# What a slip may leave in some place of a plan

ANYTHING: st.SearchStrategy[Any] = st.one_of(
    st.integers(-5, 200),
    st.sampled_from([0.5, 1.0, 3.0, float("inf"), True, False, date(2024, 2, 29)]),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
    st.sampled_from(["", " ", "auto", "ready", "fire", "25", "25 mm", "4 min", "15 K", "20 degC", "nan K", "30 x 8"]),
    st.sampled_from(["25 x 10 mm\n", "4 min\n", "a\nb", "a\n", "a\tb", "\x1b[2J", "\u202e", "\x7f", "1,5 mm", "-3 mm"]),
    st.sampled_from(["x" * 31, "x" * 61, "x" * 161, "1" * 60 + " mm", [], {}, [[]], [{}], ["fire", "fire"]]),
    st.lists(st.sampled_from(["20 degC", "fire", "Bright", 7]), max_size=3),
    st.lists(st.just("20 degC"), min_size=19, max_size=22) | st.lists(st.just("9 K"), min_size=98, max_size=101),
)


def places(value: Any, here: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = [here] if here else []
    for key, child in children:
        found += places(child, (*here, key))
    return found


@st.composite
def slipped(draw: st.DrawFn) -> dict[str, Any]:
    """A plan with something left out, put in, renamed or changed."""
    plan: dict[str, Any] = draw(PLAN)
    for _ in range(draw(st.integers(1, 2))):
        where = draw(st.sampled_from(places(plan) or [("title",)]))
        parent: Any = plan
        for key in where[:-1]:
            parent = parent[key]
        match draw(st.sampled_from(["change", "change", "leave out", "put in", "twice"])):
            case "change":
                parent[where[-1]] = draw(ANYTHING)
            case "leave out":
                del parent[where[-1]]
            case "put in" if isinstance(parent, dict):
                key = draw(st.sampled_from([*STEP_KEYS, "name", "for", "x", "", "a.b"]))
                parent[key] = draw(ANYTHING)
            case _ if isinstance(parent, list):
                parent.append(parent[where[-1]])
    return plan


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize(
    ("file", "made"),
    [(SCHEMA_FILE, schema_text), (PAGE_FILE, page), (README_FILE, readme)],
    ids=["schema", "page", "table in the README"],
)
def test_what_ships_is_what_the_declarations_make(file: Path, made: Callable[[], str]) -> None:
    assert file.read_text("utf-8") == made(), "write it anew: python -m plans.reader.schema"


@pytest.mark.parametrize("declared", TABLES)
def test_the_example_of_every_key_is_well_formed(declared: Any) -> None:
    whole = {PlanKeys: (), AnswerKeys: ("made_from",), BarKeys: ("bar", 0), StepKeys: ("step", 0)}
    where = whole.get(declared, ("step", 0, declared.__name__.removesuffix("Keys").lower()))
    for key in keys_of(declared).values():
        plan = deepcopy(WHOLE)
        table: Any = plan
        for part in where:
            table = table[part]
        if not key.line.startswith("[["):
            table |= tomllib.loads(key.line)
        assert VALIDATOR.is_valid(plan), key.name
        assert FaultKind.SHAPE not in kinds(document(plan)), key.name


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(PLAN)
def test_a_well_formed_plan_passes_both(plan: dict[str, Any]) -> None:
    assert VALIDATOR.is_valid(plan)
    assert kinds(document(plan)) <= {FaultKind.VALUE}


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(slipped())
def test_the_reader_finds_a_fault_of_shape_just_where_the_schema_does(plan: dict[str, Any]) -> None:
    found = kinds(document(plan))
    assert FaultKind.FILE not in found
    assert (FaultKind.SHAPE not in found) == VALIDATOR.is_valid(plan)


# A plan with every key, and every single slip in it: what a random walk seldom meets

WHOLE: dict[str, Any] = {
    "heatbook": 1,
    "title": "A plan",
    "about": "What comes out.",
    "made_from": {
        "what": "bar",
        "title": "A bar",
        "length": "200 mm",
        "pattern": ["1084", "15N20"],
        "bar": "25 x 10 mm",
        "pieces": 7,
        "reduction": "20 %",
        "leave_out": ["etch"],
    },
    "bar": [{"name": "bar", "steel": "1084", "section": "25 x 10 mm", "length": "200 mm"}],
    "step": [
        {
            "title": "All of it",
            "kind": "weld",
            "instruction": "Strike.",
            "phases": ["fire", "soak", "strike", "air", "quench", "oven", "dip", "bench"],
            "fire": ["1300 degC", "1300 degC"],
            "heat_to": "1260 degC",
            "flux_at": "870 degC",
            "keep_above": "1100 degC",
            "burn_above": "1320 degC",
            "soak": "2 min",
            "soak_at_most": "5 min",
            "even_within": "15 K",
            "heats": 2,
            "section": "30 x 20 mm",
            "length": "150 mm",
            "reach": "30 x 18 mm",
            "reach_length": "160 mm",
            "thin": "20 x 4 mm",
            "thin_length": "60 mm",
            "thin_name": "edge",
            "layers": 28,
            "struck_by": "press",
            "contact": "1 s",
            "contact_every": "3 s",
            "turn_every": "6 s",
            "checklist": ["Bright"],
            "cautions": ["Hot."],
            "air": {"until": "480 degC", "for": "10 min"},
            "quench": {"medium": "oil", "for": "10 s", "within": "3 s"},
            "oven": {"at": "200 degC", "for": "2 h", "within": "2 h"},
            "dip": {"medium": "ferric chloride", "for": "12 min"},
            "cues": {phase.value: f"Mind the {phase.value}." for phase in PHASES},
        }
    ],
}
LEFT_OUT = object()


def slips(value: Any) -> list[Any]:
    """What may stand in the place of a value, at and beyond every limit of its kind."""
    if isinstance(value, str):
        texts = [
            "",
            "auto",
            "1\n",
            "25 mm",
            "4 min",
            "9 degC",
            "30 K",
            "2 x 1 mm",
            " " * 55 + "1 mm",
            " " * 60 + "1 mm",
        ]
        return texts + ["x" * length for length in (30, 31, 60, 61, 160, 161, 2000, 2001)] + [5]
    if isinstance(value, list):
        return [[], "x", *([value[0]] * count for count in (2, 20, 21, 50, 51, 99, 100))]
    if isinstance(value, dict):
        return [{}, [value], value | {"x": 1}]
    return [0, 1, 2, 99, 100, 100_000, 100_001, 1.0, 2.0, 2.5, True, "auto", "1", [1]]


@pytest.mark.parametrize("where", places(WHOLE), ids=lambda where: ".".join(map(str, where)))
def test_every_single_slip_is_seen_by_both_or_by_none(where: tuple[Any, ...]) -> None:
    plan = deepcopy(WHOLE)
    parent: Any = plan
    for key in where[:-1]:
        parent = parent[key]
    for slip in [*slips(parent[where[-1]]), LEFT_OUT]:
        if slip is LEFT_OUT:
            del parent[where[-1]]
        else:
            parent[where[-1]] = slip
        assert (FaultKind.SHAPE not in kinds(document(plan))) == VALIDATOR.is_valid(plan), slip


def test_the_whole_plan_has_every_key_and_no_fault() -> None:
    assert kinds(document(WHOLE)) == set()
    assert tuple(WHOLE) == tuple(SCHEMA["properties"])
    assert tuple(WHOLE["step"][0]) == STEP_KEYS
    assert all(tuple(WHOLE["step"][0][phase.value]) == known for phase, (known, _) in PHASE_KEYS.items())


def test_every_key_of_a_step_reaches_the_step() -> None:
    worked_out = {"fire", "heat_to", "struck_by", "contact", "contact_every"}  # into the targets and the blows
    in_phases = {"soak", "soak_at_most", "air", "quench", "oven", "dip", "cues"}
    assert set(keys_of(StepKeys)) - {field.name for field in fields(Step)} == worked_out | in_phases
    for table in (AirKeys, QuenchKeys, OvenKeys, DipKeys):
        assert set(keys_of(table)) <= {field.name for field in fields(Phase)}


def test_every_phase_that_a_plan_may_name_may_have_a_cue() -> None:
    assert tuple(keys_of(CuesKeys)) == tuple(phase.value for phase in PHASES)


def test_the_patterns_are_those_of_the_reader() -> None:
    defined = {name: one["pattern"] for name, one in SCHEMA["$defs"].items() if "pattern" in one}
    quantities = {name.replace(" ", "_"): pattern(name) for name in get_args(Dimension)}
    texts = {"section": SECTION, "name": ONE_LINE, "item": ONE_LINE, "text": PARAGRAPHS}
    assert defined == {name: (quantities | texts)[name] for name in defined}
    assert set(texts) | {"temperature", "temperature_difference", "length", "time", "number"} == set(defined)


def test_the_keys_are_those_of_the_reader_and_each_is_described() -> None:
    step = SCHEMA["$defs"]["step"]["properties"]
    assert tuple(step) == STEP_KEYS
    for phase, (known, required) in PHASE_KEYS.items():
        table = SCHEMA["$defs"][phase.value]
        assert tuple(table["properties"]) == known
        assert tuple(table.get("required", ())) == required
    for properties in (
        step,
        SCHEMA["properties"],
        *(SCHEMA["$defs"][phase.value]["properties"] for phase in PHASE_KEYS),
    ):
        for one in properties.values():
            assert "description" in one or "description" in SCHEMA["$defs"][one["$ref"].rsplit("/", 1)[-1]]


@pytest.mark.parametrize("name", ["temperature", "temperature_difference", "length", "time", "section"])
def test_the_examples_of_the_schema_are_well_formed(name: str) -> None:
    one = SCHEMA["$defs"][name]
    assert one["examples"]
    for example in one["examples"]:
        assert re.search(one["pattern"], example)


def test_shipped_plans_pass_the_schema() -> None:
    for entry in shelf_plans(None):
        VALIDATOR.validate(tomllib.loads(entry.path.read_text("utf-8")))

"""What each key of a plan file means, in words: for the JSON Schema, and as a page for people.

The page ships as plans/plan.keys.md, beside the schema; `python -m plans.reader.schema` writes both.
"""

from __future__ import annotations

import ast
import inspect
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Final

from plans.plan import USUAL_PHASES
from plans.reader.answer_keys import AnswerKeys
from plans.reader.declaring import Key, ManyNested, Nested, keys_of
from plans.reader.keys import TABLES, AirKeys, BarKeys, CuesKeys, DipKeys, OvenKeys, PlanKeys, QuenchKeys, StepKeys
from plans.reader.value_types import (
    AUTO,
    KINDS,
    Choice,
    Choices,
    Count,
    CrossSection,
    Line,
    Lines,
    OrAuto,
    Paragraphs,
    Quantity,
    QuantityOrEach,
    Value,
    Version,
)

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

HEADERS: Final = {
    PlanKeys: "The plan",
    AnswerKeys: "`[made_from]`",
    BarKeys: "`[[bar]]`",
    StepKeys: "`[[step]]`",
    AirKeys: "`[step.air]`",
    QuenchKeys: "`[step.quench]`",
    OvenKeys: "`[step.oven]`",
    DipKeys: "`[step.dip]`",
    CuesKeys: "`[step.cues]`",
}
"""The header of each table as it stands in a plan file, in Markdown."""


@cache
def key_meanings(declared: type[DataclassInstance]) -> dict[str, str]:
    """What each key of a table means, by its attribute: the docstring under it."""
    (tree,) = ast.parse(inspect.getsource(declared)).body
    assert isinstance(tree, ast.ClassDef)
    found = {}
    for one, after in zip(tree.body, tree.body[1:], strict=False):
        match one, after:
            case ast.AnnAssign(target=ast.Name(id=name)), ast.Expr(value=ast.Constant(value=str(text))):
                found[name] = " ".join(text.split())
    return found


@cache
def word_meanings(words: type[StrEnum]) -> dict[str, str]:
    """What each of a few words means, by how it is written: the docstring under it."""
    (tree,) = ast.parse(inspect.getsource(words)).body
    assert isinstance(tree, ast.ClassDef)
    found = {}
    for one, after in zip(tree.body, tree.body[1:], strict=False):
        match one, after:
            case ast.Assign(targets=[ast.Name(id=name)]), ast.Expr(value=ast.Constant(value=str(text))):
                found[words[name].value] = " ".join(text.split())
    return found


def described(declared: type[DataclassInstance]) -> dict[str, tuple[Key, str]]:
    """Each key of a table by its attribute: its declaration, and all that is to be said of it in one paragraph."""
    return {name: (one, _paragraph(one, key_meanings(declared)[name])) for name, one in keys_of(declared).items()}


def _paragraph(one: Key, meaning: str) -> str:
    said = [meaning]
    if isinstance(one.value, Choice) and one.value.words == KINDS:
        said.append(f"The usual phases: {_usual_phases()}.")
    if one.phase is not None:
        needs = ", which needs it" if one.needed else ""
        said.append(f"Only for a step with the phase {one.phase.value}{needs}.")
    if one.otherwise:
        said.append(f"Without it: {one.otherwise}.")
    limits = range_of(one.value)
    if limits:
        said.append(f"{limits}.")
    return " ".join(said)


def _usual_phases() -> str:
    return "; ".join(f"{kind.value}: {', '.join(phases)}" for kind, phases in USUAL_PHASES.items())


def range_of(value: Value) -> str:
    """The range of a quantity and its reason, e.g. `From 1 s to 1 min: faster can't be told, and slower is none`."""
    match value:
        case Quantity(dimension, limits) | QuantityOrEach(dimension, limits):
            sides = "From"
        case CrossSection(limits):
            dimension, sides = "length", "Each side from"
        case OrAuto(inner):
            return range_of(inner)
        case _:
            return ""
    reason = f": {limits.reason}" if limits.reason else ""
    return f"{sides} {limits.ends(dimension)}{reason}"


def written(value: Value) -> str:
    """What is to be written behind a key, in words."""
    match value:
        case Version(number):
            return f"the number {number}"
        case Line(longest, _):
            return f"a line of text, up to {longest} characters"
        case Paragraphs(longest):
            return f"text in paragraphs, up to {longest} characters"
        case Lines(most, longest, _):
            return f"a list of up to {most} lines of text, up to {longest} characters each"
        case Choice(words, _):
            return f"one of {', '.join(words)}"
        case Choices(words, _):
            return f"a list of {', '.join(words)}"
        case Quantity(dimension, _):
            return f"a {dimension}"
        case QuantityOrEach(dimension, _, _):
            return f"a {dimension}, or a list with one for each heat"
        case CrossSection(_):
            return (
                "a section: `31 x 18 mm`, `round 25 mm`, `octagon 20 mm`, `hexagon 19 mm`, "
                "`wedge 37 x 8 mm to 3.5 mm`; `diamond` and `lens` "
                "alike; of a wedge or a diamond also `... bevel 20 mm hollow radius 150 mm`"
            )
        case Count(most):
            return f"a whole number from 1 to {most}"
        case OrAuto(inner):
            return f'{written(inner)}, or "{AUTO}"'
        case Nested(keys):
            return f"a table, {HEADERS[keys]}"
        case ManyNested(keys, most):
            return f"up to {most} tables, {HEADERS[keys]}"
    raise TypeError(f"{type(value).__name__} is not described")


def page() -> str:
    """The page on all keys, as Markdown."""
    parts = [
        "# The keys of a plan file\n",
        "Made from plans/reader/keys.py by `python -m plans.reader.schema`; not to be changed by hand.\n",
        'Quantities are text with a unit, metric or inch: `"1250 degC"`, `"25 x 10 mm"`, `"1 1/4 in"`, '
        '`"4 min"`, `"15 K"`. In texts of paragraphs a single line break counts as a space, an empty line begins a '
        "new paragraph.\n",
        "A text for the smith may hold quantities in braces, which are shown in the units that are set: "
        "`at orange, {870 degC}`, `cut to {150 mm}`, `{25 x 10 mm}`, `{0.5 to 1 mm}`, `{900, 845 and 790 degC}`; a "
        "difference of temperatures is in K: `{15 K}`. A brace itself is written twice: `{{`.\n",
    ]
    for declared in TABLES:
        parts += [f"## {HEADERS[declared]}\n", f"{inspect.cleandoc(declared.__doc__ or '')}\n"]
        parts += ["| key | what is written | what it means | for example |", "| --- | --- | --- | --- |"]
        for one, said in described(declared).values():
            name = f"`{one.name}`, needed" if one.required else f"`{one.name}`"
            parts.append(f"| {name} | {written(one.value)} | {said} | `{one.line}` |")
        parts.append("")
    return "\n".join(parts)

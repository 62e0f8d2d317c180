"""The JSON Schema of plan files, for editors and for whoever writes plans by program.

It is made from the declarations in plans/reader/keys.py and ships as plans/plan.schema.json; when they have changed,
`python -m plans.reader.schema` writes it anew, and with it the page on all keys, plans/plan.keys.md, and the table of
keys in the README.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from plans.quantities import SECTION, Dimension, pattern
from plans.quantity_grammar import LONGEST, LONGEST_SECTION
from plans.reader.declaring import ManyNested, Nested
from plans.reader.key_help import described, page
from plans.reader.key_table import README_FILE, readme
from plans.reader.keys import TABLES, PlanKeys
from plans.reader.value_types import (
    AUTO,
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
from plans.toml import ONE_LINE, PARAGRAPHS

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

SCHEMA_FILE: Final = Path(__file__).parent.parent / "plan.schema.json"
"""Where the schema ships."""
PAGE_FILE: Final = Path(__file__).parent.parent / "plan.keys.md"
"""Where the page on all keys ships."""

_QUANTITIES: Final[dict[Dimension, tuple[str, list[str]]]] = {
    "temperature": ("A number and a unit: degC, degF or K.", ["1250 degC", "2282 degF"]),
    "temperature difference": ("A number and a unit: K, degC or degF.", ["15 K", "27 degF"]),
    "length": ("A number or a fraction and a unit: mm, cm, m, in or ft.", ["220 mm", "8 3/4 in"]),
    "time": (
        "A number and a unit: s, min or h; or several of them, the larger first.",
        ["4 min", "90 s", "1 h 30 min"],
    ),
    "number": ("A number, or one in per cent.", ["0.2", "20 %"]),
}
"""What is said of each dimension that plans have, and how it may be written."""
_LINES: Final = {60: "name", 160: "item"}
"""The lines of text that have a definition of their own, by the most characters."""
_TEXT: Final = 2000
"""Most characters of the text in paragraphs that has a definition of its own."""


def schema() -> dict[str, Any]:
    """The schema (JSON Schema 2020-12) of the declarations as they are; a new copy at each call."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:heatbook:plan:1",
        "title": "heatbook plan",
        "description": "A plan for one piece of work at the forge. The schema holds the shape: keys, types, the syntax "
        "of quantities. What takes arithmetic or sense (ranges, limits in order, one temperature for each heat, phases "
        "that have what they need) is checked when the plan is read.",
        **_object(PlanKeys),
        "$defs": _definitions(),
    }


def schema_text() -> str:
    """The schema as its file holds it."""
    return json.dumps(schema(), indent=2) + "\n"


def _definitions() -> dict[str, Any]:
    found: dict[str, Any] = {}
    for dimension, (said, examples) in _QUANTITIES.items():
        found[_name(dimension)] = {
            "title": dimension.capitalize(),
            "description": said,
            **_string(LONGEST, pattern(dimension)),
            "examples": examples,
        }
    found["section"] = {
        "title": "Section",
        "description": "The cross-section of a bar: two sides with their unit; round, square, octagon or hexagon with "
        "one; or wedge, diamond or lens with two and the thickness of the edge.",
        **_string(LONGEST_SECTION, SECTION),
        "examples": ["25 x 10 mm", "1 1/4 x 3/8 in", "round 25 mm", "square 1 in", "octagon 20 mm"],
    }
    for longest, name in _LINES.items():
        found[name] = {"title": "A line of text", **_string(longest, ONE_LINE)}
    found["text"] = {
        "title": "Text",
        "description": "Paragraphs are set apart by empty lines; a single line break counts as a space. Quantities in "
        "braces are shown in the units that are set: {870 degC}.",
        **_string(_TEXT, PARAGRAPHS),
    }
    for declared in TABLES[1:]:
        title = _name(declared.__name__.removesuffix("Keys"))
        said = " ".join((declared.__doc__ or "").split())
        found[title] = {"title": title.capitalize(), "description": said, **_object(declared)}
    return found


def _object(declared: type[DataclassInstance]) -> dict[str, Any]:
    keys = described(declared)
    required = [one.name for one, _ in keys.values() if one.required]
    return {
        "type": "object",
        "additionalProperties": False,
        **({"required": required} if required else {}),
        "properties": {
            one.name: {
                "title": one.name.replace("_", " ").capitalize(),
                "description": said,
                **_value(one.value),
            }
            for one, said in keys.values()
        },
    }


def _value(value: Value) -> dict[str, Any]:
    match value:
        case Version(number):
            return {"const": number}
        case Line(longest, _):
            return _ref(_LINES[longest]) if longest in _LINES else _string(longest, ONE_LINE)
        case Paragraphs(longest):
            return _ref("text") if longest == _TEXT else _string(longest, PARAGRAPHS)
        case Lines(most, longest, least):
            fewest = {"minItems": least} if least else {}
            return {"type": "array", **fewest, "maxItems": most, "items": _value(Line(longest))}
        case Choice(words, _):
            return {"enum": [str(word) for word in words]}
        case Choices(words, _):
            items = _value(Choice(words))
            return {"type": "array", "minItems": 1, "maxItems": len(words), "uniqueItems": True, "items": items}
        case Quantity(dimension, _):
            return _ref(_name(dimension))
        case QuantityOrEach(dimension, _, most):
            one = _ref(_name(dimension))
            return {"anyOf": [one, {"type": "array", "minItems": 1, "maxItems": most, "items": one}]}
        case CrossSection(_):
            return _ref("section")
        case Count(most):
            return {"type": "integer", "minimum": 1, "maximum": most}
        case OrAuto(inner):
            return {"anyOf": [{"const": AUTO}, _value(inner)]}
        case Nested(keys):
            return _ref(_name(keys.__name__.removesuffix("Keys")))
        case ManyNested(keys, most):
            items = _ref(_name(keys.__name__.removesuffix("Keys")))
            return {"type": "array", "minItems": 1, "maxItems": most, "items": items}
    raise TypeError(f"{type(value).__name__} has no schema")


def _string(longest: int, expression: str) -> dict[str, Any]:
    return {"type": "string", "maxLength": longest, "pattern": expression}


def _ref(name: str) -> dict[str, Any]:
    return {"$ref": f"#/$defs/{name}"}


def _name(of: str) -> str:
    return of.lower().replace(" ", "_")


if __name__ == "__main__":
    SCHEMA_FILE.write_text(schema_text(), "utf-8")
    PAGE_FILE.write_text(page(), "utf-8")
    README_FILE.write_text(readme(), "utf-8")

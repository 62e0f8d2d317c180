"""Quantities in a plan's texts, in braces, so that they are shown in the units that are set: "at orange, {870 degC}".

In braces stands a temperature ("{870 degC}"), a difference of temperatures, always in K ("{15 K}"), a length
("{150 mm}", "{1 1/4 in}"), a section ("{25 x 10 mm}"), or several of one kind that share a unit ("{0.5 to 1 mm}",
"{900, 845 and 790 degC}"). A brace itself is written twice. Plan, log and all JSON hold texts as they were written.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import Final

from plans.quantities import Dimension, QuantityError, parse, parse_section, pattern, plain
from plans.quantity_grammar import NUMBER, SECTION_MARKS, SPACE, UNITS, any_of
from plans.shapes import Section
from plans.text import clean
from plans.units import Units, celsius

_BRACES: Final = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")
_BETWEEN: Final = re.compile("( to | and | or |, and |, or |, )")
_LENGTHS: Final = f"{NUMBER}{SPACE}({any_of(UNITS['length'])})"
_METRIC: Final = frozenset(unit for unit, name in UNITS["length"].items() if name in ("mm", "cm", "m"))
_FAHRENHEIT: Final = frozenset(unit for unit, name in UNITS["temperature"].items() if name == "degF")
_KINDS: Final[tuple[Dimension, ...]] = ("temperature difference", "temperature", "length")

HINT: Final = (
    'write "{870 degC}", "{1600 degF}", "{15 K}", "{150 mm}", "{6 in}" or "{25 x 10 mm}"; a brace itself twice, "{{"'
)
"""What would be right where a brace can't be read."""


def in_units(text: str, units: Units) -> str:
    """A text of a plan with the quantities in its braces in the units that are set.

    One that its author wrote in those units stands as he wrote it. A brace that can't be read, as in a text from before
    there were any, stands as it is.
    """
    if "{" not in text and "}" not in text:
        return text
    return _BRACES.sub(lambda found: _shown(found, units), text)


def as_prose(line: str) -> str:
    """A line that was typed as a plan's text holds it: blanks singly, and braces twice where they hold no quantity."""
    line = " ".join(line.split())
    return line.replace("{", "{{").replace("}", "}}") if any(unreadable(line)) else line


def in_braces(kelvin: float) -> str:
    """A temperature [K] as a plan's text has it: "{870 degC}"."""
    return f"{{{celsius(kelvin):g} degC}}"


def unreadable(text: str) -> Iterator[str]:
    """What is wrong with the braces of a text, each in a clause: `holds "{4 min}", which is no ...`."""
    for found in _BRACES.finditer(text):
        if found[0] in ("{", "}"):
            yield f"holds a {found[0]} without its other half"
        elif found[1] is not None:
            try:
                _read(found[1])
            except QuantityError as error:
                yield f'holds "{{{clean(found[1])}}}", and {error.why}'


def _shown(found: re.Match[str], units: Units) -> str:
    if found[1] is None:
        return found[0][0]
    try:
        return _read(found[1])(units)
    except QuantityError:
        return found[0]


@lru_cache(maxsize=1000)  # the live screen shows the same few again and again
def _read(written: str) -> Callable[[Units], str]:
    """What writes the quantities of a brace in given units.

    Raises:
        QuantityError: what is written is no quantity that hangs on the units.
    """
    written = " ".join(written.split())
    section = _section(written)
    if section is not None:
        return lambda units: written if _inches(written) is units.inches else units.section(section)
    *parts, last = _BETWEEN.split(written)
    kind, unit = _kind_and_unit(last)
    bare = rf"[+−-]?{NUMBER}"
    texts = [f"{part} {unit}" if re.fullmatch(bare, part) else part for part in parts[::2]] + [last]
    numbers = [parse(text, kind) for text in texts]

    def shown(units: Units) -> str:
        if _is_own(kind, unit, texts, units):
            return written
        *before, end = (_show(number, kind, units) for number in numbers)
        # The unit stands once, at the end.
        pairs = zip(before, parts[1::2], strict=True)
        return "".join(text.rpartition(" ")[0] + between for text, between in pairs) + end

    return shown


def _section(written: str) -> Section | None:
    """The section that is written; None where what is written is none.

    Raises:
        QuantityError: it is one that can't be.
    """
    if not any(mark in written for mark in SECTION_MARKS):
        return None
    try:
        return parse_section(written)
    except QuantityError as error:
        if error.syntax:
            return None
        raise


def _is_own(kind: Dimension, unit: str, texts: list[str], units: Units) -> bool:
    """Whether the author wrote in these units."""
    if kind == "length":
        return _inches(" ".join(texts)) is units.inches
    return (unit in _FAHRENHEIT) is units.fahrenheit


def _show(number: float, kind: Dimension, units: Units) -> str:
    match kind:
        case "temperature":
            return units.temperature(number)
        case "temperature difference":
            return units.difference(number)
    return units.length(number)


def _kind_and_unit(text: str) -> tuple[Dimension, str]:
    """What the quantity measures, and its last unit as it is written."""
    for kind in _KINDS:
        units = {"K": "K"} if kind == "temperature difference" else UNITS[kind]
        unit = text.partition(" ")[2]
        if unit in units and plain(text, kind) is not None:
            return kind, unit
        found = re.search(f"({any_of(units)})$", text)
        if found and re.fullmatch(pattern(kind), text):
            return kind, found[1]
    raise QuantityError(text, "quantity", "that is no temperature, difference of temperatures, length or section")


def _inches(text: str) -> bool | None:
    """Whether the lengths are all in inches and feet, or all metric; None where they are of both kinds."""
    metric = {unit in _METRIC for unit in re.findall(_LENGTHS, text)}
    return None if len(metric) != 1 else not metric.pop()

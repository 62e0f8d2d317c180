"""What people type, as SI floats, and back: the one place where pint is used.

The grammar stands in plans/quantity_grammar.py and in the JSON Schema of plans alike. Pint is asked what a unit means,
but for the plain ones, whose factors stand here: importing it takes as long as a bare Textual app takes to start, and
every plan is full of degrees and millimetres. It reads only the few units of units.txt: that registry takes 6 ms to
build where pint's own takes 130 to 190.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from itertools import pairwise
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, get_args

from plans.errors import PlansError
from plans.quantity_grammar import (
    EXAMPLES,
    LONGEST,
    LONGEST_SECTION,
    NUMBER,
    SECTION,
    SPACE,
    UNITS,
    VULGAR,
    Dimension,
    any_of,
    pattern,
)
from plans.shapes import BEVELLED, EDGED, REGULAR, Form, Section
from plans.text import clean
from plans.units import INCH, POUND, Units, both, exactly_in_both, kelvin

if TYPE_CHECKING:
    from pint import UnitRegistry

__all__ = [
    "PLAIN",
    "SECTION",
    "Dimension",
    "QuantityError",
    "by_pint",
    "parse",
    "parse_section",
    "pattern",
    "plain",
    "registry",
]


class QuantityError(PlansError):
    """A text is no quantity of the kind that is asked for; says why, and what would be right."""

    def __init__(self, text: str, wanted: str, why: str, *, syntax: bool = True) -> None:
        self.text = text
        """What was written."""
        self.why = why
        """What is wrong with it, and what would be right."""
        self.syntax = syntax
        """Whether the text is no quantity at all; False where it is one, but impossible (below absolute zero)."""
        super().__init__(f"{_quoted(text)} is no {wanted}: {why}")


def _quoted(text: str) -> str:
    return f'"{clean(text, LONGEST)}"'


_FOOT: Final = 0.3048
PLAIN: Final[dict[str, Callable[[float], float]]] = {
    "degC": kelvin,
    "degF": Units.INCH.from_degrees,
    **dict.fromkeys(("K", "delta_degC", "m", "s", "kg", ""), float),
    "delta_degF": lambda number: number * 5 / 9,
    "mm": lambda number: number / 1000,
    "cm": lambda number: number / 100,
    "in": lambda number: number * INCH,
    "ft": lambda number: number * _FOOT,
    "min": lambda number: number * 60,
    "h": lambda number: number * 3600,
    "g": lambda number: number / 1000,
    "lb": lambda number: number * POUND,
    "oz": lambda number: number * POUND / 16,
    "m**3": float,
    "l": lambda number: number / 1000,
    "ft**3": lambda number: number * _FOOT**3,
    "%": lambda number: number / 100,
}
"""What a number of each plain unit is in SI, by pint's name for it; pint says the same, to within rounding."""


@cache
def registry() -> UnitRegistry[Any]:
    """The one pint registry, made at the first call from units.txt."""
    import pint

    return pint.UnitRegistry(Path(__file__).with_name("units.txt"), autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=1000)  # a plan says the same few temperatures and times again and again
def parse(text: str, dimension: Dimension) -> float:
    """The quantity that a text says, as people write it: "1250 degC", "1 1/4 in", "1 h 30 min", "20 W/m^2/K", "80 %".

    Lengths, times and masses may be fractions, and sums of falling units ("2 lb 10 oz"); a time may be a clock's
    h:mm:ss. A comma is never a decimal point.

    Args:
        text: what was written
        dimension: what it must be a quantity of

    Returns:
        The quantity in the SI unit of its dimension: K, m, s, kg, m3, N, W/(m2 K), or 1 for a number.

    Raises:
        QuantityError: it is not a quantity of that dimension, or one that can't be.
    """
    if (quick := plain(text, dimension)) is not None:
        return quick
    if len(text) > LONGEST or not _matches(pattern(dimension), text):
        raise QuantityError(text, dimension, _why(text, dimension))
    if dimension == "time" and ":" in text:
        hours, minutes, seconds = (int(part) for part in text.strip().split(":"))
        return float(hours * 3600 + minutes * 60 + seconds)
    sign = -1 if text.strip().startswith(("-", "−")) else 1
    terms = re.findall(rf"({NUMBER}){SPACE}({any_of(UNITS[dimension])})", text)
    sizes = [_to_si(1.0, unit, dimension) for _, unit in terms] if len(terms) > 1 else []
    if any(later >= earlier for earlier, later in pairwise(sizes)):
        why = f"each unit stands once, the larger one first, as in {EXAMPLES[dimension].split(' or ')[-1]}"
        raise QuantityError(text, dimension, why, syntax=False)
    total = sum(_to_si(sign * _number(number), unit, dimension) for number, unit in terms)
    if not isfinite(total) or abs(total) > 1e12:
        raise QuantityError(text, dimension, "the number is far too large", syntax=False)
    if dimension == "temperature" and total < -1e-9:
        raise QuantityError(text, dimension, f"it lies below absolute zero, {exactly_in_both(0.0)}", syntax=False)
    return max(total, 0.0)


def plain(text: str, dimension: Dimension) -> float | None:
    """What `parse` makes of a decimal, a space and a plain unit ("1250 degC"), as nearly every quantity is written.

    Returns:
        the quantity in SI; None for whatever is not written like that, which is no error: the grammar has to be asked.
        Its expressions take a start several milliseconds to compile
    """
    number, _, unit = text.partition(" ")
    worth = PLAIN.get(UNITS[dimension].get(unit, "unknown"))
    if worth is None or len(text) > LONGEST or not number.isascii() or not number.replace(".", "", 1).isdecimal():
        return None
    total = worth(float(number))
    return total if total <= 1e12 else None


def parse_section(text: str) -> Section:
    """The cross-section that a text says: "25 x 10 mm", "25.4 mm x 1/2 in", "round 25 mm", "wedge 37 x 8 mm to 3.5 mm".

    The sides may stand in either order; an octagon and a hexagon are told across flats. A wedge, a diamond and a lens
    end in the thickness of their edge, behind which a wedge and a diamond may have the width of their bevels and the
    radius of a hollow or convex one: "wedge 30 x 4 mm to 0.5 mm bevel 20 mm hollow radius 150 mm".

    Raises:
        QuantityError: the text is no section, or one with a side of zero, with an edge that is no thinner than it, or
            with a bevel that it can't have.
    """
    if (quick := _plain_section(text)) is not None:
        return quick
    found = re.match(SECTION, text) if len(text) <= LONGEST_SECTION else None
    if found is None or not _matches(SECTION, text):
        raise QuantityError(text, "section", _why_no_section(text))
    first, first_unit, second, second_unit, shape, side, side_last, shape_last, form, *edged = found.groups()
    if form:
        return _edged_section(text, Form(form), edged[:4], edged[4:])
    if first:
        return Section(*_sides(text, first, first_unit, second, second_unit))
    measure, shape = parse(side or side_last, "length"), shape or shape_last
    if measure <= 0:
        raise QuantityError(text, "section", _NO_SIDE, syntax=False)
    if shape == "square":
        return Section(measure, measure)
    return Section.regular(Form(shape) if shape in REGULAR else Form.ROUND, measure)


_NO_SIDE: Final = "a side must be larger than zero"


def _sides(text: str, first: str, first_unit: str | None, second: str, second_unit: str) -> tuple[float, float]:
    one, other = parse(f"{first} {first_unit or second_unit}", "length"), parse(f"{second} {second_unit}", "length")
    if min(one, other) <= 0:
        raise QuantityError(text, "section", _NO_SIDE, syntax=False)
    return max(one, other), min(one, other)


def _edged_section(text: str, form: Form, sides: Sequence[str], behind: Sequence[str | None]) -> Section:
    """A section with an edge, of what the grammar found behind its form: sides with their units; edge, bevel, which way
    it is bowed, and radius."""
    width, thickness = _sides(text, *sides)
    edge, bevel, radius = (None if part is None else parse(part, "length") for part in (*behind[:2], behind[3]))
    if edge == 0 or bevel == 0:
        raise QuantityError(text, "section", _NO_SIDE, syntax=False)
    if edge is not None and edge >= thickness:
        raise QuantityError(text, "section", "its edge must be thinner than its thickness", syntax=False)
    if form not in BEVELLED and (bevel is not None or radius is not None):
        raise QuantityError(text, "section", "only a wedge and a diamond have bevels of their own", syntax=False)
    flat = Section(width, thickness, form, edge)
    if bevel is not None and bevel > flat.room_for_bevel * (1 + _ON_PAPER):
        why = f"its bevel has room for {both(lambda units: units.length(flat.room_for_bevel))}, no more"
        raise QuantityError(text, "section", why, syntax=False)
    if bevel is not None:
        flat = Section(width, thickness, form, edge, min(bevel, flat.room_for_bevel))
    if radius is None:
        return flat
    least = flat.least_radius
    if radius < least * (1 - _ON_PAPER):
        why = (
            f"so wide a {behind[2]} bevel needs a radius of {both(lambda units: units.length(least))} at least; "
            'give that, or a narrower bevel: "bevel 20 mm"'
        )
        raise QuantityError(text, "section", why, syntax=False)
    bow = max(radius, least) * (-1 if behind[2] == "hollow" else 1)
    return Section(width, thickness, form, edge, flat.bevel, bow)


_ON_PAPER: Final = 0.05
"""By what share a bevel or a radius may miss its limit, as it does once all is rounded to be written down."""


def _plain_section(text: str) -> Section | None:
    """What `parse_section` makes of two decimals and a unit ("25 x 10 mm"), also with a plain edge ("wedge 37 x 8 mm to
    3.5 mm"); None for whatever is written otherwise. The whole syntax takes a start 6 ms to compile."""
    match text.split(" ") if len(text) <= LONGEST else ():
        case [first, "x", second, unit]:
            one, other = plain(f"{first} {unit}", "length"), plain(f"{second} {unit}", "length")
            return Section(max(one, other), min(one, other)) if one and other else None
        case ["wedge" | "diamond" | "lens" as form, first, "x", second, unit, "to", edge, edge_unit]:
            lengths = (f"{first} {unit}", f"{second} {unit}", f"{edge} {edge_unit}")
            if all(plain(length, "length") for length in lengths):
                return _edged_section(text, Form(form), (first, unit, second, unit), (lengths[2], None, None, None))
    return None


def _matches(expression: str, text: str) -> bool:
    # fullmatch, since Python's $ matches before a last line break too
    return re.fullmatch(expression, text) is not None


def _number(text: str) -> float:
    for mark, fraction in VULGAR.items():
        text = text.replace(mark, f" {fraction}")
    if "/" not in text:
        return float(text)
    from fractions import Fraction  # most plans have none, and it takes its time to load

    return float(sum(Fraction(part) for part in text.replace("-", " ").split()))


@cache
def _unit(spelling: str, dimension: Dimension) -> Any:
    return registry().Unit(UNITS[dimension][spelling])


def _to_si(number: float, spelling: str, dimension: Dimension) -> float:
    worth = PLAIN.get(UNITS[dimension][spelling])
    return worth(number) if worth is not None else by_pint(number, spelling, dimension)


def by_pint(number: float, spelling: str, dimension: Dimension) -> float:
    """A number of a unit, in SI, as pint has it.

    Args:
        number: how many
        spelling: of the unit, one of those that are read
        dimension: what it measures
    """
    return float(registry().Quantity(number, _unit(spelling, dimension)).to_root_units().magnitude)


def _why(text: str, dimension: Dimension) -> str:
    """What keeps the text from being a quantity, and what would be right."""
    right = f"write {EXAMPLES[dimension]}"
    bare = text.strip()
    if not bare:
        return f"nothing is written; {right}"
    if len(text) > LONGEST:
        return f"it is longer than {LONGEST} characters; {right}"
    if re.search("[0-9],[0-9]", bare):
        return f"a comma is not read, neither as decimal point nor between thousands; {right}"
    if re.search("[0-9] [0-9]{3}", bare):
        return f"thousands are written without a space; {right}"
    if re.match("[-−]", bare):
        return f"it can't be below zero; {right}"
    if re.fullmatch("[0-9]+:[0-9]+", bare):
        return f'{bare} could be minutes or hours; {right}, or the clock\'s "0:04:30"'
    if re.fullmatch(NUMBER, bare):
        return f"the unit is missing; {right}"
    number = re.match(rf"{NUMBER}{SPACE}", bare)
    if number is None:
        return f"it does not begin with a number; {right}"
    return _why_unit(bare, bare[number.end() :], dimension) or right


def _why_unit(text: str, unit: str, dimension: Dimension) -> str | None:
    right = f"write {EXAMPLES[dimension]}"
    for other in get_args(Dimension):
        if other != dimension and _matches(pattern(other), text):
            return f"that is a {other}; {right}"
    if unit in UNITS[dimension]:
        return None
    if dimension == "force" and re.fullmatch("tons?", unit, re.IGNORECASE):
        return 'say which ton: "25 tonne" (1000 kgf), "25 US tons" (2000 lbf) or "25 UK tons" (2240 lbf)'
    from difflib import get_close_matches  # only an error needs it

    folded = {known.casefold(): known for known in UNITS[dimension]}
    near = get_close_matches(unit.casefold(), folded, n=1, cutoff=0.6)
    if near:
        return f"the unit {_quoted(unit)} is not known, perhaps {_quoted(folded[near[0]])}; {right}"
    return f"the unit {_quoted(unit)} is not known; {right}"


def _why_no_section(text: str) -> str:
    right = 'write "25 x 10 mm", "round 25 mm", "1 1/4 x 3/8 in" or, with an edge, "wedge 37 x 8 mm to 3.5 mm"'
    bare = text.strip()
    if not bare:
        return f"nothing is written; {right}"
    form = next((form for form in Form if bare.startswith(form)), None)
    if form in EDGED:
        more = ""
        if form in BEVELLED and re.search("bevel|hollow|convex|radius", bare):
            more = ', and behind it "bevel 20 mm", "hollow radius 150 mm" or "convex radius 150 mm"'
        return f'a {form} has two sides and the thickness of its edge; write "{form} 40 x 6 mm to 1.5 mm"{more}'
    if form in REGULAR and form is not Form.ROUND:
        return f'it is measured across flats; write "{form} 20 mm"'
    if re.search("[0-9],[0-9]", bare):
        return f"a comma is not read as a decimal point; {right}"
    if re.search("[-−]", re.sub("[0-9]-[0-9]", "", bare)):
        return f"a side can't be below zero; {right}"
    sides = [part.strip() for part in re.split("[xX×]", bare)]
    if len(sides) == 1 and _matches(pattern("length"), bare):
        return f'write "square {bare}" or "round {bare}", or two sides, as in "{_twice(bare)}"'
    if len(sides) == 2 and all(re.match(NUMBER, side) for side in sides) and re.fullmatch(NUMBER, sides[1]):
        return f"the unit is missing after the second side; {right}"
    if len(sides) > 2:
        return f"it has more than two sides, a length goes into a key of its own; {right}"
    return right


def _twice(side: str) -> str:
    """A length as both sides of a section: "12 mm" as "12 x 12 mm", and as it stands twice where it has no unit."""
    number = re.match(NUMBER, side)
    return f"{side} x {side}" if number is None else f"{number[0].strip()} x {side}"

"""What a smith measures by hand: sides, length, weight, hardness, bevel, decarb; typed in few strokes.

"w 31.5 t 18" is a width and a thickness; a number without a unit is of the units that are set, millimetres and grams or
inches and ounces, and a unit may be typed. The log keeps the same syntax, each figure with its unit.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from plans.errors import PlansError
from plans.quantities import Dimension, QuantityError, parse
from plans.record import record
from plans.shapes import REGULAR, Section
from plans.text import clean
from plans.units import Units

EXAMPLE: Final = '"w 31.5 t 18", "l 220", "m 312 g", "hrc 61", "file skates", "bevel 12", "decarb 0.2"'
"""How it is typed."""
_LONGEST: Final = 200
"""No line of figures is longer [characters]."""
MOST: Final = {"length": 100.0, "mass": 10_000.0}
"""No piece is longer [m] or heavier [kg]."""
LEAST: Final = {"length": 1e-6, "mass": 1e-6}
"""What is shorter [m] or lighter [kg] nobody measures by hand, and no file keeps."""
LEAST_HRC: Final = 1.0
MOST_HRC: Final = 75.0
"""The Rockwell C scale is of no use beyond; ISO 6508-1 has it from 20 to 70."""
FILED: Final = ("skates", "bites")
"""What a file does on hard steel, and on soft."""
_MOST_STEPS: Final = 1000


class MeasuredError(PlansError):
    """What was typed is nothing that can be measured; the text says why, and what would be right."""


@record
class Measured:
    """What was measured of the work by hand; None, or empty, for what was not."""

    width: float | None = None
    """Its width [m]."""
    thickness: float | None = None
    """Its thickness, or the diameter of a round [m]."""
    length: float | None = None
    """Its length [m]."""
    mass: float | None = None
    """Its weight [kg]."""
    hardness: float | None = None
    """Its hardness, Rockwell C."""
    file: str = ""
    """What a file did on it: "skates" or "bites"."""
    bevel: float | None = None
    """Width of its bevels [m]."""
    decarb: float | None = None
    """Depth of the decarburized layer that was found [m]."""
    step: int | None = None
    """The step after which it was measured, from 0; None where that was not said: the one that was worked on last."""

    def beside(self, later: Measured) -> Measured:
        """What is known of a piece that was measured twice: the later of two figures, and each that stands alone."""
        said = {name: getattr(later, name) for name in _FIGURES}
        return replace(self, **{name: value for name, value in said.items() if value is not None and value != ""})

    @property
    def names(self) -> frozenset[str]:
        """The names of the figures that are among it."""
        return frozenset(name for name in _FIGURES if getattr(self, name) not in (None, ""))

    @property
    def tells_size(self) -> bool:
        """Whether a side, the length or the weight is among it."""
        return any(one is not None for one in (self.width, self.thickness, self.length, self.mass))

    def section(self, planned: Section | None) -> Section | None:
        """The section that was measured; a side that was not is that of the plan, as are form and edge.

        Args:
            planned: as the plan has it there; None where it says none

        Returns:
            the section; None where too little of it was measured, or the plan's form can't have these sides
        """
        width, thickness = self.width, self.thickness
        if width is None and thickness is None:
            return None
        if planned is None:
            return None if width is None or thickness is None else Section.flat(width, thickness)
        if planned.form in REGULAR:
            measure = thickness if thickness is not None else width
            assert measure is not None
            return Section.regular(planned.form, measure)
        one, other = width or planned.width, thickness or planned.thickness
        if planned.edge is None:
            return Section.flat(one, other)
        try:
            return Section(one, other, planned.form, planned.edge, self.bevel or planned.bevel)
        except ValueError:
            return None

    def bevelled(self, planned: Section | None) -> Section | None:
        """The planned section with the bevels that were measured; None where none were, or it can't have such."""
        if self.bevel is None or planned is None or planned.edge is None:
            return None
        try:
            return replace(planned, bevel=self.bevel, radius=None)
        except ValueError:
            return None


_FIGURES: Final = ("width", "thickness", "length", "mass", "hardness", "file", "bevel", "decarb")


def _length(text: str, units: Units) -> float:
    return _quantity(text, "length", units.length_unit)


def _mass(text: str, units: Units) -> float:
    return _quantity(text, "mass", "oz" if units.inches else "g")


def _quantity(text: str, dimension: Dimension, unit: str) -> float:
    value = parse(f"{text} {unit}" if re.fullmatch(r"[-0-9./ ]+", text) else text, dimension)
    if not LEAST[dimension] <= value <= MOST[dimension]:
        raise MeasuredError(f'"{clean(text, 30)}" is no {dimension} of a piece of work')
    return value


def _hrc(text: str, _: Units) -> float:
    if not re.fullmatch(r"[0-9]+(\.[0-9]+)?", text) or not LEAST_HRC <= float(text) <= MOST_HRC:
        raise MeasuredError(
            f'"{clean(text, 30)}" is no hardness HRC: write a number from {LEAST_HRC:g} up to {MOST_HRC:g}, "hrc 61"'
        )
    return float(text)


def _file(text: str, _: Units) -> str:
    if text not in FILED:
        raise MeasuredError(f'a file "skates" or "bites", it does not "{clean(text, 30)}"')
    return text


def _step(text: str, _: Units) -> int:
    if not text.isdecimal() or not 0 < int(text) <= _MOST_STEPS:
        raise MeasuredError(
            f'"{clean(text, 30)}" is no number of a step: write "step 3", and behind it what was measured'
        )
    return int(text) - 1


_READ: Final[dict[str, tuple[tuple[str, ...], Callable[[str, Units], float | str | int]]]] = {
    "step": (("step",), _step),
    "width": (("w", "width"), _length),
    "thickness": (("t", "thick", "thickness"), _length),
    "length": (("l", "length"), _length),
    "mass": (("m", "mass", "weight"), _mass),
    "hardness": (("hrc",), _hrc),
    "file": (("file",), _file),
    "bevel": (("b", "bevel"), _length),
    "decarb": (("d", "decarb"), _length),
}
"""What is read: how it is called, the shortest first, and what makes its value of what stands behind that."""
_NAMED: Final = {name: figure for figure, (names, _) in _READ.items() for name in names}


def read_measured(text: str, units: Units) -> Measured:
    """What a line says that was measured, in any order, each with a letter or a word before it.

    Args:
        text: what was typed: "w 31.5 t 18"
        units: those that are set, of which a number without a unit is

    Raises:
        MeasuredError: it says nothing, something twice, or what can't be; the text says what would be right.
    """
    line = clean(text, _LONGEST).strip().lower()
    # A name stands before a figure; behind one, "m" is metres.
    names = "|".join(sorted(_NAMED, key=len, reverse=True))
    before_figure = rf"(?<![a-z0-9.])({names})\s*(?=[-0-9.])"
    before_word = rf"(?<![a-z0-9])(?!(?<=[0-9] )m(?: |$))({names})(?:\s+|$)(?=[a-z]|$)"
    parts = re.split(f"{before_figure}|{before_word}", line)
    values: dict[str, float | str | int] = {}
    if parts[0].strip(" ,;"):
        raise MeasuredError(f'it is not said what "{clean(parts[0].strip(), 30)}" is: write {EXAMPLE}')
    for by_figure, by_word, said in zip(parts[1::3], parts[2::3], parts[3::3], strict=True):
        name = by_figure or by_word
        figure, value = _NAMED[name], said.strip(" ,;")
        if figure in values:
            raise MeasuredError(f'"{name}" stands there twice: leave one of them out')
        if not value:
            raise MeasuredError(f'nothing stands behind "{name}": write {EXAMPLE}')
        try:
            values[figure] = _READ[figure][1](value, units)
        except QuantityError as error:
            raise MeasuredError(f'behind "{name}": {error}') from None
    measured = Measured(**values)  # type: ignore[arg-type]
    if values.keys() <= {"step"}:
        raise MeasuredError(f"nothing is measured there: write {EXAMPLE}")
    return measured


def written_measured(measured: Measured) -> str:
    """What was measured as the log keeps it: every figure with its unit, to a micrometre and a milligram."""
    length = Units.METRIC.exact_length
    told = {
        "step": None if measured.step is None else str(measured.step + 1),
        "w": None if measured.width is None else length(measured.width),
        "t": None if measured.thickness is None else length(measured.thickness),
        "l": None if measured.length is None else length(measured.length),
        "m": None if measured.mass is None else f"{measured.mass * 1000:.3f}".rstrip("0").rstrip(".") + " g",
        "hrc": None if measured.hardness is None else f"{measured.hardness:g}",
        "file": measured.file or None,
        "bevel": None if measured.bevel is None else length(measured.bevel),
        "decarb": None if measured.decarb is None else length(measured.decarb),
    }
    return " ".join(f"{name} {value}" for name, value in told.items() if value is not None)


def shown_measured(measured: Measured, units: Units) -> str:
    """What was measured, for people: "31.5 x 18 mm, 220 mm long, 312 g, HRC 61"."""
    length = units.exact_length
    told = []
    if measured.width is not None and measured.thickness is not None:
        told.append(f"{length(measured.width).removesuffix(f' {units.length_unit}')} x {length(measured.thickness)}")
    elif measured.width is not None:
        told.append(f"{length(measured.width)} wide")
    elif measured.thickness is not None:
        told.append(f"{length(measured.thickness)} thick")
    if measured.length is not None:
        told.append(f"{length(measured.length)} long")
    if measured.mass is not None:
        told.append(units.mass(measured.mass))
    if measured.hardness is not None:
        told.append(f"HRC {measured.hardness:g}")
    if measured.file:
        told.append(f"a file {measured.file}")
    if measured.bevel is not None:
        told.append(f"bevels {length(measured.bevel)} wide")
    if measured.decarb is not None:
        told.append(f"decarb {units.depth(measured.decarb)} deep")
    return ", ".join(told)

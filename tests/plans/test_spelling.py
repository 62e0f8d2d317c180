"""Quantities as they are written into files: as in the plans that were written by hand, and so that they read back."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from plans.quantities import Dimension, parse, parse_section
from plans.reader import SHELF, StepKeys, keys_of
from plans.reader.value_types import CrossSection, OrAuto, Quantity, QuantityOrEach
from plans.shapes import Form, Section
from plans.spelling import spell, spell_section
from plans.toml import read_toml
from plans.units import Units

DIMENSIONS = {
    "temperature": (350.0, 2000.0, 0.6),
    "temperature difference": (1.0, 100.0, 0.6),
    "length": (0.001, 20.0, 0.0005),
    "time": (0.5, 35000.0, 0.5),
    "mass": (0.001, 100.0, 0.0),
    "number": (0.0, 0.9, 0.00006),
}
"""Least, most, and by how much a figure may be rounded besides half a per cent."""


@pytest.mark.parametrize("path", sorted(SHELF.glob("*.toml")), ids=lambda path: path.stem)
def test_a_figure_of_a_plan_written_by_hand_is_written_as_it_was(path: Path) -> None:
    checked = 0
    for step in read_toml(path, 10**6).values["step"]:
        for one in keys_of(StepKeys).values():
            kind = one.value.value if isinstance(one.value, OrAuto) else one.value
            written = step.get(one.name, "auto")
            for text in written if isinstance(written, list) else [written]:
                if text == "auto":
                    continue
                if isinstance(kind, CrossSection):
                    assert spell_section(parse_section(text), Units.METRIC) == text
                elif isinstance(kind, Quantity | QuantityOrEach):
                    assert spell(parse(text, kind.dimension), kind.dimension, Units.METRIC) == text
                else:
                    continue
                checked += 1
    assert checked > 5 or path.stem == "etch", "which has no figure but a time"


@pytest.mark.parametrize("text", ["1 1/4 in", "5/16 in", "1 7/32 in", "9 1/16 in", "0.315 in", "12 in"])
def test_an_inch_figure_is_written_as_it_was_typed(text: str) -> None:
    assert spell(parse(text, "length"), "length", Units.INCH) == text


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
@given(data=st.data())
def test_a_quantity_reads_back_as_what_was_written(units: Units, data: st.DataObject) -> None:
    dimension: Dimension = data.draw(st.sampled_from(sorted(DIMENSIONS)))
    least, most, by = DIMENSIONS[dimension]
    number = data.draw(st.floats(least, most))
    text = spell(number, dimension, units)
    back = parse(text, dimension)
    assert back == pytest.approx(number, rel=0.0051, abs=by)
    assert spell(back, dimension, units) == text


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
@given(width=st.floats(0.004, 0.2), over=st.floats(0.03, 1), share=st.floats(0.03, 0.99), form=st.sampled_from(Form))
def test_a_section_reads_back_with_the_same_area(
    units: Units, width: float, over: float, share: float, form: Form
) -> None:
    if form in (Form.ROUND, Form.OCTAGON, Form.HEXAGON):
        section = Section.regular(form, width)
    else:
        thickness = max(0.0015, over * width)
        edge = None if form is Form.FLAT else max(0.0005, share * 0.999 * thickness)
        section = Section(width, thickness, form, edge)
    back = parse_section(spell_section(section, units))
    assert back.area == pytest.approx(section.area, rel=0.055)  # a tenth of a millimetre of 1.5 mm is much
    assert back.form in (form, Form.FLAT)

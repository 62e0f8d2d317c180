from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, strategies as st
from rich.cells import cell_len

from plans.units import Units
from tui.widgets.scale import ScaleData, ScaleLine, UprightScale, scale_lines

ZERO = 273.15
KELVINS = st.floats(250, 1700)
DATA = st.builds(
    ScaleData,
    limits=st.lists(
        st.tuples(KELVINS, st.sampled_from(["cold", "burn", "heat to", "刃 limit", "[/x]"])), max_size=5
    ).map(tuple),
    skin=st.none() | KELVINS,
    middle=st.none() | KELVINS,
)


def labels(lines: list[ScaleLine]) -> list[str]:
    return [line.label.strip() for line in lines]


@given(DATA, st.integers(1, 60), st.integers(1, 60), st.sampled_from(Units))
def test_every_line_is_as_wide_as_the_scale(data: ScaleData, height: int, width: int, units: Units) -> None:
    lines = scale_lines(height, width, data, units)
    assert len(lines) == height
    assert {cell_len(line.body + line.axis + line.label) for line in lines} == {width}


@given(DATA)
def test_no_label_is_lost_where_there_are_rows_enough(data: ScaleData) -> None:
    lines = scale_lines(12, 40, data)
    said = [label for label in labels(lines) if label and label != "degC"]
    work = [kelvin for kelvin in (data.skin, data.middle) if kelvin is not None]
    assert len(said) == len(data.limits) + len(work)
    numbers = [int(label.split()[0]) for label in said]
    assert numbers == sorted(numbers, reverse=True)


def test_places_and_ticks() -> None:
    """From 1000 to 1100 degC over ten rows: ten degrees a row."""
    data = ScaleData(
        limits=((1095 + ZERO, "burn"), (1025 + ZERO, "cold")),
        skin=1045 + ZERO,
        middle=1065 + ZERO,
        low=1000 + ZERO,
        high=1100 + ZERO,
    )
    lines = scale_lines(11, 16, data)
    assert labels(lines) == [
        "1095 burn", "", "", "1065 middle", "", "1045 skin", "", "1025 cold", "", "", "degC",
    ]  # fmt: skip
    assert [line.axis.strip() for line in lines] == ["┼", "│", "│", "│", "│", "│", "│", "┼", "│", "│", "┴"]
    # From 1065 to 1045: the lower half of row 3 to the lower half of row 5.
    assert [line.body for line in lines[3:6]] == ["▄▄", "██", "██"]
    assert "".join(line.body for line in lines[:3] + lines[6:]).strip() == ""


def test_what_is_off_the_scale_has_an_arrow() -> None:
    data = ScaleData(limits=((1400.0, "cold"), (1600.0, "burn")), skin=900.0, middle=2000.0)
    said = labels(scale_lines(12, 20, data))
    assert f"{900 - ZERO:.0f} skin ▼" in said
    assert f"{2000 - ZERO:.0f} middle ▲" in said


def test_where_rows_are_few_the_work_and_the_first_limits_stay() -> None:
    data = ScaleData(limits=((1400.0, "cold"), (1600.0, "burn"), (1500.0, "heat to")), skin=1450.0)
    said = " ".join(labels(scale_lines(3, 20, data)))
    assert "skin" in said
    assert "cold" in said
    assert "burn" not in said


def test_fahrenheit() -> None:
    """1150 degC are 2102 degF."""
    lines = scale_lines(5, 20, ScaleData(limits=((1150 + ZERO, "cold"),)), Units.INCH)
    assert "2102 cold" in labels(lines)
    assert labels(lines)[-1] == "degF"


@pytest.mark.parametrize("size", [(1, 1), (3, 4), (18, 10), (60, 30)])
async def test_the_widget_is_as_wide_as_it_should_be(stage: Any, lines: Any, size: tuple[int, int]) -> None:
    scale = UprightScale()
    scale.set_reactive(UprightScale.data, ScaleData(((1423.15, "[b]cold"),), skin=1450.0))
    async with stage(scale, size):
        strips = lines(scale)
        assert {cell_len(strip.text) for strip in strips} == {size[0]}


async def test_labels_are_no_markup(stage: Any, lines: Any) -> None:
    scale = UprightScale()
    async with stage(scale, (30, 10)) as pilot:
        scale.show(ScaleData(((1423.15, "[b]cold[/x]\x1b[2J"),), skin=1450.0), glow=(255, 100, 0))
        await pilot.pause()
        text = "\n".join(strip.text for strip in lines(scale))
        assert "1150 [b]cold[/x][2J" in text

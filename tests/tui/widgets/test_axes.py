"""Round numbers along an axis."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from tui.widgets.axes import CELSIUS, FAHRENHEIT, TIME, Axis

SHARE = Axis("%", factor=100.0)
AXES = st.sampled_from([CELSIUS, FAHRENHEIT, TIME, SHARE, Axis("mm", factor=1000.0)])


@given(AXES, st.floats(0.0, 2000.0), st.floats(1e-5, 5000.0), st.integers(1, 30))
def test_labels_are_round_rising_within_the_ends_and_no_more_than_there_is_room_for(
    axis: Axis, low: float, span: float, labels: int
) -> None:
    high = low + span
    step = axis.step(low, high, labels)
    ticks = list(axis.ticks(low, high, step))
    assert len(ticks) <= labels + 1
    at = [value for value, _ in ticks]
    assert at == sorted(set(at))
    slack = 1e-6 * span + 1e-9 * high + 1e-8 * step  # what rounding may move a label by
    assert all(low - slack <= value <= high + slack for value in at)
    assert len({text for _, text in ticks}) == len(ticks)


@pytest.mark.parametrize(
    ("axis", "low", "high", "labels", "texts", "name"),
    [
        (CELSIUS, 1073.15, 1473.15, 4, ["800", "900", "1000", "1100", "1200"], "degC"),
        (FAHRENHEIT, 1073.15, 1473.15, 4, ["1600", "1800", "2000"], "degF"),
        (TIME, 0.0, 25.0, 5, ["0:00", "0:05", "0:10", "0:15", "0:20", "0:25"], "m:s"),
        (TIME, 0.0, 600.0, 5, ["0", "2", "4", "6", "8", "10"], "min"),
        (SHARE, 0.0, 1.0, 2, ["0", "50", "100"], "%"),
        (Axis("mm", factor=1000.0), 0.0, 0.00052, 3, ["0.0", "0.2", "0.4"], "mm"),
    ],
)
def test_what_the_labels_say(axis: Axis, low: float, high: float, labels: int, texts: list[str], name: str) -> None:
    step = axis.step(low, high, labels)
    assert [text for _, text in axis.ticks(low, high, step)] == texts
    assert axis.name(step) == name

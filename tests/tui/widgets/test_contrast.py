from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from tui.widgets.contrast import BLACK, RGB, WHITE, contrast, in_256, ink_on

CHANNELS = st.integers(0, 255)
COLOURS = st.tuples(CHANNELS, CHANNELS, CHANNELS)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        (BLACK, WHITE, 21.0),  # WCAG 2.2, definition of contrast ratio: from 1 to 21
        ((119, 119, 119), WHITE, 4.48),  # grey #777 on white just fails level AA, #767676 just passes: from memory
        ((118, 118, 118), WHITE, 4.54),
        ((255, 0, 0), WHITE, 4.0),  # pure red on white: from memory
    ],
)
def test_ratios(one: RGB, other: RGB, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.01)
    assert contrast(one, other) == contrast(other, one)


@given(COLOURS)
def test_ink_stands_out_on_any_field(field: RGB) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    assert contrast(ink_on(field), field) >= 4.5


@given(COLOURS)
def test_ink_stands_out_on_the_field_that_256_colours_show(field: RGB) -> None:
    reckoned = in_256(field)
    shown = in_256(reckoned)  # it is sent as RGB and brought down once more
    assert contrast(ink_on(reckoned), shown) >= 4.5

"""Drawing out by what a heat takes as scale in the shop; sums by hand."""

from __future__ import annotations

import pytest

from plans.reckoned import Reckoned
from plans.reckoner import reckon_draw
from plans.reckoner.figures import Figure
from plans.shapes import Section
from plans.units import Units


def test_a_bar_gets_as_long_as_the_scale_of_the_shop_leaves_it() -> None:
    # 20 x 20 x 100 mm drawn to 20 x 10 mm is 200 mm; four heats at 20 % a heat, of which each takes 2.1 %.
    shop = Reckoned(0.021, "modelled", "from 6 measurements in 4 sittings", "the logbook", 0.015, 0.03)
    figure = reckon_draw(Section(0.02, 0.02), 0.1, Section(0.02, 0.01), scale=shop).found[0]
    assert isinstance(figure, Figure)
    then = figure.reckoned
    assert then is not None
    assert then.value == pytest.approx(0.2 * 0.979**4)
    assert (then.least, then.most) == (pytest.approx(0.2 * 0.97**4), pytest.approx(0.2 * 0.985**4))
    said = Units.METRIC.text(then.validity)
    assert "each heat takes 2.1 %" in said
    assert "from 6 measurements in 4 sittings" in said

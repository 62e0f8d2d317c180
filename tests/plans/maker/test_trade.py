"""What the trade has beside the maker's figures, where a wrong one would still make a plan that can be followed.

All of it is common practice, no source.
"""

from __future__ import annotations

import pytest

from plans.maker import propose
from plans.making import Build, Part, What
from plans.reader import AnswerKeys


@pytest.mark.parametrize("what", [What.CHISEL_EDGED, What.DRAWKNIFE])
def test_a_laid_edge_is_a_third_to_a_half_of_the_thickness(what: What) -> None:
    for thickness in (0.004, 0.006, 0.008):
        bars = propose(AnswerKeys(what=what, build=Build.LAID_EDGE, thickness=thickness)).bars
        thick = {bar.name: bar.section.thickness for bar in bars}
        assert 1 / 3 - 0.01 <= thick["edge"] / sum(thick.values()) <= 1 / 2


def oven(what: What, steel: str) -> float | None:
    steps = propose(AnswerKeys(what=what, steel=steel)).steps
    return next((step.keys.oven.at for step in steps if step.part is Part.TEMPER and step.keys.oven), None)


@pytest.mark.parametrize("steel", ["1084", "1075", "5160", "O1"])
def test_what_is_struck_is_tempered_hotter_than_a_knife(steel: str) -> None:
    knife, wedge = oven(What.SINGLE_EDGED, steel), oven(What.WEDGE, steel)
    assert knife is not None
    assert wedge is not None
    assert wedge >= knife + 10

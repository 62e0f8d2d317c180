"""A correction that is written out does what the loops do, to the last bit: a log is replayed by either."""

from __future__ import annotations

import pytest

from plans.blows import USUAL, StruckBy
from plans.shapes import Form, Section
from plans.warmth import correction
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air, striking

SECTIONS = [Section(0.0254, 0.0254), Section.round(0.025), Section(0.040, 0.006, Form.WEDGE, 0.0015)]


@pytest.mark.parametrize("section", SECTIONS, ids=str)
def test_written_out_or_not_is_the_same_to_the_last_bit(section: Section, monkeypatch: pytest.MonkeyPatch) -> None:
    def course(pays_after: int) -> list[object]:
        monkeypatch.setattr(correction, "_PAYS_AFTER", pays_after)
        correction._forms_for.cache_clear()
        model, heats = WarmModel(section, 0.1, 300.0), list[object]()
        for _ in range(12):
            model.step(20.0, fire(1500.0))
            heats.append(model.heat)
        for index, around in enumerate((fire(1500.0), striking(), striking(USUAL[StruckBy.PRESS]), still_air())):
            for second in range(6):
                model.step_following(1.0, 1400.0 - 100 * index - 20 * second, around)
                heats.append(model.heat)
        for around in (striking(), still_air()):
            for _ in range(6):
                model.step(30.0, around)
                heats.append(model.heat)
        return heats

    by_loops, written = course(10**9), course(1)
    correction._forms_for.cache_clear()
    assert written == by_loops

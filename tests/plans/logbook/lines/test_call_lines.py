"""Calls in words: what each was about, in the units that are set."""

from __future__ import annotations

import pytest

from plans.logbook.lines import about, call_text
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called
from plans.units import Units, kelvin

COLD = Called(61.0, Call.TOO_COLD, 1, 2, kelvin(1000.0), Basis.MEASURED)


@pytest.mark.parametrize(
    ("called", "said"),
    [
        (COLD, "too cold, step 2, heat 2, 1000 degC, measured"),
        (Called(61.0, Call.PROBE_LOST, 1, 2), "probe lost, step 2, heat 2"),
        (
            Called(61.0, Call.SOAK_SHORT, 0, 1, took=40.0, wanted=130.0),
            "soak cut short, step 1, heat 1, 40 s of 2 min 10 s",
        ),
        (Called(61.0, Call.HOLD_SHORT, 0, 1, took=3600.0), "hold cut short, step 1, heat 1, 1 h"),
    ],
)
def test_a_call_in_words(called: Called, said: str) -> None:
    assert call_text(called, Units.METRIC) == said


def test_in_the_units_that_are_set_and_without_its_place() -> None:
    # 1000 degC * 9/5 + 32 = 1832 degF
    assert call_text(COLD, Units.INCH, place=False) == "too cold, 1832 degF, measured"
    assert about(COLD, Units.INCH) == ["1832 degF", "measured"]
    assert about(COLD, Units.INCH, taken_back=True)[-1] == "taken back"

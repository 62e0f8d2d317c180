"""What was measured by hand, held against the plan and against constant volume."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.logbook.lines import measured_lines
from plans.phase import PhaseKind
from plans.plan import Bar, Plan
from plans.shapes import Section
from plans.sitting import Begun, Said, Word, folded
from plans.units import Units


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        # 2 % a heat goes to scale, as plans/stock has it; of 40 x 12 x 200 mm, 96 cm3, 392 mm are left of 40 x 6 mm.
        ("w 40 t 6 l 392", "section as planned; the steel is all there"),
        ("w 40 t 6 l 361", "section as planned; 8 % of the steel is missing"),
        ("w 40 t 6.6 l 392", "10 % more section than the plan's 40 x 6 mm; 10 % more steel than the plan has there"),
        # Steel of 7850 kg/m3, EN 1993-1-2: 96 cm3 less 2 % are 738.5 g.
        ("m 739 g", "739 g; the steel is all there"),
        ("m 665 g", "665 g; 10 % of the steel is missing"),
        ("hrc 61", "step 1, after heat 1: HRC 61"),
    ],
)
def test_what_is_missing_is_said(trial: Plan, typed: str, told: str) -> None:
    bar = Section(0.040, 0.012)
    step = replace(trial.steps[0], heats=1, section=bar, length=0.200, reach=Section(0.040, 0.006))
    plan = replace(trial, bars=(Bar("bar", "1084", bar, 0.200),), steps=(step,))
    state = folded([Begun(1.0, 0, 1, PhaseKind.STRIKE), Said(9.0, Word.MEASURED, typed)])
    [line] = measured_lines(state, plan, Units.METRIC)
    assert line.text.endswith(told)

"""Which steps are told to be a hurry: a weld by another measure than drawing, and the thin part of a step as well.

How long a smith needs is common practice, no source: a few seconds set a weld, ten are little for drawing.
"""

from __future__ import annotations

import re

from plans.maker import hurried, propose, text_of
from plans.making import Build
from plans.plan import Plan
from plans.reader import AnswerKeys, read_plan
from plans.shop import Shop
from plans.times import plan_times
from plans.units import Units

THIN_WELD = """
heatbook = 1
title = "A weld of thin strips"
[[step]]
title = "Weld the strips"
kind = "weld"
section = "20 x 4 mm"
fire = "1300 degC"
heat_to = "1150 degC"
keep_above = "1100 degC"
flux_at = "880 degC"
"""


def said(plan: Plan) -> list[tuple[str, str]]:
    found = hurried(plan, plan_times(plan, Shop()))
    assert not any(concern.serious for concern in found)
    return [(Units.METRIC.text(concern.what), Units.METRIC.text(concern.mend)) for concern in found]


def test_usual_welds_are_no_hurry_and_a_tip_that_is_cold_first_is() -> None:
    plan = read_plan(text_of(propose(AnswerKeys(build=Build.LAMINATE))), "made", "made.toml")
    told = said(plan)
    assert not [what for what, _ in told if "eld" in what], "the plan has welds, and each is done in time"
    (point,) = [(what, mend) for what, mend in told if "the tip" in what]
    seconds = float(re.findall(r"about (\d+) (?:to \d+ )?s to strike the tip", point[0])[0])
    assert seconds < 10
    assert "strike the tip first" in point[1]


def test_a_weld_that_is_cold_at_once_has_a_mend_of_its_own() -> None:
    ((what, mend),) = said(read_plan(THIN_WELD, "made", "made.toml"))
    assert "Weld the strips" in what
    assert "one end at a time" in mend
    assert "one heat more" not in mend


def test_steps_of_which_the_same_is_to_be_said_are_told_in_one() -> None:
    step = THIN_WELD[THIN_WELD.index("[[step]]") :]
    ((what, mend),) = said(read_plan(THIN_WELD + step + step, "made", "made.toml"))
    assert what.startswith("steps 1, 2 and 3 leave about ")
    assert "in steps 1, 2 and 3" in mend

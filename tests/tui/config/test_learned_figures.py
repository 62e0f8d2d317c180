"""What a heat takes off, learned from sittings in the smith's own logbook."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from plans.blows import StruckBy
from plans.logbook import Header, KeptSitting, Log, Progress, work_out
from plans.logbook.store import Store
from plans.reader import read_plan
from plans.reckoner.figures import Figure
from plans.sitting import Said, Sitting, Word
from plans.units import Units
from tui.config import forget, look_up_anew, reduction_learned, scale_learned, user_folders
from tui.reckoner.questions import QUESTIONS

SOURCE = """
heatbook = 1
title = "Draw a bar"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
soak = "30 s"
heats = 4
section = "31 x 18 mm"
length = "150 mm"
reach = "32 x 8 mm"
"""


def keep(
    hour: int,
    heats: int,
    *,
    rehearsal: bool = False,
    state: Progress = Progress.FINISHED,
    measured: str = "",
    first: str = "",
) -> None:
    """Draw it out in so many heats, however many were planned, measure it, and keep it."""
    plan = read_plan(SOURCE, "draw", "draw.toml")
    sitting = Sitting(plan)
    entries = [*sitting.open()]
    if first:
        entries += sitting.take(Said(0.5, Word.MEASURED, first))
    # Into the fire, into the soak, out of the fire; the sitting ends while the last heat is struck.
    for second, word in enumerate([Word.NEXT] * 3 * heats + [Word.FINISH], 1):
        entries += sitting.take(Said(float(second), word))
    if measured:
        entries += sitting.take(Said(3.0 * heats + 2, Word.MEASURED, measured))
    header = Header(
        f"20261125-{hour:02}0000-draw",
        *("draw", plan.title, plan.source, datetime(2026, 11, 25, hour, tzinfo=UTC)),
        rehearsal=rehearsal,
    )
    worked = work_out(header, Log(entries))
    assert worked.figures is not None
    assert worked.figures.done == heats
    Store(user_folders().logbook).write(KeptSitting(header, Log(entries), state, worked.figures))


@pytest.mark.usefixtures("home")
def test_heats_go_by_what_the_logbook_tells() -> None:
    question = QUESTIONS["heats"]
    typed = {"section": "20 x 20 mm", "to": "20 x 10 mm"}
    look_up_anew()
    assert question.ask(typed).record["reduction_fraction"] == 0.2, "common practice, where nothing was drawn yet"
    # 558 mm2 to 256 mm2 in two heats, twice, in three, and in four as planned. Left out is what is no sitting of the
    # shop's, or not done; and a step that was ended early, of which nobody measured how far it came.
    ends = "w 32 mm t 8 mm"
    keep(9, 2, measured=ends)
    keep(10, 3, measured=ends)
    keep(11, 1, rehearsal=True, measured=ends)
    keep(12, 1, state=Progress.UNFINISHED, measured=ends)
    keep(13, 1)
    keep(14, 2, measured=ends)
    look_up_anew()
    assert question.ask(typed).record["reduction_fraction"] == 0.2, "of three sittings nothing is said"
    keep(15, 4)
    look_up_anew()
    learned = 1 - (256 / 558) ** (4 / 11)
    found = question.ask(typed).record
    assert found["reduction_fraction"] == pytest.approx(learned)
    assert found["heats"] == 3
    assert question.ask(typed | {"reduction": "50 %"}).record["heats"] == 1
    assert reduction_learned(StruckBy.PRESS) is None
    assert question.ask(typed | {"struck-by": "press"}).record["reduction_fraction"] == 0.35


@pytest.mark.usefixtures("home")
def test_a_section_that_was_measured_is_learned_from_in_place_of_the_planned_one() -> None:
    # 558 mm2 to 32 x 12 mm in two heats, where the plan had 32 x 8 mm.
    for hour in range(9, 13):
        keep(hour, 2, measured="w 32 mm t 12 mm")
    look_up_anew()
    learned = reduction_learned(StruckBy.HAND)
    assert learned is not None
    assert learned.value == pytest.approx(1 - (384 / 558) ** (1 / 2))
    assert "by the sections that were measured" in Units.METRIC.text(learned.validity)


@pytest.mark.usefixtures("home")
def test_what_the_scale_takes_is_learned_from_what_was_weighed_before_and_after() -> None:
    for hour, after in ((9, "960.4 g"), (10, "941 g"), (11, "980 g"), (13, "960.4 g")):
        look_up_anew()
        assert scale_learned() is None, "of three sittings nothing is said"
        keep(hour, 2, first="m 1 kg", measured=f"m {after}")
    keep(12, 2)
    look_up_anew()
    learned = scale_learned()
    assert learned is not None
    assert learned.value == pytest.approx(1 - (0.9604 * 0.941 * 0.98 * 0.9604) ** (1 / 8), abs=1e-6)
    assert "from 4 measurements in 4 sittings" in Units.METRIC.text(learned.validity)
    answer = QUESTIONS["draw"].ask({"from": "20 x 20 mm", "length": "100 mm", "to": "20 x 18 mm"}).found[0]
    assert isinstance(answer, Figure)
    assert answer.reckoned is not None
    assert answer.reckoned.value == pytest.approx(0.1 / 0.9 * (1 - learned.value)), "one heat"
    forget(user_folders().shop, "loss-to-scale", "", datetime(2026, 11, 25, 9, 30, tzinfo=UTC))
    look_up_anew()
    assert scale_learned() is None, "what was forgotten counts no more"
    look_up_anew()

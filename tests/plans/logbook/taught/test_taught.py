"""What sittings teach together: put together as in print, silent where they are few, and forgotten from a moment on."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import log, sqrt

import pytest

from plans.blows import StruckBy
from plans.logbook.taught import Evidence, Looked, Row, combined, loss_to_go_by, taught
from plans.logbook.taught.figures import FactorFigure, ShareFigure
from plans.logbook.taught.losses import loss
from plans.logbook.teaching.teaches import FactorTaught, SteelLost, StepDrawn, Teaches, WeldSoaked
from plans.plan import StepKind
from plans.shop import Shop

BEGAN = datetime(2026, 3, 1, 9, tzinfo=UTC)
BCG = (
    *((4, 123, 11, 139), (6, 306, 29, 303), (3, 231, 11, 220), (62, 13598, 248, 12867), (33, 5069, 47, 5808)),
    *((180, 1541, 372, 1451), (8, 2545, 10, 629), (505, 88391, 499, 88391), (29, 7499, 45, 7277)),
    *((17, 1716, 65, 1665), (186, 50634, 141, 27338), (5, 2498, 3, 2341), (27, 16913, 29, 17854)),
)
"""Cases and people, vaccinated and not, of thirteen trials: G. A. Colditz and others, JAMA 271 (1994) 698."""


def test_figures_are_put_together_as_in_print() -> None:
    # Log relative risk by DerSimonian and Laird: -0.7141, standard error 0.1787, tau2 0.3088, as W. Viechtbauer's
    # documentation of metafor has it; from memory.
    values = [log((a / m) / (b / n)) for a, m, b, n in BCG]
    found = combined(values, [sqrt(1 / a - 1 / m + 1 / b - 1 / n) for a, m, b, n in BCG])
    assert (found.mean, found.error) == pytest.approx((-0.7141, 0.1787), abs=5e-5)
    assert found.between**2 == pytest.approx(0.3088, abs=5e-5)
    alike = combined([2.0, 2.0], [0.3, 0.4])
    assert (alike.mean, alike.between) == (2.0, 0.0)
    # Two alike, of 0.3 and 0.4: 0.3 * 0.4 / 0.5.
    assert alike.error == pytest.approx(0.24)


def sat(day: int, soak: float = 60.0, *, flawed: bool = False, finished: bool = True) -> Evidence:
    return Evidence(
        BEGAN + timedelta(days=day),
        finished,
        Teaches(
            FactorTaught(1.1 + day / 100, 0.05, 3),
            None,
            # Half of the area in two heats, a quarter in one: 1 - sqrt(1/2), 1 - 3/4.
            (StepDrawn(StepKind.DRAW, StruckBy.HAND, 4e-4, 2e-4 if day % 2 else 3e-4, 2 if day % 2 else 1, True),),
            (WeldSoaked("40 x 14 mm", soak, flawed),),
            # 1, 2 and 3 % of 100 cm3.
            (SteelLost(1, 1e-4, 1e-4 * (0.99 - day % 3 / 100)),),
            (0.02 * (day % 3 + 1),),
        ),
    )


def rows(*every: Evidence, **forgotten: int) -> dict[str, Row]:
    moments = {name.replace("_", "-"): BEGAN + timedelta(days=day) for name, day in forgotten.items()}
    return {row.id: row for row in taught(Looked(every, Shop(), moments, every))}


def test_each_row_says_what_it_rests_on_and_few_sittings_say_nothing() -> None:
    few = rows(sat(0), sat(1), sat(2))
    assert {row.text for row in few.values()} == {"too few: 3 of 4 sittings"}
    told = rows(sat(0), sat(1, 30.0), sat(2, 90.0, flawed=True), sat(3), sat(4, finished=False))
    assert told["soak-40-x-14-mm"].text == "4 sound, shortest soak 0:30; 1 flawed, longest soak 1:30"
    assert told["soak-40-x-14-mm"].rests == "5 welds, 5 sittings, 2026-03-01 to 2026-03-05"
    # The one that is not finished tells of no step; 25 and 29.3 % twice each.
    assert told["reduction-draw-hand-hammer"].text == "27.1 % (25 to 29.3)"
    assert told["heats-draw-hand-hammer"].text == "1.5 (1 to 2)"
    assert told["cooling-factor"].in_use == "1.00, as it ships"
    assert told["cooling-factor"].text.startswith("1.12 +- ")


def test_the_loss_is_pooled_with_the_jackknifes_error_and_gone_by_from_four_sittings_on() -> None:
    three = [sat(0), sat(1), sat(2)]
    assert loss_to_go_by(three, {}) is None
    cut = replace(sat(3), teaches=replace(sat(3).teaches, lost=(SteelLost(1, 1.0, 0.5),), wider=()))
    assert loss_to_go_by([*three, cut], {}) is None, "half of the steel was cut off, or measured wrong"
    unfinished = replace(sat(3), finished=False)
    assert loss_to_go_by([*three, unfinished], {}) is None
    found = loss_to_go_by([*three, cut, sat(4)], {})
    assert found is not None
    # 1, 2, 3 and 2 % in a heat each: 1 - (0.99 * 0.98 * 0.97 * 0.98)^(1/4); of a mean the jackknife gives s / sqrt(n).
    error = sqrt(2e-4 / 3) / 2
    assert found.value == pytest.approx(1 - (0.99 * 0.98 * 0.97 * 0.98) ** 0.25)
    assert (found.least, found.most) == pytest.approx((found.value - 2 * error, found.value + 2 * error), abs=1e-4)
    told = rows(*three, cut, sat(4))
    assert (told["loss-to-scale"].count, told["spread"].count) == (4, 4)
    assert told["loss-to-scale"].in_use == "2.0 %, as measured here"
    figure = told["spread"].figure
    assert isinstance(figure, ShareFigure)
    assert (figure.value, figure.error) == (pytest.approx(0.04), pytest.approx(sqrt(8e-4 / 3) / 2))


def test_a_loss_that_may_as_well_be_nothing_is_shown_and_not_gone_by() -> None:
    def lost(*shares: float) -> list[Evidence]:
        each = (SteelLost(1, 1.0, 1 - share) for share in shares)
        return [replace(sat(day), teaches=Teaches(lost=(one,))) for day, one in enumerate(each)]

    grown = lost(-0.01, -0.01, -0.01, -0.01)
    assert loss_to_go_by(grown, {}) is None, "steel does not grow"
    assert rows(*grown)["loss-to-scale"].text == "-1.0 % +- 0.1 (-1.0 to -1.0)"
    doubtful = lost(-0.02, -0.01, 0.01, 0.025)
    assert loss_to_go_by(doubtful, {}) is None
    assert rows(*doubtful)["loss-to-scale"].in_use == "2 %, the usual"


def test_measurements_of_one_sitting_do_not_tell_apart() -> None:
    # Sittings of 1, 1 and 4 %, the last three times over: the mean of five, and errors of the means of each two.
    one, four = SteelLost(1, 1.0, 0.99), SteelLost(1, 1.0, 0.96)
    found = loss([[one], [one], [four] * 3])
    each = [1 - 0.99 ** (1 / 4) * 0.96 ** (3 / 4)] * 2 + [0.01]
    mean = sum(each) / 3
    assert found.error == pytest.approx(sqrt(2 / 3 * sum((value - mean) ** 2 for value in each)))


def test_a_factor_of_a_single_stay_tells_nothing_and_kinds_and_tools_stand_apart() -> None:
    def taught_by(day: int, factor: FactorTaught, *drawn: StepDrawn) -> Evidence:
        return replace(sat(day), teaches=Teaches(factor, drawn=drawn))

    single = [taught_by(day, FactorTaught(1.1, None, 1)) for day in range(5)]
    assert rows(*single) == {}
    # Factors of 1 and 4, each off by a tenth of itself: the mean is that of the logarithms, 2.
    apart = [taught_by(day, FactorTaught(4.0 if day % 2 else 1.0, 0.4 if day % 2 else 0.1, 3)) for day in range(4)]
    figure = rows(*apart)["cooling-factor"].figure
    assert isinstance(figure, FactorFigure)
    assert figure.value == pytest.approx(2.0)
    # ln 2 either way: the sittings differ by far more than their errors, and one more may as well.
    assert figure.spread / figure.value > 0.6
    half = StepDrawn(StepKind.DRAW, StruckBy.PRESS, 4e-4, 2e-4, 1, True)
    told = rows(*(taught_by(day, FactorTaught(1.0, 0.1, 2), half, *sat(day).teaches.drawn) for day in range(4)))
    assert told["reduction-draw-press"].text == "50 % (50 to 50)"
    assert told["reduction-draw-hand-hammer"].text == "27.1 % (25 to 29.3)"
    assert told["reduction-draw-press"].in_use == "50 %, as measured and planned with a press"


def test_what_is_not_archived_alone_is_gone_by() -> None:
    every = [sat(day) for day in range(4)]
    shown = {row.id: row for row in taught(Looked(every, Shop(), {}))}
    assert shown["reduction-draw-hand-hammer"].text == "27.1 % (25 to 29.3)"
    assert shown["reduction-draw-hand-hammer"].in_use == "20 %, the usual"
    assert shown["loss-to-scale"].in_use == "2 %, the usual"


def test_what_was_forgotten_is_taught_by_later_sittings_alone() -> None:
    every = [sat(day) for day in range(8)]
    told = rows(*every, cooling_factor=3, reduction_draw_hand_hammer=9)
    assert told["cooling-factor"].rests == "12 stays, 4 sittings, 2026-03-05 to 2026-03-08"
    assert "reduction-draw-hand-hammer" not in told
    assert told["heats-draw-hand-hammer"].count == 8


def test_what_a_sitting_teaches_is_read_again() -> None:
    teaches = sat(1).teaches
    assert Teaches.from_record(teaches.to_record()) == teaches
    with pytest.raises(ValueError, match="a number from"):
        Teaches.from_record({"cooling_factor": {"value": 40.0, "standard_error": 0.1, "stays": 2}})

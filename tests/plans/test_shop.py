"""A shop's own figures, and what the warm model makes of them."""

from __future__ import annotations

import pytest

from plans.plan import USUAL_PHASES, Phase, Plan, Step, StepKind, Target
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Tick, Word
from plans.warmth.course import Part

ICE = 273.15


@pytest.mark.parametrize("factor", [0.29, 3.01, 0.0, -1.0, float("nan"), float("inf")])
def test_no_shop_cools_so(factor: float) -> None:
    with pytest.raises(ValueError, match=r"between 0\.3 and 3"):
        Shop(factor)


def _struck_for(seconds: float, factor: float) -> Sitting:
    """A thin bar that leaves a long soak, as the warm model has it."""
    section = Section(0.03, 0.004)
    step = Step(
        "Draw",
        StepKind.DRAW,
        tuple(Phase(kind) for kind in USUAL_PHASES[StepKind.DRAW]),
        targets=(Target(1200 + ICE, 1150 + ICE),),
        keep_above=850 + ICE,
        section=section,
        thin=Section(0.03, 0.002),
    )
    sitting = Sitting(Plan("one", "One", "", (), (step,), ""), shop=Shop(factor, contact_factor=factor))
    sitting.open()
    sitting.take(Said(0.0, Word.NEXT))
    sitting.take(Said(600.0, Word.OUT))
    sitting.take(Tick(600.0 + seconds))
    return sitting


def test_a_thin_bar_cools_twice_as_fast_in_a_shop_that_takes_twice_as_much() -> None:
    """A bar without lag inside knows only flux times time: twice the flux brings it there in half the time."""
    slow, quick = _struck_for(20.0, 1.0), _struck_for(10.0, 2.0)
    assert quick.warm.skin[1199] == slow.warm.skin[1199], "the fire is as it was"
    fell = slow.warm.skin[1199] - slow.warm.skin[-1]
    assert fell > 150
    # The grid is half a second, and steps of one length are shorter for the slow one.
    assert quick.warm.skin[1199] - quick.warm.skin[-1] == pytest.approx(fell, rel=0.03)


def _left(sitting: Sitting) -> list[float]:
    """Hammer time of the work and of its thin part [s]."""
    warm, exposure = sitting.warm, sitting.exposure
    spans = warm.until(exposure, None, Part.COLDEST, 850 + ICE), warm.until_thin_is_cold(exposure, 850 + ICE)
    return [span.likely for span in spans if span is not None]


def test_what_is_forecast_goes_by_the_shop_too() -> None:
    slow, quick = _struck_for(2.0, 1.0), _struck_for(1.0, 2.0)
    for sitting, share in ((slow, 1.0), (quick, 0.5)):
        for left, of_slow in zip(_left(sitting), _left(slow), strict=True):
            # Twice the conductance takes a little less than twice the heat: both surfaces come nearer each other.
            assert left / share == pytest.approx(of_slow, rel=0.09)

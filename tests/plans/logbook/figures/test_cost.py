"""What a sitting cost the steel, held against published worked figures."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest

from plans.logbook.figures.steel_cost import cost, most_carbon
from plans.plan import USUAL_PHASES, Bar, Phase, Plan, Step, StepKind, Target
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import FireAir, Shop
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word

ICE = 273.15


def held(
    celsius: float, seconds: float, layers: int | None = None, steel: str = "1080", shop: Shop | None = None
) -> Sitting:
    """A sitting in which a probe on the work is believed to say one temperature for so long; layers are of 0.1 mm.

    It speaks once a second, and is believed from its third reading on, at 2 s: until then the work is cold.
    """
    section = Section(0.025, 0.0001 * (layers or 100))
    step = Step(
        "Weld",
        StepKind.WELD,
        tuple(Phase(kind) for kind in USUAL_PHASES[StepKind.WELD]),
        targets=(Target(1290 + ICE, 1250 + ICE),),
        section=section,
        layers=layers,
    )
    plan = Plan("one", "One", "", (Bar("billet", steel, section, 0.1),), (step,), "")
    sitting = Sitting(plan, ProbeOn.WORK, shop=shop or Shop())
    sitting.open()
    sitting.take(Said(0.0, Word.NEXT))
    for index in range(int(seconds) + 3):
        sitting.take(Reading(float(index), celsius + ICE))
    sitting.take(Said(seconds + 2.0, Word.FINISH))
    return sitting


def test_ten_minutes_at_1200_degrees_take_the_carbon_from_a_millimetre() -> None:
    """1.088 mm to 95 % of the core for 0.8 %C where no metal is lost: error function profile (Crank) with the
    diffusivity of Agren, Scripta Metall. 20 (1986) 1507; the scale of a fire that nobody set eats a little of it."""
    found = cost(held(1200.0, 600.0))
    assert found.carbon == pytest.approx(0.8, abs=0.03)
    assert found.decarb is not None
    assert 0.9e-3 < found.decarb.value < 1.088e-3
    assert found.decarb.least < 0.6e-3 < 2.0e-3 < found.decarb.most  # type: ignore[operator]


@pytest.mark.parametrize(("shop", "metal"), [(Shop(scale_factor=1.0), 0.22e-3), (Shop(fire=FireAir.LEAN), 0.22e-3)])
def test_five_minutes_at_1200_degrees_take_a_fifth_of_a_millimetre_to_scale(shop: Shop, metal: float) -> None:
    """0.22 mm a face in free air: parabolic constant of Paidassi as reviewed by Chen and Yuen, Oxid. Met. 59 (2003)
    433; from memory, an upper bound. A rich fire takes less."""
    found = cost(held(1200.0, 300.0, shop=shop)).scale
    assert found is not None
    assert found.value == pytest.approx(metal, rel=0.03)
    rich = cost(held(1200.0, 300.0, shop=Shop(fire=FireAir.RICH))).scale
    assert rich is not None
    assert rich.value < metal / 2


def test_a_minute_at_1100_degrees_evens_layers_of_a_tenth_of_a_millimetre() -> None:
    """5 % of the difference is left after 60.9 s: first term of the series, with the diffusivity of Callister's
    Table 5.2."""
    found = cost(held(1100.0, 61.0, layers=100)).layers
    assert found is not None
    assert found.difference_left == pytest.approx(0.05, abs=0.003)
    # Sources of the diffusivity differ by a factor of two: half of it leaves the root of what the first wave had left.
    assert found.most == pytest.approx(4 / pi * sqrt(0.05 * pi / 4), abs=0.01)
    assert found.least is not None
    assert found.least < 0.01


def test_cold_work_costs_nothing_and_unknown_steel_is_not_guessed() -> None:
    cold = cost(held(400.0, 60.0))
    assert (cold.decarb, cold.scale, cold.layers) == (None, None, None)
    odd = cost(held(1200.0, 60.0, steel="from the scrap heap"))
    assert odd.carbon is None
    assert odd.decarb is None
    assert odd.scale is not None


def test_the_steel_with_most_carbon_counts() -> None:
    plan = held(400.0, 1.0).plan
    both = replace(plan, bars=(replace(plan.bars[0], steel="1018"), *plan.bars))
    assert most_carbon(both) == most_carbon(plan)

"""A squeeze between flat dies: volume, the way that a force and a height go together, and heats."""

from __future__ import annotations

from itertools import pairwise
from math import exp, hypot

import pytest

from plans.blows import StruckBy
from plans.press import (
    STROKE,
    Drawn,
    Hot,
    Squeeze,
    flow_stress,
    force_needed,
    height_reached,
    learned_reduction,
    usual_heats,
    usual_reduction,
    widest_dies,
    work_needed,
)
from plans.press.dies import _mean_distance
from plans.shapes import Section
from plans.units import kelvin

HOT = Hot(kelvin(1100.0), 0.8, 1.0)
SQUEEZE = Squeeze(0.025, 0.038, 0.040, 0.020)


def test_a_squeeze_holds_the_volume() -> None:
    before = SQUEEZE.height * SQUEEZE.width * SQUEEZE.bite
    assert SQUEEZE.height_then * SQUEEZE.width_then * SQUEEZE.bite * SQUEEZE.elongation == pytest.approx(before)


def test_what_is_no_squeeze() -> None:
    for height, width, bite, then in ((0.02, 0.02, 0.02, 0.02), (0.02, 0.0, 0.02, 0.01), (0.02, 0.02, 0.02, 0.0)):
        with pytest.raises(ValueError, match="squeeze"):
            Squeeze(height, width, bite, then)
    for at, carbon, seconds in ((0.0, 0.8, 1.0), (1400.0, 1.3, 1.0), (1400.0, 0.8, 0.0)):
        with pytest.raises(ValueError, match="carbon"):
            Hot(at, carbon, seconds)


def test_the_mean_distance_in_a_rectangle_is_that_of_many_points() -> None:
    count = 400
    at = [(place + 0.5) / count - 0.5 for place in range(count)]
    summed = sum(hypot(3.0 * x, 1.0 * y) for x in at for y in at) / count**2
    assert _mean_distance(3.0, 1.0) == pytest.approx(summed, rel=1e-4)
    # Of a line it is a quarter of its length.
    assert _mean_distance(3.0, 0.0) == _mean_distance(0.0, 3.0) == 0.75


def test_the_force_that_is_needed_brings_the_bar_there_and_no_wider_dies_do() -> None:
    for at in (850.0, 1000.0, 1200.0):
        hot = Hot(kelvin(at), 0.8, 1.0)
        needed = force_needed(SQUEEZE, hot).value
        assert height_reached(0.025, 0.038, 0.040, needed, hot).value == pytest.approx(0.020, rel=1e-6)
        widest = widest_dies(SQUEEZE, needed, hot)
        assert widest is not None
        assert widest.value == pytest.approx(0.040, rel=1e-6)
        assert widest.least is not None
        assert widest.most is not None
        assert widest.least < 0.040 < widest.most


def test_force_rises_all_along_a_squeeze_and_with_wider_dies_and_colder_steel() -> None:
    """What the search for a height, and for dies, takes for granted; over bars and dies as they come."""
    for height, width in ((0.010, 0.040), (0.025, 0.025), (0.050, 0.020)):
        for dies in (0.010, 0.040, 0.100):
            strains = [STROKE * place / 10 for place in range(1, 11)]
            lower = [Squeeze(height, width, dies, height * exp(-strain)) for strain in strains]
            forces = [force_needed(one, HOT).value for one in lower]
            # Within the eighths of the way at which the force is looked at.
            assert all(later > 0.99 * before for before, later in pairwise(forces))
        wider = [
            force_needed(Squeeze(height, width, dies / 1000, 0.8 * height), HOT).value for dies in range(5, 155, 5)
        ]
        assert wider == sorted(wider)
    colder = [force_needed(SQUEEZE, Hot(kelvin(at), 0.8, 1.0)).value for at in (1200.0, 1100.0, 1000.0, 900.0)]
    assert colder == sorted(colder)


def test_a_force_to_spare_and_one_that_does_nothing() -> None:
    much = height_reached(0.025, 0.038, 0.040, 1e7, HOT)
    assert much.value == pytest.approx(0.025 * exp(-STROKE))
    assert much.least is None
    assert height_reached(0.025, 0.038, 0.040, 10.0, HOT).value == pytest.approx(0.025, rel=1e-3)
    assert widest_dies(SQUEEZE, 100.0, HOT) is None
    widest = widest_dies(SQUEEZE, 1e8, HOT)
    assert widest is not None
    assert widest.value == widest.most == pytest.approx(4 * 0.038)


def test_the_range_of_a_force_holds_it_and_says_where_it_is_not_known() -> None:
    needed = force_needed(SQUEEZE, HOT)
    assert needed.least is not None
    assert needed.most is not None
    assert needed.least < needed.value < needed.most
    assert not needed.outside
    assert force_needed(SQUEEZE, Hot(kelvin(650.0), 0.8, 1.0)).outside
    assert force_needed(SQUEEZE, Hot(kelvin(1300.0), 0.8, 1.0)).outside
    assert flow_stress(HOT, 0.8).outside


def test_the_work_lies_between_no_force_and_all_of_it_along_the_way() -> None:
    """The force rises from nothing, steeply at first: on average it is more than half of the last, and not all."""
    most = force_needed(SQUEEZE, HOT).value * 0.005
    assert 0.5 * most < work_needed(SQUEEZE, HOT) < most


def test_heats() -> None:
    # 625 mm2 to 240 mm2: 0.8^4 = 0.41 leaves 256, 0.8^5 leaves 205.
    section, reach = Section(0.025, 0.025), Section(0.030, 0.008)
    assert usual_heats(section, reach) == 5
    assert usual_heats(section, reach, 0.35) == 3
    assert usual_reduction(StruckBy.PRESS).value == 0.35


def test_what_a_heat_takes_off_as_learned() -> None:
    # A quarter of the area is left after two heats, so each took half; and four fifths after one, a fifth.
    half, fifth = Drawn(4e-4, 1e-4, 2), Drawn(5e-4, 4e-4, 1)
    assert half.reduction == pytest.approx(0.5)
    learned = learned_reduction([half, fifth])
    assert learned is not None
    # ln 4 + ln 1.25 = ln 5 over three heats.
    assert learned.value == pytest.approx(1 - 5 ** (-1 / 3))
    assert (learned.least, learned.most) == pytest.approx((0.2, 0.5))
    alone = learned_reduction([half])
    assert alone is not None
    assert alone.least is None
    assert learned_reduction([]) is None
    with pytest.raises(ValueError, match="drawn"):
        Drawn(1e-4, 1e-4, 1)

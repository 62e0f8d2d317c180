"""What a plan takes before anything is in the fire: the reckoner's own answers for the same bar, and sums by hand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from plans.blows import USUAL, StruckBy
from plans.phase import PhaseKind
from plans.plan import Phase, Plan, Step, StepKind, Target
from plans.reader import find_plan
from plans.reckoner import Figure, Reckoning, reckon_cooling, reckon_soak
from plans.shapes import Section
from plans.shop import Shop
from plans.times import hammer_span, plan_times, step_times
from plans.times.of_a_heat import comes_back_at, heat_times
from plans.units import kelvin
from plans.warmth import ROOM

BAR, THIN, LENGTH = Section(0.030, 0.020), Section(0.012, 0.006), 0.150
FIRE, HEAT, COLD = kelvin(1300), kelvin(1200), kelvin(950)
WITHIN = 0.015
"""A solver that is three times as quick may be so far off, as a share."""
FORGE = Step(
    "Draw it out",
    StepKind.DRAW,
    (Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK), Phase(PhaseKind.STRIKE)),
    targets=(Target(FIRE, HEAT),),
    even_within=1.0,
    keep_above=COLD,
    section=BAR,
    length=LENGTH,
)
SHOP = Shop()


def seconds(found: Reckoning, key: str) -> float:
    (figure,) = (one for one in found.found if isinstance(one, Figure) and one.key == key)
    assert figure.reckoned is not None
    return figure.reckoned.value


def times(step: Step, **changed: object) -> Iterator[float | None]:
    found = step_times(replace(step, **changed), SHOP)  # type: ignore[arg-type]
    yield from (found.to_heat, found.soak, found.quench, found.oven, found.dip)


def test_a_first_heat_lies_in_the_fire_as_long_as_the_reckoner_says() -> None:
    first = step_times(FORGE, SHOP).first
    to_heat = seconds(reckon_soak(BAR, FIRE, HEAT), "skin_seconds")
    even = seconds(reckon_soak(BAR, FIRE, HEAT - 1.0), "seconds")
    assert first.to_heat == pytest.approx(to_heat, rel=WITHIN)
    assert even > to_heat
    assert first.soak == pytest.approx(even - to_heat, rel=0.1)
    assert first.in_the_fire == pytest.approx(even, rel=WITHIN)


def test_a_later_heat_goes_in_at_the_cold_limit() -> None:
    assert comes_back_at(FORGE, 1, SHOP) == COLD
    found = step_times(replace(FORGE, heats=5), SHOP)
    again = seconds(reckon_soak(BAR, FIRE, HEAT, start=COLD), "skin_seconds")
    assert found.last.to_heat == pytest.approx(again, rel=WITHIN)
    assert found.first.to_heat is not None
    assert found.last.to_heat is not None
    assert found.to_heat == pytest.approx(found.first.to_heat + 4 * found.last.to_heat)


@pytest.mark.parametrize("by", [None, *StruckBy])
def test_hammer_time_is_the_reckoners_until_corner_or_struck_face_is_cold(by: StruckBy | None) -> None:
    blows = USUAL[StruckBy.HAND if by is None else by]
    struck = reckon_cooling(BAR, HEAT, COLD, LENGTH, blows=blows)
    step = replace(FORGE, blows=None if by is None else blows, thin=THIN)
    first = step_times(step, SHOP).first
    shorter = min(seconds(struck, "coldest_seconds"), seconds(struck, "face_seconds"))
    assert first.hammer == pytest.approx(shorter, rel=WITHIN)
    tang = reckon_cooling(THIN, HEAT, COLD, blows=blows)
    assert first.thin_hammer == pytest.approx(seconds(tang, "coldest_seconds"), rel=WITHIN)
    assert first.first_cold == first.thin_hammer


def test_a_taper_is_cold_later_than_a_part_as_thin_all_along() -> None:
    taper, all_along = (
        step_times(replace(FORGE, thin=THIN, thin_length=length), SHOP).first.thin_hammer for length in (0.06, None)
    )
    assert taper is not None
    assert all_along is not None
    assert all_along < taper < step_times(FORGE, SHOP).first.hammer  # type: ignore[operator]


def test_the_last_heat_is_that_of_the_smallest_section() -> None:
    reach = Section(0.030, 0.005)
    found = step_times(replace(FORGE, reach=reach, heats=3), SHOP)
    # each of three heats takes the thickness down by the same factor: 20, 12.6, 7.9 and 5 mm
    last = reckon_cooling(Section(0.030, 0.020 / 4 ** (2 / 3)), HEAT, COLD, LENGTH, blows=USUAL[StruckBy.HAND])
    shorter = min(seconds(last, "coldest_seconds"), seconds(last, "face_seconds"))
    assert found.last.first_cold == found.last.hammer == pytest.approx(shorter, rel=WITHIN)


def test_of_many_heats_some_are_worked_out() -> None:
    step = replace(FORGE, reach=Section(0.030, 0.006), heats=11)
    each = [heat_times(step, heat, SHOP, ROOM if heat == 1 else COLD).to_heat or 0.0 for heat in range(1, 12)]
    assert each[1] > 2 * each[10], "they are not alike"
    assert step_times(step, SHOP).to_heat == pytest.approx(sum(each), rel=0.02)


def test_falling_heats_cool_each_from_its_own() -> None:
    heats, black = [kelvin(900), kelvin(845), kelvin(790)], kelvin(480)
    step = replace(
        FORGE,
        kind=StepKind.NORMALIZE,
        phases=(Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, 300.0), Phase(PhaseKind.AIR, until=black)),
        heats=3,
        targets=tuple(Target(heat + 30, heat) for heat in heats),
        keep_above=None,
    )
    found = step_times(step, SHOP)
    assert found.soak == 3 * 300
    assert found.first.hammer is None
    assert comes_back_at(step, 1, SHOP) == black
    last = reckon_cooling(BAR, heats[2], kelvin(500), LENGTH)
    # Where the skin is at 500 degC the middle is a little hotter; until it is there the same time has gone.
    middle = seconds(last, "middle_celsius")
    until = replace(step, phases=(*step.phases[:2], Phase(PhaseKind.AIR, until=middle)))
    assert step_times(until, SHOP).last.air == pytest.approx(seconds(last, "seconds"), rel=WITHIN)
    assert found.last.air is not None
    assert found.first.air is not None
    assert found.last.air < found.first.air


def test_set_times_are_added_up() -> None:
    oven = Phase(PhaseKind.OVEN, 2 * 3600.0, at=kelvin(200))
    temper = Step("Temper", StepKind.TEMPER, (oven, Phase(PhaseKind.AIR)), heats=2)
    assert list(times(temper)) == [None, None, None, 4 * 3600.0, None]
    etch = Step("Etch", StepKind.ETCH, (Phase(PhaseKind.DIP, 90.0), Phase(PhaseKind.BENCH)), heats=4)
    assert list(times(etch))[-1] == 360.0
    harden = replace(
        FORGE, phases=(Phase(PhaseKind.FIRE), Phase(PhaseKind.SOAK, 60.0), Phase(PhaseKind.QUENCH, 12.0)), heats=2
    )
    assert list(times(harden))[1:3] == [120.0, 24.0]
    assert comes_back_at(harden, 1, SHOP) == ROOM


def test_what_the_plan_does_not_say_is_not_known() -> None:
    found = step_times(replace(FORGE, section=None), SHOP)
    assert (found.heats, found.in_the_fire, found.last.first_cold) == (1, None, None)
    plan = Plan("x", "x", "", (), (FORGE, replace(FORGE, section=None), Step("Look", StepKind.BENCH, ())), "")
    whole = plan_times(plan, SHOP)
    assert whole.unknown == (1,)
    assert (whole.heats, whole.in_the_fire) == (2, step_times(FORGE, SHOP).in_the_fire)


def test_a_step_is_worked_out_anew_where_more_than_its_words_has_changed() -> None:
    found = step_times(FORGE, SHOP)
    cued = replace(FORGE.phases[0], cue="turn it")
    assert step_times(replace(FORGE, title="Draw", phases=(cued, *FORGE.phases[1:]), cautions=("hot",)), SHOP) is found
    assert step_times(FORGE, Shop(cooling_factor=1.3)).last.first_cold < found.last.first_cold  # type: ignore[operator]
    assert step_times(replace(FORGE, keep_above=kelvin(900)), SHOP).last.hammer != found.last.hammer


def test_a_range_lies_round_its_time() -> None:
    step, found = replace(FORGE, thin=THIN), step_times(replace(FORGE, thin=THIN), SHOP)
    span = hammer_span(step, 1, SHOP)
    assert span is not None
    assert span.likely == pytest.approx(found.first.first_cold, rel=WITHIN)
    assert span.most is not None
    assert span.least < span.likely < span.most
    assert hammer_span(replace(step, keep_above=None), 1, SHOP) is None


def test_the_plans_that_ship() -> None:
    found = plan_times(find_plan("normalize", None), SHOP)
    assert found.heats == 3
    assert not found.unknown
    # three soaks of 5 min, and each time up to heat: common practice has 2 to 6 min for a blade, no source
    assert 3 * (300 + 120) < found.in_the_fire < 3 * (300 + 360)

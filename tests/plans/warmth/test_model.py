from __future__ import annotations

from itertools import pairwise
from random import Random

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Form, Section
from plans.warmth.material import HOTTEST
from plans.warmth.model import ThinEnd, WarmModel
from plans.warmth.surroundings import Surroundings, fire, oil, still_air, striking
from tests.plans.warmth.sections import EXAMPLES

ROOM, WELDING = 293.15, 1523.15
SQUARE = Section(0.025, 0.025)
FIRE = fire(WELDING)


def warmed(section: Section = SQUARE, seconds: float = 120.0, length: float | None = None) -> WarmModel:
    model = WarmModel(section, length)
    for _ in range(round(seconds / 0.5)):
        model.step(0.5, FIRE)
    return model


def test_a_new_bar_is_at_one_temperature() -> None:
    model = WarmModel(SQUARE, start=400.0)
    assert (model.skin, model.middle, model.mean) == pytest.approx((400.0, 400.0, 400.0), abs=0.01)


def test_the_middle_lags_the_skin_both_ways() -> None:
    model = warmed()
    assert model.middle < model.mean < model.skin < WELDING
    for _ in range(40):
        model.step(0.5, still_air())
    assert model.skin < model.mean < model.middle


def rates(model: WarmModel, outside: Surroundings, until: float) -> list[tuple[float, float]]:
    """Mean temperature [degC] and how fast it changes [K/s], all the way to a mean of `until` [degC]."""
    seen = []
    up = until > model.mean - 273.15
    while (model.mean - 273.15 < until) is up:
        before = model.mean
        model.step(0.25, outside)
        seen.append((before - 273.15, (model.mean - before) / 0.25))
    return seen


def slowest(seen: list[tuple[float, float]], low: float, high: float) -> float:
    return min(abs(rate) for celsius, rate in seen if low < celsius < high)


def test_cooling_is_held_up_in_the_arrest_and_not_where_heating_was() -> None:
    seen = rates(WarmModel(Section(0.006, 0.006), start=1300.0), still_air(), 550.0)
    assert slowest(seen, 670, 690) < slowest(seen, 560, 640) / 3 < slowest(seen, 720, 800) / 3
    # Past 735 degC it slows only as the air takes less from it, by some 11 % from 750 to 720.
    assert slowest(seen, 720, 750) > 0.85 * max(abs(rate) for celsius, rate in seen if 720 < celsius < 750)


def test_heating_is_held_up_at_735() -> None:
    seen = rates(WarmModel(Section(0.006, 0.006)), FIRE, 850.0)
    assert slowest(seen, 730, 740) < slowest(seen, 560, 700) / 2
    assert slowest(seen, 730, 740) < slowest(seen, 800, 850) / 2


@given(st.floats(1200.0, 1500.0), st.floats(10.0, 300.0))
def test_a_hotter_bar_cools_faster(start: float, more: float) -> None:
    cool, hot = WarmModel(SQUARE, start=start), WarmModel(SQUARE, start=start + more)
    for model in (cool, hot):
        model.step(2.0, still_air())
    # Above the arrest, where the specific heat is level.
    assert start - cool.mean < start + more - hot.mean


@pytest.mark.parametrize("start", [ROOM, WELDING])
def test_halving_the_step_halves_the_error(start: float) -> None:
    outside = FIRE if start == ROOM else still_air()

    def mean_after(step: float) -> float:
        model = WarmModel(SQUARE, start=start)
        for _ in range(round(64 / step)):
            model.step(step, outside)
        return model.mean

    exact = 2 * mean_after(1 / 64) - mean_after(1 / 32)
    errors = [abs(mean_after(step) - exact) for step in (2.0, 1.0, 0.5, 0.25)]
    assert errors[2] < 1.5
    for coarse, fine in pairwise(errors):
        assert fine == pytest.approx(coarse / 2, rel=0.15)


@given(st.lists(st.sampled_from([FIRE, still_air(), striking(), 1100.0, 1300.0]), max_size=12), st.integers(0, 12))
def test_a_snapshot_brings_back_every_bit(course: list[Surroundings | float], at: int) -> None:
    def go(model: WarmModel, part: list[Surroundings | float]) -> None:
        for outside in part:
            if isinstance(outside, Surroundings):
                model.step(0.5, outside)
            else:
                model.step_following(0.5, outside)

    # In the change, where the latent heat is a state of its own.
    model = WarmModel(SQUARE, 0.2, 1000.0)
    go(model, course[:at])
    snapshot = model.snapshot()
    go(model, course[at:])
    end = model.snapshot()

    model.reshape(Section(0.04, 0.01), 0.3)
    model.restore(snapshot)
    assert model.snapshot() == snapshot
    go(model, course[at:])
    assert model.snapshot() == end

    other = WarmModel(Section(0.01, 0.01))
    other.restore(snapshot)
    go(other, course[at:])
    assert other.snapshot() == end
    assert (other.section, other.length) == (SQUARE, 0.2)


def test_reshaping_keeps_the_heat() -> None:
    model = warmed()
    mean, skin = model.mean, model.skin
    model.reshape(Section(0.04, 0.012), 0.25)
    assert model.mean == pytest.approx(mean, abs=1e-6)
    assert model.skin == pytest.approx(skin, abs=10.0)
    assert (model.section, model.length) == (Section(0.04, 0.012), 0.25)


@pytest.mark.parametrize("outside", [FIRE, still_air()])
def test_reshaping_half_way_through_the_change_keeps_energy_and_temperature_together(outside: Surroundings) -> None:
    up = outside is FIRE
    model = WarmModel(Section(0.05, 0.05), start=ROOM if up else WELDING)
    change = model.piece.material.transformation
    assert change is not None
    while (model.piece.mean(model.heat.latent) < change.latent / 2) is up:
        model.step(0.5, outside)
    before, latent = model.piece.mean(model.heat.joules), list(model.heat.latent)
    model.reshape(Section(0.12, 0.02))
    assert model.piece.mean(model.heat.joules) == pytest.approx(before)
    # What heat the cells gain by it goes on through the change, as any other would.
    assert any(after > had if up else after < had for had, after in zip(latent, model.heat.latent, strict=True))
    for joules, held in zip(*model.heat, strict=True):
        kelvin = model.piece.material.temperature_of(joules, held)
        assert change.sensible(kelvin) + held == pytest.approx(joules, abs=500)


def test_a_thinner_bar_cools_faster_after_reshaping() -> None:
    thick, thin = warmed(seconds=400), warmed(seconds=400)
    thin.reshape(Section(0.03, 0.008))
    for model in (thick, thin):
        for _ in range(20):
            model.step(0.5, still_air())
    assert thin.skin < thick.skin - 30


def test_following_a_probe_takes_its_word_for_the_skin() -> None:
    model = WarmModel(SQUARE)
    for second in range(200):
        model.step_following(1.0, min(1400.0, ROOM + 10 * second))
    assert model.skin == pytest.approx(1400.0, abs=0.1)
    assert 1350 < model.middle < 1400


def test_assuming_the_skin_shifts_the_whole_bar() -> None:
    model = warmed()
    lag = model.skin - model.middle
    model.assume_skin(model.skin + 40)
    assert model.skin - model.middle == pytest.approx(lag, abs=0.5)
    model.assume_skin(model.skin - 80, FIRE)
    assert model.skin - model.middle == pytest.approx(lag, abs=0.5)


def test_a_cold_bar_that_the_smith_sees_hot_is_not_taken_to_be_hot_inside() -> None:
    blind, warm = WarmModel(SQUARE), warmed()
    blind.assume_skin(warm.skin, FIRE)
    assert blind.skin == pytest.approx(warm.skin, abs=5.0)
    # The steady lag that its fire makes; the real one is a little more, the arrest being just behind it.
    assert 0.6 * (warm.skin - warm.middle) < blind.skin - blind.middle < 1.1 * (warm.skin - warm.middle)
    without = WarmModel(SQUARE)
    without.assume_skin(1400.0)
    assert without.middle == pytest.approx(1400.0, abs=0.01)


def test_no_time_changes_nothing() -> None:
    model = warmed()
    before = model.snapshot()
    model.step(0.0, still_air())
    model.step_following(0.0, 400.0)
    assert model.snapshot() == before


@pytest.mark.parametrize("kelvin", [0.0, -5.0, float("nan"), 1e5])
def test_impossible_temperatures_are_refused(kelvin: float) -> None:
    model = warmed(seconds=5)
    with pytest.raises(ValueError, match="temperature"):
        model.step_following(0.5, kelvin)
    with pytest.raises(ValueError, match="temperature"):
        model.assume_skin(kelvin)
    with pytest.raises(ValueError, match="temperature"):
        WarmModel(SQUARE, start=kelvin)


@pytest.mark.parametrize("after", EXAMPLES)
def test_whatever_it_is_forged_into_the_heat_stays(after: Section) -> None:
    for before in EXAMPLES:
        model = warmed(before, 60.0)
        mean = model.mean
        model.reshape(after, 0.2)
        assert model.mean == pytest.approx(mean, abs=1e-6)
        assert model.middle < model.skin + 2.0


def test_an_edge_goes_cold_before_the_rest_and_warms_up_first() -> None:
    wedge = WarmModel(Section(0.040, 0.008, Form.WEDGE, 0.002), start=1400.0)
    for _ in range(10):
        wedge.step(0.5, striking())
    assert wedge.coldest < wedge.warmth.face - 40 < wedge.skin - 40 < wedge.middle - 40
    for _ in range(60):
        wedge.step(0.5, FIRE)
    assert wedge.coldest == pytest.approx(wedge.middle, abs=2.0)


def test_a_thin_end_is_modelled_in_place_of_the_bar() -> None:
    end = ThinEnd(Section(0.004, 0.003), 0.06)
    point, bar = (WarmModel(Section(0.020, 0.010), start=1400.0, end=one) for one in (end, None))
    assert (point.end, bar.end) == (end, None)
    for _ in range(10):
        point.step(0.5, striking())
        bar.step(0.5, striking())
    assert point.coldest < bar.coldest - 70
    back = WarmModel.of(point.snapshot())
    assert back.snapshot() == point.snapshot()
    assert back.end == end


@pytest.mark.parametrize("seed", range(6))
def test_skins_that_nothing_round_it_can_make_leave_a_model_that_goes_on_cooling(seed: int) -> None:
    # A probe that says 3000 K in oil is beyond any steel; what is fed in then must not lead beyond what is calculated.
    # By the second law a bar that is left in the shop's air for a day is as cold as that, whatever was before.
    random = Random(seed)
    model = WarmModel(Section(0.040, 0.008), None, random.uniform(300.0, HOTTEST))
    for _ in range(8):
        around = random.choice([oil(), striking(), still_air(), fire(random.uniform(300.0, HOTTEST))])
        skin = random.choice([random.uniform(20.0, HOTTEST), HOTTEST])
        model.step_following(random.uniform(0.5, 5.0), skin, around)
        model.step(random.uniform(0.5, 5.0), around)
        assert 0.0 <= model.coldest <= model.skin
        model.assume_skin(HOTTEST if random.random() < 0.5 else 20.0)
    for _ in range(10):
        model.step(8640.0, still_air())
    assert model.warmth == pytest.approx([ROOM] * 4, abs=1.0)

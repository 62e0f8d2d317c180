"""What is learned of a shop, held against shops whose cooling is known because their physics is written here.

Nothing of the program's own solver is in these traces: a bar at one temperature throughout, integrated by scipy, and a
cross-section in two dimensions. Both stay above 900 degC, where EN 1993-1-2 gives steel 650 J/(kg K).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from plans.logbook.figures_record import learned_record
from plans.logbook.learned import learn
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Phase, Plan, Step, StepKind, Target
from plans.reading import ProbeOn, Reading
from plans.section import Section
from plans.shop import Shop
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word

ICE = 273.15
HOT = 1150.0
DENSITY, SPECIFIC_HEAT, CONDUCTIVITY = 7850.0, 650.0, 27.3
"""EN 1993-1-2, 3.4.1, above 900 degC and above 800 degC."""

Curve = Callable[[float], float]
"""Skin in degC, so many seconds after it left the fire."""


def flux(celsius: Any, anvil: float) -> Any:
    """What scaled steel gives to air at 20 degC, and to an anvil at 80 degC [W/m2]."""
    air = 0.8 * 5.670374e-8 * ((celsius + ICE) ** 4 - 293.15**4) + 10 * (celsius - 20)
    return air + anvil * (celsius - 80)


def lump(section: Section, times: float, anvil: float = 0.0) -> Curve:
    """A long bar at one temperature throughout that gives so many times as much."""
    depth = section.area / (2 * (section.width + section.thickness))

    def rate(_: float, celsius: Any) -> Any:
        return -times * flux(celsius, anvil) / (DENSITY * SPECIFIC_HEAT * depth)

    solved = solve_ivp(rate, (0.0, 60.0), [HOT], dense_output=True, rtol=1e-8)
    return lambda at: float(solved.sol(at)[0])


def cross_section(section: Section, times: float) -> Curve:
    """A quarter of a cross-section in finite volumes; felt in the middle of the broad face."""
    across, deep = 12, 8
    dx, dy = section.width / 2 / across, section.thickness / 2 / deep

    def skin(cell: Any, half: float) -> Any:
        surface = cell
        for _ in range(3):
            surface = cell - times * flux(surface, 0.0) * half / CONDUCTIVITY
        return surface

    def rate(_: float, flat: Any) -> Any:
        cells = flat.reshape(across, deep)
        heat = np.zeros_like(cells)
        along = CONDUCTIVITY * np.diff(cells, axis=0) / dx * dy
        heat[:-1] += along
        heat[1:] -= along
        through = CONDUCTIVITY * np.diff(cells, axis=1) / dy * dx
        heat[:, :-1] += through
        heat[:, 1:] -= through
        heat[-1] -= times * flux(skin(cells[-1], dx / 2), 0.0) * dy
        heat[:, -1] -= times * flux(skin(cells[:, -1], dy / 2), 0.0) * dx
        return (heat / (DENSITY * SPECIFIC_HEAT * dx * dy)).ravel()

    solved = solve_ivp(rate, (0.0, 120.0), np.full(across * deep, HOT), method="BDF", dense_output=True, rtol=1e-6)
    return lambda at: float(skin(solved.sol(at)[deep - 1], dy / 2))


@dataclass
class Shift:
    """A sitting, its probe, and a smith who says every word in time."""

    section: Section
    phase: PhaseKind = PhaseKind.AIR
    noise: float = 2.0
    hertz: float = 4.0
    shop: Shop = field(default_factory=Shop)
    probe_on: ProbeOn | None = ProbeOn.WORK
    seed: int = 1

    def __post_init__(self) -> None:
        kind = StepKind.NORMALIZE if self.phase is PhaseKind.AIR else StepKind.DRAW
        step = Step(
            "Work it",
            kind,
            tuple(Phase(phase, until=500 + ICE if phase is PhaseKind.AIR else None) for phase in USUAL_PHASES[kind]),
            heats=999,
            targets=(Target(HOT + 40 + ICE, HOT + ICE),),
            keep_above=950 + ICE if kind is StepKind.DRAW else None,
            section=self.section,
        )
        self.sitting = Sitting(Plan("one", "One", "", (), (step,), ""), self.probe_on, shop=self.shop)
        self.sitting.open()
        self.at = 0.0
        self.chance = Random(self.seed)
        self.sitting.take(Said(0.0, Word.NEXT))

    def feel(self, seconds: float, curve: Curve) -> None:
        """The probe says so for so long: noise, half a percent of spikes, two percent missing."""
        began = self.at
        for count in range(1, round(seconds * self.hertz) + 1):
            self.at = began + count / self.hertz
            celsius = curve(self.at - began) + self.chance.gauss(0, self.noise)
            if self.chance.random() < 0.005:
                celsius += self.chance.choice((-1, 1)) * self.chance.uniform(50, 300)
            lost = self.chance.random() < 0.02
            self.sitting.take(Reading(self.at, None if lost else celsius + ICE, "open" if lost else None))

    def heat(self, curve: Curve, down_to: float = 910.0, felt: bool = True) -> float:
        """A minute in the fire, then out until it has come down; how long that took [s]."""
        self.feel(60.0, lambda at: HOT - (HOT - 800) * 0.9**at)
        self.say(Word.OUT)
        out = next(count / 10 for count in range(1200) if curve(count / 10) < down_to)
        if felt:
            self.feel(out, curve)
        else:
            self.at += out
        self.say(Word.NEXT)
        return out

    def say(self, word: Word) -> None:
        self.sitting.take(Said(self.at, word))


THIN = Section(0.04, 0.004)
ANVIL = 1000 * 0.15 * 40 / 88
"""As the warm model has it by itself: 1000 W/(m2 K) for 15 % of the time on the broad face of 40 x 4 mm [W/(m2 K)]."""


@pytest.mark.parametrize("times", [0.7, 1.0, 1.3])
@pytest.mark.parametrize("phase", [PhaseKind.AIR, PhaseKind.STRIKE])
def test_a_thin_bar_tells_how_fast_this_shop_cools(times: float, phase: PhaseKind) -> None:
    shift = Shift(THIN, phase)
    for _ in range(4):
        shift.heat(lump(THIN, times, ANVIL if phase is PhaseKind.STRIKE else 0.0))
    learned = learn(shift.sitting)
    assert learned is not None
    assert learned.fitted == 4
    assert learned.factor == pytest.approx(times, rel=0.03)
    assert learned.spread is not None
    assert learned.spread < 0.03 * times


@pytest.mark.parametrize("times", [0.7, 1.0, 1.3])
def test_a_thick_bar_that_lags_inside_tells_it_too(times: float) -> None:
    """To 5 %: the warm model knows one dimension, and the middle of a broad face is not the whole skin."""
    section = Section(0.03, 0.014)
    shift = Shift(section)
    shift.heat(curve := cross_section(section, times))
    shift.heat(curve)
    learned = learn(shift.sitting)
    assert learned is not None
    assert learned.factor == pytest.approx(times, rel=0.05)


@pytest.mark.parametrize("hertz", [1.0, 10.0])
def test_however_often_the_probe_speaks(hertz: float) -> None:
    shift = Shift(THIN, hertz=hertz)
    for _ in range(4):
        shift.heat(lump(THIN, 1.3))
    learned = learn(shift.sitting)
    assert learned is not None
    assert learned.factor == pytest.approx(1.3, rel=0.03)


@pytest.mark.parametrize("late", [-4.0, 4.0])
def test_a_word_said_too_early_or_too_late_moves_no_factor(late: float) -> None:
    shift = Shift(THIN)
    curve = lump(THIN, 1.0)
    for _ in range(4):
        shift.feel(60.0, lambda at: HOT - (HOT - 800) * 0.9**at)
        if late > 0:
            shift.feel(late, curve)
            shift.say(Word.OUT)
            shift.feel(16.0 - late, lambda at: curve(at + late))
        else:
            shift.say(Word.OUT)
            shift.feel(-late, lambda _: HOT)
            shift.feel(16.0, curve)
        # It is in the fire again before the word comes.
        shift.feel(6.0, lambda at: 910 + 20 * at)
        shift.say(Word.NEXT)
    learned = learn(shift.sitting)
    assert learned is not None
    assert learned.factor == pytest.approx(1.0, rel=0.04)


def test_the_factor_does_not_hang_on_the_one_that_the_sitting_went_by() -> None:
    found = []
    for shop in (Shop(), Shop(1.8)):
        shift = Shift(THIN, shop=shop)
        shift.heat(lump(THIN, 1.0))
        found.append(learn(shift.sitting))
    assert found[0] is not None
    assert found[1] is not None
    assert found[0].factor == found[1].factor
    assert (found[0].went_by, found[1].went_by) == (1.0, 1.8)


def test_the_spread_is_known_from_two_stays_on_and_shrinks_with_more() -> None:
    """Draughts that differ from stay to stay by a tenth: the standard error falls as one over the root of how many."""
    chance = Random(5)
    shift = Shift(THIN)
    spreads: dict[int, float | None] = {}
    for count in range(1, 33):
        shift.heat(lump(THIN, 1.0 + chance.gauss(0, 0.1)))
        if count in (1, 8, 32):
            learned = learn(shift.sitting)
            assert learned is not None
            assert learned.fitted == count
            spreads[count] = learned.spread
    assert spreads[1] is None
    few, many = spreads[8], spreads[32]
    assert few is not None
    assert many is not None
    assert few == pytest.approx(0.1 / 8**0.5, rel=0.6)
    assert many == pytest.approx(0.1 / 32**0.5, rel=0.3)
    assert many < few


def test_without_a_probe_on_the_work_nothing_is_learned() -> None:
    for probe_on in (None, ProbeOn.FIRE):
        shift = Shift(THIN, probe_on=probe_on)
        shift.heat(lump(THIN, 1.0))
        assert learn(shift.sitting) is None


def test_a_stay_that_was_not_felt_or_too_short_or_stood_still_tells_nothing() -> None:
    shift = Shift(THIN)
    shift.heat(lump(THIN, 1.0), felt=False)
    assert learn(shift.sitting) is None
    shift.heat(lump(THIN, 1.0), down_to=1050.0)
    shift.feel(60.0, lambda _: HOT)
    shift.say(Word.OUT)
    shift.feel(20.0, lambda _: HOT)
    shift.say(Word.NEXT)
    learned = learn(shift.sitting)
    assert learned is not None
    assert (learned.factor, learned.spread, learned.fitted, len(learned.stays)) == (None, None, 0, 2)


def test_what_a_pause_or_a_lost_probe_cut_off_counts_up_to_there() -> None:
    shift = Shift(THIN)
    curve = lump(THIN, 1.0)
    for _ in range(2):
        shift.feel(60.0, lambda at: HOT - (HOT - 800) * 0.9**at)
        shift.say(Word.OUT)
        shift.feel(12.0, curve)
        if shift.sitting.state.heat == 1:
            shift.say(Word.PAUSE)
            shift.feel(10.0, lambda at: 900 + 20 * at)
            shift.say(Word.RESUME)
            shift.feel(10.0, lambda _: 700.0)
        else:
            shift.at += 8.0
            shift.feel(10.0, lambda at: 850.0 - 30 * at)
        shift.say(Word.NEXT)
    learned = learn(shift.sitting)
    assert learned is not None
    assert learned.fitted == 2
    assert [one.factor for one in learned.stays] == [pytest.approx(1.0, rel=0.03)] * 2


def test_no_factor_is_believed_that_no_shop_can_have() -> None:
    """Work that was put into water, whatever the smith said."""
    shift = Shift(Section(0.04, 0.012))
    shift.feel(60.0, lambda at: HOT - (HOT - 800) * 0.9**at)
    shift.say(Word.OUT)
    shift.feel(20.0, lambda at: HOT - 40 * max(0.0, at - 6))
    shift.say(Word.NEXT)
    learned = learn(shift.sitting)
    assert learned is not None
    assert (learned.factor, learned.fitted) == (None, 0)


@pytest.mark.parametrize("times", [1.0, 1.3])
def test_hammer_time_is_held_against_what_happened(times: float) -> None:
    """The forecast goes by the shop as it ships: the work cools so many times as fast as it was told."""
    shift = Shift(THIN, PhaseKind.STRIKE)
    curve = lump(THIN, times, ANVIL)
    shift.heat(curve)
    shift.heat(curve, down_to=1000.0)
    learned = learn(shift.sitting)
    assert learned is not None
    down, back = learned.stays
    really = next(count / 100 for count in range(6000) if curve(count / 100) < 950)
    assert down.happened == pytest.approx(really, abs=0.5)
    assert down.forecast == pytest.approx(really * times, rel=0.05)
    assert (back.forecast, back.happened) == (pytest.approx(down.forecast, abs=0.3), None)


def test_with_the_factor_that_was_learned_the_forecast_comes_true() -> None:
    shift = Shift(THIN, PhaseKind.STRIKE, shop=Shop(1.3))
    shift.heat(lump(THIN, 1.3, ANVIL))
    learned = learn(shift.sitting)
    assert learned is not None
    stay = learned.stays[0]
    assert stay.happened is not None
    assert stay.forecast == pytest.approx(stay.happened, abs=0.7)


def test_as_the_log_keeps_it() -> None:
    shift = Shift(THIN, PhaseKind.STRIKE)
    shift.heat(lump(THIN, 1.0, ANVIL))
    learned = learn(shift.sitting)
    assert learned is not None
    found = learned_record(learned)
    assert found["cooling_factor"] == pytest.approx(1.0, rel=0.03)
    assert (found["cooling_factor_standard_error"], found["cooling_factor_in_force"]) == (None, 1.0)
    assert found["stays_fitted"] == 1
    stay = found["stays"][0]
    assert (stay["step"], stay["heat"], stay["phase"], stay["at_seconds"]) == (1, 1, "strike", 60.0)
    assert stay["hammer_time_measured_seconds"] == pytest.approx(stay["hammer_time_forecast_seconds"], abs=0.7)

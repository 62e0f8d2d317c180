"""What is learned of a shop, held against shops whose cooling is known because their physics is written here.

Nothing of the program's own solver is in most of these traces: a bar at one temperature throughout, integrated by
scipy, and a cross-section in two dimensions. Both stay above 900 degC, where EN 1993-1-2 gives steel 650 J/(kg K). Only
where it is said, the estimator is tried by itself, on the model's own curves.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import sqrt
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.special import erfcx

from plans.logbook.figures.learned import learn
from plans.logbook.figures.learned_json import learned_record
from plans.logbook.figures.of_a_sitting import Learned
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES, Phase, Plan, Step, StepKind, Target
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.warmth.course import Course
from plans.warmth.model import WarmModel
from plans.warmth.natural_convection import of_a_section
from plans.warmth.surroundings import ROOM, still_air, striking

AIR, STRIKE = PhaseKind.AIR, PhaseKind.STRIKE
ICE = 273.15
HOT = 1150.0
DENSITY, SPECIFIC_HEAT, CONDUCTIVITY = 7850.0, 650.0, 27.3
"""EN 1993-1-2, 3.4.1, above 900 degC and above 800 degC."""
CONVECTION = 11.35
"""Incropera et al., 6th ed., eq. 9.34 and table A.4, by hand: a round bar of 28 mm, which is as far round as 40 x 4 mm
and 30 x 14 mm, at 1000 degC in air at 20 degC [W/(m2 K)]."""

Curve = Callable[[float], float]
"""Skin in degC, so many seconds after it left the fire."""


def air_flux(celsius: Any) -> Any:
    """What scaled steel gives to air at 20 degC [W/m2]."""
    return 0.8 * 5.670374e-8 * ((celsius + ICE) ** 4 - 293.15**4) + CONVECTION * (celsius - 20)


def anvil(times: float) -> float:
    """Conductance of a face that an anvil touches for 0.15 s of every second [W/(m2 K)].

    Two half-spaces with a conductance of so many times 1000 W/(m2 K) between them: Incropera et al., 6th ed., eq. 5.60,
    with 1/e of both in series; tool steel of 40 W/(m K), 7850 kg/m3 and 500 J/(kg K), work by EN 1993-1-2.
    """
    conductance = 1000.0 * times
    effusivity = 1 / (1 / sqrt(40.0 * 7850 * 500) + 1 / sqrt(CONDUCTIVITY * DENSITY * SPECIFIC_HEAT))
    passed, _ = quad(lambda at: conductance * float(erfcx(conductance * sqrt(at) / effusivity)), 0.0, 0.15)
    return float(passed)


def lump(section: Section, air: float, contact: float | None = None) -> Curve:
    """A long bar at one temperature throughout that gives so many times as much to the air, and to an anvil.

    Without `contact` it lies on none. The face that the anvil touches gives nothing to the air meanwhile.
    """
    around = 2 * (section.width + section.thickness)
    face = 0.0 if contact is None else section.width / around
    conductance = 0.0 if contact is None else anvil(contact)

    def rate(_: float, celsius: Any) -> Any:
        flux = air * air_flux(celsius) * (1 - 0.15 * face) + conductance * face * (celsius - 80)
        return -flux / (DENSITY * SPECIFIC_HEAT * section.area / around)

    solved = solve_ivp(rate, (0.0, 60.0), [HOT], dense_output=True, rtol=1e-8)
    return lambda at: float(solved.sol(at)[0])


@dataclass(frozen=True)
class Halves:
    """Half of a cross-section in finite volumes, in the air or on an anvil that lies below."""

    section: Section
    air: float
    contact: float | None = None
    across: int = 12
    deep: int = 16

    def below(self, celsius: Any) -> Any:
        if self.contact is None:
            return self.air * air_flux(celsius)
        return 0.85 * self.air * air_flux(celsius) + anvil(self.contact) * (celsius - 80)

    def aside(self, celsius: Any) -> Any:
        return self.air * air_flux(celsius)

    def curve(self) -> Curve:
        """The mean of the skin."""
        dx, dy = self.section.width / 2 / self.across, self.section.thickness / self.deep
        shape = (self.across, self.deep)

        def skins(cells: Any) -> tuple[Any, Any, Any]:
            """Of the side, the face above and the face below."""
            return (
                _surface(cells[-1], dx / 2, self.aside),
                _surface(cells[:, -1], dy / 2, self.aside),
                _surface(cells[:, 0], dy / 2, self.below),
            )

        def rate(_: float, flat: Any) -> Any:
            cells = flat.reshape(shape)
            heat = np.zeros_like(cells)
            along = CONDUCTIVITY * np.diff(cells, axis=0) / dx * dy
            heat[:-1] += along
            heat[1:] -= along
            through = CONDUCTIVITY * np.diff(cells, axis=1) / dy * dx
            heat[:, :-1] += through
            heat[:, 1:] -= through
            side, above, below = skins(cells)
            heat[-1] -= self.aside(side) * dy
            heat[:, -1] -= self.aside(above) * dx
            heat[:, 0] -= self.below(below) * dx
            return (heat / (DENSITY * SPECIFIC_HEAT * dx * dy)).ravel()

        even = np.full(self.across * self.deep, HOT)
        solved = solve_ivp(rate, (0.0, 90.0), even, method="BDF", dense_output=True, rtol=1e-6)

        def mean(at: float) -> float:
            side, above, below = skins(solved.sol(at).reshape(shape))
            faces = self.section.width * (above.mean() + below.mean()) / 2 + self.section.thickness * side.mean()
            return float(faces / (self.section.width + self.section.thickness))

        return mean


def _surface(cell: Any, half: float, flux: Callable[[Any], Any]) -> Any:
    """The skin before a cell that is felt `half` of it away [degC]."""
    surface = cell
    for _ in range(3):
        surface = cell - flux(surface) * half / CONDUCTIVITY
    return surface


def cross_section(section: Section, air: float, contact: float | None = None) -> Curve:
    """The mean of the skin of a cross-section, with so many times as much heat to the air and to an anvil."""
    return Halves(section, air, contact).curve()


def own_curve(section: Section, air: float, contact: float | None = None) -> Curve:
    """The model's own curve, so that nothing but the estimator is tried."""
    model = WarmModel(section, None, HOT + ICE)
    around = still_air(convection=of_a_section(section, ROOM)).scaled(air)
    course = Course(model.piece, model.heat, around if contact is None else striking(around=around, times=contact))
    return lambda at: course.warmth_at(at).skin - ICE


@dataclass
class Shift:
    """A sitting, its probe, and a smith who says every word in time; a step for each of the phases."""

    section: Section
    phases: tuple[PhaseKind, ...] = (AIR,)
    heats: int = 999
    noise: float = 2.0
    hertz: float = 4.0
    shop: Shop = field(default_factory=Shop)
    probe_on: ProbeOn | None = ProbeOn.WORK
    seed: int = 1

    def __post_init__(self) -> None:
        steps = tuple(self.step(phase) for phase in self.phases)
        self.sitting = Sitting(Plan("one", "One", "", (), steps, ""), self.probe_on, shop=self.shop)
        self.sitting.open()
        self.at = 0.0
        self.chance = Random(self.seed)
        self.sitting.take(Said(0.0, Word.NEXT))

    def step(self, outside: PhaseKind) -> Step:
        kind = StepKind.NORMALIZE if outside is AIR else StepKind.DRAW
        return Step(
            "Work it",
            kind,
            tuple(Phase(phase, until=500 + ICE if phase is AIR else None) for phase in USUAL_PHASES[kind]),
            heats=self.heats,
            targets=(Target(HOT + 40 + ICE, HOT + ICE),),
            keep_above=950 + ICE if kind is StepKind.DRAW else None,
            section=self.section,
        )

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

    def learned(self) -> Learned:
        found = learn(self.sitting)
        assert found is not None
        return found


THIN = Section(0.04, 0.004)


@pytest.mark.parametrize("times", [0.7, 1.0, 1.3])
def test_a_thin_bar_tells_how_fast_the_air_of_this_shop_cools(times: float) -> None:
    shift = Shift(THIN)
    for _ in range(4):
        shift.heat(lump(THIN, times))
    cooling = shift.learned().cooling
    assert cooling.stays == 4
    assert cooling.value == pytest.approx(times, rel=0.03)
    assert cooling.spread is not None
    assert cooling.spread < 0.03 * times


@pytest.mark.parametrize("times", [0.5, 1.0, 2.0, 3.0])
def test_a_thin_bar_tells_how_fast_the_anvil_of_this_shop_cools(times: float) -> None:
    """To two standard errors, which hold what is not known of the air."""
    shift = Shift(THIN, (STRIKE,), shop=Shop(1.0, 0.02))
    for _ in range(4):
        shift.heat(lump(THIN, 1.0, times))
    contact = shift.learned().contact
    assert contact is not None
    assert contact.stays == 4
    assert contact.spread is not None
    assert contact.value == pytest.approx(times, abs=2 * contact.spread)
    assert contact.spread < 0.25 * times


@pytest.mark.parametrize("times", [0.7, 1.0, 1.3])
def test_a_thick_bar_that_lags_inside_tells_it_too(times: float) -> None:
    section = Section(0.03, 0.014)
    shift = Shift(section)
    shift.heat(curve := cross_section(section, times))
    shift.heat(curve)
    assert shift.learned().cooling.value == pytest.approx(times, rel=0.03)


@pytest.mark.parametrize("times", [0.5, 1.0, 2.0])
def test_a_thick_bar_tells_of_the_anvil_too(times: float) -> None:
    section = Section(0.03, 0.014)
    shift = Shift(section, (STRIKE,), shop=Shop(1.0, 0.02))
    curve = cross_section(section, 1.0, times)
    for _ in range(3):
        shift.heat(curve)
    contact = shift.learned().contact
    assert contact is not None
    assert contact.spread is not None
    assert contact.value == pytest.approx(times, abs=2 * contact.spread)
    assert contact.spread < 0.15 * max(times, 1.0)


@pytest.mark.parametrize("curve", [own_curve, lump])
def test_air_and_contact_are_told_apart(curve: Callable[[Section, float, float | None], Curve]) -> None:
    """Once by the model's own curve, which tries the estimator alone, and once by physics that is written here."""
    shift = Shift(THIN, (STRIKE, AIR), heats=5)
    for _ in range(5):
        shift.heat(curve(THIN, 1.2, 2.0))
    shift.say(Word.NEXT)
    for _ in range(5):
        shift.heat(curve(THIN, 1.2, None))
    learned = shift.learned()
    assert [stay.phase for stay in learned.stays] == [STRIKE] * 5 + [AIR] * 5
    cooling, contact = learned.cooling, learned.contact
    assert contact is not None
    assert cooling.spread is not None
    assert contact.spread is not None
    # The doubt of a factor is never taken for less than 2.5 %.
    assert cooling.value == pytest.approx(1.2, abs=2 * max(cooling.spread, 0.025 * 1.2))
    assert contact.value == pytest.approx(2.0, abs=2 * contact.spread)
    assert contact.spread < 0.1 * 2.0, "three standard errors tell it from 1.4"
    assert (cooling.stays, contact.stays) == (5, 5)


def test_strikes_alone_leave_the_air_as_it_was() -> None:
    shift = Shift(THIN, (STRIKE,), shop=Shop(1.2, 0.03))
    for _ in range(4):
        shift.heat(lump(THIN, 1.2, 2.0))
    learned = shift.learned()
    assert (learned.cooling.value, learned.cooling.spread, learned.cooling.stays) == (None, None, 0)
    assert learned.cooling.went_by == 1.2
    contact = learned.contact
    assert contact is not None
    assert contact.spread is not None
    assert contact.value == pytest.approx(2.0, abs=2 * contact.spread)


def test_air_that_was_never_measured_leaves_contact_in_more_doubt() -> None:
    spreads = []
    for shop in (Shop(), Shop(1.0, 0.04), Shop(1.0, 0.03)):
        shift = Shift(THIN, (STRIKE,), shop=shop)
        for _ in range(4):
            shift.heat(lump(THIN, 1.0, 2.0))
        contact = shift.learned().contact
        assert contact is not None
        spreads.append(contact.spread or 0.0)
    assert spreads == sorted(spreads, reverse=True)
    assert spreads[0] > 1.5 * spreads[2]


def test_one_heat_on_the_anvil_tells_too_little_of_contact() -> None:
    shift = Shift(THIN, (STRIKE,))
    shift.heat(lump(THIN, 1.0, 2.0))
    learned = shift.learned()
    assert learned.contact is not None
    assert (learned.contact.value, learned.contact.spread, learned.contact.stays) == (None, None, 1)
    assert learned.found == {}


def test_so_do_heats_that_differ_too_much() -> None:
    """An anvil that takes nothing nearly, then three times as much: scattered by more than half of what fits best."""
    shift = Shift(THIN, (STRIKE,))
    for times in (0.1, 3.0, 0.1, 0.1):
        shift.heat(lump(THIN, 1.0, times))
    contact = shift.learned().contact
    assert contact is not None
    assert (contact.value, contact.spread, contact.stays) == (None, None, 4)


def test_the_next_sitting_has_narrower_ranges_that_hold_what_happens() -> None:
    shift = Shift(THIN, (STRIKE, AIR), heats=5)
    for _ in range(5):
        shift.heat(lump(THIN, 1.2, 2.0))
    shift.say(Word.NEXT)
    for _ in range(5):
        shift.heat(lump(THIN, 1.2))
    learned = shift.learned()
    air, contact = learned.cooling, learned.contact
    assert air.value is not None
    assert contact is not None
    assert contact.value is not None
    shop = Shop(air.value, air.spread, contact.value, contact.spread)
    again = Shift(THIN, (STRIKE,), shop=shop, seed=2)
    again.heat(lump(THIN, 1.2, 2.0))
    before, after = (one.learned().stays[0] for one in (shift, again))
    widths = []
    for stay in (before, after):
        forecast = stay.forecast
        assert forecast is not None
        assert forecast.least is not None
        assert forecast.most is not None
        assert stay.happened is not None
        assert forecast.least < stay.happened < forecast.most
        assert forecast.least < forecast.likely < forecast.most
        widths.append((forecast.most - forecast.least) / forecast.likely)
    assert widths[1] < 0.7 * widths[0]
    assert after.forecast is not None
    assert after.forecast.likely == pytest.approx(after.happened, abs=0.7)


@pytest.mark.parametrize("hertz", [1.0, 10.0])
def test_however_often_the_probe_speaks(hertz: float) -> None:
    shift = Shift(THIN, hertz=hertz)
    for _ in range(4):
        shift.heat(lump(THIN, 1.3))
    assert shift.learned().cooling.value == pytest.approx(1.3, rel=0.03)


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
    assert shift.learned().cooling.value == pytest.approx(1.0, rel=0.04)


def test_the_factor_does_not_hang_on_the_one_that_the_sitting_went_by() -> None:
    found = []
    for shop in (Shop(), Shop(1.8)):
        shift = Shift(THIN, shop=shop)
        shift.heat(lump(THIN, 1.0))
        found.append(shift.learned().cooling)
    assert found[0].value == found[1].value
    assert (found[0].went_by, found[1].went_by) == (1.0, 1.8)


def test_the_spread_is_known_from_two_stays_on_and_shrinks_with_more() -> None:
    """Draughts that differ from stay to stay by a tenth: the standard error falls as one over the root of how many."""
    chance = Random(5)
    shift = Shift(THIN)
    spreads: dict[int, float | None] = {}
    for count in range(1, 33):
        shift.heat(lump(THIN, 1.0 + chance.gauss(0, 0.1)))
        if count in (1, 8, 32):
            cooling = shift.learned().cooling
            assert cooling.stays == count
            spreads[count] = cooling.spread
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
    cooling = shift.learned().cooling
    assert (cooling.value, cooling.spread, cooling.stays) == (None, None, 0)
    assert len(shift.learned().stays) == 2


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
    learned = shift.learned()
    assert learned.cooling.stays == 2
    assert [one.factor for one in learned.stays] == [pytest.approx(1.0, rel=0.03)] * 2


def test_no_factor_is_believed_that_no_shop_can_have() -> None:
    """Work that was put into water, whatever the smith said."""
    shift = Shift(Section(0.04, 0.012))
    shift.feel(60.0, lambda at: HOT - (HOT - 800) * 0.9**at)
    shift.say(Word.OUT)
    shift.feel(20.0, lambda at: HOT - 40 * max(0.0, at - 6))
    shift.say(Word.NEXT)
    cooling = shift.learned().cooling
    assert (cooling.value, cooling.stays) == (None, 0)


@pytest.mark.parametrize(("air", "contact"), [(1.0, 1.0), (1.3, 1.0), (1.0, 2.0)])
def test_hammer_time_is_held_against_what_happened(air: float, contact: float) -> None:
    """The forecast goes by the shop as it ships, whatever this one does; what happens is within its range."""
    shift = Shift(THIN, (STRIKE,))
    curve, shipped = lump(THIN, air, contact), lump(THIN, 1.0, 1.0)
    shift.heat(curve)
    shift.heat(curve, down_to=1000.0)
    down, back = shift.learned().stays
    really, forecast = (
        next(count / 100 for count in range(6000) if each(count / 100) < 950) for each in (curve, shipped)
    )
    assert down.happened == pytest.approx(really, abs=0.5)
    assert down.forecast is not None
    assert down.forecast.likely == pytest.approx(forecast, rel=0.05)
    assert down.forecast.least is not None
    assert down.forecast.most is not None
    assert down.forecast.least < really < down.forecast.most
    assert back.forecast is not None
    assert (back.forecast.likely, back.happened) == (pytest.approx(down.forecast.likely, abs=0.3), None)


def test_with_the_factors_that_were_learned_the_forecast_comes_true() -> None:
    shift = Shift(THIN, (STRIKE,), shop=Shop(1.3, 0.03, 2.0, 0.1))
    shift.heat(lump(THIN, 1.3, 2.0))
    stay = shift.learned().stays[0]
    assert stay.happened is not None
    assert stay.forecast is not None
    assert stay.forecast.likely == pytest.approx(stay.happened, abs=0.7)


def test_as_the_log_keeps_it() -> None:
    shift = Shift(THIN, (STRIKE,))
    for _ in range(2):
        shift.heat(lump(THIN, 1.0, 1.0))
    found = learned_record(shift.learned())
    assert (found["cooling_factor"], found["cooling_factor_in_force"], found["stays_fitted"]) == (None, 1.0, 0)
    assert found["contact_factor"] == pytest.approx(1.0, abs=2 * found["contact_factor_standard_error"])
    assert (found["contact_factor_in_force"], found["contact_stays_fitted"]) == (1.0, 2)
    stay = found["stays"][0]
    assert (stay["step"], stay["heat"], stay["phase"], stay["at_seconds"]) == (1, 1, "strike", 60.0)
    assert (stay["cooling_factor"], stay["contact_factor"]) == (None, pytest.approx(1.0, rel=0.3))
    assert stay["hammer_time_measured_seconds"] == pytest.approx(stay["hammer_time_forecast_seconds"], abs=0.7)
    least, most = (stay[f"hammer_time_forecast_{end}_seconds"] for end in ("least", "most"))
    assert least < stay["hammer_time_measured_seconds"] < most

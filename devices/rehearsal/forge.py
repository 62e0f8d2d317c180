"""The forge in the rehearsal: a fire that wanders, draughts, an anvil, oil, and the work that goes between them."""

from __future__ import annotations

from math import ceil, exp, sqrt
from random import Random

from devices.rehearsal.bar import Bar
from devices.rehearsal.bath import Bath, bath_of
from plans.phase import OUTSIDE, WARMING, PhaseKind
from plans.plan import Plan, Step, StepKind
from plans.shapes import Section

ROOM = 293.15
"""Temperature of the smithy, and of the work before it is first heated [K]."""
_RADIATION = 5.670374419e-8
_ANVIL = 330.0
_STILL_TOO_HOT = 30.0
"""By so much the fire may still be hotter than the plan has it when work is laid in [K]."""
_HELD_LOW = 0.25
"""By so much of what the fire is above the heat it is kept lower than the plan has it, where nothing is struck."""
_CREEPS_LESS = 0.3
"""So much of what the gas creeps up by else is noticed late there."""
_LONGEST_STEP = 2.0
"""A longer moment, one of a long wait, goes by in steps no longer than this [s]; in it the gas is looked after."""
_DEEPEST_CHILL = 3.0
"""However much cold work lies in it, the fire falls by no more than this: the smith gives it more gas [K/s]."""
_LATEST_SECTION = Section(0.025, 0.025)
"""For a plan that names no section at all [m]."""
_BENCH = Bath(ROOM, 1500.0, 1500.0, 1500.0)
"""An hour at the bench is played in a minute, so the work has to cool as much in it; a dip may follow it at once."""


class Forge:
    """Where the work is, how hot the fire is, and what that does to the work.

    `place` says what goes on; `step` lets time pass.

    Args:
        plan: gives sections, and how hot the smith sets his fire
        chance: everything random comes from this generator, so that the same seed makes the same fire
    """

    def __init__(self, plan: Plan, chance: Random) -> None:
        self._plan = plan
        self._chance = chance
        sections = [step.section for step in plan.steps if step.section] + [bar.section for bar in plan.bars]
        self._section = sections[0] if sections else _LATEST_SECTION
        self._length: float | None = plan.bars[0].length if plan.bars else None
        self.bar = Bar(self._section, self._length, ROOM)
        """The work, whose skin the probe measures."""
        targets = [step.targets[0].fire for step in plan.steps if step.targets]
        self._burner = targets[0] if targets else 1400.0
        self._lining = self._burner
        self._wander = 0.0
        self._chill = 0.0
        self._creeps = 1.0
        self._surge = 0.0
        self._surge_left = 0.0
        self._scale = 0.6
        self._flux = 0.0
        self._draught = 0.0
        self._draught_left = 0.0
        self._blows_left = 0
        self._phase = PhaseKind.READY
        self._heat: tuple[int, int] = (-1, 0)
        self._oven = ROOM
        self._bath = _BENCH

    @property
    def fire(self) -> float:
        """Temperature of the fire as the work sees it now [K]."""
        return self._lining + self._wander - self._chill

    def place(self, phase: PhaseKind, number: int, heat: int) -> None:
        """Put the work where a phase of the plan has it; nothing happens where it is there already.

        Args:
            phase: what goes on: in the fire, under the hammer, in the oil
            number: of the step in the plan, from 0; a step that is not in the plan is ignored
            heat: of the step, from 1
        """
        if (phase, (number, heat)) == (self._phase, self._heat) or not 0 <= number < len(self._plan.steps):
            return
        step = self._plan.steps[number]
        if (number, heat) != self._heat:
            self._reshape(step, heat)
            self._heat = (number, heat)
        if target := step.target(heat):
            self._burner, self._creeps = target.fire, 1.0
            if all(part.kind is not PhaseKind.STRIKE for part in step.phases):
                # Where nothing is struck the heat itself is what counts: the gas is looked after, and kept low.
                self._burner -= _HELD_LOW * (target.fire - target.heat_to)
                self._creeps = _CREEPS_LESS
        if phase is PhaseKind.OVEN:
            self._oven = next((part.at for part in step.phases if part.at), 473.0)
        if phase is PhaseKind.QUENCH:
            self._bath = bath_of(next((part.medium for part in step.phases if part.kind is phase), ""))
        elif phase is PhaseKind.DIP or phase is PhaseKind.BENCH:
            self._bath = _BENCH
        came_from, self._phase = self._phase, phase
        if phase in WARMING and came_from not in WARMING:
            # The door stands open for as long as it takes to lay the work in.
            self._chill += self._chance.uniform(15.0, 40.0)
            # Into a fire that is far too hot he lays nothing: it has come down before, in time that is not rehearsed.
            self._lining = min(self._lining, self._burner + _STILL_TOO_HOT)
            if step.kind is StepKind.WELD:
                self._flux = 1.0
        if phase is PhaseKind.STRIKE:
            # The first blows throw off scale and flux.
            self._scale = min(self._scale, self._chance.uniform(0.1, 0.4))
            self._flux *= 0.3

    def turn_down(self) -> None:
        """Give the fire a little less gas for a while, as it is too hot for the heat."""
        if self._surge >= 0.0:
            self._surge, self._surge_left = -self._chance.uniform(10.0, 20.0), 60.0

    def step(self, seconds: float) -> None:
        """Let a while go by [s]: fire, draught and surges move, and the work takes up heat or gives it off."""
        for _ in range(parts := ceil(seconds / _LONGEST_STEP)):
            self._breathe(seconds / parts, surges=parts == 1)
            self._warm(seconds / parts)

    def _warm(self, seconds: float) -> None:
        bar, phase = self.bar, self._phase
        skin = bar.skin
        emissivity = 0.72 + 0.14 * self._scale - 0.06 * self._flux
        radiated, sent_back, moved = emissivity * _RADIATION * skin**3, 0.0, 0.0
        if phase in WARMING:
            around, moved = self.fire, 45.0
            sent_back = emissivity * _RADIATION * around**4
            load = (sent_back - radiated * skin + moved * (around - skin)) * bar.outside * min(self._length or 0.2, 0.3)
            self._chill += max(0.0, min(load / 4000.0, _DEEPEST_CHILL)) * seconds
            self._scale += (1.0 - self._scale) * (1.0 - exp(-seconds / 90.0))
        elif phase is PhaseKind.READY or phase in OUTSIDE:
            around, moved = ROOM, (16.0 if phase is PhaseKind.STRIKE else 9.0) + self._draught
            sent_back = emissivity * _RADIATION * ROOM**4
            if skin > 900.0:
                self._scale += (1.0 - self._scale) * (1.0 - exp(-seconds / 40.0))
        elif phase is PhaseKind.OVEN:
            around, moved = self._oven, 20.0
            radiated = 0.8 * _RADIATION * skin**3
            sent_back = 0.8 * _RADIATION * around**4
        else:
            radiated = 0.0
            around, moved = self._bath.kelvin, self._bath.conductance(skin)
        flux = sent_back - radiated * skin + moved * (around - skin)
        steepness = 4.0 * radiated + moved
        if phase is PhaseKind.STRIKE:
            blow = self._blow(seconds)
            flux += blow * (_ANVIL - skin)
            steepness += blow
        bar.step(seconds, flux, steepness)

    def _reshape(self, step: Step, heat: int) -> None:
        section = step.section_at(heat)
        if section is None:
            return
        if step.section and step.length:
            self._length = step.length * step.section.area / section.area
        elif section != self._section and self._length:
            self._length *= self._section.area / section.area
        self._section = section
        self.bar.reshape(section, self._length)

    def _breathe(self, seconds: float, surges: bool) -> None:
        """The fire follows the burner and wanders (Ornstein-Uhlenbeck, 7 K, 60 s); draughts and surges come and go."""
        chance = self._chance
        if self._surge_left > 0.0:
            self._surge_left -= seconds
        else:
            self._surge = 0.0
            if surges and chance.random() < seconds / 900.0:
                # The gas creeps up for a while before he notices.
                self._surge = self._creeps * chance.uniform(30.0, 70.0)
                self._surge_left = chance.uniform(60.0, 150.0)
        self._lining += (self._burner + self._surge - self._lining) * (1.0 - exp(-seconds / 25.0))
        kept = exp(-seconds / 60.0)
        self._wander = self._wander * kept + 7.0 * sqrt(1.0 - kept * kept) * chance.gauss(0.0, 1.0)
        self._chill *= exp(-seconds / 35.0)
        if self._draught_left > 0.0:
            self._draught_left -= seconds
        else:
            self._draught = 0.0
            if chance.random() < seconds / 45.0:
                self._draught = chance.uniform(20.0, 70.0)
                self._draught_left = chance.uniform(2.0, 10.0)

    def _blow(self, seconds: float) -> float:
        """What anvil and hammer take in this while, as a conductance over the whole surface [W/(m2 K)].

        Blows come about 1.4 to the second, in bouts of six to twelve with a turn of the work between. One touches
        a fifth of the surface for some 20 ms at some 4000 W/(m2 K); from memory, nothing was found in print.
        """
        if self._blows_left <= 0:
            if self._chance.random() < seconds / 1.5:
                self._blows_left = self._chance.randint(6, 12)
            return 0.0
        if self._chance.random() >= 1.4 * seconds:
            return 0.0
        self._blows_left -= 1
        return 4000.0 * 0.2 * self._chance.uniform(0.012, 0.03) / seconds

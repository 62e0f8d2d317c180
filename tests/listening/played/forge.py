"""Work, fire and air for traces that the program has not seen. Nothing of the program's is used, formulas neither.

A plate of steel in slices from skin to middle, explicit in time; a fire that wanders, sags when its door opens and
comes back; still air, draughts and an anvil. Figures are round ones, from memory: what matters is the shape of the
traces.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

ROOM = 22.0
"""[degC]"""
_STEFAN = 5.67e-8
_DENSITY = 7800.0
_LATENT = 80e3
"""Of the change between pearlite and austenite [J/kg]."""
_TURNS_UP, _TURNS_DOWN = 738.0, 702.0
"""Where the change begins on heating and may begin on cooling [degC]."""
_SLICE = 0.003
"""[m]"""


@dataclass
class Truth:
    """What really happened and when [s]."""

    ins: list[float] = field(default_factory=list)
    outs: list[float] = field(default_factory=list)
    arrests: list[tuple[float, float]] = field(default_factory=list)
    """From 3 to 95 % of the change."""
    cold: list[float] = field(default_factory=list)
    """When the skin fell below the limit."""
    at_heat: list[float] = field(default_factory=list)
    """When the skin first came up to its target in a fire."""

    @property
    def begun(self) -> list[float]:
        """When each arrest began."""
        return [begin for begin, _ in self.arrests]


class Work:
    """Half a plate, slice by slice.

    Args:
        thickness: of the plate [mm]
    """

    def __init__(self, thickness: float, celsius: float = ROOM, transforms: bool = True) -> None:
        half = thickness / 2000
        count = max(1, round(half / _SLICE))
        self._slice = half / count
        self.slices = [celsius] * count
        self._turned = [0.0 if celsius > _TURNS_UP else 1.0] * count
        """How much of each slice is pearlite."""
        self._transforms = transforms

    @property
    def skin(self) -> float:
        """[degC]"""
        return self.slices[0]

    @property
    def pearlite(self) -> float:
        """Share of the whole that is not austenite."""
        return sum(self._turned) / len(self._turned)

    def step(self, flux: float, seconds: float) -> None:
        """A moment with `flux` going in through the skin [W/m2]."""
        slices = self.slices
        conducted = [27.0 * (slices[i] - slices[i + 1]) / self._slice for i in range(len(slices) - 1)]
        incoming = [flux, *conducted]
        outgoing = [*conducted, 0.0]
        for index, celsius in enumerate(slices):
            capacity = 460.0 + 0.4 * celsius if celsius < 720 else 620.0
            change = (incoming[index] - outgoing[index]) * seconds / (_DENSITY * self._slice)
            if self._transforms:
                change += self._turn(index, celsius, seconds)
            slices[index] = celsius + change / capacity

    def _turn(self, index: int, celsius: float, seconds: float) -> float:
        """Heat set free by the change in a moment [J/kg]."""
        pearlite = self._turned[index]
        if celsius > _TURNS_UP and pearlite > 0:
            turned = -min(pearlite, 0.0025 * (celsius - _TURNS_UP) * seconds)
        elif 450 < celsius < _TURNS_DOWN and pearlite < 1:
            # It feeds on itself: late to begin, then quick enough to hold or raise the temperature.
            rate = ((_TURNS_DOWN - celsius) / 18.0) ** 2 * (pearlite + 0.015) * (1 - pearlite) * 0.25
            turned = min(1 - pearlite, rate * seconds)
        else:
            return 0.0
        self._turned[index] = pearlite + turned
        return turned * _LATENT


class Forge:
    """Where the work is, and what that does to it; whoever watches is told of every moment.

    Args:
        work: what is heated
        chance: for all that wanders
        fire: what the burner is set to [degC]
        sag: how far an opened door cools the fire: a temperature difference [K]
        recovery: time constant of its coming back [s]
        limit: too cold below this while it is out [degC]
        target: at heat above this [degC]
        moment: how finely time goes [s]
    """

    def __init__(
        self,
        work: Work,
        chance: Random,
        fire: float = 1290.0,
        sag: float = 30.0,
        recovery: float = 15.0,
        limit: float | None = None,
        target: float | None = None,
        moment: float = 0.05,
    ) -> None:
        self.work, self.chance, self.burner = work, chance, fire
        self.sag, self.recovery = sag, recovery
        self.limit, self.target = limit, target
        self.moment = moment
        self.at = 0.0
        self.truth = Truth()
        self.watchers: list[Watcher] = []
        self._chamber, self._wander = fire, 0.0
        self._inside = False
        self._breeze = 1.0
        self._anvil = 0.0
        self._cold_told = self._heat_told = True
        self._arrest_from: float | None = None

    def go(self, seconds: float) -> None:
        """Let time pass."""
        end = self.at + seconds
        while self.at < end - self.moment / 2:
            self._moment()

    def put_in(self, seconds: float = 0.0) -> None:
        """Into the fire, through a door that stands open for a while."""
        self.truth.ins.append(self.at)
        self._inside, self._heat_told = True, False
        self.open_door()
        self.go(seconds)

    def take_out(self, seconds: float = 0.0, breeze: float = 1.0) -> None:
        """Out into air that takes `breeze` times what still air takes by convection."""
        self.truth.outs.append(self.at)
        self._inside, self._cold_told, self._breeze = False, False, breeze
        self.go(seconds)

    def look(self, seconds: float) -> None:
        """Out and straight back in, which is no heat: for flux, or only to see."""
        self._inside, self._breeze = False, 1.0
        self.go(seconds)
        self._inside = True
        self.open_door()

    def heat_up(self, celsius: float, hold: float) -> None:
        """Wait in the fire until the skin has come up, and hold it."""
        while self.work.skin < celsius:
            self._moment()
        self.go(hold)

    def cool_down(self, celsius: float, touch_every: float | None = None) -> None:
        """Wait outside until the skin is down to `celsius`, on the anvil now and then."""
        blow = self.at + (touch_every or 0.0)
        while self.work.skin > celsius:
            self._moment()
            if touch_every and self.at >= blow:
                blow = self.at + self.chance.uniform(0.5, 1.5) * touch_every
                self._anvil = self.chance.uniform(0.2, 0.6)

    def open_door(self) -> None:
        """The fire sags at once and comes back by and by."""
        self._chamber -= self.sag * self.chance.uniform(0.6, 1.2)

    def set_chamber(self, celsius: float) -> None:
        """The fire is as hot as that now, whatever its burner is set to."""
        self._chamber = celsius

    def draught(self, breeze: float) -> None:
        """From now on the air takes so many times what still air takes by convection."""
        self._breeze = breeze

    def pass_over(self) -> None:
        """A moment in which nothing happens to the work but what was done to it from without."""
        self.at += self.moment
        for watcher in self.watchers:
            watcher.look(self)

    def _moment(self) -> None:
        self._chamber += (self.burner - self._chamber) * self.moment / self.recovery
        self._wander += self.chance.gauss(0, 0.35) * self.moment**0.5 - self._wander * self.moment / 60
        skin = self.work.skin
        around = self._chamber + self._wander if self._inside else ROOM
        convection = 35.0 if self._inside else 9.0 * self._breeze
        flux = 0.78 * _STEFAN * ((around + 273) ** 4 - (skin + 273) ** 4) + convection * (around - skin)
        if self._anvil > 0:
            self._anvil -= self.moment
            flux -= 1000.0 * (skin - 80.0)
        self.work.step(flux, self.moment)
        self.pass_over()
        self._note()

    def _note(self) -> None:
        truth, skin, pearlite = self.truth, self.work.skin, self.work.pearlite
        if not self._heat_told and self.target is not None and skin >= self.target:
            self._heat_told = True
            truth.at_heat.append(self.at)
        if not self._cold_told and self.limit is not None and skin < self.limit:
            self._cold_told = True
            truth.cold.append(self.at)
        if self._inside or pearlite < 0.03:
            self._arrest_from = None
        elif self._arrest_from is None and pearlite < 0.9:
            self._arrest_from = self.at
        elif self._arrest_from is not None and pearlite > 0.95 and self._arrest_from not in truth.begun:
            truth.arrests.append((self._arrest_from, self.at))


class Watcher:
    """Sees every moment of a forge."""

    def look(self, forge: Forge) -> None:
        """A moment has passed."""
        raise NotImplementedError

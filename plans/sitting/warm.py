"""The warm model run along a sitting, on a clock grid of its own, so that it never depends on how often it is asked."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from math import isnan, nan

from plans.phase import STEADY, PhaseKind, Place
from plans.plan import Plan, Step
from plans.reading import ProbeOn
from plans.section import Section
from plans.shop import Shop
from plans.sitting.undo import WorkBefore
from plans.warmth import (
    ROOM,
    Snapshot,
    Surroundings,
    WarmModel,
    fire,
    hammer_time,
    oil,
    skin_time,
    soak_time,
    still_air,
    striking,
)

GRID = 0.5
"""Spacing of the grid on which the warm model runs and the sitting decides [s]."""
_COOLING_EVERY = 10
"""Grid points between two steps of the model where nothing hangs on it."""


@dataclass(frozen=True, slots=True)
class Exposure:
    """What the work is exposed to: it says in which surroundings, and in what shape, the warm model has it."""

    step: int
    """Number of the step that is going on, from 0."""
    heat: int
    """Number of the heat in the step, from 1."""
    phase: PhaseKind
    """What is going on."""
    in_the_air: bool
    """Whether it is in the air whatever the phase: the smith pauses, or carries it to the quench."""


class WorkWarmth:
    """The warm model run along a sitting: skin and middle of the work at every grid point since it began.

    While the smith pauses, the work is taken to lie in the air: the model never says hotter than it is.

    Args:
        plan: tells sections, fires and ovens
        probe_on: where the probe sits; None without one
        shop: the smith's own figures
    """

    def __init__(self, plan: Plan, probe_on: ProbeOn | None, shop: Shop) -> None:
        self._plan = plan
        self.probe_on = probe_on
        """Where the probe sits; None without one."""
        self._shop = shop
        self._model: WarmModel | None = None
        self._shape: tuple[Section, float | None] | None = None
        self.skin = array("d")
        """Modelled skin at each grid point [K]; NaN before the first section is known."""
        self.middle = array("d")
        """Modelled middle at each grid point [K]; NaN before the first section is known."""
        self._probe = array("d")
        """What the probe said at each grid point, filtered [K]; NaN where it said nothing."""
        self._thin: WarmModel | None = None
        """The thin part while it is struck."""
        self._thin_in: tuple[int, int] | None = None
        """The step and the heat that it is struck in."""
        self._fit(Exposure(0, 1, PhaseKind.READY, in_the_air=False))

    @property
    def count(self) -> int:
        """Grid points so far."""
        return len(self.skin)

    @property
    def known(self) -> bool:
        """Whether the work's warmth has been modelled yet."""
        return self._model is not None and self.count > 0

    @property
    def thin(self) -> Snapshot | None:
        """The whole state of the thin part while it is struck; None without a thin part, and while none is struck."""
        return None if self._thin is None else self._thin.snapshot()

    def remember(self) -> WorkBefore:
        """The work as it is, for `go_back`."""
        whole = None if self._model is None else self._model.snapshot()
        return WorkBefore(self.count, whole, self._shape, self.thin, self._thin_in)

    def go_back(self, before: WorkBefore, exposure: Exposure) -> None:
        """Go back to how the work was, and come up to now again as if it had been in `exposure` ever since."""
        heard = self._probe[before.count :]
        for column in (self.skin, self.middle, self._probe):
            del column[before.count :]
        self._shape = before.shape
        self._model = _restored(before.whole)
        self._thin, self._thin_in = _restored(before.thin), before.thin_in
        for kelvin in heard:
            self.advance(exposure, None if isnan(kelvin) else kelvin)

    def advance(self, exposure: Exposure, probe: float | None) -> None:
        """Go on by one grid point.

        Args:
            exposure: what the work is exposed to
            probe: what the probe says, filtered [K]; None without one
        """
        self._fit(exposure)
        self._probe.append(nan if probe is None else probe)
        if self._model is None:
            self.skin.append(nan)
            self.middle.append(nan)
            return
        if probe is not None and self.probe_on is ProbeOn.WORK:
            self._model.step_following(GRID, probe)
        elif exposure.phase not in STEADY and not exposure.in_the_air:
            self._model.step(GRID, self.around(exposure, probe))
        elif self.count % _COOLING_EVERY == 0:
            self._model.step(GRID * _COOLING_EVERY, self.around(exposure, probe))
        self.skin.append(self._model.skin)
        self.middle.append(self._model.middle)
        self._cool_thin(exposure)

    def _cool_thin(self, exposure: Exposure) -> None:
        """The thin part comes out of the fire as hot as the work's skin, and from then on goes its own way."""
        section = self._plan.steps[exposure.step].thin
        strike = (exposure.step, exposure.heat)
        if section is None or exposure.phase is not PhaseKind.STRIKE:
            self._thin = self._thin_in = None
        elif self._thin is None or self._thin_in != strike:
            assert self._model is not None
            self._thin, self._thin_in = WarmModel(section, start=self._model.skin), strike
        else:
            # A pause is no fire: it goes on cooling where the work does.
            self._thin.step(GRID, self._air if exposure.in_the_air else self._struck(section))

    def assume_skin(self, exposure: Exposure, probe: float | None, kelvin: float) -> None:
        """The smith sees that the skin is at `kelvin`; the middle still lags as far as this fire makes it."""
        if self._model is not None:
            self._model.assume_skin(kelvin, self.around(exposure, probe))

    def around(self, exposure: Exposure, probe: float | None) -> Surroundings:
        """What the work gives its heat to, or takes it from."""
        step = self._plan.steps[exposure.step]
        if exposure.in_the_air:
            return self._air
        match exposure.phase.row.place:
            case Place.FIRE:
                return fire(self.fire_kelvin(step, exposure.heat, probe))
            case Place.ANVIL:
                return self._struck(self._shape[0]) if self._shape else self._air
            case Place.QUENCH:
                return oil()
            case Place.OVEN:
                at = next((phase.at for phase in step.phases if phase.kind is exposure.phase), None)
                return fire(at) if at is not None else self._air
            case _:
                return self._air

    @property
    def _air(self) -> Surroundings:
        return still_air().scaled(self._shop.cooling_factor)

    def _struck(self, section: Section) -> Surroundings:
        return striking(section).scaled(self._shop.cooling_factor)

    def fire_kelvin(self, step: Step, heat: int, probe: float | None) -> float:
        """The fire: what a probe in it says, else the plan's."""
        if probe is not None and self.probe_on is ProbeOn.FIRE:
            return probe
        target = step.target(heat)
        return ROOM if target is None else target.fire

    def until_skin(self, exposure: Exposure, probe: float | None, kelvin: float) -> float | None:
        """Seconds until the skin is up to `kelvin` in the fire; None when this fire never brings it there."""
        return None if self._model is None else skin_time(self._model, self.around(exposure, probe), kelvin)

    def until_middle(self, exposure: Exposure, probe: float | None, kelvin: float) -> float | None:
        """Seconds until the middle is up to `kelvin` in the fire; None when this fire never brings it there."""
        return None if self._model is None else soak_time(self._model, self.around(exposure, probe), kelvin)

    def until_cold(self, exposure: Exposure, kelvin: float) -> float | None:
        """Seconds until the skin falls to `kelvin`; None when it never does."""
        return None if self._model is None else hammer_time(self._model, self.around(exposure, None), kelvin)

    def until_thin_is_cold(self, kelvin: float) -> float | None:
        """Seconds until the thin part that is struck falls to `kelvin`, 0 once it has; None without one."""
        if self._thin is None:
            return None
        thin = self._thin
        return 0.0 if thin.skin <= kelvin else hammer_time(thin, self._struck(thin.section), kelvin)

    def _fit(self, exposure: Exposure) -> None:
        step = self._plan.steps[exposure.step]
        section = step.section_at(exposure.heat)
        if section is None:
            return
        shape = (section, step.length)
        if shape == self._shape:
            return
        if self._model is None:
            self._model = WarmModel(section, step.length)
        else:
            self._model.reshape(section, step.length)
        self._shape = shape


def _restored(snapshot: Snapshot | None) -> WarmModel | None:
    if snapshot is None:
        return None
    (width, thickness, is_round), length, _, _ = snapshot
    model = WarmModel(Section(width, thickness, is_round), length)
    model.restore(snapshot)
    return model

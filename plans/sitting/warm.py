"""The warm model run along a sitting, on a clock grid of its own, so that it never depends on how often it is asked."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from math import isnan, nan

from plans.phase import STEADY
from plans.plan import PhaseKind, Plan, Step
from plans.reading import ProbeOn
from plans.section import Section
from plans.shop import Shop
from plans.warmth.forecast import hammer_time, skin_time, soak_time
from plans.warmth.model import Snapshot, WarmModel
from plans.warmth.surroundings import ROOM, Surroundings, fire, oil, still_air, striking

GRID = 0.5
"""Spacing of the grid [s]."""
_COOLING_EVERY = 10
"""Grid points between two steps of the model where nothing hangs on it."""


@dataclass(frozen=True, slots=True)
class Where:
    """What is going on with the work, as far as its warmth goes."""

    step: int
    heat: int
    phase: PhaseKind
    in_the_air: bool
    """Whatever the phase: the smith pauses, or carries the work."""


@dataclass(frozen=True, slots=True)
class _Mark:
    """The work as it was."""

    count: int
    snapshot: Snapshot | None
    shape: tuple[Section, float | None] | None
    thin: Snapshot | None
    thin_in: tuple[int, int] | None


class Warm:
    """Skin and middle of the work at every grid point since the sitting began.

    While the smith pauses, the work is taken to lie in the air: the model never says hotter than it is.
    """

    def __init__(self, plan: Plan, probe_on: ProbeOn | None, shop: Shop) -> None:
        self._plan = plan
        self.probe_on = probe_on
        self._shop = shop
        self._model: WarmModel | None = None
        self._shape: tuple[Section, float | None] | None = None
        self._marks: list[_Mark] = []
        self.skin = array("d")
        """Modelled skin at each grid point [K]; NaN before the first section is known."""
        self.middle = array("d")
        self._probe = array("d")
        self._thin: WarmModel | None = None
        """The thin part while it is struck."""
        self._thin_in: tuple[int, int] | None = None
        """The step and the heat that it is struck in."""
        self._fit(Where(0, 1, PhaseKind.READY, in_the_air=False))

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
        """The whole state of the thin part while it is struck; None without one."""
        return None if self._thin is None else self._thin.snapshot()

    def mark(self) -> None:
        """Remember the work as it is, for an undo."""
        snapshot = None if self._model is None else self._model.snapshot()
        self._marks.append(_Mark(self.count, snapshot, self._shape, self.thin, self._thin_in))

    def forget_marks(self) -> None:
        """Nothing that was remembered is to be gone back to."""
        self._marks.clear()

    def take_back(self, where: Where, moved: bool) -> None:
        """Go back to the last mark and come up to now again, as if the work had been `where` all along."""
        mark = self._marks.pop()
        if not moved:
            return
        heard = self._probe[mark.count :]
        for column in (self.skin, self.middle, self._probe):
            del column[mark.count :]
        self._shape = mark.shape
        self._model = _restored(mark.snapshot)
        self._thin, self._thin_in = _restored(mark.thin), mark.thin_in
        for kelvin in heard:
            self.advance(where, None if isnan(kelvin) else kelvin)

    def advance(self, where: Where, probe: float | None) -> None:
        """One grid point on.

        Args:
            where: what is going on
            probe: what the probe says, filtered; None without one [K]
        """
        self._fit(where)
        self._probe.append(nan if probe is None else probe)
        if self._model is None:
            self.skin.append(nan)
            self.middle.append(nan)
            return
        if probe is not None and self.probe_on is ProbeOn.WORK:
            self._model.step_following(GRID, probe)
        elif where.phase not in STEADY and not where.in_the_air:
            self._model.step(GRID, self.around(where, probe))
        elif self.count % _COOLING_EVERY == 0:
            self._model.step(GRID * _COOLING_EVERY, self.around(where, probe))
        self.skin.append(self._model.skin)
        self.middle.append(self._model.middle)
        self._cool_thin(where)

    def _cool_thin(self, where: Where) -> None:
        """The thin part comes out of the fire as hot as the work's skin, and from then on goes its own way."""
        section = self._plan.steps[where.step].thin
        strike = (where.step, where.heat)
        if section is None or where.phase is not PhaseKind.STRIKE:
            self._thin = self._thin_in = None
        elif self._thin is None or self._thin_in != strike:
            assert self._model is not None
            self._thin, self._thin_in = WarmModel(section, start=self._model.skin), strike
        else:
            # A pause is no fire: it goes on cooling where the work does.
            self._thin.step(GRID, self._air if where.in_the_air else self._struck(section))

    def assume_skin(self, where: Where, probe: float | None, kelvin: float) -> None:
        """The smith sees that the skin is at `kelvin`; the middle still lags as far as this fire makes it."""
        if self._model is not None:
            self._model.assume_skin(kelvin, self.around(where, probe))

    def around(self, where: Where, probe: float | None) -> Surroundings:
        """What the work gives its heat to, or takes it from."""
        step = self._plan.steps[where.step]
        if where.in_the_air:
            return self._air
        match where.phase:
            case PhaseKind.FIRE | PhaseKind.SOAK:
                return fire(self.fire_kelvin(step, where.heat, probe))
            case PhaseKind.STRIKE:
                return self._struck(self._shape[0]) if self._shape else self._air
            case PhaseKind.QUENCH:
                return oil()
            case PhaseKind.OVEN:
                at = next((phase.at for phase in step.phases if phase.kind is PhaseKind.OVEN), None)
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

    def until_skin(self, where: Where, probe: float | None, kelvin: float) -> float | None:
        """Seconds until the skin is up to `kelvin` in the fire; None when this fire never brings it there."""
        return None if self._model is None else skin_time(self._model, self.around(where, probe), kelvin)

    def until_middle(self, where: Where, probe: float | None, kelvin: float) -> float | None:
        """Seconds until the middle is up to `kelvin` in the fire; None when this fire never brings it there."""
        return None if self._model is None else soak_time(self._model, self.around(where, probe), kelvin)

    def until_cold(self, where: Where, kelvin: float) -> float | None:
        """Seconds until the skin falls to `kelvin`; None when it never does."""
        return None if self._model is None else hammer_time(self._model, self.around(where, None), kelvin)

    def until_thin_is_cold(self, kelvin: float) -> float | None:
        """Seconds until the thin part that is struck falls to `kelvin`, 0 once it has; None without one."""
        if self._thin is None:
            return None
        thin = self._thin
        return 0.0 if thin.skin <= kelvin else hammer_time(thin, self._struck(thin.section), kelvin)

    def _fit(self, where: Where) -> None:
        step = self._plan.steps[where.step]
        section = step.section_at(where.heat)
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

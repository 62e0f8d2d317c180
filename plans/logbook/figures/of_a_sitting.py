"""The figures of a sitting: heats, soaks, temperatures, time struck too cold, calls, notes, cost and what was learned.

All in SI, and rounded as the log keeps them, so that figures that were loaded equal those that were worked out.
"""

from __future__ import annotations

from enum import StrEnum

from plans.phase import PhaseKind
from plans.plan import StepKind
from plans.record import record
from plans.sitting import Basis, Called, Note

LEAST_TOO_COLD = 0.5
"""Work struck too cold for less is not spoken of: no reading tells times that are shorter [s]."""


class HeatEnd(StrEnum):
    """How a heat ended.

    A heat is done once the work has come out of the fire for what its step wants, struck, cooled or quenched, and did
    not go back in within the same heat; in an oven or a bath, once it went in. One cut off counts as no heat, but the
    time in the fire was spent, and the steel paid for it.
    """

    DONE = "done"
    """The work came out for what the step wants."""
    CUT_OFF = "cut off"
    """The smith went back, on, or finished while the work still lay in the fire."""
    UNDER_WAY = "under way"
    """The sitting was left while the work lay in the fire, and can be gone on with."""


@record
class HeatFigures:
    """One heat of a step: how long it was where, and how hot its skin was."""

    heat: int
    """Number of the heat within its step, from 1."""
    in_fire: float
    """How long it lay in the fire, the soak with it, pauses left out [s]."""
    soak: float
    """How long it soaked, pauses left out [s]."""
    strike: float
    """How long it was struck, pauses left out [s]."""
    air: float
    """How long it cooled in the air, pauses left out [s]."""
    hold: float
    """How long it was held in quench, oven or bath, pauses left out [s]."""
    too_cold: float
    """How long it was struck below the cold limit, pauses left out [s]."""
    peak: float | None
    """The hottest that its skin was [K]; None where neither probe nor model knew it."""
    leaving: float | None
    """Its skin when it left the fire [K]; None where it was in none or did not leave it, or nobody knew it."""
    lowest_struck: float | None
    """The coldest that its skin was while it was struck [K]; None where it was not, or nobody knew it."""
    basis: Basis
    """Measured where a probe on the work was believed for four fifths of the heat or more, and for the coldest moment
    in which it was struck; else modelled."""
    end: HeatEnd = HeatEnd.DONE
    """How it ended."""
    at_welding_heat: float | None = None
    """How long its skin was as hot as a weld wants it, pauses left out [s]; None where its step is no weld, and in the
    figures of earlier versions."""

    @property
    def is_done(self) -> bool:
        """Whether it counts as a heat."""
        return self.end is HeatEnd.DONE

    @property
    def was_too_cold(self) -> bool:
        """Whether it was struck too cold for long enough to speak of."""
        return self.too_cold >= LEAST_TOO_COLD


@record
class StepFigures:
    """One step of the plan that was come to, with its heats."""

    step: int
    """Number of the step, from 0."""
    title: str
    """The step's title in the plan."""
    kind: StepKind
    """What kind of work it is."""
    heats: tuple[HeatFigures, ...]
    """Its heats in order, those that never began left out."""

    @property
    def done(self) -> int:
        """How many of its heats were done."""
        return sum(heat.is_done for heat in self.heats)

    @property
    def reheats(self) -> int:
        """How often its work went back into the fire, in heats that were cut off too."""
        return max(0, sum(heat.in_fire > 0 for heat in self.heats) - 1)

    @property
    def too_cold(self) -> float:
        """How long its work was struck below the cold limit in all heats together [s]."""
        return sum(heat.too_cold for heat in self.heats)


@record
class Loss:
    """A depth that was lost, with what it may be in truth."""

    value: float
    """The depth, modelled [m]."""
    least: float | None
    """The low end of what it may be [m]; None where the error is not known."""
    most: float | None
    """The high end of what it may be [m]; None where the error is not known."""


@record
class LayersLeft:
    """How far the carbon of a layered stack evened out."""

    thickness: float
    """Thickness of a layer in the end [m]."""
    difference_left: float
    """How much of the difference in carbon between layers is left, as a share from 0 to 1."""
    least: float | None
    """The low end of what that share may be; None where the error is not known."""
    most: float | None
    """The high end of what that share may be; None where the error is not known."""
    validity: str
    """Where the model holds and what it leaves out, in words for the smith."""


@record
class SteelCost:
    """What a sitting cost the steel: carbon and metal lost, layers evened out; all modelled."""

    carbon: float | None
    """Carbon of the bar that has most [% by mass]; None where no bar's steel is known."""
    decarb: Loss | None
    """Depth to which carbon was lost; None where nothing got hot, or the carbon is not known."""
    scale: Loss | None
    """Depth of metal lost to scale on each face; None where nothing got hot."""
    layers: LayersLeft | None
    """How far layers evened out; None where no step says how many there are, or nothing got hot."""


@record
class Forecast:
    """A time that was forecast, with its range."""

    likely: float
    """What was most likely [s]."""
    least: float | None = None
    """The least that it could be [s]; None where no range was reckoned, as by the first versions."""
    most: float | None = None
    """The most that it could be [s]; None where it might never have come, or no range was reckoned."""


@record
class StayLearned:
    """What one stay of the work outside the fire tells."""

    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat within the step, from 1."""
    phase: PhaseKind
    """Struck, or cooled in the air."""
    began: float
    """When the work left the fire, in seconds since the sitting began."""
    factor: float | None
    """The factor that this stay has by itself: of contact for one that was struck, of cooling for one in the air; None
    where it was too short."""
    forecast: Forecast | None
    """Hammer time of the skin as it was reckoned when the work left the fire; None where none is counted."""
    happened: float | None
    """Hammer time of the skin as it was measured [s]; None where the work went back before it was over."""


@record
class Factor:
    """One factor on what the warm model has by itself, as a sitting tells it."""

    value: float | None
    """What fits all its stays together best; None where none of them tells it, or it is none that a shop can have."""
    spread: float | None
    """Its standard error; None where that is not known, as from a single stay."""
    went_by: float
    """What the sitting's forecasts went by."""
    stays: int
    """How many stays it was fitted to."""


@record
class Learned:
    """What a sitting with a probe on the work tells of the shop: how fast work cools here, outside the fire."""

    cooling: Factor
    """On what the work gives to the air, by radiation and convection."""
    contact: Factor | None
    """On the contact conductance of the tools; None where it was not told apart: the first versions fitted one factor
    to stays in the air and on the anvil alike, which stands as `cooling`."""
    stays: tuple[StayLearned, ...]
    """Every stay outside the fire that the probe felt, in order."""

    @property
    def found(self) -> dict[str, Factor]:
        """The factors that were found, by the key that files have for each."""
        named = {"cooling_factor": self.cooling, "contact_factor": self.contact}
        return {key: factor for key, factor in named.items() if factor is not None and factor.value is not None}


@record
class SittingFigures:
    """All figures of a sitting, in SI, rounded as the log keeps them."""

    steps: tuple[StepFigures, ...]
    """Every step that was come to, in order."""
    calls: tuple[Called, ...]
    """Every call that was made, in order; of the first versions without the temperatures that they were about."""
    notes: tuple[Note, ...]
    """Every note that the smith left, in order."""
    cost: SteelCost | None = None
    """What it cost the steel; None where that was not worked out."""
    learned: Learned | None = None
    """What it tells of the shop; None where no probe on the work felt it outside the fire, or nobody worked it out."""
    learning_done: bool = False
    """Whether it was worked out what the sitting tells; not so in sittings kept by the first versions."""

    @property
    def heats(self) -> tuple[HeatFigures, ...]:
        """The heats of all steps, in order, those that were cut off too."""
        return tuple(heat for step in self.steps for heat in step.heats)

    @property
    def done(self) -> int:
        """How many heats were done in all steps together."""
        return sum(step.done for step in self.steps)

    @property
    def too_cold(self) -> float:
        """How long work was struck below the cold limit in all steps together [s]."""
        return sum(step.too_cold for step in self.steps)

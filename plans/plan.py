"""A plan: an ordered list of steps, each with its phases and targets, in SI: kelvin, metres, seconds.

How a plan is written in its file stands in plans/reader/keys.py; here is what has been made of it.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from plans.blows import Blows
from plans.phase import PhaseKind
from plans.record import record
from plans.shapes import Section


class StepKind(StrEnum):
    """What a step is for; decides its usual phases and its cautions."""

    WELD = "weld"
    """Joining pieces in the fire."""
    DRAW = "draw"
    """Making the work longer and thinner."""
    FORGE = "forge"
    """Giving it its shape."""
    NORMALIZE = "normalize"
    """Heating it through and letting it cool in the air, for a fine and even grain."""
    ANNEAL = "anneal"
    """Heating it and cooling it slowly, to make it soft."""
    HARDEN = "harden"
    """Heating it and quenching it."""
    TEMPER = "temper"
    """Holding hardened work in an oven, to make it tough."""
    ETCH = "etch"
    """Dipping it, to bring out its layers."""
    BENCH = "bench"
    """Anything that is done cold."""


USUAL_PHASES: Final[dict[StepKind, tuple[PhaseKind, ...]]] = {
    StepKind.WELD: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE),
    StepKind.DRAW: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE),
    StepKind.FORGE: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE),
    StepKind.NORMALIZE: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.AIR),
    StepKind.ANNEAL: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.AIR),
    StepKind.HARDEN: (PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.QUENCH),
    StepKind.TEMPER: (PhaseKind.OVEN, PhaseKind.AIR),
    StepKind.ETCH: (PhaseKind.DIP, PhaseKind.BENCH),
    StepKind.BENCH: (PhaseKind.BENCH,),
}
"""The phases of a step of each kind, in order, where its plan does not name others."""

THIN_NAME: Final = "thin part"
"""What the part that goes cold first is called where the plan does not say."""
EVEN_WITHIN: Final = 15.0
"""The middle counts as even with the skin when it is this near, where the plan does not say: a temperature
difference [K]."""


@record
class Phase:
    """One phase of a step. An attribute that its kind of phase does not use is None or empty."""

    kind: PhaseKind
    """What is going on in it."""
    seconds: float | None = None
    """How long a soak, quench, oven or dip phase lasts, or an air phase at most [s]; None where that is not set: a
    soak then goes by the warm model, an air phase by `until` or the smith's word."""
    until: float | None = None
    """Temperature below which the work must have fallen for an air phase to end [K]; None where there is none."""
    at: float | None = None
    """Temperature of the oven in an oven phase [K]."""
    within: float | None = None
    """Longest time from the fire into the quench, or from the end of the step before into the oven [s]; None where
    there is no hurry."""
    medium: str = ""
    """What the work goes into in a quench or dip phase, in the plan's words."""
    at_most: float | None = None
    """Time after which a soak is called out for going on too long [s]; None where there is no such time."""
    cue: str = ""
    """How to work in this phase, in a few words that stand while it goes on: "light, quick blows, middle first"; empty
    where the plan says nothing."""


@record
class Target:
    """What one heat of a step aims at. A falling normalizing step has a different one for each heat."""

    fire: float
    """Temperature of the fire [K]."""
    heat_to: float
    """Skin temperature that ends the fire phase; the soak brings the middle up to it [K]."""


@record
class Step:
    """One step of a plan, with everything filled in that its file may leave out."""

    title: str
    """What to do, in a few words of one line."""
    kind: StepKind
    """What the step is for."""
    phases: tuple[Phase, ...]
    """The phases in their order; all of them run once for each heat."""
    instruction: str = ""
    """What to do, at length: paragraphs with an empty line between two; empty where the plan says no more."""
    heats: int = 1
    """How often the phases are planned to run: heats, cycles, holds or dips, as `counts` calls them."""
    targets: tuple[Target, ...] = ()
    """What each planned heat aims at, one target for each; empty where the step has no fire."""
    even_within: float = EVEN_WITHIN
    """The soak is done when the middle is this near to `heat_to`: a temperature difference [K]."""
    keep_above: float | None = None
    """Cold limit, below which striking must stop [K]; None where nothing is struck."""
    burn_above: float | None = None
    """Burn limit, above which the steel is damaged [K]; None where the plan sets none."""
    flux_at: float | None = None
    """Skin temperature at which the work is fluxed on its way up in each heat [K]; None where it is not."""
    section: Section | None = None
    """Section of the work when the step begins; None where it is not known."""
    length: float | None = None
    """Length of the work when the step begins [m]; None where it is not known."""
    reach: Section | None = None
    """Section to stop at; None where the step does not change it, or the plan sets none."""
    reach_length: float | None = None
    """Length to stop at [m]; None where the plan sets none."""
    thin: Section | None = None
    """Section of the part that goes cold first, a point, a tang, an edge; None where there is none."""
    thin_length: float | None = None
    """Length over which the work tapers to `thin` [m]; None where the thin part is as thin all along."""
    thin_name: str = THIN_NAME
    """What the part that goes cold first is called."""
    layers: int | None = None
    """How many layers the thickness of the work holds when the step begins; None where it is not layered."""
    checklist: tuple[str, ...] = ()
    """What to check when the step is done, a line each."""
    cautions: tuple[str, ...] = ()
    """The plan's own cautions on this step, besides those of the step's kind, a line each."""
    blows: Blows | None = None
    """What the work is struck with; None for a hammer in the hand."""
    turn_every: float | None = None
    """Interval of a cadence for even work round the bar, which sounds while it is struck [s]; None for no cadence."""

    def target(self, heat: int) -> Target | None:
        """The target of heat number `heat`, from 1; heats beyond the plan keep the last one. None without a fire."""
        if not self.targets:
            return None
        return self.targets[min(heat, len(self.targets)) - 1]

    def welding_from(self, heat: int) -> float | None:
        """The skin temperature from which the work of heat number `heat`, from 1, is at welding heat [K]; None where it
        is not welded."""
        target = self.target(heat) if self.kind is StepKind.WELD else None
        return None if target is None else target.heat_to - self.even_within

    def section_at(self, heat: int) -> Section | None:
        """The section that goes into the fire for heat number `heat` (from 1), shrinking evenly over the planned heats.

        None where the section at the beginning is not known.
        """
        if self.section is None or self.reach is None:
            return self.section
        return self.section.on_the_way_to(self.reach, (heat - 1) / self.heats)

    @property
    def heats_in_fire(self) -> int:
        """How often the work is planned to go into the fire; 0 for a step without one."""
        return self.heats if any(phase.kind is PhaseKind.FIRE for phase in self.phases) else 0

    @property
    def counts(self) -> str:
        """The word for one run through the phases: heat, cycle, hold or dip."""
        kinds = {phase.kind for phase in self.phases}
        if PhaseKind.STRIKE in kinds:
            return "heat"
        if PhaseKind.OVEN in kinds:
            return "hold"
        if PhaseKind.DIP in kinds:
            return "dip"
        return "cycle" if PhaseKind.AIR in kinds else "heat"


@record
class Bar:
    """One piece of stock that a plan starts from."""

    name: str
    """What the plan calls it, e.g. edge, back, core."""
    steel: str
    """Grade of the steel as the plan writes it, e.g. 1084; it need not be one that this program knows."""
    section: Section
    """Cross-section of the bar."""
    length: float
    """Length of the bar [m]."""


@record
class Plan:
    """A whole plan, as read from its file."""

    name: str
    """File name without its ending: what the plan is called on the command line."""
    title: str
    """What it is called on the shelf."""
    about: str
    """What comes out and for whom it is: paragraphs with an empty line between two; empty where it does not say."""
    bars: tuple[Bar, ...]
    """The stock that it starts from; empty where it does not say."""
    steps: tuple[Step, ...]
    """What is done, in order; at least one step."""
    source: str
    """The text that it was read from; the log keeps it, so that a sitting never depends on a file."""

    @property
    def heats_in_fire(self) -> int:
        """How often the work is planned to go into the fire, all steps together."""
        return sum(step.heats_in_fire for step in self.steps)

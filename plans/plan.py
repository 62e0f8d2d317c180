"""A plan: an ordered list of steps, each with its phases and targets. Plain SI inside: kelvin, metres, seconds."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from plans.phase import PhaseKind as PhaseKind
from plans.section import Section


class StepKind(StrEnum):
    """What a step is for; decides its usual phases and its cautions."""

    WELD = "weld"
    DRAW = "draw"
    FORGE = "forge"
    NORMALIZE = "normalize"
    ANNEAL = "anneal"
    HARDEN = "harden"
    TEMPER = "temper"
    ETCH = "etch"
    BENCH = "bench"


USUAL_PHASES: dict[StepKind, tuple[PhaseKind, ...]] = {
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


THIN_NAME = "thin part"


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase of a step. What a kind does not use stays None."""

    kind: PhaseKind
    seconds: float | None = None
    """Set time: soak (None: the warm model decides), air, quench, oven, dip [s]."""
    until: float | None = None
    """air: done when the work has fallen below this [K]."""
    at: float | None = None
    """oven: its temperature [K]."""
    within: float | None = None
    """quench: longest time from the fire; oven: longest time from the end of the step before [s]."""
    medium: str = ""
    """quench and dip: what it goes into."""
    at_most: float | None = None
    """soak: longer than this is called out [s]."""


@dataclass(frozen=True, slots=True)
class Target:
    """What one heat of a step aims at. A falling normalizing step has a different one for each heat."""

    fire: float
    """Temperature of the fire [K]."""
    heat_to: float
    """Skin temperature that ends the fire phase; the soak brings the middle up to it [K]."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a plan."""

    title: str
    kind: StepKind
    phases: tuple[Phase, ...]
    instruction: str = ""
    heats: int = 1
    """Planned repeats of the phases: heats, cycles, holds or dips."""
    targets: tuple[Target, ...] = ()
    """One for each planned heat; empty where the step has no fire."""
    even_within: float = 15.0
    """The soak is done when the middle is within this of `heat_to`: a temperature difference [K]."""
    keep_above: float | None = None
    """Cold limit: stop striking below it [K]."""
    burn_above: float | None = None
    """Burn limit: the steel is damaged above it [K]."""
    section: Section | None = None
    """The work's section when the step begins."""
    length: float | None = None
    """The work's length when the step begins [m]."""
    reach: Section | None = None
    """Section to stop at."""
    reach_length: float | None = None
    """Length to stop at [m]."""
    thin: Section | None = None
    """The part that goes cold first: a point, a tang, an edge."""
    thin_name: str = THIN_NAME
    layers: int | None = None
    """How many layers the work's thickness holds when the step begins."""
    checklist: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    """The plan's own cautions, besides those of the step's kind."""
    turn_every: float | None = None
    """strike: a cadence for even work round the bar sounds at this interval [s]."""

    def target(self, heat: int) -> Target | None:
        """The target of heat number `heat` (from 1); heats beyond the plan keep the last one."""
        if not self.targets:
            return None
        return self.targets[min(heat, len(self.targets)) - 1]

    def section_at(self, heat: int) -> Section | None:
        """The section that goes into the fire for heat `heat` (from 1), shrinking evenly over the planned heats."""
        if self.section is None or self.reach is None:
            return self.section
        return self.section.on_the_way_to(self.reach, (heat - 1) / self.heats)

    @property
    def counts(self) -> str:
        """The word for one repeat: heat, cycle, hold, dip."""
        kinds = {phase.kind for phase in self.phases}
        if PhaseKind.STRIKE in kinds:
            return "heat"
        if PhaseKind.OVEN in kinds:
            return "hold"
        if PhaseKind.DIP in kinds:
            return "dip"
        return "cycle" if PhaseKind.AIR in kinds else "heat"


@dataclass(frozen=True, slots=True)
class Bar:
    """One piece of stock that a plan starts from."""

    name: str
    steel: str
    section: Section
    length: float
    """[m]"""


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole plan, as read from its file."""

    name: str
    """File name without its ending; how the plan is called on the command line."""
    title: str
    about: str
    bars: tuple[Bar, ...]
    steps: tuple[Step, ...]
    source: str
    """The text it was read from; the log keeps it, so that a sitting never depends on a file."""

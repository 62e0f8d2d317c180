"""What stands out in a sitting, as data, and in a sentence for the smith."""

from __future__ import annotations

from enum import IntEnum, StrEnum

from plans.plan import StepKind
from plans.record import record
from plans.shown import show_duration
from plans.sitting import Basis
from plans.units import Units


class Toll(IntEnum):
    """What something costs, the dearest first: this is what "most costly" means wherever findings are put in order."""

    SPOILED = 1
    """The steel itself is damaged, and no heat puts that right."""
    DOUBTFUL = 2
    """What the step was for may not have come about, and that shows only later: at the grinder, or in use."""
    WASTED = 3
    """Fire, steel and time that the plan had not reckoned with."""

    @property
    def word(self) -> str:
        """It in a word, as files have it: "spoiled"."""
        return self.name.lower()

    @property
    def words(self) -> str:
        """It in a few words for the smith."""
        match self:
            case Toll.SPOILED:
                return "steel damaged, which no heat puts right"
            case Toll.DOUBTFUL:
                return "work that may not hold, which shows only later"
            case Toll.WASTED:
                return "fire, steel and time for nothing"


class What(StrEnum):
    """What it is that stands out, as files write it."""

    BURNT = "over the burn limit"
    """The skin was hotter than the steel stands."""
    OVER_HEAT = "over its heat"
    """The skin of a heat treatment was hotter than it may be."""
    UNDER_HEAT = "under its heat"
    """The skin came out colder than the plan wants it."""
    MIDDLE_COLD = "middle under its heat"
    """The skin was at heat as it came out, and the middle was not."""
    TOO_COLD = "struck too cold"
    """The work was struck below the cold limit."""
    QUENCH_LATE = "quench late"
    """The work was too long on its way into the quench, or too cold."""
    TEMPER_LATE = "temper late"
    """Hardened work waited for the oven longer than the plan allows."""
    HOLD_SHORT = "hold cut short"
    """A quench, an oven hold or a dip was ended before its time."""
    SOAK_SHORT = "soak cut short"
    """The work came out before its soak was done."""
    SOAK_LONG = "soaked too long"
    """The work lay in the fire after it had been called out."""
    CUT_OFF = "cut off"
    """A heat that was in the fire and came to nothing."""
    MORE_HEATS = "more heats than planned"
    """A step took more heats than the plan has."""


@record
class Finding:
    """One thing that stands out in a sitting."""

    what: What
    """What it is."""
    toll: Toll
    """What it costs."""
    beyond: float
    """How many times as much it is as may be; among those of one toll the greatest is the most costly."""
    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat within the step, from 1."""
    kind: StepKind
    """What kind of work the step is."""
    counts: str
    """What the step calls one run through its phases: heat, cycle, hold or dip."""
    at: float
    """The moment on the trace that it speaks of, in seconds since the sitting began."""
    amount: float | None
    """How much it was: a temperature difference [K], a time [s], or heats; None where nobody knows."""
    limit: float | None = None
    """What it was held against: a temperature [K], or a time [s]; None where there is none."""
    basis: Basis = Basis.MEASURED
    """What it stands on; a time by the clock counts as measured."""

    def text(self, units: Units) -> str:
        """It in a sentence without a full stop: "Heat 4 of step 5 was struck 21 s below 900 degC"."""
        sentence = self._sentence(units)
        # The middle is never measured, and "about" says so.
        by_model = self.basis is Basis.MODELLED and self.what is not What.MIDDLE_COLD
        return f"{sentence}, modelled" if by_model else sentence

    def _sentence(self, units: Units) -> str:
        which = f"{self.counts} {self.heat} of step {self.step + 1}"
        its, limit = which.capitalize(), "" if self.limit is None else units.temperature(self.limit)
        degrees, took = _degrees(self.amount or 0.0, units), show_duration(self.amount or 0.0)
        heat = "welding heat" if self.kind is StepKind.WELD else f"its {limit}"
        wanted = "" if self.limit is None else f" of {show_duration(self.limit)}"
        match self.what:
            case What.BURNT:
                return f"{its} went {degrees} over the burn limit of {limit}"
            case What.OVER_HEAT:
                return f"{its} went {degrees} over its {limit}"
            case What.UNDER_HEAT:
                return f"{its} came out {degrees} under {heat}"
            case What.MIDDLE_COLD:
                return f"The middle was about {_about(self.amount or 0.0, units)} under {heat} when {which} came out"
            case What.TOO_COLD:
                return f"{its} was struck {took} below {limit}"
            case What.QUENCH_LATE:
                hot = "" if self.amount is None else f", at {units.temperature(self.amount)}"
                return f"{its} came late into the quench{hot}"
            case What.TEMPER_LATE:
                return f"Step {self.step + 1} came {took} late into the oven, hardened as it was"
            case What.HOLD_SHORT:
                return f"{its} was {took} short{wanted}"
            case What.SOAK_SHORT:
                return f"{its} was soaked {took} short{wanted}"
            case What.SOAK_LONG:
                return f"{its} lay in the fire {took} after it was called soaked too long"
            case What.CUT_OFF:
                return f"{its} came to nothing after {took} in the fire"
            case What.MORE_HEATS:
                return f"Step {self.step + 1} took {self.amount:.0f} {self.counts}s, {self.limit:.0f} planned"


def _degrees(kelvin: float, units: Units) -> str:
    """A temperature difference as a sentence has it: "40 degC", where a table would have kelvin."""
    return f"{units.difference(kelvin, unit=False)} {units.degree}"


def _about(kelvin: float, units: Units) -> str:
    """The same to the ten degrees that a model can answer for."""
    return f"{round(units.to_difference(kelvin), -1):.0f} {units.degree}"

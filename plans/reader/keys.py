"""Every key of a plan file, each declared once: plan, bar, step, and the tables of the phases.

To add a key of a step, declare it in `StepKeys` and give `plans.plan.Step` an attribute of the same name; one of a
phase's table goes likewise into its class here and into `plans.plan.Phase`. `python -m plans.reader.schema` then
writes the files anew that are made from this one.
"""

from __future__ import annotations

from typing import Any, Final

from plans.blows import StruckBy
from plans.phase import PhaseKind
from plans.plan import EVEN_WITHIN, THIN_NAME, StepKind
from plans.reader.answer_keys import AnswerKeys
from plans.reader.declaring import ManyNested, Nested, key
from plans.reader.meanings import KINDS_MEANT, PHASES_MEANT
from plans.reader.value_types import (
    AUTO,
    KINDS,
    PHASES,
    Auto,
    Choice,
    Choices,
    Count,
    CrossSection,
    Line,
    Lines,
    OrAuto,
    Paragraphs,
    Quantity,
    QuantityOrEach,
    Range,
    Version,
)
from plans.record import record
from plans.shapes import Section
from plans.toml import TomlTable
from plans.units import kelvin

MOST_HEATS: Final = 99
"""Most heats of a step, and most temperatures of a list with one for each."""
BELOW_FIRE: Final = 30.0
"""`heat_to` lies this far below the fire unless the plan says otherwise: a temperature difference [K]."""

FIRE: Final = Range(kelvin(100), kelvin(1700), "from a warming oven to more than any steel stands")
"""Temperatures of a fire, and of work in it [K]."""
COOLED: Final = Range(kelvin(40), kelvin(1700), "waiting for what is cooler than a warm shop would never end")
"""Temperatures that work in the air can be waited for to reach [K]."""
OVEN: Final = Range(kelvin(30), kelvin(1300), "from a warm shop to the hottest kiln")
"""Temperatures of an oven [K]."""
EVEN: Final = Range(1.0, 100.0, "closer can't be measured, and further apart is not even")
"""How far apart skin and middle may be and still count as even: a temperature difference [K]."""
FLUX: Final = Range(
    kelvin(700), kelvin(1100), "colder, flux doesn't cling; hotter, the scale that it is to keep off has grown"
)
"""Temperatures to flux the work at [K]. Borax melts at 743 degC and clings from a dull red on; it is mostly put on at
850 to 900 degC. Common practice, from memory."""
TIME: Final = Range(0.5, 7 * 86400.0, "a shorter one can't be called, and none goes on for longer than a week")
"""Times of phases [s]."""
CADENCE: Final = Range(1.0, 60.0, "faster can't be told, and slower is none")
"""Intervals of a cadence [s]."""
CONTACT: Final = Range(0.001, 60.0, "no blow is shorter, and no squeeze longer")
"""How long tools touch the work, and how often [s]."""
LENGTH: Final = Range(0.001, 20.0, "no bar is shorter or longer")
"""Lengths of work and stock [m]."""
SIDE: Final = Range(0.0005, 1.0, "no bar is thinner or wider")
"""Each side of a section [m]."""

TOOLS: Final = tuple(StruckBy)
"""What may strike the work."""

_TEMPERATURE: Final = Quantity("temperature", FIRE)
_TIME: Final = Quantity("time", TIME)
_LENGTH: Final = Quantity("length", LENGTH)
_SECTION: Final = CrossSection(SIDE)
_NAME: Final = Line(60)
_TEXT: Final = Paragraphs(2000)
_ITEMS: Final = Lines(20, 160)
_TEMPERATURES: Final = QuantityOrEach("temperature", FIRE, MOST_HEATS)


@record(eq=False)
class AirKeys:
    """How an air phase ends: below a temperature, after a time, or both; with neither, by the smith's word."""

    until: float | None = key(Quantity("temperature", COOLED), '"480 degC"')
    """Done when the work has fallen below this; well below the arrest, e.g. 480 degC for black."""
    seconds: float | None = key(_TIME, '"10 min"', name="for")
    """Done after this time."""


@record(eq=False)
class QuenchKeys:
    """What the work is quenched in and for how long."""

    medium: str = key(_NAME, '"oil at {55 degC}"', required=True)
    """What it goes into, e.g. oil at {55 degC}."""
    seconds: float = key(_TIME, '"10 s"', name="for", required=True)
    """How long it stays in."""
    within: float | None = key(_TIME, '"3 s"')
    """Longest time from the fire into the quench."""


@record(eq=False)
class OvenKeys:
    """One hold in a tempering oven."""

    at: float = key(Quantity("temperature", OVEN), '"200 degC"', required=True)
    """Temperature of the oven."""
    seconds: float = key(_TIME, '"2 h"', name="for", required=True)
    """How long each hold lasts."""
    within: float | None = key(_TIME, '"2 h"')
    """Longest time from the end of the step before into the oven."""


@record(eq=False)
class DipKeys:
    """One dip in the etch."""

    medium: str = key(_NAME, '"ferric chloride, 1 part to 4 of water"', required=True)
    """What it goes into, e.g. ferric chloride, 1 part to 4 of water."""
    seconds: float = key(_TIME, '"12 min"', name="for", required=True)
    """How long each dip lasts."""


def _cue(phase: PhaseKind, example: str) -> Any:
    """The declaration of the cue of a phase."""
    return key(_NAME, f'"{example}"', phase=phase)


@record(eq=False)
class CuesKeys:
    """How to work in each phase, in a few words that stand while it goes on; up to 50 characters fit every screen."""

    fire: str | None = _cue(PhaseKind.FIRE, "turn it once or twice")
    """While the work comes up in the fire."""
    soak: str | None = _cue(PhaseKind.SOAK, "no shadow along the seam")
    """While it soaks: what shows that it is ready."""
    strike: str | None = _cue(PhaseKind.STRIKE, "light, quick blows, middle first")
    """While it is struck."""
    air: str | None = _cue(PhaseKind.AIR, "still air, no draught")
    """While it cools in the air."""
    quench: str | None = _cue(PhaseKind.QUENCH, "straight down, and move it up and down")
    """While it is in the quench."""
    oven: str | None = _cue(PhaseKind.OVEN, "go by a thermometer of its own")
    """While it is in the oven."""
    dip: str | None = _cue(PhaseKind.DIP, "move it now and then")
    """While it is in the bath."""
    bench: str | None = _cue(PhaseKind.BENCH, "fingers off the bright faces")
    """While it is worked cold."""


@record(eq=False)
class StepKeys:
    """One step of the plan. Its phases run in order, once for each heat."""

    title: str = key(_NAME, '"Weld the whole length"', required=True, default="", names=True)
    """What to do, as short as it goes: up to 40 characters fit every screen."""
    kind: StepKind = key(Choice(KINDS, KINDS_MEANT), '"weld"', required=True, default=StepKind.BENCH)
    """What the step is for. Decides its usual phases and its cautions."""
    instruction: str = key(_TEXT, '"Brush the scale off."', default="")
    """What to do, in the second person; the first sentence is the act."""
    phases: tuple[PhaseKind, ...] | None = key(
        Choices(PHASES, PHASES_MEANT), '["fire", "soak", "strike"]', otherwise="the usual ones of its kind"
    )
    """The phases of the step in order."""
    fire: float | tuple[float, ...] | None = key(
        _TEMPERATURES,
        '"1300 degC"',
        phase=PhaseKind.FIRE,
        needed='write the temperature of the fire, such as "1150 degC" or "2100 degF"',
    )
    """Temperature of the fire: one for all heats, or a list with one for each."""
    heat_to: float | tuple[float, ...] | None = key(
        _TEMPERATURES, '"1260 degC"', phase=PhaseKind.FIRE, otherwise=f"{BELOW_FIRE:g} K below the fire"
    )
    """Skin temperature that ends the fire phase: one for all heats, or a list. Lies below the fire."""
    flux_at: float | None = key(
        Quantity("temperature", FLUX), '"870 degC"', phase=PhaseKind.FIRE, otherwise="no flux is called for"
    )
    """Skin temperature at which the work is fluxed on its way up in each heat; below heat_to."""
    keep_above: float | None = key(
        _TEMPERATURE,
        '"1100 degC"',
        phase=PhaseKind.STRIKE,
        needed="write the cold limit, below which striking must stop",
    )
    """Cold limit: no blow below it. Lies below heat_to."""
    burn_above: float | None = key(_TEMPERATURE, '"1320 degC"', phase=PhaseKind.FIRE)
    """Burn limit: above it the steel is damaged. Lies above heat_to; a fire hotter than this is allowed, and warned of:
    some forges are run like that, with the work taken out in time."""
    soak: float | Auto = key(OrAuto(_TIME), '"2 min"', phase=PhaseKind.SOAK, default=AUTO, otherwise="auto")
    """How long to hold it once the skin is up; auto: until the warm model has the middle even with it."""
    soak_at_most: float | None = key(_TIME, '"5 min"', phase=PhaseKind.SOAK)
    """A longer soak is called out."""
    even_within: float = key(
        Quantity("temperature difference", EVEN),
        '"15 K"',
        phase=PhaseKind.SOAK,
        default=EVEN_WITHIN,
        otherwise=f"{EVEN_WITHIN:g} K",
    )
    """With soak auto: the middle is even when it is within this of heat_to."""
    heats: int | Auto | None = key(
        OrAuto(Count(MOST_HEATS)), "2", otherwise="one for each temperature in a list, or one"
    )
    """How often the phases are planned to run; auto: from section to reach at a reduction of area of 20 % a heat."""
    section: Section | None = key(_SECTION, '"31 x 18 mm"', otherwise="what the step before left, or the only bar")
    """The work's section when the step begins."""
    length: float | None = key(_LENGTH, '"153 mm"', otherwise="what the step before left, unless it has a new section")
    """The work's length when the step begins."""
    reach: Section | None = key(_SECTION, '"32 x 8 mm"')
    """The section to stop at."""
    reach_length: float | None = key(_LENGTH, '"313 mm"')
    """The length that comes out."""
    thin: Section | None = key(_SECTION, '"20 x 4 mm"')
    """Section of the part that goes cold first: a point, a tang, an edge. The live screen counts its hammer time
    too."""
    thin_length: float | None = key(_LENGTH, '"60 mm"', otherwise="the thin part is as thin all along")
    """Length over which the work tapers down to the section of the thin part, which is then that of its very tip."""
    thin_name: str = key(Line(60, braces=False), '"edge"', default=THIN_NAME, otherwise=THIN_NAME)
    """What to call the thin part: edge, tang, point."""
    layers: int | None = key(Count(100_000), "28")
    """How many layers the work's thickness holds when the step begins; the review then says how far their carbon has
    evened out."""
    struck_by: StruckBy = key(
        Choice(TOOLS), '"press"', phase=PhaseKind.STRIKE, default=StruckBy.HAND, otherwise=StruckBy.HAND.value
    )
    """What strikes the work. An anvil takes heat from its lower face, two dies from both: hammer time hangs on it, by
    the mean over touching and not touching."""
    contact: float | None = key(
        Quantity("time", CONTACT), '"1 s"', phase=PhaseKind.STRIKE, otherwise="as is usual for what strikes it"
    )
    """How long the tools touch the work at a time."""
    contact_every: float | None = key(
        Quantity("time", CONTACT), '"3 s"', phase=PhaseKind.STRIKE, otherwise="as is usual for what strikes it"
    )
    """From the beginning of one touch to that of the next."""
    turn_every: float | None = key(Quantity("time", CADENCE), '"6 s"', phase=PhaseKind.STRIKE)
    """A cadence for even work round the bar sounds this often while it is struck."""
    checklist: tuple[str, ...] = key(_ITEMS, '["Seam closed"]', default=())
    """What to check, a line each."""
    cautions: tuple[str, ...] = key(_ITEMS, '["Flux flies."]', default=())
    """The plan's own cautions, besides the usual ones of the step's kind."""
    air: AirKeys | None = key(
        Nested(AirKeys), '{ until = "480 degC" }', phase=PhaseKind.AIR, otherwise="the smith's word ends it"
    )
    """How the air phase ends."""
    quench: QuenchKeys | None = key(
        Nested(QuenchKeys),
        '{ medium = "oil at {55 degC}", for = "10 s" }',
        phase=PhaseKind.QUENCH,
        needed="write [step.quench] with medium and for",
    )
    """What the work is quenched in and for how long."""
    oven: OvenKeys | None = key(
        Nested(OvenKeys),
        '{ at = "200 degC", for = "2 h" }',
        phase=PhaseKind.OVEN,
        needed="write [step.oven] with at and for",
    )
    """Each hold in the tempering oven."""
    dip: DipKeys | None = key(
        Nested(DipKeys),
        '{ medium = "ferric chloride, 1 part to 4 of water", for = "12 min" }',
        phase=PhaseKind.DIP,
        needed="write [step.dip] with medium and for",
    )
    """Each dip in the etch."""
    cues: CuesKeys | None = key(Nested(CuesKeys), '{ strike = "light, quick blows, middle first" }')
    """How to work in each phase, in a few words, by the name of the phase."""


@record(eq=False)
class BarKeys:
    """One piece of stock that the work starts from."""

    name: str = key(_NAME, '"edge"', required=True, names=True)
    """What the plan calls this piece, e.g. edge, back, core."""
    steel: str = key(Line(30, braces=False), '"1084"', required=True)
    """Grade of the steel, e.g. 1084 or 15N20."""
    section: Section = key(_SECTION, '"25 x 5 mm"', required=True)
    """Cross-section of the bar."""
    length: float = key(_LENGTH, '"220 mm"', required=True)
    """Length of the bar."""


@record(eq=False)
class PlanKeys:
    """A plan for one piece of work at the forge."""

    heatbook: int = key(Version(1), "1", required=True)
    """The version of the format."""
    title: str = key(_NAME, '"Drawknife with a laid steel edge"', required=True)
    """The plan's name on the shelf: up to 40 characters fit every screen."""
    about: str = key(_TEXT, '"What comes out."', default="")
    """What comes out, and for whom it is."""
    made_from: AnswerKeys | None = key(
        Nested(AnswerKeys), '{ what = "double-edged" }', otherwise="it was written by hand"
    )
    """What the plan was made from, so that it can be made anew when the piece shall be another."""
    bar: tuple[TomlTable, ...] = key(ManyNested(BarKeys, 50), "[[bar]]", default=())
    """The stock that the work starts from."""
    step: tuple[TomlTable, ...] = key(ManyNested(StepKeys, 99), "[[step]]", required=True, default=())
    """What is done, in order."""


TABLES: Final = (PlanKeys, AnswerKeys, BarKeys, StepKeys, AirKeys, QuenchKeys, OvenKeys, DipKeys, CuesKeys)
"""The tables of a plan file, outermost first."""

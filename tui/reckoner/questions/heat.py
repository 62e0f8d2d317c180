"""Questions of heat: how a bar cools and warms, what a glow and a thermocouple tell."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tui.reckoner import typed
from tui.reckoner.question import Answers, Field, Question
from tui.reckoner.questions.fields import (
    EMISSIVITY,
    SECTION,
    WARM,
    convection,
    either,
    given,
    length,
    struck_by,
    temperature,
    time,
)

if TYPE_CHECKING:
    from plans.blows import Blows
    from plans.reckoner import Reckoning


def _cooling(answers: Answers) -> Reckoning:
    """How long a bar stays hotter than a limit."""
    from plans.reckoner import reckon_cooling as reckon

    more = given(answers, length="length", emissivity="emissivity", convection="convection", air="air")
    return reckon(answers["section"], answers["from"], answers["to"], **more, blows=_blows(answers))


def _blows(answers: Answers) -> Blows | None:
    """What the work is struck with; None where it is held in the air."""
    from plans.blows import USUAL, Blows
    from plans.reckoner import ReckonError

    if "struck-by" not in answers:
        for name in ("contact", "contact-every"):
            if name in answers:
                raise ReckonError(name, "it has no use without what strikes: say hand hammer, power hammer or press")
        return None
    by = struck_by(answers)
    usual = USUAL[by]
    seconds, every = answers.get("contact", usual.seconds), answers.get("contact-every", usual.every)
    if not 0 < seconds <= every:
        raise ReckonError("contact", f"{seconds:g} s of every {every:g} s: give more than 0 s, and no more than that")
    return Blows(by, seconds, every)


def _soak(answers: Answers) -> Reckoning:
    """How long a bar lies in the fire."""
    from plans.reckoner import reckon_soak as reckon

    more = given(answers, start="from", emissivity="emissivity", convection="convection")
    return reckon(answers["section"], answers["fire"], answers["middle"], **more)


def _glow(answers: Answers) -> Reckoning:
    """The colour of a heat."""
    from plans.reckoner import reckon_glow as reckon
    from tui.config import heat_names_set

    return reckon(answers["at"], heat_names_set())


def _thermocouple(answers: Answers) -> Reckoning:
    """What millivolts mean, or what a temperature gives."""
    from devices.thermocouple import thermocouple as reckon

    return reckon(answers["type"], **given(answers, volts="mv", at="at", cold_junction="cold-junction"))


COOLING: Final = Question(
    "cooling",
    "how long a bar stays hotter than a limit in still air",
    (
        SECTION,
        temperature("from", "how hot it is all through", either("1250 degC", "2300 degF"), needed=True),
        temperature("to", "what its skin cools to", either("900 degC", "1650 degF"), needed=True),
        length("length", "its length with both ends bare (long, ends not counted)", either("100 mm", "4 in")),
        EMISSIVITY,
        convection("by the size of the section", "10 W/m^2/K"),
        Field("struck-by", "hand hammer, power hammer or press (held in the air)", "press", typed.words, "TOOL"),
        time("contact", "how long the tools touch at a time (as usual)", "1 s"),
        time("contact-every", "from one touch to the next (as usual)", "3 s"),
        temperature("air", either("the air round it (20 degC)", "the air round it (68 degF)"), WARM),
    ),
    _cooling,
    (
        either(
            'cooling --section "25.4 x 25.4 mm" --length "100 mm" --from "1250 degC" --to "900 degC"',
            'cooling --section "1 x 1 in" --length "4 in" --from "2300 degF" --to "1650 degF"',
        ),
    ),
)

SOAK: Final = Question(
    "soak",
    "how long a bar lies in the fire until its middle has come up",
    (
        SECTION,
        temperature("fire", "the fire, walls and gas alike", either("1250 degC", "2300 degF"), needed=True),
        temperature("middle", "what its middle comes to", either("1200 degC", "2200 degF"), needed=True),
        temperature("from", either("how warm it goes in (20 degC)", "how warm it goes in (68 degF)"), WARM),
        EMISSIVITY,
        convection("20 W/m^2/K", "20 W/m^2/K"),
    ),
    _soak,
    (
        either(
            'soak --section "round 25 mm" --fire "1250 degC" --from "20 degC" --middle "1200 degC"',
            'soak --section "round 1 in" --fire "2300 degF" --from "68 degF" --middle "2200 degF"',
        ),
    ),
)

GLOW: Final = Question(
    "glow",
    "what colour a heat is, and what the trade calls it",
    (temperature("at", "how hot the steel is", either("1000 degC", "1800 degF"), needed=True),),
    _glow,
    (either('glow --at "1000 degC"', 'glow --at "1800 degF"'),),
)

THERMOCOUPLE: Final = Question(
    "thermocouple",
    "what the millivolts of a thermocouple mean, or what it gives at a temperature",
    (
        Field("type", "its letter: K, N, S, R, B or J", "K", typed.couple, "LETTER", needed=True),
        Field("mv", "millivolts measured where its wires end", "41.276", typed.millivolts, "NUMBER"),
        temperature("at", "temperature of its warm end, instead", either("1000 degC", "1800 degF")),
        temperature(
            "cold-junction",
            either("temperature where its wires end (0 degC)", "temperature where its wires end (32 degF)"),
            either("25 degC", "77 degF"),
        ),
    ),
    _thermocouple,
    (
        either(
            'thermocouple --type K --mv 41.276 --cold-junction "25 degC"',
            'thermocouple --type K --mv 41.276 --cold-junction "77 degF"',
        ),
        either('thermocouple --type K --at "1000 degC"', 'thermocouple --type K --at "1800 degF"'),
    ),
)

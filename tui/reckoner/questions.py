"""Everything that the reckoner can be asked. Who answers is imported when something is asked, and not before."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from plans.steel import SYMBOLS
from plans.units import Shown, Units
from tui.reckoner import answers, typed
from tui.reckoner.question import Field, Question

_TEMPERATURE = typed.quantity("temperature")
_TIME = typed.quantity("time")
_LENGTH = typed.quantity("length")
_NUMBER = typed.quantity("number")


def _either(metric: str, inch: str) -> Shown:
    """A text with figures as people in metric units would give them, and as people in inches and degF would."""
    return lambda units: inch if units is Units.INCH else metric


def _temperature(name: str, about: Shown, example: Shown, *, needed: bool = False) -> Field:
    return Field(name, about, example, _TEMPERATURE, "TEMPERATURE", needed)


def _time(name: str, about: str, example: str, *, needed: bool = False) -> Field:
    return Field(name, about, example, _TIME, "TIME", needed)


def _length(name: str, about: str, example: Shown) -> Field:
    return Field(name, about, example, _LENGTH, "LENGTH")


_WARM = _either("20 degC", "68 degF")
_SECTION = Field(
    "section", "cross-section of the bar", _either("25 x 10 mm", "1 x 3/8 in"), typed.section, "SECTION", needed=True
)
_BAR_LENGTH = _length("length", "its length with both ends bare (long, ends not counted)", _either("100 mm", "4 in"))
_EMISSIVITY = Field("emissivity", "of its skin (0.8, with the spread of scaled steel)", "0.8", _NUMBER, "NUMBER")
_CONTENT = "carbon content, per cent of the mass"
_CARBON = Field("carbon", _CONTENT, "0.8", typed.mass_percent, "PERCENT")
_AT = _temperature("at", "temperature that it is held at", _either("1200 degC", "2200 degF"), needed=True)
_FOR = _time("for", "how long it is held there", "10 min", needed=True)


def _convection(usual: str, example: str) -> Field:
    about = f"heat transfer by convection ({usual})"
    return Field("convection", about, example, typed.quantity("convection"), "CONVECTION")


def _element(symbol: str, name: str) -> Field:
    also = (symbol, "carbon") if symbol == "C" else (symbol,)
    return Field(symbol.lower(), f"{name}, per cent of the mass", "0.4", typed.mass_percent, "PERCENT", also=also)


_ALL = (
    Question(
        "cooling",
        "how long a bar stays hotter than a limit in still air",
        (
            _SECTION,
            _temperature("from", "how hot it is all through", _either("1250 degC", "2300 degF"), needed=True),
            _temperature("to", "what its skin cools to", _either("900 degC", "1650 degF"), needed=True),
            _BAR_LENGTH,
            _EMISSIVITY,
            _convection("by the size of the section", "10 W/m^2/K"),
            Field("struck-by", "hand hammer, power hammer or press (held in the air)", "press", typed.words, "TOOL"),
            _time("contact", "how long the tools touch at a time (as usual)", "1 s"),
            _time("contact-every", "from one touch to the next (as usual)", "3 s"),
            _temperature("air", _either("the air round it (20 degC)", "the air round it (68 degF)"), _WARM),
        ),
        answers.cooling,
        (
            _either(
                'cooling --section "25.4 x 25.4 mm" --length "100 mm" --from "1250 degC" --to "900 degC"',
                'cooling --section "1 x 1 in" --length "4 in" --from "2300 degF" --to "1650 degF"',
            ),
        ),
    ),
    Question(
        "soak",
        "how long a bar lies in the fire until its middle has come up",
        (
            _SECTION,
            _temperature("fire", "the fire, walls and gas alike", _either("1250 degC", "2300 degF"), needed=True),
            _temperature("middle", "what its middle comes to", _either("1200 degC", "2200 degF"), needed=True),
            _temperature("from", _either("how warm it goes in (20 degC)", "how warm it goes in (68 degF)"), _WARM),
            _EMISSIVITY,
            _convection("20 W/m^2/K", "20 W/m^2/K"),
        ),
        answers.soak,
        (
            _either(
                'soak --section "round 25 mm" --fire "1250 degC" --from "20 degC" --middle "1200 degC"',
                'soak --section "round 1 in" --fire "2300 degF" --from "68 degF" --middle "2200 degF"',
            ),
        ),
    ),
    Question(
        "steel",
        "critical temperatures of a steel, and where to normalize, harden and temper it",
        (
            Field("grade", "name of a grade: AISI/SAE, EN or JIS", "1084", typed.words, "GRADE", bare=True),
            *(_element(symbol, name) for symbol, name in SYMBOLS.items()),
            _temperature(
                "at", "a heat to quench from (the middle of its hardening range)", _either("800 degC", "1475 degF")
            ),
            _temperature(
                "down-to", _either("where the quench ends (20 degC)", "where the quench ends (68 degF)"), _WARM
            ),
        ),
        answers.steel,
        (
            _either("steel 52100 --at 845 degC", "steel 52100 --at 1550 degF"),
            "steel --c 0.75 --mn 0.4 --si 0.25 --ni 2.0",
        ),
        answers.grades,
    ),
    Question(
        "carbon",
        "how deep the skin loses its carbon, or how far layers of a billet even out",
        (
            replace(_CARBON, about=f"{_CONTENT}; with --layer that of the whole billet"),
            _length(
                "layer", "thickness of one layer, to be told how far layers even out", _either("0.1 mm", "0.004 in")
            ),
            _AT,
            _FOR,
            Field("share", "of the core's carbon that is left where decarb ends (95 %)", "95 %", _NUMBER, "NUMBER"),
            _length("thickness", "of the piece, where it is thin", _either("3 mm", "1/8 in")),
        ),
        answers.carbon,
        (
            _either(
                'carbon --carbon 0.8 --at "1200 degC" --for "10 min"',
                'carbon --carbon 0.8 --at "2200 degF" --for "10 min"',
            ),
            _either(
                'carbon --layer "0.1 mm" --at "1100 degC" --for "60 s"',
                'carbon --layer "0.004 in" --at "2000 degF" --for "60 s"',
            ),
        ),
    ),
    Question(
        "scale",
        "how much metal goes to scale",
        (
            _AT,
            _FOR,
            replace(_SECTION, about="cross-section of the bar, to be told its share of mass", needed=False),
        ),
        answers.scale,
        (_either('scale --at "1200 degC" --for "5 min"', 'scale --at "2200 degF" --for "5 min"'),),
    ),
    Question(
        "temper",
        "what a temper does, and which other temper does the same",
        (
            _CARBON,
            replace(_AT, example=_either("200 degC", "400 degF")),
            replace(_FOR, example="2 h"),
            Field("holds", "how many such holds one after another (1)", "2", typed.count, "NUMBER"),
            _time("instead-for", "another time: at what temperature does it do the same?", "10 min"),
            _temperature(
                "instead-at", "another temperature: in what time does it do the same?", _either("250 degC", "475 degF")
            ),
            Field("constant", "of the parameter, for hours (by the carbon)", "20", typed.number, "NUMBER"),
        ),
        answers.temper,
        (
            _either(
                'temper --carbon 0.98 --at "200 degC" --for "2.5 h"',
                'temper --carbon 0.98 --at "400 degF" --for "2.5 h"',
            ),
            _either(
                'temper --carbon 0.8 --at "220 degC" --for "1 h" --instead-for "10 min"',
                'temper --carbon 0.8 --at "425 degF" --for "1 h" --instead-for "10 min"',
            ),
        ),
    ),
    Question(
        "glow",
        "what colour a heat is, and what the trade calls it",
        (_temperature("at", "how hot the steel is", _either("1000 degC", "1800 degF"), needed=True),),
        answers.glow,
        (_either('glow --at "1000 degC"', 'glow --at "1800 degF"'),),
    ),
    Question(
        "thermocouple",
        "what the millivolts of a thermocouple mean, or what it gives at a temperature",
        (
            Field("type", "its letter: K, N, S, R, B or J", "K", typed.couple, "LETTER", needed=True),
            Field("mv", "millivolts measured where its wires end", "41.276", typed.millivolts, "NUMBER"),
            _temperature("at", "temperature of its warm end, instead", _either("1000 degC", "1800 degF")),
            _temperature(
                "cold-junction",
                _either("temperature where its wires end (0 degC)", "temperature where its wires end (32 degF)"),
                _either("25 degC", "77 degF"),
            ),
        ),
        answers.thermocouple,
        (
            _either(
                'thermocouple --type K --mv 41.276 --cold-junction "25 degC"',
                'thermocouple --type K --mv 41.276 --cold-junction "77 degF"',
            ),
            _either('thermocouple --type K --at "1000 degC"', 'thermocouple --type K --at "1800 degF"'),
        ),
    ),
)

QUESTIONS: Final[dict[str, Question]] = {question.name: question for question in _ALL}
"""Every question by its name."""

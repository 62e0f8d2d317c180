"""Questions of steel: its temperatures, its carbon, its scale and its temper."""

from __future__ import annotations

from dataclasses import replace
from textwrap import fill
from typing import TYPE_CHECKING, Final

from plans.shop import FireAir
from plans.steel import SYMBOLS
from tui.reckoner import typed
from tui.reckoner.question import Answers, Field, Question
from tui.reckoner.questions.fields import (
    AT,
    CARBON_CONTENT,
    CONTENT,
    FOR,
    SECTION,
    WARM,
    either,
    given,
    length,
    number,
    temperature,
    time,
)

if TYPE_CHECKING:
    from plans.reckoner import Reckoning


def _steel(answers: Answers) -> Reckoning:
    """What is known of a grade or of a composition."""
    from plans.reckoner import ReckonError, blamed, reckon_steel as reckon
    from plans.steel import MOST_CARBON, SYMBOLS, Composition, find_grade

    shares = {symbol: answers[symbol.lower()] for symbol in SYMBOLS if symbol.lower() in answers}
    more = given(answers, at="at", down_to="down-to")
    if "grade" in answers:
        if shares:
            first = next(iter(shares)).lower()
            raise ReckonError(first, "give either the name of a grade or a composition, not both")
        return reckon(find_grade(answers["grade"]), **more)
    if not shares:
        raise ReckonError("grade", "name a grade, e.g. 1084, or give a composition, e.g. --c 0.75 --mn 0.4")
    if "C" not in shares:
        raise ReckonError("c", "it is missing; every steel has carbon, e.g. 0.75")
    at_fault = "C" if shares["C"] > MOST_CARBON else max(shares, key=shares.__getitem__)
    return reckon(blamed(at_fault.lower(), Composition.of, shares), **more)


def _grades() -> str:
    """The names of all grades, by who names them so."""
    from plans.steel import all_grades

    names: dict[str, list[str]] = {}
    for grade in all_grades():
        names.setdefault(grade.system, []).append(grade.name)
    lines = (f"{system}: {', '.join(of)}" for system, of in names.items())
    return "grades:\n" + "\n".join(fill(line, 79, initial_indent="  ", subsequent_indent="    ") for line in lines)


def _carbon(answers: Answers) -> Reckoning:
    """How deep decarb goes, or how far layers even out."""
    from plans.reckoner import ReckonError, reckon_decarb, reckon_layers

    at, seconds = answers["at"], answers["for"]
    if "layer" in answers:
        for name in ("share", "thickness"):
            if name in answers:
                raise ReckonError(name, "it belongs to decarb; leave it out, or leave out --layer")
        return reckon_layers(answers["layer"], at, seconds, answers.get("carbon"))
    if "carbon" not in answers:
        raise ReckonError("carbon", "give it, e.g. 0.8, for decarb; or --layer, for layers that even out")
    return reckon_decarb(answers["carbon"], at, seconds, **given(answers, share="share", thickness="thickness"))


def _scale(answers: Answers) -> Reckoning:
    """Metal lost to scale."""
    from plans.reckoner import reckon_scale as reckon

    return reckon(answers["at"], answers["for"], answers.get("section"))


def _skin(answers: Answers) -> Reckoning:
    """What heats take from a skin; what is not said of the fire is as the shop file has it."""
    from plans.reckoner import reckon_skin as reckon
    from tui.config import shop_set

    shop = shop_set()
    more = given(answers, heats="heats", section="section", to="to", share="share")
    fire, measured = answers.get("fire", shop.fire), answers.get("scale-factor", shop.scale_factor)
    return reckon(answers["carbon"], answers["at"], answers["for"], fire=fire, measured=measured, **more)


def _temper(answers: Answers) -> Reckoning:
    """What a temper does."""
    from plans.reckoner import reckon_temper as reckon

    more = given(
        answers,
        carbon="carbon",
        constant="constant",
        holds="holds",
        other_time="instead-for",
        other_temperature="instead-at",
    )
    return reckon(answers["at"], answers["for"], **more)


def _element(symbol: str, name: str) -> Field:
    also = (symbol, "carbon") if symbol == "C" else (symbol,)
    return Field(symbol.lower(), f"{name}, per cent of the mass", "0.4", typed.mass_percent, "PERCENT", also=also)


STEEL: Final = Question(
    "steel",
    "critical temperatures of a steel, and where to normalize, harden and temper it",
    (
        Field("grade", "name of a grade: AISI/SAE, EN or JIS", "1084", typed.words, "GRADE", bare=True),
        *(_element(symbol, name) for symbol, name in SYMBOLS.items()),
        temperature("at", "a heat to quench from (the middle of its hardening range)", either("800 degC", "1475 degF")),
        temperature("down-to", either("where the quench ends (20 degC)", "where the quench ends (68 degF)"), WARM),
    ),
    _steel,
    (
        either("steel 52100 --at 845 degC", "steel 52100 --at 1550 degF"),
        "steel --c 0.75 --mn 0.4 --si 0.25 --ni 2.0",
    ),
    _grades,
)

CARBON: Final = Question(
    "carbon",
    "how deep the skin loses its carbon, or how far layers of a billet even out",
    (
        replace(CARBON_CONTENT, about=f"{CONTENT}; with --layer that of the whole billet"),
        length("layer", "thickness of one layer, to be told how far layers even out", either("0.1 mm", "0.004 in")),
        AT,
        FOR,
        number("share", "of the core's carbon that is left where decarb ends (95 %)", "95 %"),
        length("thickness", "of the piece, where it is thin", either("3 mm", "1/8 in")),
    ),
    _carbon,
    (
        either(
            'carbon --carbon 0.8 --at "1200 degC" --for "10 min"',
            'carbon --carbon 0.8 --at "2200 degF" --for "10 min"',
        ),
        either(
            'carbon --layer "0.1 mm" --at "1100 degC" --for "60 s"',
            'carbon --layer "0.004 in" --at "2000 degF" --for "60 s"',
        ),
    ),
)

SCALE: Final = Question(
    "scale",
    "how much metal goes to scale",
    (
        AT,
        FOR,
        replace(SECTION, about="cross-section of the bar, to be told its share of mass", needed=False),
    ),
    _scale,
    (either('scale --at "1200 degC" --for "5 min"', 'scale --at "2200 degF" --for "5 min"'),),
)

SKIN: Final = Question(
    "skin",
    "what heats take from the skin, metal to scale and carbon below it, and what to leave for grinding",
    (
        replace(CARBON_CONTENT, needed=True),
        replace(AT, about="temperature of the skin in each heat"),
        replace(FOR, about="how long each heat keeps it there", example="4 min"),
        Field("heats", "how many heats; the scale knocked off before each (1)", "6", typed.count, "NUMBER"),
        Field(
            "fire",
            "rich (more fuel than burns), neutral, or lean (more air than fuel) (shop file, or not known)",
            "neutral",
            typed.one_of(tuple(FireAir)),
            "WORD",
        ),
        replace(SECTION, about="cross-section of the bar, to be told its share of mass", needed=False),
        replace(SECTION, name="to", about="cross-section that it is drawn to", needed=False),
        number("scale-factor", "metal to scale as measured, over what free air takes (shop file)", "0.5"),
        number("share", "of the core's carbon that is left where decarb ends (95 %)", "95 %"),
    ),
    _skin,
    (
        either(
            'skin --carbon 0.8 --at "1200 degC" --for "4 min" --heats 6 --section "25 x 25 mm" --to "30 x 8 mm"',
            'skin --carbon 0.8 --at "2200 degF" --for "4 min" --heats 6 --section "1 x 1 in" --to "1 1/4 x 5/16 in"',
        ),
    ),
)

TEMPER: Final = Question(
    "temper",
    "what a temper does, and which other temper does the same",
    (
        CARBON_CONTENT,
        replace(AT, example=either("200 degC", "400 degF")),
        replace(FOR, example="2 h"),
        Field("holds", "how many such holds one after another (1)", "2", typed.count, "NUMBER"),
        time("instead-for", "another time: at what temperature does it do the same?", "10 min"),
        temperature(
            "instead-at", "another temperature: in what time does it do the same?", either("250 degC", "475 degF")
        ),
        Field("constant", "of the parameter, for hours (by the carbon)", "20", typed.number, "NUMBER"),
    ),
    _temper,
    (
        either(
            'temper --carbon 0.98 --at "200 degC" --for "2.5 h"',
            'temper --carbon 0.98 --at "400 degF" --for "2.5 h"',
        ),
        either(
            'temper --carbon 0.8 --at "220 degC" --for "1 h" --instead-for "10 min"',
            'temper --carbon 0.8 --at "425 degF" --for "1 h" --instead-for "10 min"',
        ),
    ),
)

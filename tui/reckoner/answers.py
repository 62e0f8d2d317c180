"""Who answers each question, with what was given. The physics is imported when something is asked, not before."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from tui.reckoner.question import Answers

if TYPE_CHECKING:
    from plans.blows import Blows
    from plans.reckoner import Reckoning


def _given(answers: Answers, **names: str) -> dict[str, Any]:
    """Those of the arguments for which something was given."""
    return {argument: answers[name] for argument, name in names.items() if name in answers}


def cooling(answers: Answers) -> Reckoning:
    """How long a bar stays hotter than a limit."""
    from plans.reckoner import reckon_cooling as reckon

    more = _given(answers, length="length", emissivity="emissivity", convection="convection", air="air")
    return reckon(answers["section"], answers["from"], answers["to"], **more, blows=_blows(answers))


def _blows(answers: Answers) -> Blows | None:
    """What the work is struck with; None where it is held in the air."""
    from plans.blows import USUAL, Blows, StruckBy
    from plans.reckoner import ReckonError

    if "struck-by" not in answers:
        for name in ("contact", "contact-every"):
            if name in answers:
                raise ReckonError(name, "it has no use without what strikes: say hand hammer, power hammer or press")
        return None
    tools = {by.value: by for by in StruckBy}
    by = tools.get(answers["struck-by"])
    if by is None:
        raise ReckonError("struck-by", f'"{answers["struck-by"]}": say hand hammer, power hammer or press')
    usual = USUAL[by]
    seconds, every = answers.get("contact", usual.seconds), answers.get("contact-every", usual.every)
    if not 0 < seconds <= every:
        raise ReckonError("contact", f"{seconds:g} s of every {every:g} s: give more than 0 s, and no more than that")
    return Blows(by, seconds, every)


def soak(answers: Answers) -> Reckoning:
    """How long a bar lies in the fire."""
    from plans.reckoner import reckon_soak as reckon

    more = _given(answers, start="from", emissivity="emissivity", convection="convection")
    return reckon(answers["section"], answers["fire"], answers["middle"], **more)


def steel(answers: Answers) -> Reckoning:
    """What is known of a grade or of a composition."""
    from plans.reckoner import ReckonError, blamed, reckon_steel as reckon
    from plans.steel import MOST_CARBON, SYMBOLS, Composition, find_grade

    shares = {symbol: answers[symbol.lower()] for symbol in SYMBOLS if symbol.lower() in answers}
    more = _given(answers, at="at", down_to="down-to")
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


def grades() -> str:
    """The names of all grades, by who names them so."""
    from plans.steel import all_grades

    names: dict[str, list[str]] = {}
    for grade in all_grades():
        names.setdefault(grade.system, []).append(grade.name)
    lines = (f"{system}: {', '.join(of)}" for system, of in names.items())
    return "grades:\n" + "\n".join(fill(line, 79, initial_indent="  ", subsequent_indent="    ") for line in lines)


def carbon(answers: Answers) -> Reckoning:
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
    return reckon_decarb(answers["carbon"], at, seconds, **_given(answers, share="share", thickness="thickness"))


def scale(answers: Answers) -> Reckoning:
    """Metal lost to scale."""
    from plans.reckoner import reckon_scale as reckon

    return reckon(answers["at"], answers["for"], answers.get("section"))


def temper(answers: Answers) -> Reckoning:
    """What a temper does."""
    from plans.reckoner import reckon_temper as reckon

    more = _given(
        answers,
        carbon="carbon",
        constant="constant",
        holds="holds",
        other_time="instead-for",
        other_temperature="instead-at",
    )
    return reckon(answers["at"], answers["for"], **more)


def glow(answers: Answers) -> Reckoning:
    """The colour of a heat."""
    from plans.reckoner import reckon_glow as reckon
    from tui.config import heat_names_set

    return reckon(answers["at"], heat_names_set())


def thermocouple(answers: Answers) -> Reckoning:
    """What millivolts mean, or what a temperature gives."""
    from devices.thermocouple import thermocouple as reckon

    return reckon(answers["type"], **_given(answers, volts="mv", at="at", cold_junction="cold-junction"))

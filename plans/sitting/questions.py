"""What is asked of the smith where a word can hardly be meant, in words."""

from __future__ import annotations

from plans.shown import show_clock
from plans.sitting.events import Asked, Doubt
from plans.units import UNKNOWN, Units

_AGAIN = "say it again if so"


def question(asked: Asked, units: Units) -> str:
    """Why a word was not taken yet, and what to do: a line, the figures in the set units."""
    skin, wanted = (UNKNOWN if kelvin is None else units.temperature(kelvin) for kelvin in (asked.kelvin, asked.wanted))
    took = show_clock(asked.took or 0.0)
    match asked.doubt:
        case Doubt.NOT_AT_HEAT:
            return f"skin {skin}, {asked.basis}, wanted {wanted}: {_AGAIN}"
        case Doubt.TOO_COLD_TO_STRIKE:
            return f"skin {skin}, {asked.basis}, to be struck above {wanted}: {_AGAIN}"
        case Doubt.NOT_COLD:
            return f"skin {skin}, {asked.basis}, wanted below {wanted}: {_AGAIN}"
        case Doubt.NOT_OVER:
            return f"{took} of {show_clock(asked.lasts or 0.0)} are over: say it again to end it"
        case Doubt.IN_THE_FIRE:
            return "this heat is not worked yet: say it again to go to the next step"
        case Doubt.JUST_BEGAN:
            return "that began a moment ago: say it again if it was meant"
        case Doubt.WHERE:
            return "where is the work now: in, or out? next again: out"


def spoken_question(asked: Asked) -> str:
    """Why a word was not taken yet, in a few words to be heard."""
    return _SPOKEN[asked.doubt]


_SPOKEN = {
    Doubt.NOT_AT_HEAT: "not at heat, say it again if it is",
    Doubt.TOO_COLD_TO_STRIKE: "too cold to strike, say it again if not",
    Doubt.NOT_COLD: "not cold yet, say it again if it is",
    Doubt.NOT_OVER: "not over yet, say it again to end it",
    Doubt.IN_THE_FIRE: "this heat is not worked yet, say it again for the next step",
    Doubt.JUST_BEGAN: "was that meant? say it again",
    Doubt.WHERE: "is it in, or out?",
}

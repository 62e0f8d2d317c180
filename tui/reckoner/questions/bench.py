"""Questions of press and bench: what a squeeze takes, how many heats, bevels to forge in or to even, a profile."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tui.reckoner import typed
from tui.reckoner.question import Answers, Field, Question
from tui.reckoner.questions.fields import (
    CARBON_CONTENT,
    SECTION,
    either,
    given,
    length,
    lengths,
    number,
    reduction,
    temperature,
    time,
    together,
)

if TYPE_CHECKING:
    from plans.reckoned import Reckoned
    from plans.reckoner import Reckoning


def _squeeze(answers: Answers) -> Reckoning:
    """What force a squeeze takes."""
    from plans.reckoner import reckon_squeeze as reckon

    more = given(answers, force="force", to="to", height="height", carbon="carbon", seconds="contact")
    return reckon(answers["section"], answers["at"], answers["dies"], **more)


def _heats(answers: Answers) -> Reckoning:
    """How many heats it takes to a section."""
    from plans.reckoner import reckon_heats as reckon

    return reckon(answers["section"], answers["to"], reduction(answers))


def _forged(answers: Answers) -> Reckoning:
    """How much wider a bar gets when bevels are forged in."""
    from plans.reckoner import reckon_forged as reckon

    more = given(answers, bevel="bevel", edges="edges", widening="widening")
    return reckon(answers["section"], answers["edge"], **more)


def _bevels(answers: Answers) -> Reckoning:
    """Which bevel to grind next."""
    from plans.reckoner import reckon_bevels as reckon

    more = given(answers, within="within", heights="heights")
    return reckon(answers["widths"], answers["edges"], answers["ridge"], decarb=_decarb(answers), **more)


def _decarb(answers: Answers) -> Reckoned | None:
    """How deep the decarb may go: as given, or by a heat that the blade has seen; None where it is not asked."""
    from plans.reckoned import Reckoned
    from plans.reckoner import ReckonError, blamed
    from plans.steel import grinding_allowance, hold

    if not together(answers, "at", "for", "carbon"):
        return Reckoned(answers["decarb"], "arithmetic", "as given", "") if "decarb" in answers else None
    if "decarb" in answers:
        raise ReckonError("decarb", "give its depth, or the heat that it comes of, not both")
    return blamed("carbon", grinding_allowance, hold(answers["at"], answers["for"]), answers["carbon"])


def _profile(answers: Answers) -> Reckoning:
    """What to grind off a profile."""
    from plans.reckoner import reckon_profile as reckon

    return reckon(answers["difference"], **given(answers, width="width", edge="edge", ridge="ridge"))


SQUEEZE: Final = Question(
    "squeeze",
    "what force a squeeze takes, and how far the press that one has goes",
    (
        SECTION,
        temperature("at", "how hot the bar is all through", either("1200 degC", "2200 degF"), needed=True),
        length("dies", "width of the dies along the bar", either("40 mm", "1 1/2 in"), needed=True),
        Field(
            "force",
            "what the press brings, to be told how far it goes: tonne, US tons, UK tons, kN",
            either("25 tonne", "25 US tons"),
            typed.quantity("force"),
            "FORCE",
        ),
        length("to", "height to come to (a fifth less)", either("20 mm", "3/4 in")),
        length("height", "side of the section between the dies (the smaller)", either("38 mm", "1 1/2 in")),
        CARBON_CONTENT,
        time("contact", "how long the squeeze takes (1 s)", "1 s"),
    ),
    _squeeze,
    (
        either(
            'squeeze --section "38 x 25 mm" --at "1200 degC" --dies "40 mm" --force "25 tonne"',
            'squeeze --section "1 1/2 x 1 in" --at "2200 degF" --dies "1 1/2 in" --force "25 US tons"',
        ),
    ),
)

HEATS: Final = Question(
    "heats",
    "how many heats it takes to draw a bar to a section",
    (
        SECTION,
        Field(
            "to",
            "section when it is done",
            either("30 x 8 mm", "1 1/4 x 5/16 in"),
            typed.section,
            "SECTION",
            needed=True,
        ),
        number("reduction", "of the area that a heat takes off (as the logbook tells, or by hand)", "20 %"),
        Field("struck-by", "hand hammer, power hammer or press, for what is usual of it", "press", typed.words, "TOOL"),
    ),
    _heats,
    (either('heats --section "25 x 25 mm" --to "30 x 8 mm"', 'heats --section "1 x 1 in" --to "1 1/4 x 5/16 in"'),),
)

FORGED: Final = Question(
    "forged",
    "how much wider and longer a bar gets when a bevel is forged in",
    (
        SECTION,
        length("edge", "thickness of the edge when it is done", either("2 mm", "1/16 in"), needed=True),
        length("bevel", "width of each bevel when it is done (the whole width)", either("18 mm", "3/4 in")),
        Field("edges", "1, or 2 for a double edge (1)", "2", typed.count, "NUMBER"),
        number("widening", "share of it that goes into width (70 %, with its spread)", "70 %"),
    ),
    _forged,
    (
        either(
            'forged --section "30 x 6 mm" --edge "2 mm" --bevel "18 mm"',
            'forged --section "1 1/4 x 1/4 in" --edge "1/16 in" --bevel "3/4 in"',
        ),
    ),
)

BEVELS: Final = Question(
    "bevels",
    "which of four bevels to grind next, and how much, until all agree",
    (
        lengths(
            "widths",
            "of the bevels: front to first edge, to second; back to first, to second",
            either("14.2,13.1,14.0,13.6 mm", "9/16, 1/2, 9/16, 17/32 in"),
            needed=True,
        ),
        lengths(
            "edges",
            "thickness of the first edge, and of the second",
            either("1.1,0.9 mm", "3/64, 1/32 in"),
            needed=True,
        ),
        length("ridge", "thickness at the ridge", either("6.2 mm", "1/4 in"), needed=True),
        lengths(
            "heights",
            "each ridge above two equal strips on a plate that both edges lie on: front up, then back up",
            either("3.7,3.5 mm", "0.146,0.138 in"),
        ),
        length("within", either("what is alike (0.2 mm)", "what is alike (0.008 in)"), either("0.1 mm", "0.004 in")),
        length("decarb", "how deep it goes, to be told what is left without it", either("0.3 mm", "0.012 in")),
        temperature("at", "or a heat that the blade has seen as it is, to reckon it", either("900 degC", "1650 degF")),
        time("for", "how long it saw that", "10 min"),
        CARBON_CONTENT,
    ),
    _bevels,
    (
        either(
            'bevels --widths "14.2,13.1,14.0,13.6 mm" --edges "1.1,0.9 mm" --ridge "6.2 mm"',
            'bevels --widths "9/16,1/2,9/16,17/32 in" --edges "3/64,1/32 in" --ridge "1/4 in"',
        ),
    ),
)

PROFILE: Final = Question(
    "profile",
    "what to grind off a profile that was drawn round and turned over",
    (
        length("difference", "how far an edge stands out, turned over", either("0.8 mm", "1/32 in"), needed=True),
        length("width", "of the blade there", either("27 mm", "1 1/16 in")),
        length("edge", "thickness of that edge", either("0.9 mm", "1/32 in")),
        length("ridge", "thickness at the ridge", either("6.2 mm", "1/4 in")),
    ),
    _profile,
    (
        either(
            'profile --difference "0.8 mm" --width "27 mm" --edge "0.9 mm" --ridge "6.2 mm"',
            'profile --difference "1/32 in" --width "1 1/16 in" --edge "1/32 in" --ridge "1/4 in"',
        ),
    ),
)

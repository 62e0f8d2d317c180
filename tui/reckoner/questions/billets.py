"""Questions of billets: layers, twists, bars side by side, laminates, notches, and cores that wander."""

from __future__ import annotations

from dataclasses import replace
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
    temperature,
    time,
    together,
)

if TYPE_CHECKING:
    from plans.reckoner import Ground, Reckoning, WeldHeats


def _layers(answers: Answers) -> Reckoning:
    """How many layers, and how thick."""
    from plans.billets import Meeting
    from plans.reckoner import Ground, ReckonError, WeldHeats, reckon_folds as reckon
    from plans.text import clean

    meeting = answers.get("meeting")
    if meeting is not None and meeting not in list(Meeting):
        raise ReckonError("meeting", f'"{clean(meeting)}": say like or unlike')
    ground: Ground | None = None
    if together(answers, "spine", "edge", "bevel"):
        ground = Ground(answers["spine"], answers["edge"], answers["bevel"])
    heats: WeldHeats | None = None
    if together(answers, "at", "for"):
        heats = WeldHeats(answers["at"], answers["for"], answers.get("carbon"))
    elif "carbon" in answers:
        raise ReckonError("at", "it is missing; carbon evens out by the welding heats and their time")
    return reckon(
        answers["pieces"],
        answers["folds"],
        meeting=None if meeting is None else Meeting(meeting),
        ground=ground,
        heats=heats,
        **given(answers, cut_in="cut-in", thickness="thickness", each="each"),
    )


def _twist(answers: Answers) -> Reckoning:
    """How a twist runs."""
    from plans.reckoner import reckon_twist as reckon

    return reckon(answers["section"], answers["pitch"], answers.get("length"))


def _composite(answers: Answers) -> Reckoning:
    """Where borders come out, or which bars to start from."""
    from plans.reckoner import ReckonError, make_blade, reckon_bars, reckon_composite

    edges = answers.get("edges", 2)
    if edges not in (1, 2):
        raise ReckonError("edges", f"{edges}: a blade has 1 or 2")
    if "face" not in answers and "core" in answers and "jacket" in answers:
        answers = {**answers, "face": answers["core"] + edges * answers["jacket"]}
    backwards = [name for name in ("core", "jacket", "billet", "trim") if name in answers]
    if ("parts" in answers) == bool(backwards):
        raise ReckonError("parts", "give the bars that you have, or else the core or jacket that is to come of them")
    blade = None
    if backwards or "ridge" in answers or "edge" in answers:
        for name in ("face", "ridge", "edge"):
            if name not in answers:
                raise ReckonError(name, "it is missing; face, ridge and edge together say how the blade is ground")
        blade = make_blade(answers["face"], answers["ridge"], answers["edge"], edges == 2)
    if "parts" in answers:
        return reckon_composite(answers["parts"], answers.get("face"), blade, answers.get("lean", 0.0))
    assert blade is not None
    return reckon_bars(blade, **given(answers, core="core", jacket="jacket", billet="billet", trim="trim"))


def _laminate(answers: Answers) -> Reckoning:
    """Where the line of a laminate comes out."""
    from plans.reckoner import reckon_laminate as reckon

    return reckon(answers["spine"], answers["edge"], answers["core"], answers["bevel"], **given(answers, off="off"))


def _notch(answers: Answers) -> Reckoning:
    """What to cut out of the end of a bar."""
    from plans.reckoner import reckon_notch as reckon

    more = given(answers, jacket="jacket", angle="angle", radius="radius", drawn_to="drawn-to", grind="grind")
    return reckon(answers["section"], answers["core"], **more)


def _wander(answers: Answers) -> Reckoning:
    """How a section leaned."""
    from plans.reckoner import reckon_wander as reckon

    return reckon(answers["section"], answers["front"], answers["back"])


LAYERS: Final = Question(
    "layers",
    "how many layers a billet has after its folds, and how thick they are",
    (
        Field("pieces", "pieces of the first stack, two steels in turn", "7", typed.count, "NUMBER", needed=True),
        Field("folds", "how often it is folded, or cut and stacked again", "3", typed.count, "NUMBER", needed=True),
        Field("cut-in", "pieces that it is cut in each time (folded over)", "4", typed.count, "NUMBER"),
        Field("meeting", "like or unlike faces meet (a fold, an odd count: like)", "like", typed.words, "LIKE|UNLIKE"),
        length("thickness", "of the billet each time that it is stacked", either("40 mm", "1 1/2 in")),
        lengths("each", "one piece of either steel, where they differ", either("6, 3 mm", "1/4, 1/8 in")),
        length("spine", "of the blade, to be told how its bevel looks", either("5 mm", "3/16 in")),
        length("edge", "of the blade", either("0.5 mm", "0.02 in")),
        length("bevel", "height of its bevel", either("30 mm", "1 1/4 in")),
        temperature("at", "welding heat, to be told whether carbon will differ", either("1200 degC", "2200 degF")),
        time("for", "how long each time it is stacked, all heats together", "10 min"),
        replace(CARBON_CONTENT, about="of the whole billet, per cent of the mass"),
    ),
    _layers,
    (
        either(
            'layers --pieces 7 --folds 3 --thickness "40 mm"',
            'layers --pieces 7 --folds 3 --thickness "1 1/2 in"',
        ),
        either(
            'layers --pieces 7 --folds 2 --cut-in 4 --meeting like --thickness "40 mm" --at "1200 degC" --for "5 min"',
            'layers --pieces 7 --folds 2 --cut-in 4 --meeting like --thickness "2 in" --at "2200 degF" --for "5 min"',
        ),
    ),
)

TWIST: Final = Question(
    "twist",
    "how a twist runs, how far it stretches, and the turns it takes",
    (
        replace(SECTION, about="of the bar, square or round", example=either("square 12 mm", "square 1/2 in")),
        length("pitch", "length of one whole turn", either("40 mm", "1 1/2 in"), needed=True),
        length(
            "length",
            either("that is twisted (turns on 100 mm)", "that is twisted (turns on 3 15/16 in)"),
            either("200 mm", "8 in"),
        ),
    ),
    _twist,
    (
        either(
            'twist --section "square 12 mm" --pitch "40 mm" --length "200 mm"',
            'twist --section "square 1/2 in" --pitch "1 1/2 in" --length "8 in"',
        ),
    ),
)

COMPOSITE: Final = Question(
    "composite",
    "where bars side by side come out, or which bars to start from",
    (
        lengths("parts", "widths of the bars, from the first edge on", either("12.7, 25.4, 12.7 mm", "1/2, 1, 1/2 in")),
        length("face", "width that they are drawn to, edge to edge", either("40 mm", "1 1/2 in")),
        length("ridge", "thickness at the ridge, or of the spine", either("6 mm", "1/4 in")),
        length("edge", "thickness of the edge before it is sharp", either("0.8 mm", "1/32 in")),
        Field("edges", "1 with a spine, or 2 with a ridge (2)", "2", typed.count, "NUMBER"),
        Field("lean", "degrees that the borders lean to the second edge (0)", "5", typed.number, "NUMBER"),
        length("core", "or instead of parts: so wide the core is to show", either("20 mm", "3/4 in")),
        length("jacket", "or so much of the edge is to be jacket", either("10 mm", "3/8 in")),
        length("billet", "then, width of all bars together (as the face)", either("50 mm", "2 in")),
        length("trim", "and what is ground off each edge (0)", either("1 mm", "1/32 in")),
    ),
    _composite,
    (
        either(
            'composite --parts "12.7, 25.4, 12.7 mm" --face "40 mm" --ridge "6 mm" --edge "0.8 mm"',
            'composite --parts "1/2, 1, 1/2 in" --face "1 1/2 in" --ridge "1/4 in" --edge "1/32 in"',
        ),
        either(
            'composite --core "20 mm" --face "40 mm" --ridge "6 mm" --edge "0.8 mm" --billet "50 mm"',
            'composite --core "3/4 in" --face "1 1/2 in" --ridge "1/4 in" --edge "1/32 in" --billet "2 in"',
        ),
    ),
)

LAMINATE: Final = Question(
    "laminate",
    "how high a three-layer laminate's line lies; a core off the middle",
    (
        length("spine", "thickness where the bevel begins", either("4 mm", "5/32 in"), needed=True),
        length("edge", "thickness of the edge before it is sharp", either("0.5 mm", "0.02 in"), needed=True),
        length("core", "thickness of the core", either("1.5 mm", "1/16 in"), needed=True),
        length("bevel", "height of the bevel", either("30 mm", "1 1/4 in"), needed=True),
        length("off", "core off the middle, to the front (0); leaning: wander", either("0.3 mm", "0.01 in")),
    ),
    _laminate,
    (
        either(
            'laminate --spine "4 mm" --edge "0.5 mm" --core "1.5 mm" --bevel "30 mm"',
            'laminate --spine "5/32 in" --edge "0.02 in" --core "1/16 in" --bevel "1 1/4 in"',
        ),
    ),
)

NOTCH: Final = Question(
    "notch",
    "what to cut out, so that the jacket closes round the point",
    (
        replace(SECTION, about="of the bar, its parts side by side", example=either("50 x 12 mm", "2 x 1/2 in")),
        length("core", "width of the core, in the middle", either("16 mm", "5/8 in"), needed=True),
        length(
            "jacket",
            either("to be left at the point (6.4 mm)", "to be left at the point (1/4 in)"),
            either("6 mm", "1/4 in"),
        ),
        number("angle", "of the notch, in degrees (60)", "60"),
        length(
            "radius",
            either("edges of the flanks rounded (0.5 mm)", "edges of the flanks rounded (0.02 in)"),
            either("1 mm", "0.04 in"),
        ),
        length("drawn-to", "thickness after the weld (the bar's)", either("6 mm", "1/4 in")),
        length(
            "grind",
            either("ground off each face (1 mm)", "ground off each face (0.04 in)"),
            either("0.5 mm", "0.02 in"),
        ),
    ),
    _notch,
    (either('notch --section "50 x 12 mm" --core "16 mm"', 'notch --section "2 x 1/2 in" --core "5/8 in"'),),
)

WANDER: Final = Question(
    "wander",
    "how a section leaned with its core, and which corner to strike",
    (
        replace(
            SECTION,
            about="of the bar that leaned; core off the middle: laminate",
            example=either("30 x 12 mm", "1 1/4 x 1/2 in"),
        ),
        lengths(
            "front",
            "where the core begins and ends, from the left side",
            either("12, 22 mm", "1/2, 7/8 in"),
            needed=True,
        ),
        lengths(
            "back",
            "the same on the back, from the same side",
            either("9, 19 mm", "3/8, 3/4 in"),
            needed=True,
        ),
    ),
    _wander,
    (
        either(
            'wander --section "30 x 12 mm" --front "12, 22 mm" --back "9, 19 mm"',
            'wander --section "1 1/4 x 1/2 in" --front "1/2, 7/8 in" --back "3/8, 3/4 in"',
        ),
    ),
)

"""The answers that a plan is made from: its keys in an answers file, and in the table [made_from] of a plan.

A key that is absent is answered by `plans.maker`, which says what it took and why.
"""

from __future__ import annotations

from typing import Final

from plans.blows import StruckBy
from plans.making import OPTIONAL, Build, CoreKind, Part, What
from plans.reader.declaring import key
from plans.reader.value_types import Choice, Choices, Count, CrossSection, Line, Lines, Quantity, Range
from plans.record import record
from plans.shapes import Section
from plans.units import kelvin

_LENGTH: Final = Quantity("length", Range(0.005, 5.0, "no blade or bar is shorter or longer"))
_SIDE: Final = Quantity("length", Range(0.0005, 0.5, "no blade or bar is thinner or wider"))
_EDGE: Final = Quantity("length", Range(0.0001, 0.02, "thinner is sharp, and thicker no edge"))
_PITCH: Final = Quantity("length", Range(0.002, 2.0, "no bar is twisted tighter, or turned less"))
_SECTION: Final = CrossSection(Range(0.0005, 0.5, "no bar is thinner or wider"))
_STEEL: Final = Line(30, braces=False)
_TIME: Final = Quantity("time", Range(5.0, 86400.0, "no dip is shorter or longer"))
_SHARE: Final = Quantity("number", Range(0.02, 0.8, "no heat takes off less or more"))
SCALE: Final = Range(0.001, 0.15, "no heat takes less or more of the steel")
"""What of the steel a heat may take as scale."""
_LOSS: Final = Quantity("number", Range(0.0, 0.7, "more is no billet"))
_TEMPER: Final = Quantity("temperature", Range(kelvin(100), kelvin(650), "no edge or spring is tempered beyond"))
MOST_PIECES: Final = 50
"""Most pieces of a stack, and most cores side by side."""


@record
class AnswerKeys:
    """What shall be made, and of what: all that a plan is made from."""

    what: What = key(Choice(tuple(What)), '"double-edged"', default=What.SINGLE_EDGED, otherwise="single-edged")
    """What shall be made. `cycles` heat-treats work that is there; its length, width and thickness are those of it."""
    title: str = key(Line(40), '"Carving knife"', default="", otherwise="it is called by what it is")
    """What the plan is called on the shelf."""
    length: float | None = key(_LENGTH, '"190 mm"', otherwise="what is usual for it")
    """Finished length: of a blade from the shoulder to the point, of a drawknife from shoulder to shoulder, of a wedge
    from poll to edge, of a bar all of it."""
    width: float | None = key(_SIDE, '"30 mm"', otherwise="what is usual for it")
    """Finished width, from edge to spine or from edge to edge; of a wedge, that of its edge."""
    thickness: float | None = key(_SIDE, '"5 mm"', otherwise="what is usual for it")
    """Finished thickness at its thickest: the spine, the ridge, the poll."""
    edge: float | None = key(
        _EDGE, '"0.6 mm"', otherwise="0.6 mm; 0.8 mm of a drawknife, 1 mm of a wedge; 2 mm of what is only heat-treated"
    )
    """Thickness of the finished edge, before it is sharp."""
    point: float | None = key(
        _LENGTH, '"40 mm"', otherwise="one and a half times the width, or half the length if that is less"
    )
    """How long the point is, of the length of a blade."""
    tang_length: float | None = key(_LENGTH, '"100 mm"', otherwise="what is usual for it")
    """Length of the tang, or of each of the two of a drawknife, before it is bent."""
    tang: Section | None = key(_SECTION, '"14 x 5 mm"', otherwise="half as wide as the blade, and as thick")
    """Section of the finished tang, on average."""
    build: Build = key(Choice(tuple(Build)), '"core"', default=Build.ONE_STEEL, otherwise="one steel")
    """How it is built."""
    steel: str = key(_STEEL, '"1084"', default="1084", otherwise="1084")
    """The steel of the edge, or the only one."""
    back: str = key(_STEEL, '"1018"', default="1018", otherwise="1018")
    """The steel of the back of a laid edge, or of the jackets of a laminate."""
    pattern: tuple[str, ...] = key(
        Lines(2, 30, 1), '["1084", "15N20"]', default=("1084", "15N20"), otherwise="1084 and 15N20"
    )
    """The steels of layers, twisted bars or a core, in turn: one or two of them."""
    bar: Section | None = key(_SECTION, '"1/2 x 1/2 in"', otherwise="what the piece takes, or what the rack has")
    """Section of the bar of the edge's steel: the only bar, the laid edge, the core of a laminate, each jacket of a
    core, the bar round a core; of twisted bars, what each is squared to."""
    other_bar: Section | None = key(_SECTION, '"30 x 12 mm"', otherwise="what suits the bar")
    """Section of the bars beside it: the back, the jackets of a laminate, each piece of a stack, a core as it is
    stacked; of a bundle, all of it."""
    pieces: int | None = key(Count(MOST_PIECES), "7", otherwise="7, or 5 in a twisted bar")
    """Pieces of each stack, two steels in turn."""
    folds: int | None = key(Count(8), "2", otherwise="2")
    """How often a folded billet is folded."""
    cores: int | None = key(Count(8), "1", otherwise="1 in a core, 2 twisted bars")
    """How many bars lie side by side: in a core, or in a blade of twisted bars."""
    core: CoreKind | None = key(Choice(tuple(CoreKind)), '"twisted"', otherwise="layered")
    """What each core is made of."""
    twist: float | None = key(_PITCH, '"30 mm"', otherwise="two and a half sides of the bar")
    """Length of one whole turn of a twisted bar."""
    core_share: float | None = key(
        Quantity("number", Range(0.1, 0.9, "less shows nothing, and more leaves no jacket")),
        '"40 %"',
        otherwise="as wide as its bars are beside the others",
    )
    """Share of the width that the core has."""
    loss: float | None = key(_LOSS, '"35 %"', otherwise="35 % of a bundle")
    """What of a bundle is air, scale and what is cut off before it is a sound bar."""
    struck_by: StruckBy = key(Choice(tuple(StruckBy)), '"press"', default=StruckBy.HAND, otherwise=StruckBy.HAND.value)
    """What strikes the work."""
    reduction: float | None = key(_SHARE, '"20 %"', otherwise="what the logbook has taught, or what is usual for it")
    """Share of the area that a heat takes off."""
    scale: float | None = key(
        Quantity("number", SCALE), '"2.7 %"', otherwise="what the logbook has taught, which is written here, or 2 %"
    )
    """Share of the steel that a heat takes as scale. A plan that lacks it was made with 2 %."""
    leave_out: tuple[Part, ...] = key(Choices(OPTIONAL), '["etch"]', default=(), otherwise="nothing")
    """Parts of the work that the plan leaves out."""
    temper: float | None = key(_TEMPER, '"200 degC"', otherwise="what the steel's card has for an edge")
    """Temperature of the temper."""
    hardness: int | None = key(Count(68), "60", otherwise="what the temper leaves")
    """Hardness that the edge shall have, in HRC, where no temper is said; known for plain carbon steels."""
    dips: int | None = key(Count(20), "4", otherwise="4, or 5 where its steels hardly differ in the bath")
    """How often it is dipped in the etch."""
    dip: float | None = key(_TIME, '"8 min"', otherwise="what is usual for its steels")
    """How long each dip lasts."""

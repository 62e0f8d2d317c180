"""Every answer filled in: what the smith said, and for the rest what is usual, each with its reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final, NamedTuple

from plans.blows import StruckBy
from plans.maker.errors import MakeError
from plans.maker.steels import Steels
from plans.maker.why import Chosen, Why, asked, practice
from plans.making import ALL_PATTERN, CORED, Build, CoreKind, Part, What, is_twisted
from plans.press import usual_reduction
from plans.reader import AnswerKeys
from plans.reckoned import Reckoned
from plans.record import record
from plans.shapes import Section
from plans.stock import USUAL_SCALE, ScaleLoss
from plans.units import Shown, Units, both


class _Usual(NamedTuple):
    """The usual measures of a piece [m]: common practice, no source."""

    length: float
    width: float
    thickness: float
    edge: float = 0.6e-3
    tang: float = 0.1


_USUAL: Final = {
    What.DOUBLE_EDGED: _Usual(0.19, 0.030, 0.006),
    What.SINGLE_EDGED: _Usual(0.15, 0.030, 0.004),
    What.CHISEL_EDGED: _Usual(0.12, 0.025, 0.004),
    What.WEDGE: _Usual(0.15, 0.06, 0.03, 1e-3, 0.0),
    What.DRAWKNIFE: _Usual(0.23, 0.037, 0.007, 0.8e-3, 0.11),
    What.BAR: _Usual(0.25, 0.04, 0.006, 0.6e-3, 0.0),
    What.CYCLES: _Usual(0.25, 0.03, 0.004, 2e-3, 0.0),
}
MOST_POINT: Final = 0.75
"""Share of a blade's length that its point may be."""
EDGED: Final = frozenset({What.DOUBLE_EDGED, What.SINGLE_EDGED, What.CHISEL_EDGED, What.DRAWKNIFE})
"""What has bevels along its length."""


@record(eq=False)
class Settled:
    """What shall be made, with nothing left open; lengths in metres."""

    what: What
    """What shall be made."""
    build: Build
    """How it is built."""
    length: float
    """Finished length, without tangs [m]."""
    width: float
    """Finished width [m]."""
    thickness: float
    """Finished thickness at its thickest [m]."""
    edge: float
    """Thickness of the edge before it is sharp [m]."""
    point: float
    """Length of the point [m]; 0 where there is none."""
    tang_length: float
    """Length of each tang [m]; 0 where there is none."""
    tang: Section
    """Mean section of each tang."""
    steel: str
    """The steel of the edge."""
    back: str
    """The steel beside it in a laid edge or a laminate."""
    pattern: tuple[str, ...]
    """The steels of layers, in turn."""
    pieces: int
    """Pieces of each stack."""
    folds: int
    """How often a billet is folded."""
    cores: int
    """Bars side by side."""
    core: CoreKind
    """What each of them is made of."""
    twist: float | None
    """Length of one whole turn of a twisted bar [m]; None for what is usual for its section."""
    struck_by: StruckBy
    """What strikes the work."""
    reduction: Reckoned
    """Share of the area that a heat takes off."""
    scale: ScaleLoss
    """What a heat takes as scale."""
    leave_out: frozenset[Part]
    """Parts of the work that are left out."""
    whys: dict[str, Why]
    """Where each answer comes from, by the attribute of `AnswerKeys`."""

    def has(self, part: Part) -> bool:
        """Whether a part of the work that the piece may need is not left out."""
        return part not in self.leave_out

    @property
    def is_tanged(self) -> bool:
        """Whether it has a tang or two."""
        return self.tang_length > 0

    @property
    def steels(self) -> tuple[str, ...]:
        """The steels that are in it, that of the edge first, each once."""
        return steel_names(self)

    @property
    def is_plain(self) -> bool:
        """Whether its cores are of one steel."""
        return self.build in CORED and self.core is CoreKind.PLAIN


def steel_names(made: AnswerKeys | Settled) -> tuple[str, ...]:
    """The steels that are in what shall be made, that of the edge first, each once.

    Args:
        made: what was answered, or what was made of it
    """
    beside: tuple[str, ...] = ()
    if made.build in (Build.LAID_EDGE, Build.LAMINATE):
        beside = (made.back,)
    elif made.build is not Build.ONE_STEEL:
        beside = made.pattern[:1] if made.build in CORED and made.core is CoreKind.PLAIN else made.pattern
    own = () if made.build in ALL_PATTERN else (made.steel,)
    return tuple(dict.fromkeys((*own, *beside)))


def steels_in(made: AnswerKeys | Settled) -> Steels:
    """The steels of a piece, with what is known of each, and which of them end in the edge."""
    answers = dict.fromkeys(made.pattern, "pattern") | {made.back: "back", made.steel: "steel"}
    return Steels.of(steel_names(made), None if made.build in ALL_PATTERN else (made.steel,), answers)


def settle(answers: AnswerKeys, reduction: Reckoned | None = None, scale: Reckoned | None = None) -> Settled:
    """Fill in what was not answered.

    Args:
        answers: what was answered
        reduction: what a heat takes off in this shop, as its logbook has taught; None for what is usual
        scale: what a heat takes as scale there, where the answer is that; None where the answer is the smith's own

    Raises:
        MakeError: a measure contradicts another, as a blade that is thicker than wide.
    """
    whys: dict[str, Why] = {}

    def given(name: str, usual: Callable[[], Chosen[float]]) -> float:
        value = getattr(answers, name)
        chosen = usual() if value is None else Chosen(value, asked())
        whys[name] = chosen.why
        return chosen.value

    what = answers.what
    of_it = _USUAL[what]
    for_such = f"usual for such a piece ({what.value})"
    length = given("length", lambda: Chosen(of_it.length, practice(for_such)))
    width = given("width", lambda: Chosen(of_it.width, practice(for_such)))
    thickness = given("thickness", lambda: Chosen(min(of_it.thickness, width), practice(for_such)))
    edge = given("edge", lambda: Chosen(min(of_it.edge, thickness / 2), practice("Thin enough to be sharpened.")))
    pointed = what in EDGED and what is not What.DRAWKNIFE
    usual_point = Chosen(min(1.5 * width, length / 2), practice("One and a half times the width."))
    point = given("point", lambda: usual_point) if pointed else 0.0
    tanged = what in EDGED and Part.TANG not in answers.leave_out
    tang_length = given("tang_length", lambda: Chosen(of_it.tang, practice(for_such))) if tanged else 0.0
    whys["tang"] = practice("Half as wide as the blade, and as thick.") if answers.tang is None else asked()
    tang = answers.tang or Section.flat(width / 2, thickness)
    _check(what, length, width, thickness, edge, point)
    share = _reduction(answers, reduction)
    whys["reduction"] = Why(
        "asked" if answers.reduction else "learned" if reduction else "common practice", share.validity, share.source
    )
    whys["scale"] = _scale_why(answers, scale)
    return Settled(
        what=what,
        build=answers.build,
        length=length,
        width=width,
        thickness=thickness,
        edge=edge,
        point=point,
        tang_length=tang_length,
        tang=tang,
        steel=answers.steel,
        back=answers.back,
        pattern=answers.pattern,
        pieces=_count(
            answers.pieces,
            5 if is_twisted(answers.build, answers.core) else 7,
            "pieces",
            whys,
            "an odd number: one steel outside",
        ),
        folds=_count(answers.folds, 2, "folds", whys, "each doubles the layers"),
        cores=_count(answers.cores, 2 if answers.build is Build.TWISTED else 1, "cores", whys, "the fewest that show"),
        core=answers.core or CoreKind.LAYERED,
        twist=answers.twist,
        struck_by=answers.struck_by,
        reduction=share,
        scale=USUAL_SCALE if answers.scale is None else ScaleLoss(answers.scale, answers.scale, answers.scale),
        leave_out=frozenset(answers.leave_out),
        whys=whys,
    )


def _check(what: What, length: float, width: float, thickness: float, edge: float, point: float) -> None:
    """Make sure that measures [m] go together."""

    def said(metres: float) -> str:
        return both(lambda units: units.length(metres))

    if thickness > width or (what in EDGED and thickness > width / 2):
        most = width / 2 if what in EDGED else width
        raise MakeError(
            "thickness", f"{said(thickness)} is too thick for {said(width)} of width: give {said(most)} or less"
        )
    if (what in EDGED or what is What.WEDGE) and edge > thickness / 2:
        raise MakeError(
            "edge", f"{said(edge)} is no edge of what is {said(thickness)} thick: give half of that or less"
        )
    if point > MOST_POINT * length:
        raise MakeError(
            "point", f"{said(point)} is too much of {said(length)}: give {said(MOST_POINT * length)} or less"
        )


def _count(value: int | None, usual: int, name: str, whys: dict[str, Why], said: Shown) -> int:
    whys[name] = practice(said) if value is None else asked()
    return usual if value is None else value


def _reduction(answers: AnswerKeys, learned: Reckoned | None) -> Reckoned:
    if answers.reduction is not None:
        usual = usual_reduction(answers.struck_by)
        return replace(usual, value=answers.reduction, least=None, most=None, validity="as you said", source="")
    return learned or usual_reduction(answers.struck_by)


def _scale_why(answers: AnswerKeys, learned: Reckoned | None) -> Why:
    if answers.scale is None:
        return practice("A heat in a common fire takes 1 to 3 % of the steel, and a forging heat 2.")
    if learned is None:
        return asked()

    def said(units: Units) -> str:
        least, most = (100 * (learned.value if end is None else end) for end in (learned.least, learned.most))
        return f"{units.text(learned.validity)}, from {least:.1f} to {most:.1f} %"

    return Why("learned", said, learned.source)

"""Questions of stock: what a bar weighs, how long it gets, and how much of it a piece takes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tui.reckoner import typed
from tui.reckoner.question import Answers, Field, Question
from tui.reckoner.questions.fields import (
    CARBON_CONTENT,
    CONTENT,
    SECTION,
    either,
    given,
    length,
    number,
    reduction,
    temperature,
    time,
    together,
)

if TYPE_CHECKING:
    from plans.plan import Plan
    from plans.reader import Piece
    from plans.reckoner import Reckoning
    from plans.steel import Grade
    from plans.stock import RackBar


def _weight(answers: Answers) -> Reckoning:
    """What a bar weighs."""
    from plans.reckoner import reckon_weight as reckon

    grade = _grade(answers["steel"]) if "steel" in answers else None
    return reckon(answers["section"], answers["length"], grade, **given(answers, at="at", end="taper-to"))


def _grade(name: str) -> Grade:
    """The grade of a name, whose composition alone would not tell what it weighs."""
    from plans.reckoner import ReckonError
    from plans.steel import SteelError, find_grade, near_to
    from plans.text import clean

    try:
        return find_grade(name)
    except SteelError:
        near = near_to(name) or "`heatbook reckon steel --help` lists the grades"
        more = " Or leave it out" if near.endswith("?") else "; or leave it out"
        raise ReckonError("steel", f'no steel is called "{clean(name)}" here: {near}{more}') from None


def _draw(answers: Answers) -> Reckoning:
    """How long a bar gets."""
    from plans.reckoner import reckon_draw as reckon
    from tui.config import scale_learned

    return reckon(
        answers["from"],
        answers["length"],
        answers["to"],
        reduction=reduction(answers),
        scale=scale_learned(),
        **given(answers, loss="loss"),
    )


def _stock(answers: Answers) -> Reckoning:
    """How much of a bar a piece takes, or where the steel of a plan goes."""
    from plans.plan import Plan
    from plans.reckoner import ReckonError, SkinHeats, reckon_piece, reckon_plan_stock
    from tui.config import scale_learned, shop_set

    made = _made(answers["plan-or-piece"])
    if isinstance(made, Plan):
        for name, own in (
            ("section", "bars"),
            ("length", "bars"),
            ("bars", "bars"),
            ("heats", "heats"),
            ("at", "heats"),
        ):
            if name in answers:
                raise ReckonError(name, f"a plan names its own {own}; leave it out")
        return reckon_plan_stock(made, _rack(answers))
    more = given(answers, heats="heats", length="length", bars="bars")
    if together(answers, "at", "for"):
        shop = shop_set()
        more["skin"] = SkinHeats(answers["at"], answers["for"], answers.get("carbon"), shop.fire, shop.scale_factor)
    elif "carbon" in answers:
        raise ReckonError("at", "it is missing; what is lost of the carbon goes by the heats and their time")
    return reckon_piece(
        made, answers.get("section"), _rack(answers), reduction=reduction(answers), scale=scale_learned(), **more
    )


def _made(name: str) -> Plan | Piece:
    """The piece or the plan of that name, or what the file at that path says."""
    from plans.errors import PlanError
    from plans.reader import find_piece, find_plan
    from plans.reckoner import ReckonError
    from tui.config import user_folders

    try:
        return find_piece(name) or find_plan(name, user_folders().plans)
    except PlanError as error:
        raise ReckonError("plan-or-piece", str(error)) from None


def _rack(answers: Answers) -> tuple[RackBar, ...] | None:
    """The rack that was named, or the one beside the settings; None where there is none, or a section was named."""
    from plans.errors import PlanError
    from plans.reader import read_rack
    from plans.reckoner import ReckonError
    from tui.config import user_folders

    named, usual = answers.get("rack"), user_folders().rack
    if named is None and ("section" in answers or not usual.exists()):
        return None
    try:
        return read_rack(usual if named is None else Path(named))
    except PlanError as error:
        raise ReckonError("rack", str(error)) from None


DRAW: Final = Question(
    "draw",
    "how long a bar gets when it is drawn out",
    (
        replace(SECTION, name="from", about="cross-section of the bar", example=either("25 x 25 mm", "1 x 1 in")),
        length("length", "its length", either("110 mm", "4 1/4 in"), needed=True),
        replace(
            SECTION,
            name="to",
            about="cross-section that it is drawn to",
            example=either("30 x 8 mm", "1 1/4 x 5/16 in"),
        ),
        number("loss", "share of the steel that is lost meanwhile (none, and the usual scale as low end)", "3 %"),
    ),
    _draw,
    (
        either(
            'draw --from "25 x 25 mm" --length "110 mm" --to "30 x 8 mm" --loss "3 %"',
            'draw --from "1 x 1 in" --length "4 1/4 in" --to "1 1/4 x 5/16 in" --loss "3 %"',
        ),
    ),
)

STOCK: Final = Question(
    "stock",
    "how much of a bar a piece takes, with every loss; or where the steel of a plan goes",
    (
        Field(
            "plan-or-piece",
            "name or path of a plan, or of a piece that shall be made",
            "carving-knife",
            typed.words,
            "PLAN-OR-PIECE",
            needed=True,
            bare=True,
        ),
        replace(SECTION, about="cross-section of the bar that a piece is made from (the rack chooses)", needed=False),
        length(
            "length",
            "of the bar that you have, to be told whether the piece comes out of it",
            either("150 mm", "6 in"),
        ),
        Field("bars", "how many such bars are welded together for it (1)", "3", typed.count, "NUMBER"),
        Field("heats", "how many heats it takes (the piece's file, or by the bar)", "8", typed.count, "NUMBER"),
        temperature("at", "of the skin in each heat, for its scale and decarb", either("1150 degC", "2100 degF")),
        time("for", "how long each heat keeps it there", "2 min"),
        replace(CARBON_CONTENT, about=f"{CONTENT} (the piece's steel)"),
        Field(
            "rack",
            "file that says what bars you have (rack.toml beside the settings)",
            "rack.toml",
            typed.words,
            "FILE",
        ),
    ),
    _stock,
    (
        either('stock carving-knife --section "25 x 10 mm"', 'stock carving-knife --section "1 x 3/8 in"'),
        "stock kitchen-billet",
    ),
)

WEIGHT: Final = Question(
    "weight",
    "what a bar or a taper weighs, and where it balances",
    (
        SECTION,
        replace(length("length", "its length", either("300 mm", "12 in")), needed=True),
        replace(SECTION, name="taper-to", about="section that it tapers to (stays as it is)", needed=False),
        Field("steel", "name of a grade (any carbon steel)", "1084", typed.words, "GRADE"),
        temperature(
            "at",
            either(
                "how hot it is when it has these sizes (20 degC)", "how hot it is when it has these sizes (68 degF)"
            ),
            either("1200 degC", "2100 degF"),
        ),
    ),
    _weight,
    (
        either(
            'weight --section "25 x 10 mm" --length "300 mm" --steel 1084',
            'weight --section "1 x 3/8 in" --length "12 in" --steel 1084',
        ),
        either(
            'weight --section "octagon 20 mm" --length "150 mm" --at "1200 degC"',
            'weight --section "octagon 3/4 in" --length "6 in" --at "2100 degF"',
        ),
    ),
)

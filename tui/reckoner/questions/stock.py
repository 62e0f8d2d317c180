"""Questions of stock: what a bar weighs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from tui.reckoner import typed
from tui.reckoner.question import Answers, Field, Question
from tui.reckoner.questions.fields import SECTION, either, given, length, temperature

if TYPE_CHECKING:
    from plans.reckoner import Reckoning
    from plans.steel import Grade


def _weight(answers: Answers) -> Reckoning:
    """What a bar weighs."""
    from plans.reckoner import reckon_weight as reckon

    grade = _grade(answers["steel"]) if "steel" in answers else None
    return reckon(answers["section"], answers["length"], grade, **given(answers, at="at", end="taper-to"))


def _grade(name: str) -> Grade:
    """The grade of a name, whose composition alone would not tell what it weighs."""
    from plans.reckoner import ReckonError
    from plans.steel import SteelError, find_grade, near_to

    try:
        return find_grade(name)
    except SteelError:
        near = near_to(name) or "`heatbook reckon steel --help` lists the grades"
        more = " Or leave it out" if near.endswith("?") else "; or leave it out"
        raise ReckonError("steel", f'no steel is called "{name}" here: {near}{more}') from None


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

"""What no smith can build: a point closed where there is none, bars with no faces to meet, a stack of one piece."""

from __future__ import annotations

from plans.maker.applying import applies
from plans.maker.errors import MakeError
from plans.maker.settled import Settled
from plans.making import CORED, Build, What
from plans.reader import AnswerKeys
from plans.shapes import Form

_FREE: frozenset[tuple[str, Build]] = frozenset({("bar", Build.ONE_STEEL), ("other_bar", Build.BUNDLE)})
"""The bars whose form is free, as they meet no other, each with the build in which it is so."""


def refuse(answers: AnswerKeys, of: Settled) -> None:
    """Make sure that it can be built so.

    Args:
        answers: what was answered
        of: the same, with nothing left open

    Raises:
        MakeError: it can't; says which answer, and what would do instead.
    """
    if of.build in CORED and of.what in (What.WEDGE, What.DRAWKNIFE, What.BAR):
        why = f"the steel of the edge is closed round the point, and a {of.what.value} has none"
        raise MakeError("build", f"{why}: build it as a laid edge, a laminate or a folded billet")
    asked = {name for group in applies(answers) for name in group.answers}
    for name in ("bar", "other_bar"):
        section = getattr(answers, name)
        if name in asked and section is not None and section.form is not Form.FLAT and (name, of.build) not in _FREE:
            what = f"a {section.form.value} bar has no flat faces that could be laid on others"
            raise MakeError(name, f"{what}: forge it square first and give what it is then, or take a flat one")
    if "pieces" in asked and of.pieces < 2:
        raise MakeError("pieces", "one piece is no stack: give two or more, or build it of one steel")

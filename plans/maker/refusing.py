"""What no smith can build: a point closed where there is none, bars with no faces to meet, a stack of one piece."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from plans.maker.applying import applies
from plans.maker.errors import MakeError
from plans.maker.settled import Settled
from plans.making import CORED, Build, What
from plans.reader import AnswerKeys, Choice, keys_of
from plans.shapes import Form

_WITHOUT_POINT: Final = (What.WEDGE, What.DRAWKNIFE, What.BAR)
"""What has no point that anything could be closed round, and is forged anew."""

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
    if (unbuilt := _unbuilt(answers)) is not None:
        raise unbuilt
    asked = {name for group in applies(answers) for name in group.answers}
    for name in ("bar", "other_bar"):
        section = getattr(answers, name)
        if name in asked and section is not None and section.form is not Form.FLAT and (name, of.build) not in _FREE:
            what = f"a {section.form.value} bar has no flat faces that could be laid on others"
            raise MakeError(name, f"{what}: forge it square first and give what it is then, or take a flat one")
    if "pieces" in asked and of.pieces < 2:
        raise MakeError("pieces", "one piece is no stack: give two or more, or build it of one steel")


def refused_words(answers: AnswerKeys, answer: str) -> Mapping[str, MakeError]:
    """The words that can't be given for an answer beside what else was answered, each with why.

    Where the error is about that answer itself, the word is nothing to offer; where it is about another one, it can be
    given, and the other has to change then.

    Args:
        answers: what was answered
        answer: an attribute of `AnswerKeys`; one that takes no word of a few has none
    """
    kind = keys_of(AnswerKeys)[answer].value
    words: tuple[Any, ...] = kind.words if isinstance(kind, Choice) else ()
    asked = ((word.value, _unbuilt(replace(answers, **{answer: word}))) for word in words)
    return {word: error for word, error in asked if error is not None}


def _unbuilt(answers: AnswerKeys) -> MakeError | None:
    """Why something can't be built in this way, whatever its measures and bars; None where it can."""
    if answers.build not in CORED or answers.what not in _WITHOUT_POINT:
        return None
    why = f"the steel of the edge is closed round the point, and a {answers.what.value} has none"
    return MakeError("build", f"{why}: build it as a laid edge, a laminate or a folded billet")

"""Finding a plan by words: title, name, what it is about and for, its steels, the titles and kinds of its steps."""

from __future__ import annotations

import re

from plans.at_hand.groups import group_of
from plans.plan import Plan
from plans.prose import in_units
from plans.reader import steels_of
from plans.units import Units


def words_of(plan: Plan, units: Units) -> str:
    """All the texts that a plan is found by, one a line.

    Args:
        plan: the plan
        units: those in which its texts are shown, and so looked for
    """
    texts = [plan.name, plan.title, plan.about, group_of({step.kind for step in plan.steps}).value]
    texts += steels_of(plan)
    texts += [text for step in plan.steps for text in (step.title, step.kind.value)]
    return "\n".join(in_units(text, units) for text in texts)


def has_words(text: str, wanted: str) -> bool:
    """Whether a text has every word that is looked for, in any order and case; the beginning of one will do.

    Args:
        text: what is searched
        wanted: the words, with blanks between them; none is found everywhere
    """
    searched = text.casefold()
    return all(re.search(rf"(?<!\w){re.escape(word)}", searched) for word in wanted.casefold().split())

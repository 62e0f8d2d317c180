"""What a proposal takes where nothing was answered, and where that comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from plans.maker.proposal import Proposal
from plans.maker.why import Chosen, Why, practice
from plans.making import Build, Part

_BARS: Final[Mapping[Build, tuple[str, str]]] = {
    Build.ONE_STEEL: ("bar", ""),
    Build.LAID_EDGE: ("edge", "back"),
    Build.LAMINATE: ("core", "jackets"),
    Build.CORE: ("jackets", ""),
    Build.WRAPPED: ("edge", ""),
    Build.BUNDLE: ("", "bundle"),
}
"""What the bars of `bar` and `other_bar` are called in a plan, where each of them is one."""
_IN_STEPS: Final[Mapping[str, tuple[Part, str]]] = {
    "temper": (Part.TEMPER, "oven.at"),
    "dip": (Part.ETCH, "dip.seconds"),
    "dips": (Part.ETCH, "heats"),
}
"""The answers that a step of the plan holds: which step, and where in its keys."""


def taken(proposal: Proposal, answer: str) -> Chosen[Any] | None:
    """What a proposal takes for an answer, asked for or not; None where it takes no single figure for it.

    Args:
        proposal: the proposal
        answer: an attribute of `plans.reader.AnswerKeys`
    """
    if answer == "title":
        return Chosen(proposal.title, practice("what it is, and how it is built"))
    if answer in _IN_STEPS:
        return _in_step(proposal, *_IN_STEPS[answer])
    if answer in ("bar", "other_bar"):
        return _bar(proposal, _BARS.get(proposal.settled.build, ("", ""))[answer == "other_bar"])
    why = proposal.settled.whys.get(answer)
    if answer == "reduction":
        return None if why is None else Chosen(proposal.settled.reduction.value, why)
    if answer == "scale":
        return None if why is None else Chosen(proposal.settled.scale.likely, why)
    if why is None or not hasattr(proposal.settled, answer):
        return None
    return Chosen(getattr(proposal.settled, answer), why)


def _bar(proposal: Proposal, name: str) -> Chosen[Any] | None:
    for keys, whys in zip(proposal.bars, proposal.bar_whys, strict=True):
        if keys.name == name:
            return Chosen(keys.section, whys.get("section", _FITS))
    return None


_FITS: Final = Why("arithmetic", "what the piece takes")


def _in_step(proposal: Proposal, part: Part, where: str) -> Chosen[Any] | None:
    step = next((step for step in proposal.steps if step.part is part), None)
    if step is None:
        return None
    value: Any = step.keys
    for name in where.split("."):
        value = getattr(value, name, None)
    why = step.why.get(where)
    return None if value is None or why is None else Chosen(value, why)

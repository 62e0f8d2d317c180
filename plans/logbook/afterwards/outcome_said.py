"""What a smith says of an outcome, in words as they are typed or chosen, and what it makes of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, Final

from plans.logbook.afterwards.outcome import BEST, MOST_TWIST, MOST_WARP, Flaw, Grain, Outcome
from plans.logbook.errors import LogbookError, shown
from plans.plan import Plan, StepKind
from plans.quantities import QuantityError, parse

UNKNOWN: Final = "unknown"
"""Takes back what was said."""
SOUND: Final = "sound"
"""Of a weld without a flaw."""


def with_said(outcome: Outcome, part: str, text: str) -> Outcome:
    """The outcome with one of its parts as it is said.

    Args:
        outcome: as it was
        part: "warp", "twist", "cracks", "grain" or "rating"
        text: "2 mm", "3", "yes" or "no", "fine", "4"; or "unknown", which takes back what was said

    Raises:
        LogbookError: it can't be; the text says what can.
    """
    attribute, read = _PARTS[part]
    said: dict[str, Any] = {attribute: None if text.strip() == UNKNOWN else read(text.strip())}
    return replace(outcome, **said)


def with_weld_said(outcome: Outcome, plan: Plan | None, step: int, text: str) -> Outcome:
    """The outcome with one weld as it is said.

    Args:
        outcome: as it was
        plan: that was followed; None where this version can't read it
        step: number of the step that it was welded in, from 0
        text: "sound", one flaw or several with commas between, or "unknown"

    Raises:
        LogbookError: the step is no weld, or there is no such flaw.
    """
    steps = [] if plan is None else welds_of(plan)
    if step not in steps:
        which = ", ".join(str(one + 1) for one in steps) or "none"
        raise LogbookError(f"step {step + 1} is no weld; welds of this plan: {which}")
    if text == UNKNOWN:
        return outcome.with_weld(step, None)
    flaws = () if text == SOUND else tuple(dict.fromkeys(_flaw(word) for word in text.split(",")))
    return outcome.with_weld(step, flaws)


def welds_of(plan: Plan) -> list[int]:
    """The steps of a plan that weld, from 0."""
    return [number for number, step in enumerate(plan.steps) if step.kind is StepKind.WELD]


def _flaw(word: str) -> Flaw:
    if word.strip() in (SOUND, UNKNOWN):
        raise LogbookError(f"a weld that is {word.strip()} has no flaw beside that: say one or the other")
    try:
        return Flaw(word.strip().replace("-", " "))
    except ValueError:
        known = ", ".join(flaw.value.replace(" ", "-") for flaw in Flaw)
        raise LogbookError(f'"{shown(word)}" is nothing that a weld can be: {SOUND}, {known}, {UNKNOWN}') from None


def _warp(text: str) -> float:
    try:
        metres = parse(text, "length")
    except QuantityError as error:
        raise LogbookError(str(error)) from None
    if not metres <= MOST_WARP:
        raise LogbookError(f'a warp of "{shown(text)}" is more than any work has')
    return metres


def _twist(text: str) -> float:
    number = text.removesuffix("degrees").removesuffix("deg").strip()
    if not number.isascii() or not number.replace(".", "", 1).isdecimal() or not float(number) <= MOST_TWIST:
        raise LogbookError(f'"{shown(text)}" is no twist: write degrees from end to end, such as 3')
    return float(number)


def _cracks(text: str) -> bool:
    if text not in ("yes", "no"):
        raise LogbookError(f'cracks: yes, no or {UNKNOWN}, not "{shown(text)}"')
    return text == "yes"


def _grain(text: str) -> Grain:
    try:
        return Grain(text)
    except ValueError:
        raise LogbookError(f'grain: {", ".join(Grain)} or {UNKNOWN}, not "{shown(text)}"') from None


def _rating(text: str) -> int:
    if text not in map(str, range(1, BEST + 1)):
        raise LogbookError(f'a rating is 1 to {BEST}, {BEST} the best, or {UNKNOWN}, not "{shown(text)}"')
    return int(text)


_PARTS: Final[dict[str, tuple[str, Callable[[str], Any]]]] = {
    "warp": ("warp", _warp),
    "twist": ("twist_degrees", _twist),
    "cracks": ("cracked", _cracks),
    "grain": ("grain", _grain),
    "rating": ("rating", _rating),
}

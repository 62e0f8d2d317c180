"""The questions behind each line of what is said of a sitting; each answer is a change of the sitting that is kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from string import ascii_lowercase
from typing import Final

from plans.logbook import (
    LONGEST_LESSON,
    SOUND,
    UNKNOWN,
    Flaw,
    Grain,
    KeptSitting,
    Lesson,
    LogbookError,
    Outcome,
    SittingLessons,
    ties_of,
    with_said,
    with_weld_said,
)
from plans.plan import Plan
from plans.prose import in_units
from tui.screens import Choice, Host, LineScreen, QuestionScreen

Change = Callable[[KeptSitting, datetime], KeptSitting]
"""Makes the sitting as it is to be, now, of the one that is kept."""
_NOT_SAID: Final = Choice(UNKNOWN, "n", "not known, or not looked at yet")
_ASKED: Final[dict[str, tuple[Choice, ...]]] = {
    "cracks": (Choice("no", "0", "no cracks"), Choice("yes", "c", "cracked"), _NOT_SAID),
    "grain": (
        Choice(Grain.FINE, "f", "fine: grey and even, like silk"),
        Choice(Grain.MEDIUM, "m", "medium: some glitter"),
        Choice(Grain.COARSE, "c", "coarse: it glitters like sugar"),
        _NOT_SAID,
    ),
    "rating": (
        *(
            Choice(str(n), str(n), text)
            for n, text in enumerate(("scrap", "poor", "fair", "good", "as it should be"), 1)
        ),
        _NOT_SAID,
    ),
}
_TYPED: Final = {"warp": "as 2 mm, or 0 mm; ", "twist": "degrees from end to end, as 3; "}


async def ask_weld(host: Host, plan: Plan, step: int, outcome: Outcome) -> Change | None:
    """Ask how a weld is; a flaw that is chosen once more is taken back, so that one may have several.

    Args:
        host: asks
        plan: that was followed
        step: the weld's, from 0
        outcome: what was said so far
    """
    weld = outcome.weld(step)
    have = () if weld is None else weld.flaws
    flaws = [
        Choice(flaw, key, f"{'no ' if flaw in have else 'and ' if have else ''}{flaw.value}")
        for flaw, key in zip(Flaw, "dcib", strict=True)
    ]
    title = in_units(plan.steps[step].title, host.settings.units)
    choices = [Choice(SOUND, "s", "sound"), *flaws, _NOT_SAID]
    answer = await host.push_screen_wait(QuestionScreen(f"How is the weld of step {step + 1}, {title}?", choices))
    if answer is None:
        return None
    if answer not in (SOUND, UNKNOWN):
        left = [flaw.value for flaw in have if flaw != answer] + ([] if answer in have else [answer])
        answer = ",".join(left) or SOUND
    return _outcome(lambda before: with_weld_said(before, plan, step, answer))


async def ask_part(host: Host, part: str, outcome: Outcome) -> Change | None:
    """Ask for one part of the outcome: a choice, or a figure to be typed.

    Args:
        host: asks
        part: which, as `with_said` calls it
        outcome: what was said so far
    """
    if part in _ASKED:
        answer = await host.push_screen_wait(QuestionScreen(part.capitalize(), _ASKED[part]))
    else:
        answer = await _typed(host, part, outcome)
    return None if answer is None else _outcome(lambda before: with_said(before, part, answer))


async def _typed(host: Host, part: str, outcome: Outcome) -> str | None:
    """A figure of the outcome that can be read; what can't stands there to be mended."""
    answer, hint = "", f'{_TYPED[part]}"{UNKNOWN}" takes it back; '
    while True:
        line = LineScreen(part.capitalize(), answer, longest=40, hint=hint)
        given = await host.push_screen_wait(line)
        if given is None:
            return None
        try:
            with_said(outcome, part, given)
        except LogbookError as error:
            answer, hint = given, f"{error}; "
        else:
            return given


async def ask_lesson(host: Host, plan: Plan, step: int) -> Change | None:
    """Ask for a lesson that was learned at a step, and what it belongs to.

    Args:
        host: asks
        plan: that was followed
        step: the step, from 0
    """
    title = f"Next time, learned at step {step + 1}"
    text = await host.push_screen_wait(LineScreen(title, longest=LONGEST_LESSON))
    if text is None:
        return None
    ties = [tie for _, tie in ties_of(plan, step)]
    choices = [
        Choice(str(number), key, in_units(tie.about, host.settings.units))
        for number, (key, tie) in enumerate(zip(ascii_lowercase, ties, strict=False))
    ]
    answer = await host.push_screen_wait(QuestionScreen("When shall it be said?", choices))
    if answer is None:
        return None
    tie = ties[int(answer)]
    return _lessons(lambda before, now: before.learned(text, tie, step, now, plan.name))


PUT: Final = "put"
"""The answer that a lesson shall go into the plan, which is no change of the sitting alone."""


async def ask_lesson_change(host: Host, lesson: Lesson, may_put: bool) -> Change | str | None:
    """Ask what shall become of a lesson: put into the plan, said in other words, said no longer, or said again.

    Args:
        host: asks
        lesson: the lesson
        may_put: whether there is a plan that it could be put into
    """
    retired = lesson.retired is not None
    choices = [
        *([Choice(PUT, "w", "put it into the plan: yours, or a copy")] if may_put else []),
        Choice("edit", "e", "say it in other words"),
        Choice("again", "a", "say it again") if retired else Choice("retire", "r", "say it no longer; it is kept"),
    ]
    answer = await host.push_screen_wait(QuestionScreen(lesson.text, choices))
    if answer == PUT:
        return PUT
    if answer == "edit":
        text = await host.push_screen_wait(LineScreen("Next time", lesson.text, LONGEST_LESSON))
        return None if text is None else _lesson(lesson, lambda one, now: one.edited(text, now))
    if answer == "retire":
        return _lesson(lesson, lambda one, now: replace(one, retired=now))
    return _lesson(lesson, lambda one, _: replace(one, retired=None)) if answer == "again" else None


def _outcome(change: Callable[[Outcome], Outcome]) -> Change:
    def changed(kept: KeptSitting, now: datetime) -> KeptSitting:
        return replace(kept, outcome=replace(change(kept.outcome or Outcome()), changed=now))

    return changed


def _lessons(change: Callable[[SittingLessons, datetime], SittingLessons]) -> Change:
    return lambda kept, now: replace(kept, lessons=change(kept.lessons or SittingLessons(), now))


def _lesson(lesson: Lesson, change: Callable[[Lesson, datetime], Lesson]) -> Change:
    return _lessons(lambda lessons, now: lessons.changed(lesson.number, lambda one: change(one, now)))

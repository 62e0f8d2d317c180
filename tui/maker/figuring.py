"""Making the plan of what is typed, in a thread and as it is typed: the newest answers win."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.screen import Screen
from textual.timer import Timer

from plans.maker import MakeError
from plans.reader import read_plan
from plans.times import PlanTimes, plan_times
from tui.maker.answers import AnswerError
from tui.maker.work import Made, Work, make

if TYPE_CHECKING:
    from plans.plan import Plan
    from plans.shop import Shop

_RESTS = 0.2
"""Whoever rests for so long is told what the plan takes, which is more work than the plan itself [s]."""


class Figuring:
    """Makes the plan of the work's answers, and then works out what the plan that is looked at takes.

    Args:
        screen: runs what is awaited
        work: what is made
        made: called with each plan that was made
        refused: called with what is wrong with the answers
        timed: called when it is known what the plan takes
    """

    def __init__(
        self,
        screen: Screen[None],
        work: Work,
        made: Callable[[Made], None],
        refused: Callable[[AnswerError | MakeError], None],
        timed: Callable[[], None],
    ) -> None:
        self._screen, self._work = screen, work
        self._made, self._refused, self._timed = made, refused, timed
        self._at_work = self._again = False
        self._rest: Timer | None = None
        self._known: dict[str, tuple[Plan, PlanTimes]] = {}
        """By the text of a plan, the plan and what it takes: of the newest two, for the answers and for the plan may
        be different ones."""

    def answers(self) -> None:
        """The answers have changed."""
        self._again = True
        if self._rest is not None:
            self._rest.stop()
        if not self._at_work:
            self._at_work = True
            self._screen.run_worker(self._figure())

    def rest(self) -> None:
        """The plan has changed: what it takes is worked out when nothing has for a while."""
        if self._rest is not None:
            self._rest.stop()
        self._rest = self._screen.set_timer(_RESTS, lambda: self._screen.run_worker(self.time()))

    def known(self, text: str) -> tuple[Plan, PlanTimes] | None:
        """The plan of a text and what it takes; None while that is not known."""
        return self._known.get(text)

    async def _figure(self) -> None:
        try:
            while self._again:
                self._again = False
                await self._once(dict(self._work.typed))
        finally:
            self._at_work = False
        self.rest()

    async def _once(self, typed: dict[str, str]) -> None:
        try:
            made = await asyncio.to_thread(make, typed, self._work.known)
        except (AnswerError, MakeError) as error:
            if not self._again:
                self._refused(error)
        else:
            if not self._again:
                self._work.take(made)
                self._made(made)

    async def time(self) -> None:
        """Work out what the answers' plan and the changed one take."""
        made = self._work.made
        texts = {self._work.text, *([made.text] if made is not None else [])} - {""}
        self._known = {text: known for text, known in self._known.items() if text in texts}
        for text in texts - self._known.keys():
            if not self._again:
                self._known[text] = await asyncio.to_thread(_timed, text, self._work.known.shop)
                self._timed()


def _timed(text: str, shop: Shop) -> tuple[Plan, PlanTimes]:
    plan = read_plan(text, "", "plan")
    return plan, plan_times(plan, shop)

"""The sitting in hand: from its cautions, behind which it is begun, until it is put away."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from contextlib import suppress
from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, Never

if TYPE_CHECKING:
    from plans.sitting import Word
    from tui.app.shell import Shell
    from tui.live import CautionsScreen, ShownSitting
    from tui.running import Beginning, Delivered, Inbox, RunningSitting, RunRequest
    from tui.screens import StandingBy

SETTLED = 0.5
"""What can wait until nobody waits for the first screen any more waits so long [s]."""


class SittingInHand:
    """One sitting at a time, or none: begun, fed with what comes from outside and with what the smith says, put away.

    What comes from outside may come from any thread; all else is called in the app's own.

    Args:
        app: where it is shown
        behind: goes on with a beginning while the screens answer; where it fails, says why
        comes: called, from any thread, where `take_next` is to be called soon
    """

    def __init__(
        self, app: Shell, behind: Callable[[Coroutine[Any, Any, None]], object], comes: Callable[[], object]
    ) -> None:
        self._app, self._behind, self._comes = app, behind, comes
        self.running: RunningSitting | None = None
        """The sitting that runs; None without one."""
        self._shown: ShownSitting | None = None
        """The same sitting, joined with its screen."""
        self._beginning: Beginning | None = None
        """The sitting that is being begun, until it runs; what comes from outside waits for it."""
        self._sheet: CautionsScreen | None = None
        """Its cautions, where they stand there before it runs."""
        self._awaited = asyncio.Event()
        """Something was said to it, so that it is begun at once."""

    @cached_property
    def _inbox(self) -> Inbox[Never]:
        """What has come from outside and was not taken yet."""
        from tui.running import Inbox

        return Inbox(self._comes)

    @cached_property
    def _pedal(self) -> StandingBy:
        """The pedal while no sitting runs."""
        from tui.screens import StandingBy

        return StandingBy(self._app, self._inbox.put)

    @property
    def being_begun(self) -> bool:
        """Whether one is on its way."""
        return self._beginning is not None

    @property
    def seen(self) -> bool:
        """Whether one stands before the smith, be it only its cautions."""
        return self._shown is not None or self._sheet is not None

    # From the cautions to the first word

    async def stand_by(self) -> None:
        """Hear the pedal, as long as there is none; nor while one that was left may have the port open."""
        if self._beginning is None:
            await self._pedal.put()

    async def begin(self, request: RunRequest) -> None:
        """Begin a sitting, or go on with one, and show it.

        The cautions of a new one come first: they are to be read in any case, and it is begun behind them.

        Raises:
            PlansError, DeviceError, OSError: it can't begin.
        """
        from tui.running import Beginning

        await self._pedal.take_away()
        self._inbox.clear()
        before, self._beginning = self._beginning, Beginning()
        if request.plan is None or request.seed is not None:
            await self._run(request, self._beginning, before)
            return
        try:
            plan = await asyncio.to_thread(request.plan)
        except BaseException:
            await self._not_begun(self._beginning)
            raise
        from tui.live import CautionsScreen

        self._sheet = CautionsScreen(plan)
        await self._app.push_screen(self._sheet)
        # What was read is what is begun, whatever became of the file.
        self._behind(self._run_soon(replace(request, plan=lambda: plan), self._beginning, before))

    async def _run_soon(self, request: RunRequest, beginning: Beginning, before: Beginning | None) -> None:
        """Begin it behind its cautions; where they are the first screen, when that is there to be read and answers."""
        if self._app.for_one_sitting:
            with suppress(TimeoutError):
                await asyncio.wait_for(self._awaited.wait(), SETTLED)
        await self._run(request, beginning, before)

    async def _run(self, request: RunRequest, beginning: Beginning, before: Beginning | None) -> None:
        """Begin it in a thread, when one before it that was left is over, and show it as it runs.

        Raises:
            PlansError, DeviceError, OSError: it can't begin.
        """
        app, rehearsal = self._app, request.seed is not None
        logbook = app.rehearsals if rehearsal else app.logbook
        asked = request, logbook, app.settings, app.folders.shop, self.deliver, app.now

        def begin(go_ahead: Callable[[], None]) -> RunningSitting:
            from tui.live import load_live
            from tui.running import begin_sitting, recover_rehearsals

            if before is not None:
                before.wait()
            if rehearsal:
                recover_rehearsals(logbook)
            load_live()  # here, where no key waits for it
            return begin_sitting(*asked, go_ahead)

        try:
            running = await asyncio.to_thread(beginning.run, begin)
        except BaseException:
            await self._not_begun(beginning)
            raise
        if running is None:
            await self._not_begun(beginning)
            return
        from tui.live import ShownSitting

        self.running = running
        app.aloud.begin()
        self._shown = shown = ShownSitting(app, running)
        self._beginning = None
        sheet, self._sheet = self._sheet, None
        for word, text in beginning.said:
            shown.say(word, text, sure=True)
        self._comes()
        await shown.show(sheet)

    async def _not_begun(self, beginning: Beginning) -> None:
        """Nothing has come of it, or it was left: all is as before, but where another one is being begun already."""
        if beginning is not self._beginning:
            return
        self._inbox.clear()
        self._beginning = None
        sheet, self._sheet = self._sheet, None
        while sheet is not None and sheet in self._app.screen_stack:
            self._app.pop_screen()
        if not self._app.for_one_sitting:
            await self.stand_by()

    # While it runs

    def deliver(self, entry: Delivered) -> None:
        """Take in, from any thread, what comes from outside: a reading or the time, a step on the pedal, or what is
        wrong with the pedal."""
        self._inbox.put(entry)

    def take_next(self) -> bool:
        """Have the sitting take one thing that came from outside; a pedal's word may begin one.

        Returns:
            whether more waits; what waits for one that is being begun does so by itself
        """
        return self._beginning is None and self._take_next()

    def _take_next(self) -> bool:
        entry, more = self._inbox.take()
        if entry is not None:
            self._inbox.tell_missed(self._app.say_aside)
            if self._shown is not None:
                self._shown.take(entry)
            else:
                self._pedal.hear(entry)
        return more

    def _take_waiting(self) -> None:
        """Have the sitting take what came before now: later, it would be logged as of then."""
        for _ in range(len(self._inbox) if self._shown is not None else 0):
            self._take_next()

    def beat(self) -> None:
        """Let the sitting see how late it is, and say what became of the log meanwhile; to be called four times a
        second, without a sitting as well."""
        from tui.running import news_of

        self._take_waiting()
        if self._shown is not None:
            self._shown.beat()
        for text in self.running.news() if self.running is not None else news_of(self._app.logbook):
            self._app.say_aside(text, wrong=True)

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word to the sitting; see `ShownSitting.say`. One that is being begun behind its cautions takes it when
        it runs; without one it is not taken."""
        self._take_waiting()
        if self._sheet is not None and self._beginning is not None:
            self._beginning.said.append((word, text))
            self._awaited.set()
            return True
        return self._shown is not None and self._shown.say(word, text, key, sure)

    def notice(self, text: str) -> bool:
        """Show a short line where it covers nothing; whether there is a live screen to show it."""
        return self._shown is not None and self._shown.notice(text)

    # The end of it

    def put_away(self) -> None:
        """Put the sitting away; what is to be said about it stands in the app's `outcome`. Does no harm without one, or
        twice."""
        running, self.running, self._shown = self.running, None, None
        sheet, self._sheet = self._sheet, None
        if running is None and self._beginning is not None:
            running = self._beginning.leave()
        if running is not None:
            from tui.running import leave

            self._app.outcome = leave(running, self._app.settings.units)
            self._app.aloud.hush()
        elif sheet is not None:
            from tui.running import nothing_kept

            self._app.outcome = nothing_kept(sheet.plan.title, self._app.settings.units)

    def close(self) -> None:
        """Let go of the pedal; the sitting has been put away."""
        if "_pedal" in vars(self):
            self._pedal.close()

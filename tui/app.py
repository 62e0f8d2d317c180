"""The Textual app: opens screens, owns the sitting that runs, and leaves with the log whole.

It is the `Host` of tui.screens.host, which is all that its screens know of it; it imports them when they are opened.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine, Iterable
from contextlib import ExitStack, suppress
from dataclasses import replace
from datetime import datetime
from functools import cached_property
from importlib import import_module
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, Any, ClassVar, Never

from textual import events
from textual.binding import Binding, BindingType
from textual.command import Provider
from textual.message import Message
from textual.screen import Screen

from tui.config import Folders
from tui.running import (
    First,
    LogList,
    NoTracebackApp,
    Outcome,
    Reckoner,
    ReviewRequest,
    RunRequest,
    Shelf,
)
from tui.screens import OpeningScreen
from tui.theme import FORGE

if TYPE_CHECKING:
    from devices import Clock
    from plans.logbook import Logbook
    from plans.sitting import Word
    from tui.config import Settings
    from tui.live import CautionsScreen, ShownSitting
    from tui.running import Aloud, Beginning, Delivered, Inbox, Loaded, RunningSitting
    from tui.screens import Host, StandingBy

_BEAT = 0.25
"""How often the screen looks at the clock [s]."""
_SETTLED = 0.5
"""What can wait until nobody waits for the first screen any more waits so long [s]."""


def _palette() -> type[Provider]:
    from tui.screens import ActionsProvider

    return ActionsProvider


def _import_screen(first: First) -> None:
    """Import the screen that comes first, in a thread: it takes a while."""
    match first:
        case Reckoner():
            import_module("tui.reckoner.screen")
        case Shelf():
            import_module("tui.shelf.screen")
        case RunRequest(seed=None, go_on=None):
            import_module("tui.live.cautions")
        case _:
            pass


class Heard(Message):
    """Something came from outside, and waits in the inbox; posted from another thread."""


class HeatbookApp(NoTracebackApp):
    """The screen of heatbook; a `Host` to its screens.

    Args:
        folders: where things are kept
        first: what to open
        clock: real time, for what the screen times itself: double presses, blinking, notices [s]
        now: wall time with its offset
        beating: False leaves `beat` to the caller, for tests
        opened: called once what was asked for stands there, and has answered what was typed meanwhile
    """

    TITLE = "heatbook"
    CSS_PATH = Path(__file__).with_name("heatbook.tcss")
    COMMANDS: ClassVar[set[type[Provider] | Callable[[], type[Provider]]]] = {_palette}
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c", "quit", "leave", show=False, priority=True),
        # Typed without thinking after ctrl+s, it must not end a sitting.
        Binding("ctrl+q", "ask_to_quit", "leave, asking first where a sitting runs", show=False, priority=True),
        # As in the table of actions, which it would take too long to read before the first paint.
        Binding("question_mark", "help", "every key, and what it does", show=False, id="help"),
        Binding("colon", "palette", "look for an action by its name", show=False, id="palette"),
    ]

    settings: Settings
    """What the smith has set; there once it has been read, before any screen asks."""
    logbook: Logbook
    """Where sittings are kept; there once it has been opened, before any screen asks. Not for the reckoner alone."""
    rehearsals: Logbook
    """Where rehearsals are kept, apart from the sittings; there as soon."""
    _speech: tuple[str, ...]
    """The command that speaks; there as soon."""
    _inbox: Inbox[Never]
    """What has come from outside and was not taken yet; there as soon."""
    _pedal: StandingBy
    """The pedal while no sitting runs; there as soon as the settings."""

    def __init__(
        self,
        folders: Folders,
        first: First,
        *,
        clock: Clock | None = None,
        now: Callable[[], datetime] = lambda: datetime.now().astimezone(),
        beating: bool = True,
        opened: Callable[[], None] = lambda: None,
    ) -> None:
        super().__init__()
        from devices import Debounce, through_sleep

        self.folders, self.first = folders, first
        self.clock: Clock = clock or through_sleep()
        self.now = now
        self.presses = Debounce(self.clock)
        """Tells a press of a key from the last one once more, as of a worn pedal or a key held down."""
        self.running: RunningSitting | None = None
        """The sitting that runs; None without one."""
        self._beating, self._opened = beating, opened
        self._shown: ShownSitting | None = None
        """The same sitting, joined with its screen."""
        self._beginning: Beginning | None = None
        """The sitting that is being begun, until it runs; what comes from outside waits for it."""
        self._sheet: CautionsScreen | None = None
        """Its cautions, where they stand there before it runs."""
        self._awaited = asyncio.Event()
        """Something was said to it, so that it is begun at once."""
        self.register_theme(FORGE)
        self.theme = FORGE.name

    async def on_event(self, event: events.Event) -> None:
        """Take note of each key as it comes, before any screen does."""
        match event:
            case events.Key(is_forwarded=False):  # and not one that no screen has taken
                # It may have waited for what the one before it led to.
                self.presses.key(event.key, self.clock() - (monotonic() - event.time))
            case events.MouseDown():
                self.presses.click()
        await super().on_event(event)

    # Opening

    def get_default_screen(self) -> Screen[None]:
        """The first paint: what is being opened."""
        return OpeningScreen(self.first)

    def on_mount(self) -> None:
        """Open what was asked for; what that takes is read and imported in a thread, while this shows itself."""
        self.run_worker(self._reckon() if isinstance(self.first, Reckoner) else self._load())

    async def _reckon(self) -> None:
        """Open the reckoner, which is all that was asked for; it keeps nothing, so that no logbook is opened."""

        def read() -> tuple[Settings, list[str]]:
            from tui.running import read_own

            _import_screen(self.first)
            return read_own(self.folders)

        self.settings, messages = await asyncio.to_thread(read)
        self.set_keymap(dict(self.settings.keys))
        await self.open(Reckoner())
        self._say_wrong(messages)
        self.set_timer(_SETTLED, self._opened)

    async def _load(self) -> None:
        """Read what every screen needs, then open what was asked for."""
        first = self.first
        apart = isinstance(first, RunRequest) and first.seed is not None
        # A test's process says nothing that it was not told to.
        going_on = first.go_on if isinstance(first, RunRequest) else None

        def read() -> Loaded:
            from tui.running import load

            _import_screen(first)
            return load(self.folders, not self.is_headless, apart, going_on)

        loaded = await asyncio.to_thread(read)
        from tui.running import Inbox
        from tui.screens import StandingBy

        self.settings, self.logbook, self.rehearsals = loaded.settings, loaded.logbook, loaded.rehearsals
        self._speech = loaded.speech
        self._inbox = Inbox(lambda: self.post_message(Heard()))
        self._pedal = StandingBy(self, self.deliver)
        asked = None
        # Whoever comes for a sitting, a rehearsal or an answer is not held up: only the shelf asks.
        # Nor whom a crash took from the work.
        if isinstance(first, Shelf) and not self.folders.configuration.exists() and not loaded.cut_off:
            from tui.screens import ask_first

            asked = await ask_first(self, bool(loaded.speech))
        self.set_keymap(dict(self.settings.keys))
        if self._beating:
            self.set_interval(_BEAT, self.beat)
        if isinstance(first, RunRequest) and loaded.cut_off:
            from tui.screens import or_go_on

            first = await or_go_on(self, first, loaded.cut_off)
        await self.open(first)
        self._say_wrong(loaded.messages)
        if asked is not None:
            self.say_aside(*asked)
        self.set_timer(_SETTLED, self._opened)

    @cached_property
    def aloud(self) -> Aloud:
        """Bell and voice; made for the first sitting, which is no sooner than the settings have been read."""
        from tui.running import bell_and_voice

        return bell_and_voice(self.settings, self._speech, self.clock, self.bell, self.set_timer)

    async def open(self, what: First) -> None:
        """Show what is asked for; where that can't be, say why."""
        await self._or_say_why(self._show(what))

    async def _or_say_why(self, opening: Coroutine[Any, Any, None]) -> None:
        from devices import DeviceError
        from plans.errors import PlansError

        try:
            await opening
        except (PlansError, DeviceError, OSError) as error:
            self._refuse(str(error))

    async def _show(self, what: First) -> None:
        match what:
            case RunRequest(seed=None):
                await self._begin(what)
            case RunRequest():
                await self._introduce(what)
            case ReviewRequest(id=name, rehearsal=rehearsal):
                from tui.review import open_review

                await open_review(self, name, rehearsal)
            case LogList(rehearsals=rehearsals):
                from tui.screens import open_log

                await open_log(self, rehearsals)
            case Reckoner():
                from tui.reckoner import open_reckoner

                await open_reckoner(self)
            case Shelf():
                from tui.shelf import open_shelf

                await open_shelf(self)
                if self._beginning is None:  # else the port is being closed
                    await self._pedal.put()

    def _refuse(self, why: str) -> None:
        """Something can't be opened: say so, on the shelf or, when it was all that was asked for, on leaving."""
        if len(self.screen_stack) > 1:
            self.say_aside(why, wrong=True)
            return
        self.outcome = Outcome(errors=(why,), status=1)
        self.exit(self.outcome)

    # The sitting

    async def _introduce(self, request: RunRequest) -> None:
        """Say what a rehearsal is, then begin it."""
        from tui.screens import RehearsalScreen

        async def answered(begin: bool | None) -> None:
            if begin:
                await self._or_say_why(self._begin(request))
            elif len(self.screen_stack) == 1:
                self.exit(self.outcome)

        await self.push_screen(RehearsalScreen(request.speed), answered)

    async def _begin(self, request: RunRequest) -> None:
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
        await self.push_screen(self._sheet)
        # What was read is what is begun, whatever became of the file.
        begun = replace(request, plan=lambda: plan), self._beginning, before
        self.run_worker(self._or_say_why(self._run_soon(*begun)))

    async def _run_soon(self, request: RunRequest, beginning: Beginning, before: Beginning | None) -> None:
        """Begin it behind its cautions; where they are the first screen, when that is there to be read and answers."""
        if isinstance(self.first, RunRequest):
            with suppress(TimeoutError):
                await asyncio.wait_for(self._awaited.wait(), _SETTLED)
        await self._run(request, beginning, before)

    async def _run(self, request: RunRequest, beginning: Beginning, before: Beginning | None) -> None:
        """Begin it in a thread, when one before it that was left is over, and show it as it runs.

        Raises:
            PlansError, DeviceError, OSError: it can't begin.
        """
        rehearsal = request.seed is not None
        logbook = self.rehearsals if rehearsal else self.logbook
        asked = request, logbook, self.settings, self.folders.shop, self.deliver, self.now

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
        self.aloud.begin()
        self._shown = shown = ShownSitting(self, running)
        self._beginning = None
        sheet, self._sheet = self._sheet, None
        for word, text in beginning.said:
            shown.say(word, text, sure=True)
        self.post_message(Heard())
        await shown.show(sheet)

    async def _not_begun(self, beginning: Beginning) -> None:
        """Nothing has come of it, or it was left: all is as before, but where another one is being begun already."""
        if beginning is not self._beginning:
            return
        self._inbox.clear()
        self._beginning = None
        sheet, self._sheet = self._sheet, None
        while sheet is not None and sheet in self.screen_stack:
            await self.pop_screen()
        if not isinstance(self.first, RunRequest):
            await self._pedal.put()

    def deliver(self, entry: Delivered) -> None:
        """Take in, from any thread, what comes from outside: a reading or the time, a step on the pedal, or what is
        wrong with the pedal."""
        self._inbox.put(entry)

    async def on_heard(self) -> None:
        """Have the sitting take one thing that came from outside; a pedal's word may begin one. Keys and leaving come
        before the next."""
        if self._beginning is None and self._take_next():
            await asyncio.sleep(0)
            self.post_message(Heard())

    def _take_next(self) -> bool:
        """Take one thing that came from outside; whether more waits."""
        entry, more = self._inbox.take()
        if entry is not None:
            self._inbox.tell_missed(self.say_aside)
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
        """Let the sitting see how late it is, four times a second, and say what became of the log meanwhile."""
        from tui.running import news_of

        self._take_waiting()
        if self._shown is not None:
            self._shown.beat()
        self._say_wrong(self.running.logged.news() if self.running is not None else news_of(self.logbook))

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word to the sitting; see `ShownSitting.say`. One that is being begun behind its cautions takes it when
        it runs; without one it is not taken."""
        self._take_waiting()
        if self._sheet is not None and self._beginning is not None:
            self._beginning.said.append((word, text))
            self._awaited.set()
            return True
        return self._shown is not None and self._shown.say(word, text, key, sure)

    def say_aside(self, text: str, wrong: bool = False) -> None:
        """Show a notice: on live screen and shelf where it covers nothing, but what is wrong where it is seen."""
        from plans.text import plain
        from tui.screens import TellingScreen

        if self._shown is not None and not wrong and self._shown.notice(text):
            return
        if isinstance(self.screen, TellingScreen):
            self.screen.tell(text, wrong)
        else:
            self.notify(plain(text), severity="warning" if wrong else "information", markup=False, timeout=12)

    def _say_wrong(self, messages: Iterable[str]) -> None:
        for text in messages:
            self.say_aside(text, wrong=True)

    # Leaving

    def close_sitting(self) -> None:
        """Put the sitting away; what is to be said about it is said on leaving. Does no harm without one, or twice."""
        running, self.running, self._shown = self.running, None, None
        sheet, self._sheet = self._sheet, None
        if running is None and self._beginning is not None:
            running = self._beginning.leave()
        if running is not None:
            from tui.running import leave

            self.outcome = leave(running, self.settings.units)
            self.aloud.hush()
        elif sheet is not None:
            from tui.running import nothing_kept

            self.outcome = nothing_kept(sheet.plan.title, self.settings.units)

    async def leave_sitting(self) -> None:
        """Put the sitting away and go back to where it was begun."""
        self.close_sitting()
        if isinstance(self.first, RunRequest):
            self.exit(self.outcome)
            return
        await self._back_to_the_shelf()
        self._say_wrong(self.outcome.errors)

    async def review_finished(self, name: str, rehearsal: bool) -> None:
        """From the end of a sitting, which has been put away, to the whole of it."""
        await self._back_to_the_shelf()
        await self.open(ReviewRequest(name, rehearsal))

    async def _back_to_the_shelf(self) -> None:
        """Close all screens; the shelf comes again, but where one sitting was all that was asked for."""
        while len(self.screen_stack) > 1:
            await self.pop_screen()
        if not isinstance(self.first, RunRequest):
            await self.open(Shelf())

    async def leave_screen(self) -> None:
        """Close the screen on top; the last one closes the program."""
        await self.pop_screen()
        if len(self.screen_stack) == 1:
            self.exit(self.outcome)

    async def action_quit(self) -> None:
        """Leave at once, with the log whole."""
        self.leave()

    def action_ask_to_quit(self) -> None:
        """Leave; where a sitting runs, ask first."""
        from tui.screens import QuestionScreen

        if self._shown is None and self._sheet is None:
            self.leave()
        elif not isinstance(self.screen, QuestionScreen):
            from tui.live import ask_to_leave

            ask_to_leave(self)

    async def action_help(self) -> None:
        """Show every key, those of the screen on top first."""
        from tui.screens import HelpScreen

        if len(self.screen_stack) > 1 and not isinstance(self.screen, HelpScreen):
            await self.push_screen(HelpScreen(getattr(self.screen, "PLACE", None)))

    def action_palette(self) -> None:
        """Look for an action by its name."""
        from tui.screens import Palette

        if len(self.screen_stack) > 1 and not isinstance(self.screen, Palette):
            self.push_screen(Palette())

    def on_unmount(self) -> None:
        """Put away and close what is open, however the screen came to its end."""
        with ExitStack() as closing:
            if hasattr(self, "logbook"):
                closing.callback(self.rehearsals.close)
                closing.callback(self.logbook.close)
                closing.callback(self._pedal.close)
                if "aloud" in vars(self):
                    closing.callback(self.aloud.close)
            self.close_sitting()
        if hasattr(self, "logbook"):
            from tui.running import news_of

            # What recovery said last, nobody has seen.
            self.outcome = replace(self.outcome, errors=(*self.outcome.errors, *news_of(self.logbook)))


if TYPE_CHECKING:

    def _is_a_host(app: HeatbookApp) -> Host:
        return app

"""The Textual app: it owns the parts and what they share, and hands each key, word and message to the one it is for.

It is the `Host` of tui.screens.host, which is all that its screens know of it.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import replace
from datetime import datetime
from functools import cached_property
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.command import Provider
from textual.message import Message
from textual.screen import Screen

from tui.app.in_hand import SETTLED, SittingInHand
from tui.app.opening import Opening, or_say_why
from tui.config import Folders
from tui.running import First, NoTracebackApp, RunRequest
from tui.screens import OpeningScreen
from tui.theme import FORGE

if TYPE_CHECKING:
    from devices import Clock
    from plans.logbook import Logbook
    from plans.sitting import Word
    from tui.app.shell import Shell, Starting
    from tui.config import Settings
    from tui.running import Aloud, Loaded, RunningSitting

_BEAT = 0.25
"""How often the screen looks at the clock [s]."""


def _palette() -> type[Provider]:
    from tui.screens import ActionsProvider

    return ActionsProvider


class Heard(Message):
    """Something came from outside, and waits in the inbox; posted from another thread."""


class HeatbookApp(NoTracebackApp):
    """The screen of heatbook; a `Host` to its screens, a `Shell` to the parts that it is made of.

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
        self.in_hand = SittingInHand(
            self, lambda beginning: self.run_worker(or_say_why(self, beginning)), lambda: self.post_message(Heard())
        )
        """The sitting that is being begun, or runs."""
        self._opening = Opening(self, self.in_hand)
        self._beating, self._opened = beating, opened
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

    # Start and opening

    def get_default_screen(self) -> Screen[None]:
        """The first paint: what is being opened."""
        return OpeningScreen(self.first)

    def on_mount(self) -> None:
        """Open what was asked for, behind the first paint."""
        self.run_worker(self._start())

    async def _start(self) -> None:
        from tui.app.start import start

        await start(self)
        self.set_timer(SETTLED, self._opened)

    def take_up(self, loaded: Loaded) -> None:
        """Have what was read for every screen; it is closed with the app."""
        self.settings, self.logbook, self.rehearsals = loaded.settings, loaded.logbook, loaded.rehearsals
        self._speech = loaded.speech

    def keep_time(self) -> None:
        """Look at the clock four times a second from now on, unless that is left to the caller."""
        if self._beating:
            self.set_interval(_BEAT, self.beat)

    @property
    def for_one_sitting(self) -> bool:
        """Whether one sitting was all that was asked for: no shelf comes after it."""
        return isinstance(self.first, RunRequest)

    async def open(self, what: First) -> None:
        """Show what is asked for; where that can't be, say why."""
        await self._opening.open(what)

    # The sitting

    @property
    def running(self) -> RunningSitting | None:
        """The sitting that runs; None without one."""
        return self.in_hand.running

    @cached_property
    def aloud(self) -> Aloud:
        """Bell and voice; made for the first sitting, which is no sooner than the settings have been read."""
        from tui.running import bell_and_voice

        return bell_and_voice(self.settings, self._speech, self.clock, self.bell, self.set_timer)

    async def on_heard(self) -> None:
        """Have one thing taken that came from outside. Keys and leaving come before the next."""
        if self.in_hand.take_next():
            await asyncio.sleep(0)
            self.post_message(Heard())

    def beat(self) -> None:
        """Let the sitting see how late it is, four times a second, and say what became of the log meanwhile."""
        self.in_hand.beat()

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word to the sitting, whether it runs or is still being begun; whether it was taken."""
        return self.in_hand.say(word, text, key, sure)

    def say_aside(self, text: str, wrong: bool = False) -> None:
        """Show a notice: on live screen and shelf where it covers nothing, but what is wrong where it is seen."""
        from plans.text import plain

        if not wrong and self.in_hand.notice(text):
            return
        if (tell := getattr(self.screen, "tell", None)) is not None:
            tell(text, wrong)
        else:
            self.notify(plain(text), severity="warning" if wrong else "information", markup=False, timeout=12)

    # Leaving

    def close_sitting(self) -> None:
        """Put the sitting away, and keep what a screen has that is not written down.

        What is to be said about it is said on leaving. Does no harm without one, or twice.
        """
        self.in_hand.put_away()
        for screen in self._screen_stack if self._screen_stacks else ():
            if (keep := getattr(screen, "keep_unsaved", None)) is not None and (said := keep()):
                self.outcome = replace(self.outcome, said=(*self.outcome.said, said))

    async def leave_sitting(self) -> None:
        """Put the sitting away and go back to where it was begun."""
        from tui.app.leaving import leave_sitting

        await leave_sitting(self)

    async def review_finished(self, name: str, rehearsal: bool) -> None:
        """From the end of a sitting, which has been put away, to the whole of it."""
        from tui.app.leaving import review_finished

        await review_finished(self, name, rehearsal)

    def leave_screen(self) -> None:
        """Close the screen on top; the last one closes the program."""
        from tui.app.leaving import leave_screen

        leave_screen(self)

    async def action_quit(self) -> None:
        """Leave at once, with the log whole."""
        self.leave()

    def action_ask_to_quit(self) -> None:
        """Leave; where a sitting runs, ask first."""
        from tui.app.leaving import ask_to_quit

        ask_to_quit(self, self.in_hand)

    def on_unmount(self) -> None:
        """Put away and close what is open, however the screen came to its end."""
        with ExitStack() as closing:
            if hasattr(self, "logbook"):
                closing.callback(self.rehearsals.close)
                closing.callback(self.logbook.close)
                closing.callback(self.in_hand.close)
                if "aloud" in vars(self):
                    closing.callback(self.aloud.close)
            self.close_sitting()
        if hasattr(self, "logbook"):
            from tui.running import news_of

            # What recovery said last, nobody has seen.
            self.outcome = replace(self.outcome, errors=(*self.outcome.errors, *news_of(self.logbook)))

    # Keys of every screen

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


if TYPE_CHECKING:

    def _is_what_they_know(app: HeatbookApp) -> tuple[Shell, Starting]:
        return app, app

"""The Textual app: opens screens, owns the sitting that runs, and leaves with the log whole."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, cast

from rich.console import RenderableType
from textual.app import App
from textual.binding import Binding, BindingType
from textual.command import Provider
from textual.dom import DOMNode
from textual.message import Message
from textual.screen import Screen

from tui.config.folders import Folders
from tui.running.requests import First, LogList, Outcome, Reckoner, Review, RunRequest, Shelf
from tui.running.signals import expect_no_terminal, leave_on_signals
from tui.screens.opening import OpeningScreen
from tui.theme import FORGE

if TYPE_CHECKING:
    from devices.clock import Clock
    from devices.pedal import Debounce
    from plans.logbook.book import Logbook
    from plans.sitting.events import Event, Word
    from tui.config.settings import Settings
    from tui.live.screen import LiveScreen
    from tui.running.attending import Attending
    from tui.running.sound import Aloud
    from tui.running.sources import Delivered

_BEAT = 0.25
"""How often the screen looks at the clock [s]."""
_FLUSH_EVERY = 4
"""Beats between two flushes of the log."""


def _palette() -> type[Provider]:
    from tui.screens.palette import ActionsProvider

    return ActionsProvider


class Heard(Message):
    """Something came from outside; posted from another thread."""

    def __init__(self, entry: Delivered) -> None:
        super().__init__()
        self.entry = entry


class HeatbookApp(App[Outcome]):
    """The screen of heatbook.

    Args:
        folders: where things are kept
        first: what to open
        clock: real time, for what the screen times itself: double presses, blinking, notices [s]
        now: wall time with its offset
        beating: False leaves `beat` to the caller, for tests
    """

    TITLE = "heatbook"
    CSS_PATH = Path(__file__).with_name("heatbook.tcss")
    COMMANDS: ClassVar[set[type[Provider] | Callable[[], type[Provider]]]] = {_palette}
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c,ctrl+q", "quit", "leave", show=False, priority=True),
        # As in the table of actions, which it would take too long to read before the first paint.
        Binding("question_mark", "help", "every key, and what it does", show=False, id="help"),
        Binding("colon", "palette", "look for an action by its name", show=False, id="palette"),
    ]

    def __init__(
        self,
        folders: Folders,
        first: First,
        *,
        clock: Clock | None = None,
        now: Callable[[], datetime] = lambda: datetime.now().astimezone(),
        beating: bool = True,
    ) -> None:
        super().__init__()
        from devices.clock import through_sleep

        self.folders, self.first = folders, first
        self.clock: Clock = clock or through_sleep()
        self.now = now
        self.settings: Settings
        """Once they have been read; before that no screen asks."""
        self.logbook: Logbook
        """So too."""
        self.attending: Attending | None = None
        self.outcome = Outcome()
        self.aloud: Aloud
        """So too."""
        self.presses: Debounce
        """So too. Tells a press of a key from the last one once more, as of a worn pedal or a key held down."""
        self._beating = beating
        self._beats = 0
        self._early: list[Delivered] | None = None
        """What is heard while a sitting is being opened; None at other times."""
        self.register_theme(FORGE)
        self.theme = FORGE.name

    # Opening

    def get_default_screen(self) -> Screen[None]:
        return OpeningScreen(_doing(self.first))

    def on_mount(self) -> None:
        if not self.is_headless:  # a test's process has its own mind about signals
            leave_on_signals(self.leave)
        # What is heavy to import waits until the screen has shown itself.
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        self.run_worker(self._open())

    async def _open(self) -> None:
        from devices.pedal import Debounce
        from tui.running.opening import load
        from tui.screens.ask_to_go_on import or_go_on

        # A test's process says nothing that it was not told to.
        loaded = await asyncio.to_thread(load, self.folders, not self.is_headless)
        self.settings, self.logbook = loaded.settings, loaded.logbook
        self.aloud, self.presses = self._voice(loaded.speech), Debounce(self.clock)
        self.set_keymap(dict(loaded.settings.keys))
        if self._beating:
            self.set_interval(_BEAT, self.beat)
        match self.first:
            case RunRequest():
                await self.run_sitting(await or_go_on(self, self.first, loaded.cut_off))
            case Review(id=name):
                await self.open_review(name)
            case LogList():
                await self.open_log()
            case Reckoner():
                await self.open_reckoner()
            case Shelf():
                await self.open_shelf()
        self._say_all(loaded.messages)

    async def open_shelf(self) -> None:
        """Show the plans at hand."""
        from tui.running.opening import read_shelf
        from tui.screens.shelf import ShelfScreen

        found = await asyncio.to_thread(read_shelf, self.folders, self.logbook)
        await self.push_screen(ShelfScreen(found))
        self._say_all(found.messages)

    async def open_log(self) -> None:
        """Show the sittings that were kept."""
        from tui.running.opening import read_log
        from tui.screens.log import LogScreen

        summaries, messages = await asyncio.to_thread(read_log, self.logbook)
        await self.push_screen(LogScreen(summaries))
        self._say_all(messages)

    async def open_reckoner(self) -> None:
        """Show the reckoner."""
        from tui.reckoner.screen import ReckonerScreen
        from tui.running.opening import warm_up_reckoner

        await asyncio.to_thread(warm_up_reckoner)
        await self.push_screen(ReckonerScreen())

    async def open_review(self, name: str) -> None:
        """Show one sitting that was kept."""
        from plans.errors import PlansError
        from tui.review.review_data import read_review
        from tui.review.screen import ReviewScreen

        try:
            found = await asyncio.to_thread(read_review, self.logbook, name)
        except PlansError as error:
            self._refuse(str(error))
            return
        await self.push_screen(ReviewScreen(found))

    # The sitting

    async def run_sitting(self, request: RunRequest) -> None:
        """Begin a sitting, or go on with one, and show it."""
        from devices.errors import DeviceError
        from plans.errors import PlansError
        from tui.live.screen import LiveScreen
        from tui.running.opening import begin

        def deliver(entry: Delivered) -> None:
            self.post_message(Heard(entry))

        early: list[Delivered] = []
        self._early = early
        try:
            self.attending = await asyncio.to_thread(
                begin, request, self.logbook, self.settings, self.folders.shop, deliver, self.now()
            )
        except (PlansError, DeviceError, OSError) as error:
            self._early = None
            self._refuse(str(error))
            return
        self.aloud.begin()
        begun_with = self.attending.running.begun_with
        await self.push_screen(LiveScreen(self.attending, self.settings))
        self.happened(begun_with)
        while early:
            self._hear(early.pop(0))
        self._early = None

    def _refuse(self, why: str) -> None:
        """Something can't be opened: say so, on the shelf or, when it was all that was asked for, on leaving."""
        if len(self.screen_stack) > 1:
            self.say_aside(why, wrong=True)
            return
        self.outcome = Outcome(errors=(why,), status=1)
        self.exit(self.outcome)

    def on_heard(self, message: Heard) -> None:
        # What came while the sitting was being opened is taken first.
        if self._early is not None:
            self._early.append(message.entry)
        else:
            self._hear(message.entry)

    def _hear(self, entry: Delivered) -> None:
        from devices.errors import DeviceError
        from plans.sitting.events import Word

        if self.attending is None:
            return  # it was left in the meantime
        match entry:
            case Word():
                self._step_on(entry)
            case DeviceError():
                self.say_aside(str(entry), wrong=True)
            case _:
                self.happened(self.attending.hear(entry))

    def _step_on(self, word: Word) -> None:
        """The pedal's switch said a word: to the sitting, or to the sheet that stands over it as the key would."""
        from textual.widgets import Input

        from tui.actions import BY_ID, Place
        from tui.live.screen import LiveScreen

        if isinstance(self.screen, LiveScreen) or isinstance(self.focused, Input):
            self.say(word, sure=True)
            return
        finished = getattr(self.screen, "PLACE", None) is Place.FINISHED
        action = BY_ID["finished.review" if finished else word.value]
        self.simulate_key(self.settings.keys.get(action.id, action.key).split(",")[0].strip())

    def beat(self) -> None:
        """Tell the sitting the time, and draw what is due."""
        if self.attending is None:
            return
        self._beats += 1
        self._show(self.attending.tick())
        if self._beats % _FLUSH_EVERY == 0:
            self.attending.flush()
        if (live := self.live) is not None:
            live.redraw(self.clock())

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """A word of the smith.

        Args:
            word: what is said
            text: of a note
            key: what was pressed, where one key says several words; the same twice at once counts once
            sure: it comes from a switch that has stopped bouncing

        Returns:
            whether it was taken
        """
        from plans.sitting.words import WordError

        if self.attending is None or not (sure or self.presses.counts(key or word.value + text)):
            return False
        try:
            events = self.attending.say(word, text)
        except WordError as error:
            self.say_aside(str(error))
            return False
        self.happened(events)
        return True

    def happened(self, events: list[Event]) -> None:
        """Something came of what the sitting took: show it at once, and let it be heard."""
        if not events or self.attending is None:
            return
        self._show(events)
        if (live := self.live) is not None:
            live.redraw(self.clock())

    def _show(self, events: list[Event]) -> None:
        """Let events be heard, and said where nobody brought them about."""
        assert self.attending is not None
        self.aloud.hear(events, self.attending.seen)
        if (live := self.live) is not None:
            live.tell_what_began(events, self.clock())

    def _voice(self, command: tuple[str, ...]) -> Aloud:
        from devices.voice import Voice
        from tui.running.bell import Bell
        from tui.running.sound import Aloud

        settings = self.settings
        aloud = Aloud(Bell(self.bell, self.set_timer), Voice(command, self.clock), settings.talk, settings.inch)
        aloud.muted = settings.mute
        return aloud

    @property
    def live(self) -> LiveScreen | None:
        """The live screen, wherever in the stack it is."""
        from tui.live.screen import LiveScreen

        return next((screen for screen in self.screen_stack if isinstance(screen, LiveScreen)), None)

    def say_aside(self, text: str, wrong: bool = False) -> None:
        """A plain notice: what was said wrongly stands where it covers nothing, what is wrong where it is seen."""
        from tui.widgets.plain import plain

        live = self.live
        if live is not None and not wrong:
            live.notice(text, self.clock())
        else:
            self.notify(plain(text), severity="warning" if wrong else "information", markup=False, timeout=12)

    def _say_all(self, messages: Iterable[str]) -> None:
        for text in messages:
            self.say_aside(text, wrong=True)

    # Leaving

    def close_sitting(self) -> None:
        """Put the sitting away; what is to be said about it is said on leaving. Does no harm without one, or twice."""
        attending, self.attending = self.attending, None
        if attending is None:
            return
        self.aloud.hush()
        from tui.running.put_away import put_away

        self.outcome = put_away(attending)

    async def leave_sitting(self) -> None:
        """Put the sitting away and go back to where it was begun."""
        self.close_sitting()
        if isinstance(self.first, RunRequest):
            self.exit(self.outcome)
            return
        while len(self.screen_stack) > 1:
            await self.pop_screen()
        await self.open_shelf()
        self._say_all(self.outcome.errors)

    async def review_finished(self, name: str) -> None:
        """From the end of a sitting, which has been put away, to the whole of it."""
        while len(self.screen_stack) > 1:
            await self.pop_screen()
        if not isinstance(self.first, RunRequest):
            await self.open_shelf()
        await self.open_review(name)

    async def leave_screen(self) -> None:
        """Close the screen on top; the last one closes the program."""
        await self.pop_screen()
        if len(self.screen_stack) == 1:
            self.exit(self.outcome)

    async def action_quit(self) -> None:
        """Leave at once, with the log whole."""
        self.leave()

    async def action_help(self) -> None:
        from tui.screens.help import HelpScreen

        if not isinstance(self.screen, HelpScreen):
            await self.push_screen(HelpScreen(getattr(self.screen, "PLACE", None)))

    def action_palette(self) -> None:
        self.action_command_palette()

    def leave(self) -> None:
        """Leave at once, with the log whole."""
        self.close_sitting()
        self.exit(self.outcome)

    def on_unmount(self) -> None:
        self.close_sitting()
        if hasattr(self, "logbook"):
            self.aloud.close()
            self.logbook.close()

    # Faults

    def _handle_exception(self, error: Exception) -> None:
        """A fault of ours: no traceback over the screen, but into a file, and one line about it on leaving."""
        from tui.running.fault_report import report_of

        first = self._exception is None
        with suppress(Exception):
            super()._handle_exception(error)
        self._exit_renderables.clear()
        if first:
            with suppress(Exception):
                self.close_sitting()
            self.outcome = Outcome(self.outcome.said, (*self.outcome.errors, report_of(error)), 1)

    def panic(self, *renderables: RenderableType) -> None:
        """The terminal can't be read any more."""
        del renderables
        self.leave()
        expect_no_terminal()


def _doing(first: First) -> str:
    match first:
        case RunRequest(go_on=None):
            return "reading the plan"
        case RunRequest():
            return "taking the sitting up again"
        case Shelf():
            return "reading the shelf"
        case Reckoner():
            return "opening the reckoner"
        case _:
            return "opening the logbook"


def host_of(node: DOMNode) -> HeatbookApp:
    """The app that a screen or a widget belongs to."""
    return cast(HeatbookApp, node.app)

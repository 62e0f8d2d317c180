"""A running sitting on the screen: seen and heard as it goes on, told the time, and told what the smith says."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from typing import TYPE_CHECKING

from textual.widgets import Input

from devices import DeviceError
from plans.sitting import Event, Said, Word, WordError
from tui.actions import BY_ID, Place

if TYPE_CHECKING:
    from tui.live.cautions import CautionsScreen
    from tui.live.screen import LiveScreen
    from tui.running import Delivered, RunningSitting
    from tui.screens import Host

_FLUSH_EVERY = 4
"""Beats between two flushes of the log."""


def load_live() -> None:
    """Import the live screen, which takes a while."""
    import_module("tui.live.screen")


class ShownSitting:
    """Joins a running sitting with its live screen, with bell and voice, and with the smith's keys.

    Args:
        host: the program that it runs in
        running: the sitting
    """

    def __init__(self, host: Host, running: RunningSitting) -> None:
        self._host, self._running = host, running
        self._live: LiveScreen | None = None
        """The screen of the sitting, once it is shown."""
        self._beats = 0
        running.heard_by = self._happened
        if running.logged.begun_with:
            self._happened(running.logged.begun_with)

    async def show(self, sheet: CautionsScreen | None) -> None:
        """Show the sitting; before its first fire the cautions, and the sitting in their place when they are read.

        The live screen is made no sooner: the cautions are to be read, and nothing beside them.

        Args:
            sheet: its cautions, where they stand there already
        """
        if sheet is None and self._running.sitting.state.acknowledged_at is not None:
            await self._host.push_screen(self._make_live())
            self._tell_what_was_measured()
            return
        if sheet is None:
            from tui.live.cautions import CautionsScreen

            sheet = CautionsScreen(self._running.sitting.plan)
            await self._host.push_screen(sheet)
        sheet.give_way_to(self._make_live)

    def _tell_what_was_measured(self) -> None:
        """Of a sitting that is gone on with: say what was measured since it was left, which it begins with."""
        events, sitting = self._running.logged.begun_with, self._running.sitting
        said = [one for one in events if isinstance(one, Said) and one.word is Word.MEASURED]
        if said:
            from plans.logbook.lines import measured_by

            units = self._host.settings.units
            told = "; ".join(measured_by(one, sitting.plan, sitting.state, units) for one in said)
            self._host.say_aside(f"measured since it was left, {told}")

    def _make_live(self) -> LiveScreen:
        from tui.live.screen import LiveScreen

        self._live = LiveScreen(self._running, self._host.settings)
        return self._live

    def take(self, entry: Delivered) -> None:
        """Take what came from outside: readings, time, a step on the pedal, or what is wrong with the pedal."""
        match entry:
            case Word():
                self._step_on(entry)
            case DeviceError():
                self._host.say_aside(str(entry), wrong=True)
            case _:
                self._running.hear(entry)

    def _step_on(self, word: Word) -> None:
        """The pedal's switch said a word: to the sitting, or to the sheet that stands over it as the key would."""
        screen = self._host.screen
        place = getattr(screen, "PLACE", None)
        if place is Place.SITTING or isinstance(screen.focused, Input):
            self.say(word, sure=True)
            return
        action = BY_ID["finished.review" if place is Place.FINISHED else word.value]
        self._host.simulate_key(self._host.settings.keys.get(action.id, action.key).split(",")[0].strip())

    def beat(self) -> None:
        """Tell the sitting the time, and draw what is due; to be called four times a second."""
        self._beats += 1
        if not self._running.tick():
            self._tell([])
        if self._beats % _FLUSH_EVERY == 0:
            self._running.flush()
        self._redraw()

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word of the smith; one that means nothing just now is answered with a notice.

        Args:
            word: what is said
            text: of a note
            key: what was pressed, where one key says several words; the same twice at once counts once
            sure: it comes from a switch that has stopped bouncing

        Returns:
            whether it was taken
        """
        if not (sure or self._host.presses.counts(key or word.value + text)):
            return False
        try:
            self._running.say(word, text)
        except WordError as error:
            self._host.say_aside(str(error))
            return False
        if self._running.logged.trouble is not None:
            self._host.say_aside("noted, but not on the disk")
        return True

    def notice(self, text: str) -> bool:
        """Show a short line that covers nothing and goes by itself; whether there is a live screen to show it.

        A sheet over it that answers for itself is left to do so.
        """
        if self._live is None or hasattr(self._host.screen, "tell"):
            return False
        self._live.notice(text, self._host.clock())
        return True

    def _redraw(self) -> None:
        if self._live is not None:
            self._live.redraw(self._host.clock())

    def _happened(self, events: Sequence[Event]) -> None:
        self._tell(events)
        self._redraw()

    def _tell(self, events: Sequence[Event]) -> None:
        """Let events and the time be heard, and say on the screen what nobody brought about."""
        self._host.aloud.hear(events, self._running.seen)
        if self._live is not None:
            self._live.tell_what_began(events, self._host.clock())

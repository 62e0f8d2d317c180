"""The terminal as Textual drives it, so that the loop never waits for it, and never misses that it has gone.

Textual's own driver reads and writes in threads: one spins when the terminal has gone, the other holds the loop up when
it does not read, and a byte that is no text ends the program. Here the loop does both, and waits for nothing.
"""

from __future__ import annotations

import os
import signal
import sys
import termios
from collections.abc import Callable
from contextlib import suppress
from typing import Any, Final

from textual import constants, events
from textual.app import App
from textual.driver import Driver
from textual.geometry import Size
from textual.message import Message

from tui.terminal.gone import TerminalGone
from tui.terminal.one_by_one import OneByOne
from tui.terminal.output import Output
from tui.terminal.signals import hear
from tui.terminal.typed import Typed

_PATIENCE = 0.5
"""How long a terminal may take to read what sets it back as it was [s]."""
_KITTY: Final = 1 | 8 | 16
"""Keys told apart, each of them as a sequence, with its text: https://sw.kovidgoyal.net/kitty/keyboard-protocol"""
_MOUSE: Final = ("1000", "1003", "1015", "1006")
"""Its buttons, its movements, and two ways to tell them."""
_FOCUS_AND_PASTES: Final = ("1004", "2004")
_QUIET = termios.ECHO | termios.ICANON | termios.IEXTEN | termios.ISIG
_UNCHANGED = termios.IXON | termios.IXOFF | termios.ICRNL | termios.INLCR | termios.IGNCR


class TerminalDriver(Driver):
    """Drives a terminal that may fall silent, send rubbish, or go; then `TerminalGone` is sent to the app.

    While it does not read, what is drawn is left out; when it reads on, and when the program was stopped and goes on,
    it is set anew and all is drawn again.
    """

    def __init__(
        self, app: App[Any], *, debug: bool = False, mouse: bool = True, size: tuple[int, int] | None = None
    ) -> None:
        super().__init__(app, debug=debug, mouse=mouse, size=size)
        assert sys.__stdin__ is not None
        assert sys.__stderr__ is not None
        self._in, self._out = sys.__stdin__.fileno(), sys.__stderr__.fileno()
        self._modes = (*(_MOUSE if mouse else ()), *_FOCUS_AND_PASTES)
        self._output: Output | None = None
        self._one_by_one = OneByOne(app, self.process_message)
        self._typed = Typed(self._in, self._one_by_one, self._gone)
        self._leave: Callable[[], None] = getattr(app, "leave", app.exit)
        self._hear_no_more = _nothing
        self._has_gone = False
        self._found: list[Any] | None = None
        """The terminal's settings, as they were before anything was changed."""
        with suppress(termios.error):
            self._found = termios.tcgetattr(self._in)

    @property
    def silent(self) -> bool:
        """Whether the terminal does not read, or has gone."""
        return self._output is not None and self._output.silent

    def write(self, data: str) -> None:
        """Write to the terminal; where it does not read, it is left out."""
        if self._output is not None:
            self._output.write(data)

    def send_message(self, message: Message) -> None:
        """Send the app a message; in its own thread, unlike Textual's drivers."""
        self._app.post_message(message)

    def start_application_mode(self) -> None:
        """Set the terminal as the screen needs it, and listen to it."""
        self._output = Output(self._out, self._set_anew, lambda error: self._gone(str(error.strerror)))
        # Before the terminal is another than it was found.
        others = {signal.SIGWINCH: self._resized, signal.SIGTSTP: self._stop, signal.SIGCONT: self._go_on}
        self._hear_no_more = hear(self._leave, others, self._set_back_at_once)
        self._resized()
        self._set()
        self._typed.start()
        # Whether it can show a whole picture at once. One that is no terminal's reply would be shown by Apple's.
        if os.environ.get("TERM_PROGRAM") != "Apple_Terminal":
            self.write("\x1b[?2026$p")

    def disable_input(self) -> None:
        """Listen no more; what was typed ahead is forgotten."""
        self._typed.stop()
        for number in (signal.SIGWINCH, signal.SIGTSTP, signal.SIGCONT):
            self._loop.remove_signal_handler(number)
        with suppress(termios.error):
            termios.tcflush(self._in, termios.TCIFLUSH)

    def stop_application_mode(self) -> None:
        """Set the terminal back as it was found."""
        self.disable_input()
        self._set_back()

    def close(self) -> None:
        """Let go of the terminal, and of the signals."""
        self._hear_no_more()
        self._hear_no_more = _nothing
        if self._output is not None:
            self._output.close()

    def _set(self) -> None:
        with suppress(termios.error):
            settings = termios.tcgetattr(self._in)
            settings[0] &= ~_UNCHANGED
            settings[3] &= ~_QUIET
            settings[6][termios.VMIN] = 1
            termios.tcsetattr(self._in, termios.TCSANOW, settings)
        modes = "".join(f"\x1b[?{mode}h" for mode in self._modes)
        # A mode of the keys is put on a stack: one that is there from before the program was stopped comes off first.
        kitty = "" if constants.DISABLE_KITTY_KEY else f"\x1b[<u\x1b[>{_KITTY}u"
        self.write(f"\x1b[?1049h\x1b[?25l\x1b[?7l{modes}{kitty}")

    @property
    def _as_it_was(self) -> str:
        # A picture that was begun is held back until it is whole, or no more is said of it.
        modes = "".join(f"\x1b[?{mode}l" for mode in ("2026", *self._modes))
        kitty = "" if constants.DISABLE_KITTY_KEY else "\x1b[<u"
        # The keys before the screen: each of a terminal's screens has keys of its own.
        return f"{modes}{kitty}\x1b[?7h\x1b[?1049l\x1b[?25h"

    def _set_back(self) -> None:
        if self._output is not None:
            self._output.finish(self._as_it_was, _PATIENCE)
        self._restore_settings()

    def _set_back_at_once(self) -> None:
        """Set the terminal back though the loop is held up: from another thread."""
        self._restore_settings()
        if self._output is not None:
            self._output.last(self._as_it_was)

    def _restore_settings(self) -> None:
        if self._found is not None:
            with suppress(termios.error):
                termios.tcsetattr(self._in, termios.TCSANOW, self._found)

    def _draw_anew(self) -> None:
        self._app.call_later(self._app.refresh, layout=True)

    def _set_anew(self) -> None:
        self._set()
        self._draw_anew()

    def _resized(self) -> None:
        try:
            width, height = os.get_terminal_size(self._out)
        except OSError:
            return
        size = Size(width or 80, height or 24)
        self.send_message(events.Resize(size, size))

    def _stop(self) -> None:
        self._set_back()
        os.kill(os.getpid(), signal.SIGSTOP)

    def _go_on(self) -> None:
        self._resized()
        self._set_anew()

    def _gone(self, why: str) -> None:
        self._typed.stop()
        if not self._has_gone:  # reading and writing fail one after the other
            self._has_gone = True
            self.send_message(TerminalGone(why))


def _nothing() -> None:
    pass

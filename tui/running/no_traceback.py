"""An app that shows no traceback and keeps the log, whatever fails in it, and when its terminal goes."""

from __future__ import annotations

import asyncio
import sys
from contextlib import suppress
from dataclasses import replace

from rich.console import RenderableType
from textual.app import App
from textual.css.query import NoMatches
from textual.driver import Driver

from tui.running.aside import Aside
from tui.running.requests import Outcome
from tui.terminal import TerminalGone


class NoTracebackApp(App[Outcome]):
    """Puts its sitting away on a fault of its own, writes the traceback into a file, and says on leaving where it is.

    It leaves when its terminal goes, and waits for no thread when it ends. A subclass says how the sitting is put away.
    """

    outcome = Outcome()
    """What will be said when the screen has gone."""

    def __init__(self) -> None:
        super().__init__(driver_class=_driver())

    @property
    def unheard(self) -> bool:
        """Whether the terminal does not read what is written to it."""
        return bool(getattr(self._driver, "silent", False))

    def on_load(self) -> None:
        """Have what is done in threads done aside."""
        asyncio.get_running_loop().set_default_executor(Aside())

    def close_sitting(self) -> None:
        """Put the sitting away; what is to be said about it stands in `outcome`."""
        raise NotImplementedError

    def leave(self) -> None:
        """Leave at once, with the log whole."""
        self.close_sitting()
        self.exit(self.outcome)

    def on_terminal_gone(self, message: TerminalGone) -> None:
        """Leave: nobody sees the screen any more."""
        self.leave()
        self._add_error(f"the terminal has gone: {message.why}")

    def _handle_exception(self, error: Exception) -> None:
        if self._exit and isinstance(error, NoMatches):
            return  # A screen that was on its way in when the app was left has not got its widgets: no fault.
        from tui.running.fault_report import report_of

        first = self._exception is None
        with suppress(Exception):
            super()._handle_exception(error)
        self._exit_renderables.clear()
        if first:
            with suppress(Exception):
                self.close_sitting()
            self._add_error(report_of(error))

    def _add_error(self, text: str) -> None:
        self.outcome = replace(self.outcome, errors=(*self.outcome.errors, text), status=1)

    def panic(self, *renderables: RenderableType) -> None:
        """Leave: nothing that Textual has to say about a fault is for the smith."""
        del renderables
        self.leave()


def _driver() -> type[Driver] | None:
    """What drives the terminal; None for the one that Textual has for this system."""
    if sys.platform == "win32":
        return None
    from tui.terminal import TerminalDriver

    return TerminalDriver

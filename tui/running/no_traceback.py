"""An app that shows no traceback and keeps the log, whatever fails in it, and when its terminal goes."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from rich.console import RenderableType
from textual.app import App

from tui.running.requests import Outcome
from tui.running.signals import expect_no_terminal


class NoTracebackApp(App[Outcome]):
    """Puts its sitting away on a fault of its own, writes the traceback into a file, and says on leaving where it is.

    A subclass says how the sitting is put away.
    """

    outcome = Outcome()
    """What will be said when the screen has gone."""

    def close_sitting(self) -> None:
        """Put the sitting away; what is to be said about it stands in `outcome`."""
        raise NotImplementedError

    def leave(self) -> None:
        """Leave at once, with the log whole."""
        self.close_sitting()
        self.exit(self.outcome)

    def _handle_exception(self, error: Exception) -> None:
        from tui.running.fault_report import report_of

        first = self._exception is None
        with suppress(Exception):
            super()._handle_exception(error)
        self._exit_renderables.clear()
        if first:
            with suppress(Exception):
                self.close_sitting()
            self.outcome = replace(self.outcome, errors=(*self.outcome.errors, report_of(error)), status=1)

    def panic(self, *renderables: RenderableType) -> None:
        """Leave: the terminal can't be read any more."""
        del renderables
        self.leave()
        expect_no_terminal()

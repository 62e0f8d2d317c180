"""What the parts of the app know of it; nothing here is loaded when the program runs."""

from __future__ import annotations

from collections.abc import Awaitable, Sequence
from typing import Any, Protocol

from textual.screen import Screen

from tui.running import First, Loaded, Outcome
from tui.screens import Host


class Shell(Host, Protocol):
    """The app to whoever opens, has a sitting in hand, or leaves: a `Host` that takes screens away again, and ends."""

    @property
    def for_one_sitting(self) -> bool:
        """Whether one sitting was all that was asked for: no shelf comes after it."""

    @property
    def screen_stack(self) -> Sequence[Screen[Any]]:
        """The screens that are open, the one on top last; below all of them the first paint."""

    def pop_screen(self) -> Awaitable[Any]:
        """Take away the screen on top; a screen must never wait for that, lest it be the one."""

    def leave(self) -> None:
        """Leave at once, with the log whole."""

    def exit(self, result: Outcome | None = None) -> None:
        """End the program.

        Args:
            result: what will be said when the screen has gone
        """


class Starting(Host, Protocol):
    """The app to its start: a `Host` that does not have yet what its screens will ask it for."""

    first: First
    """What was asked for."""

    @property
    def is_headless(self) -> bool:
        """Whether nobody sees the screen, as in a test."""

    def take_up(self, loaded: Loaded) -> None:
        """Have what was read for every screen."""

    def keep_time(self) -> None:
        """Look at the clock from now on."""

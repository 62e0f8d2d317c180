"""What a screen may ask of the program that it runs in: all that a screen knows of the app."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING, Any, Protocol, TypeVar, cast

if TYPE_CHECKING:
    from textual.dom import DOMNode
    from textual.screen import Screen

    from devices.clock import Clock
    from devices.pedal import Debounce
    from plans.sitting.events import Word
    from tui.config.folders import Folders
    from tui.config.settings import Settings
    from tui.running.attending import Attending
    from tui.running.requests import Outcome, RunRequest
    from tui.running.sound import Aloud


Answer = TypeVar("Answer")


class Host(Protocol):
    """The program as its screens see it; the app is one, and a test can be another."""

    settings: Settings
    """What the smith has set."""
    folders: Folders
    """Where settings, plans, probe profiles and the logbook are."""
    clock: Clock
    """Real time, for what a screen times itself: blinking, notices, double presses [s]."""
    now: Callable[[], datetime]
    """Wall time with its offset."""
    attending: Attending | None
    """The sitting that runs; None without one."""
    aloud: Aloud
    """Bell and voice."""
    presses: Debounce
    """Tells a press of a key from the same press once more, as of a worn pedal or a key held down."""
    outcome: Outcome
    """What will be said when the program has left the screen."""

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word to the sitting; whether it was taken."""

    def say_aside(self, text: str, wrong: bool = False) -> None:
        """Show a notice that goes by itself; `wrong` where something has to be mended."""

    async def run_sitting(self, request: RunRequest) -> None:
        """Begin a sitting, or go on with one, and show it."""

    async def leave_sitting(self) -> None:
        """Put the sitting away and go back to where it was begun."""

    def close_sitting(self) -> None:
        """Put the sitting away; what is to be said about it stands in `outcome`."""

    async def review_finished(self, name: str) -> None:
        """From the end of a sitting, which has been put away, to the whole of it."""

    async def open_log(self) -> None:
        """Show the sittings that were kept."""

    async def open_reckoner(self) -> None:
        """Show the reckoner."""

    async def open_review(self, name: str) -> None:
        """Show one sitting that was kept, by its id."""

    async def leave_screen(self) -> None:
        """Close the screen on top; the last one closes the program."""

    def push_screen(self, screen: Screen[Answer], callback: Callable[[Answer | None], Any] | None = None) -> Any:
        """Put a screen on top; `callback` is called with its answer when it has gone."""

    async def push_screen_wait(self, screen: Screen[Answer]) -> Answer:
        """Put a screen on top and wait for its answer; only in a worker."""

    def set_keymap(self, keymap: dict[str, str]) -> None:
        """Go by these keys from now on, by the action's id."""


def host_of(node: DOMNode) -> Host:
    """The program that a screen or a widget runs in."""
    return cast(Host, node.app)

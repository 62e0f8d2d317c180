"""What a screen may ask of the program that it runs in: all that a screen knows of the app."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING, Any, Protocol, TypeVar, cast

from tui.actions import BY_ID, keys_of

if TYPE_CHECKING:
    from textual.dom import DOMNode
    from textual.screen import Screen

    from devices import Clock, Debounce
    from plans.logbook import Logbook
    from plans.sitting import Word
    from tui.config import Folders, Settings
    from tui.running import Aloud, First, Outcome, RunningSitting


Answer = TypeVar("Answer")
"""What a screen that asks something is answered with."""


class Host(Protocol):
    """The program as its screens see it; the app is one, and a test can be another."""

    settings: Settings
    """What the smith has set."""
    folders: Folders
    """Where settings, plans, probe profiles and the logbook are."""
    logbook: Logbook
    """Where sittings are kept."""
    rehearsals: Logbook
    """Where rehearsals are kept, apart from the sittings."""
    clock: Clock
    """Real time, for what a screen times itself: blinking, notices, double presses [s]."""
    now: Callable[[], datetime]
    """Wall time with its offset."""
    presses: Debounce
    """Tells a press of a key from the same press once more, as of a worn pedal or a key held down."""
    outcome: Outcome
    """What will be said when the program has left the screen."""

    @property
    def running(self) -> RunningSitting | None:
        """The sitting that runs; None without one."""

    @property
    def aloud(self) -> Aloud:
        """Bell and voice."""

    @property
    def screen(self) -> Screen[Any]:
        """The screen on top."""

    def say(self, word: Word, text: str = "", key: str = "", sure: bool = False) -> bool:
        """Say a word of the smith to the sitting that runs.

        Args:
            word: what is said
            text: of a note
            key: what was pressed, where one key says several words; the same twice at once counts once
            sure: it comes from a switch that has stopped bouncing

        Returns:
            whether it was taken
        """

    def say_aside(self, text: str, wrong: bool = False) -> None:
        """Show a notice; one about what is well goes by itself.

        Args:
            text: what it says
            wrong: whether something has to be mended, so that it must be seen
        """

    async def open(self, what: First) -> None:
        """Show what is asked for: shelf, log, reckoner, a sitting that was kept, or one that begins now.

        Where that can't be, it says why.
        """

    async def leave_sitting(self) -> None:
        """Put the sitting away and go back to where it was begun."""

    def close_sitting(self) -> None:
        """Put the sitting away, if one runs; what is to be said about it stands in `outcome`."""

    async def review_finished(self, name: str, rehearsal: bool) -> None:
        """From the end of a sitting, which has been put away, to the whole of it; a rehearsal is kept apart."""

    def leave_screen(self) -> None:
        """Close the screen on top; the last one closes the program."""

    def push_screen(self, screen: Screen[Answer], callback: Callable[[Answer | None], Any] | None = None) -> Any:
        """Put a screen on top; `callback` is called with its answer when it has gone."""

    async def push_screen_wait(self, screen: Screen[Answer]) -> Answer:
        """Put a screen on top and wait for its answer; only in a worker."""

    def simulate_key(self, key: str) -> None:
        """Have a key pressed on the screen on top, by its name in Textual."""

    def set_keymap(self, keymap: dict[str, str]) -> None:
        """Go by other keys from now on: which ones, by the id of the action that each says."""


def says_next(host: Host, key: str) -> bool:
    """Whether a key says "next": space, where it was not moved, and that of a pedal; each screen goes ahead by it."""
    return key in keys_of(BY_ID["next"], host.settings.keys)


def logbook_of(host: Host, rehearsals: bool) -> Logbook:
    """Where sittings are kept, or the rehearsals apart from them."""
    return host.rehearsals if rehearsals else host.logbook


def host_of(node: DOMNode) -> Host:
    """The program that a screen or a widget runs in, as its host."""
    return cast(Host, node.app)

"""Learning the key that a pedal sends, by pressing it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.actions import ACTIONS, BY_ID, keys_of
from tui.config import KEPT, UsageError, keep_pedal_key, read_settings
from tui.screens.host import Host, host_of

_ASKED = 'Press the pedal. What it sends will say "next".'


class PedalScreen(ModalScreen[str | None]):
    """Waits for the key that the pedal sends, and answers with it, as Textual calls it; None when it was given up."""

    DEFAULT_CSS = """
    PedalScreen { align: center middle; background: $background 60%; }
    PedalScreen #sheet { width: 64; max-width: 90%; height: auto; background: $surface; padding: 1 2; }
    """

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.assemble((_ASKED, "bold"), "\n\nesc on the keyboard: let it be"))
            yield Static(id="wrong", markup=False)

    def on_key(self, event: events.Key) -> None:
        """The key that arrives is the pedal's, whatever it is, as long as nothing else has it."""
        event.stop()
        event.prevent_default()
        if not self.is_current:
            return  # a burst: the first key has closed it
        if event.key == "escape":
            self.dismiss(None)
        elif why := refused(event.key, host_of(self).settings.keys):
            self.query_one("#wrong", Static).update(f"\n{why}")
        else:
            self.dismiss(event.key)


def refused(key: str, keys: Mapping[str, str]) -> str:
    """Why a pedal can't have a key.

    Args:
        key: the key, as Textual calls it
        keys: keys that were moved, by the action's id

    Returns:
        what is to be said about it; empty where the pedal can have it
    """
    if key in KEPT:
        return f"It sends {key}, which is kept for the terminal. Set the pedal to another key."
    next_ = BY_ID["next"]
    for action in (next_, *ACTIONS):
        if key not in keys_of(action, keys):
            continue
        if action is next_:
            return f'It sends {key}, which says "next" already: it serves as it is.'
        return f"It sends {key}, which is the key of {action.id}. Set the pedal to another key, or move that one."
    return ""


def ask_for_pedal(app: Host) -> None:
    """Ask for the pedal to be pressed, keep its key in the settings, and go by it from now on."""

    def answered(key: str | None) -> None:
        if key is None:
            return
        path = app.folders.configuration
        try:
            keep_pedal_key(path, key)
        except UsageError as error:
            app.say_aside(str(error), wrong=True)
            return
        except OSError as error:
            app.say_aside(f"{path}: can't be written ({error.strerror or error}); the key was not kept", wrong=True)
            return
        app.settings = replace(read_settings(path)[0], blocks=app.settings.blocks)
        app.set_keymap(dict(app.settings.keys))
        app.say_aside(f'The pedal sends {key}: it says "next" from now on. Kept in {path}.')

    app.push_screen(PedalScreen(), answered)

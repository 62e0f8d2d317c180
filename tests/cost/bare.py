"""The yardstick of a start and of an end: a Textual app that says one word."""

from __future__ import annotations

WORD = "heatbook"
LEAVE = "\x03"
"""Control and C: what it is left by, and each of our screens."""
BARE = (
    "-c",
    f"""
from textual.app import App
from textual.widgets import Static

class Bare(App):
    BINDINGS = [("ctrl+c", "quit", "")]

    def compose(self):
        yield Static({WORD!r})

Bare().run()
""",
)
"""What Python is started with."""

"""What is told when there is no terminal any more."""

from __future__ import annotations

from textual.message import Message


class TerminalGone(Message):
    """Nothing can be read from the terminal any more, or written to it.

    Args:
        why: what the system says, in plain words
    """

    def __init__(self, why: str) -> None:
        super().__init__()
        self.why = why

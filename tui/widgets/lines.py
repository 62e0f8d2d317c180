"""Lines of text that fit whatever width there is."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from plans.text import plain
from tui.widgets.plain import clip


class SplitLine(Widget):
    """One text at the left and one at the right; where both don't fit, the left one is cut."""

    DEFAULT_CSS = "SplitLine { height: 1; width: 1fr; padding: 0 1; }"

    left: reactive[str] = reactive("")
    right: reactive[str | Content] = reactive("")

    def show(self, left: str, right: str | Content = "") -> None:
        """Show two texts; those that are no Content are taken for untrusted."""
        self.left = plain(left)
        self.right = plain(right) if isinstance(right, str) else right

    def render(self) -> Content:
        width = self.size.width
        right = Content(self.right) if isinstance(self.right, str) else self.right
        room = width - right.cell_length - 2
        if room < min(8, cell_len(self.left)):
            return Content(clip(self.left or right.plain, width))
        left = clip(self.left, room)
        return Content.assemble(left, " " * (width - cell_len(left) - right.cell_length), right)


_NARROW = 40
"""Below this every cell counts."""
_APART = 3
"""Cells between two keys."""

Key = tuple[str, str, str]
"""A key as it is shown, what it does in a word or two, and the action to run when it is clicked."""


class KeyLine(Widget):
    """The keys at the foot of a screen, the first of them set off. Each can be clicked."""

    DEFAULT_CSS = """
    KeyLine { height: 1; width: 1fr; padding: 0 1; }
    """

    keys: reactive[tuple[Key, ...]] = reactive(())

    class Clicked(Message):
        """A key was clicked."""

        def __init__(self, action: str) -> None:
            super().__init__()
            self.action = action

    def show(self, keys: Sequence[Key]) -> None:
        """Show these keys, the most important first; those in the middle give way where there is no room."""
        self.keys = tuple(keys)

    def render(self) -> Content:
        content, end = Content(""), 0
        for column, (key, does, _) in placed(self.keys, self.size.width):
            first = not content
            name = f" {key} " if self.size.width >= _NARROW else key
            shown = (name, "bold reverse $accent") if first else (key, "bold $accent")
            content = Content.assemble(content, " " * (column - end), shown, " ", does)
            end = content.cell_length
        return Content(clip(content.plain, self.size.width)) if content.cell_length > self.size.width else content

    def on_click(self, event: events.Click) -> None:
        at = event.x - self.styles.padding.left
        for column, key in placed(self.keys, self.size.width):
            if column <= at < column + _length(key) + 2 * (column == 0):
                self.post_message(self.Clicked(key[2]))


def placed(keys: Sequence[Key], width: int) -> list[tuple[int, Key]]:
    """The keys that fit, and the column where each begins: the first always, the last at the right if it fits."""
    if not keys:
        return []
    first, last = keys[0], keys[-1]
    found, column = [(0, first)], _length(first) + 2 + _APART
    room = width - _length(last) if len(keys) > 1 else width
    for key in keys[1:-1]:
        if column + _length(key) + _APART > room:
            break
        found.append((column, key))
        column += _length(key) + _APART
    if len(keys) > 1 and column <= room:
        found.append((room, last))
    return found


def _length(key: Key) -> int:
    return cell_len(key[0]) + 1 + cell_len(key[1])

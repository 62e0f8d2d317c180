"""Lines of text that fit whatever width there is."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from tui.widgets.plain import clip, plain


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


Key = tuple[str, str, str]
"""A key as it is shown, what it does in a word or two, and the action to run when it is clicked."""


class KeyLine(Widget):
    """The keys at the foot of a screen; those that don't fit are left out, the last one stays. Each can be clicked."""

    DEFAULT_CSS = """
    KeyLine { height: 1; width: 1fr; padding: 0 1; }
    KeyLine:hover { text-style: none; }
    """

    keys: reactive[tuple[Key, ...]] = reactive(())

    class Clicked(Message):
        """A key was clicked."""

        def __init__(self, action: str) -> None:
            super().__init__()
            self.action = action

    def show(self, keys: Sequence[Key]) -> None:
        """Show these keys, the most important first, and the last one always."""
        self.keys = tuple(keys)

    def placed(self) -> list[tuple[int, Key]]:
        """The keys that fit, and the column where each begins."""
        width = self.size.width
        last = self.keys[-1:]
        room = width - sum(_length(key) + 3 for key in last)
        found, column = [], 0
        for key in self.keys[:-1]:
            if column + _length(key) > room:
                break
            found.append((column, key))
            column += _length(key) + 3
        if last and (not found or width - _length(last[0]) >= column):
            found.append((max(column, width - _length(last[0])) if found else 0, last[0]))
        if not found and self.keys:
            found = [(0, self.keys[0])]
        return found

    def render(self) -> Content:
        content, end = Content(""), 0
        for column, (key, does, _) in self.placed():
            content = Content.assemble(content, " " * (column - end), (key, "bold $accent"), " ", does)
            end = column + cell_len(key) + 1 + cell_len(does)
        return content

    def on_click(self, event: events.Click) -> None:
        at = event.x - self.styles.padding.left
        for column, key in self.placed():
            if column <= at < column + _length(key):
                self.post_message(self.Clicked(key[2]))


def _length(key: Key) -> int:
    return cell_len(key[0]) + 1 + cell_len(key[1])

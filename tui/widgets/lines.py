"""Lines of text that fit whatever width there is."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive

from plans.text import plain
from tui.widgets.plain import clip
from tui.widgets.still import Still


class SplitLine(Still):
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
_WAY_OUT = "leave"
"""The action that leads out of a screen, on every one that has a foot."""
_FIRST_KEY = "bold reverse $accent"

Key = tuple[str, str, str]
"""A key as it is shown, what it does in a word or two, and the action to run when it is clicked."""


class KeyLine(Still):
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
        width, rows = self.size
        lines = [Content("")] * max(1, rows)
        for row, column, (key, does, _) in placed(self.keys, width, rows):
            before = lines[row]
            gap = Content(" " * (column - before.cell_length))
            if row or column:
                lines[row] = Content.assemble(before, gap, (key, "bold $accent"), " ", does)
            elif rows == 1:
                name = f" {key} " if width >= _NARROW else key
                lines[row] = Content.assemble((name, _FIRST_KEY), " ", does)
            else:
                # As tall as there are rows: the one key that a gloved hand needs.
                lines = [Content.styled(text, _FIRST_KEY) for text in _block(key, does, rows)]
        return Content("\n").join(
            Content(clip(line.plain, width)) if line.cell_length > width else line for line in lines
        )

    def on_click(self, event: events.Click) -> None:
        at = event.x - self.styles.padding.left
        for row, column, key in placed(self.keys, *self.size):
            first = row == column == 0
            if (first or row == event.y) and column <= at < column + _length(key) + 2 * first:
                self.post_message(self.Clicked(key[2]))


def _block(key: str, does: str, rows: int) -> list[str]:
    """The first key, over all rows."""
    text = f" {key}  {does} "
    return [text if row == (rows - 1) // 2 else " " * cell_len(text) for row in range(rows)]


def placed(keys: Sequence[Key], width: int, rows: int = 1) -> list[tuple[int, int, Key]]:
    """The keys that fit, with row and column of each: the first always, over all rows, the last at the very end.

    The way out stands before the last and gives way after it: whoever is lost on a narrow screen finds it.
    """
    if not keys:
        return []
    first, *others = keys
    kept = [key for key in others if key[2] == _WAY_OUT or key is others[-1]]
    begin = _length(first) + 2 + _APART
    while kept and begin > (end := width - sum(map(_length, kept)) - _APART * (len(kept) - 1)):
        kept.pop()
    found, row, column = [(0, 0, first)], 0, begin
    for key in others if kept else ():
        if key in kept:
            continue
        if row < rows - 1 and column + _length(key) > width:
            row, column = row + 1, begin
        if column + _length(key) + _APART * (row == rows - 1) > (end if row == rows - 1 else width):
            break
        found.append((row, column, key))
        column += _length(key) + _APART
    for key in kept:
        found.append((rows - 1, end, key))
        end += _length(key) + _APART
    return found


def _length(key: Key) -> int:
    return cell_len(key[0]) + 1 + cell_len(key[1])

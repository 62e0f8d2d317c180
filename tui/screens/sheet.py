"""A sheet to be read over the screen: scrolled by the keys that one would try, left by them, its keys at its foot."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.events import Key
from textual.screen import ModalScreen
from textual.widget import Widget

from tui.actions import BY_ID, keys_of, shown_key
from tui.screens.host import host_of, says_next
from tui.widgets import KeyLine

Answer = TypeVar("Answer")


class ReadingSheet(ModalScreen[Answer]):
    """A sheet over the screen that is scrolled; a subclass says what is to be read there, and how it goes away."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "scroll(1)", show=False),
        Binding("up", "scroll(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
    ]
    DEFAULT_CSS = """
    ReadingSheet { align: center middle; background: $background 60%; }
    ReadingSheet #sheet { width: 90%; max-width: 100; height: 90%; background: $surface; padding: 1 2; }
    ReadingSheet #list { height: 1fr; }
    ReadingSheet KeyLine { margin-top: 1; padding: 0; }
    """

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield from self.heading()
            with VerticalScroll(id="list", can_focus=False):
                yield from self.reading()
            yield KeyLine()

    def heading(self) -> Iterable[Widget]:
        """What stays above while the rest is scrolled."""
        return ()

    def reading(self) -> Iterable[Widget]:
        """What is to be read."""
        return ()

    def on_mount(self) -> None:
        self.show_keys()

    def show_keys(self) -> None:
        """Say the keys at the foot."""

    @property
    def list(self) -> VerticalScroll:
        """The part that is scrolled."""
        return self.query_one("#list", VerticalScroll)

    def action_scroll(self, lines: int) -> None:
        """Scroll by so many lines, up where that is below zero."""
        self.list.scroll_relative(y=lines, animate=False)

    def action_page(self, pages: int) -> None:
        """Scroll by so many pages, up where that is below zero; the line at the edge stays, to read on from."""
        self.action_scroll(pages * max(1, self.list.size.height - 1))

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


class Sheet(ReadingSheet[None]):
    """A sheet that is only read; a subclass says by which actions' keys it goes away."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,space,enter", "close", show=False)]
    OPENED_BY: ClassVar[str] = ""
    """The action that opens it, whose key closes it too, wherever the settings have moved it."""
    LEAVES: ClassVar[str] = "close"
    """What the foot of the sheet says that the key of `OPENED_BY` does."""

    def show_keys(self) -> None:
        """Say the keys at the foot."""
        key = shown_key(BY_ID[self.OPENED_BY], host_of(self).settings.keys)
        self.query_one(KeyLine).show([(key, self.LEAVES, "close"), ("↓ ↑", "more", "scroll(5)")])

    def on_key(self, event: Key) -> None:
        """The key that opened it, and the one that says "next", be it a pedal, serve here too."""
        host = host_of(self)
        opener = BY_ID.get(self.OPENED_BY)
        if says_next(host, event.key) or (opener is not None and event.key in keys_of(opener, host.settings.keys)):
            event.stop()
            self.action_close()

    def action_close(self) -> None:
        """Take the sheet away."""
        self.dismiss(None)

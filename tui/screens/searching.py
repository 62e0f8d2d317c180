"""A screen with a list that is searched as one types."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType
from textual.widgets import Input

from tui.actions import before_the_focus
from tui.screens.told import TellingScreen
from tui.widgets import Choices, Key


class SearchingScreen(TellingScreen):
    """A screen that has a list with the id `list`; a subclass lists what is found, and says so."""

    BINDINGS: ClassVar[list[BindingType]] = before_the_focus({"escape": "end_search"})
    SEARCHES: ClassVar[str] = ""
    """What can be typed, for the line while it is empty."""
    BELOW: ClassVar[str] = "#list"
    """The part of the screen above which the line stands."""

    def __init__(self) -> None:
        super().__init__()
        self.searching = False
        """Whether the line stands there."""
        self.wanted = ""
        """What is looked for; empty while nothing is."""

    @property
    def listed(self) -> Choices:
        """The list."""
        return self.query_one("#list", Choices)

    def keys_in_search(self, keys: list[Key], ahead: str, every: str) -> list[Key]:
        """The keys at the foot, of which a line that takes every letter leaves few.

        Args:
            keys: those without a search
            ahead: the action that enter runs
            every: what is listed when the search has ended
        """
        if not self.searching:
            return keys
        end = ("esc", every, "end_search")
        if isinstance(self.focused, Input):
            return [*(key for key in keys if key[2] == ahead), ("tab", "to what is found", "to_list"), end]
        return [end, *(key for key in keys if key[2] != "search")]

    def on_descendant_focus(self) -> None:
        """Other keys count in the line than in the list."""
        if self.searching:
            self.show_search()

    def action_to_list(self) -> None:
        """Leave the line for what is found, where keys mean what they mean without a search."""
        self.set_focus(self.listed)

    def list_anew(self) -> None:
        """List what is found."""
        raise NotImplementedError

    def show_search(self) -> None:
        """Say at the head and at the foot whether a search goes on."""
        raise NotImplementedError

    async def read_all(self) -> None:
        """Read what is searched and has not been read yet, and list anew."""

    async def action_search(self) -> None:
        """Look for something: the list shows what is found, as it is typed."""
        from tui.widgets import SearchLine

        if not self.query(SearchLine):
            await self.mount(SearchLine(self.SEARCHES), before=self.BELOW)
        self.searching = True
        self.query_one(SearchLine).begin()
        self.show_search()
        self.run_worker(self.read_all())

    async def action_end_search(self) -> None:
        """Show all again; the line that is chosen stays so."""
        from tui.widgets import SearchLine

        self.searching, self.wanted = False, ""
        self.set_focus(self.listed)
        self.query_one(SearchLine).display = False
        self.list_anew()
        self.show_search()

    def action_along(self, way: str) -> None:
        """Move along the list from the line that is searched by."""
        getattr(self.listed, f"action_{way}")()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What belongs to a search, and what begins one, each in its time."""
        if action == "search":
            return not isinstance(self.focused, Input)
        if action == "end_search":
            return self.searching
        return super().check_action(action, parameters)

    def on_input_changed(self, message: Input.Changed) -> None:
        message.stop()
        if self.searching:
            self.wanted = message.value
            self.list_anew()

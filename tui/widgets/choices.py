"""A list to choose from."""

from __future__ import annotations

from contextlib import suppress

from textual.widgets import OptionList


class Choices(OptionList):
    """Textual's list, which does not know how far a page is while there is no room for a line of it."""

    def action_page_up(self) -> None:
        """Go up a page."""
        with suppress(LookupError):
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        """Go down a page."""
        with suppress(LookupError):
            super().action_page_down()  # type: ignore[no-untyped-call]

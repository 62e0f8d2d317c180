"""A list without room for a line of it, as in a terminal of one cell."""

from __future__ import annotations

from textual.app import App, ComposeResult

from tui.widgets.choices import Choices


class _Listed(App[None]):
    CSS = "Choices { display: none; }"

    def compose(self) -> ComposeResult:
        yield Choices("first", "second", "third")


async def test_pages_do_no_harm_where_there_is_no_room_for_one() -> None:
    async with _Listed().run_test() as pilot:
        listed = pilot.app.query_one(Choices)
        listed.highlighted = 1
        listed.action_page_down()
        listed.action_page_up()
        assert listed.highlighted == 1
        listed.display = True
        await pilot.pause()
        listed.action_page_down()
        assert listed.highlighted == 2

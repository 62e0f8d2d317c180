"""The fields of the question that is asked, and what was typed into those of every question."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from typing import TYPE_CHECKING, ClassVar

from rich.segment import Segment
from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from plans.text import plain
from plans.units import Units
from tui.reckoner.question import Question
from tui.widgets import CachedDrawing, Shown, fill

if TYPE_CHECKING:
    from tui.reckoner.entry import Entry

_NAMES = 14
"""Cells for the names of the fields."""


class Fields(VerticalScroll, can_focus=False):
    """A row for each thing that can be given. All are drawn as text; the one that has the cursor is typed into.

    A line to type into for each would take longer to come than all the rest of the screen, and one is not needed before
    the cursor goes to a field.
    """

    DEFAULT_CSS = """
    Fields { width: 38%; min-width: 30; max-width: 48; height: 1fr; padding: 0 1; }
    """

    class Moved(Message):
        """The cursor stands in another field."""

    def __init__(self, units: Units) -> None:
        """Fields that hold an example in these units until another text is typed."""
        super().__init__()
        self._units = units
        self._entry: Entry | None = None
        """What is typed into, from the first time on that a field is."""
        self._rows = _Rows(self._pressed)
        self._names: tuple[str, ...] = ()
        self._typed: dict[str, list[str]] = {}
        """The texts by question, in the order of its fields; of that which has the cursor, as it came there."""
        self._texts: list[str] = []
        """Those of the question that is asked."""
        self._wrong = -1
        self.place = 0
        """Which field has the cursor, counted from the top."""

    def compose(self) -> ComposeResult:
        yield self._rows

    def show(self, question: Question) -> None:
        """Show the fields of this question, with what was typed into them; the cursor stands in the first."""
        self._keep()
        if question.name not in self._typed:
            example = question.example(self._units)
            self._typed[question.name] = [example.get(field.name, "") for field in question.fields]
        self._names = tuple(field.name for field in question.fields)
        self._texts, self._wrong = self._typed[question.name], -1
        self._rows.styles.height = len(self._names)
        self._lay(0)

    @property
    def has_cursor(self) -> bool:
        """Whether the cursor stands in a field, which is typed into."""
        # The entry itself hears of it later.
        return self._entry is not None and self.screen.focused is self._entry

    async def typed_out(self) -> None:
        """Wait until all that was typed so far stands in its field."""
        if self._entry is not None:
            await self._entry.typed_out()

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the fields, by their names."""
        self._keep()
        return dict(zip(self._names, self._texts, strict=True))

    @property
    def count(self) -> int:
        """How many fields there are."""
        return len(self._names)

    def blame(self, wrong: str) -> None:
        """Mark the field of this name as the one at fault, and no other."""
        self._wrong = self._names.index(wrong) if wrong in self._names else -1
        self._draw()

    async def go_to(self, place: int, *, chosen: bool = True) -> Entry:
        """Put the cursor into the field at this place, all of its text chosen or none; gives what is typed into."""
        self._keep()
        if self._entry is None:
            from tui.reckoner.entry import Entry

            self._entry = Entry(self._texts[place])
            self._entry.styles.offset = (0, place)
            await self._rows.mount(self._entry)
            await self._entry.laid_out()
        self._lay(place, chosen=chosen)
        self.screen.set_focus(self._entry, scroll_visible=False)
        return self._entry

    def _keep(self) -> None:
        """Keep what was typed into the field that has the cursor."""
        if self._entry is not None:
            self._texts[self.place] = self._entry.value

    def _lay(self, place: int, *, chosen: bool = True) -> None:
        self.place = place
        if self._entry is not None:
            self._entry.lay(self._texts[place], chosen=chosen)
            self._entry.styles.offset = (0, place)
        self._draw()
        self.call_after_refresh(self.scroll_to_region, Region(0, place, 1, 1), animate=False)
        self.post_message(self.Moved())

    def _draw(self) -> None:
        self._rows.show(self._names, self._texts, self._wrong)
        if self._entry is not None:
            self._entry.set_class(self._wrong == self.place, "wrong")

    async def _pressed(self, place: int) -> Entry:
        """A text that was drawn is pressed with the mouse, and is typed into from now on."""
        return await self.go_to(place, chosen=False)


class _Rows(CachedDrawing):
    """The fields as text, names at the left; over one of them lies the entry."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"rows--name", "rows--text", "rows--wrong"}
    DEFAULT_CSS = """
    _Rows { width: 1fr; }
    _Rows > .rows--name { color: $text-muted; }
    _Rows > .rows--text { background: $panel; }
    _Rows > .rows--wrong { background: $panel; color: $text-error; text-style: bold; }
    _Rows Entry { width: 1fr; margin-left: 14; background: $panel; }
    _Rows Entry:focus { background: $block-cursor-background; }
    _Rows Entry.wrong { color: $text-error; text-style: bold; }
    """

    rows: Shown[tuple[tuple[str, str], ...]] = Shown(())
    wrong: Shown[int] = Shown(-1)

    def __init__(self, pressed: Callable[[int], Awaitable[Entry]]) -> None:
        """Texts; `pressed` lays the entry over the one in a row, and gives it."""
        super().__init__()
        self._pressed = pressed
        self._entry: Entry | None = None

    def show(self, names: Sequence[str], texts: Sequence[str], wrong: int) -> None:
        """Show texts under their names, the one at place `wrong` as wrong."""
        self.rows, self.wrong = tuple(zip(names, texts, strict=True)), wrong

    def draw(self, width: int, height: int) -> list[Strip]:
        strips = []
        for row, (name, text) in enumerate(self.rows[:height]):
            look = self.look("rows--wrong" if row == self.wrong else "rows--text")
            cells = [
                Segment(fill(name, _NAMES - 1) + " ", self.look("rows--name")),
                Segment(fill(plain(text), max(0, width - _NAMES)), look),
            ]
            strips.append(Strip(cells).crop(0, width))
        return strips + [Strip.blank(width, self.look())] * (height - len(strips))

    async def on_mouse_down(self, event: events.MouseDown) -> None:
        if event.y < len(self.rows):
            self._entry = await self._pressed(event.y)
            self._entry.post_message(_seen_by(self._entry, event))

    def on_mouse_up(self, event: events.MouseUp) -> None:
        # It may come before the entry has heard that it is pressed, and captures the mouse.
        if self._entry is not None:
            self._entry.post_message(_seen_by(self._entry, event))


def _seen_by(entry: Entry, event: events.MouseEvent) -> events.MouseEvent:
    """The same as the entry sees it when it lies there."""
    x = max(0, event.x - _NAMES)
    return type(event)(entry, x, 0, 0, 0, event.button, event.shift, event.meta, event.ctrl)

"""Fields: a row for each thing that can be given, with what is taken where nothing is typed, and why."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from rich.segment import Segment
from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip

from plans.record import record
from plans.text import plain
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.plain import clip, fill

if TYPE_CHECKING:
    from tui.widgets.entry import Entry

_BESIDE_FROM = 34
"""Cells for text and what stands beside it, from which on there is room for both."""
_TEXT = (16, 30)
"""Least and most cells for a text that has something beside it."""


@record
class Field:
    """One row: something that can be given."""

    name: str
    """What it is called."""
    text: str = ""
    """What was typed."""
    usual: str = ""
    """What is taken where nothing is typed; empty where that is nothing."""
    beside: str = ""
    """What stands beside it, where there is room: where the figure comes from."""
    wrong: bool = False
    """Whether what was typed is at fault."""
    words: tuple[str, ...] = ()
    """The words of which its text is one; none where any text may be typed."""
    holds_marks: bool = True
    """Whether `?` and `!` may stand in it; where they can't, they are the keys that they are elsewhere."""
    is_long: bool = False
    """Whether it may be a text of many words, which has the whole row where nothing stands beside it."""


class Fields(VerticalScroll, can_focus=False):
    """A row for each thing that can be given. All are drawn as text; the one that has the cursor is typed into.

    A line to type into for each would take longer to come than all the rest of the screen, and one is not needed before
    the cursor goes to a field.
    """

    DEFAULT_CSS = """
    Fields { height: 1fr; padding: 0 1; }
    """

    class Moved(Message):
        """The cursor stands in another field."""

    def __init__(self, names: int) -> None:
        """No fields yet; `names` is how many cells there are for their names."""
        super().__init__()
        self._entry: Entry | None = None
        """What is typed into, from the first time on that a field is."""
        self._rows = _Rows(names, self._pressed)
        self._fields: tuple[Field, ...] = ()
        self._texts: list[str] = []
        """What was typed; of the field that has the cursor, as it came there."""
        self.place = 0
        """Which field has the cursor, counted from the top."""

    def compose(self) -> ComposeResult:
        yield self._rows

    def begin(self, fields: Sequence[Field], place: int = 0) -> None:
        """Show other fields than before; the cursor stands in the one at `place`."""
        self._fields, self._texts = tuple(fields), [one.text for one in fields]
        self._rows.styles.height = len(fields)
        self._lay(min(place, max(0, len(fields) - 1)))

    def tell(self, fields: Sequence[Field]) -> None:
        """Show what has changed beside the texts of the same fields; what was typed stays."""
        self._fields = tuple(fields)
        self._draw()

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
    def texts(self) -> tuple[str, ...]:
        """What stands in the fields, from the top."""
        self._keep()
        return tuple(self._texts)

    @property
    def count(self) -> int:
        """How many fields there are."""
        return len(self._fields)

    async def go_to(self, place: int, *, chosen: bool = True) -> Entry:
        """Put the cursor into the field at this place, all of its text chosen or none; gives what is typed into."""
        self._keep()
        if self._entry is None:
            from tui.widgets.entry import Entry

            self._entry = Entry(self._texts[place])
            self._entry.styles.offset = (0, place)
            self._rows.fit(self._entry, place)
            await self._rows.mount(self._entry)
            await self._entry.laid_out()
        self._lay(place, chosen=chosen)
        self.screen.set_focus(self._entry, scroll_visible=False)
        return self._entry

    def _keep(self) -> None:
        """Keep what was typed into the field that has the cursor."""
        if self._entry is not None and self._texts:
            self._texts[self.place] = self._entry.value

    def _lay(self, place: int, *, chosen: bool = True) -> None:
        self.place = place
        if self._entry is not None and self._texts:
            there = self._fields[place]
            self._entry.lay(self._texts[place], chosen=chosen, words=there.words, holds_marks=there.holds_marks)
            self._entry.styles.offset = (0, place)
        self._draw()
        self.call_after_refresh(self.scroll_to_region, Region(0, place, 1, 1), animate=False)
        self.post_message(self.Moved())

    def _draw(self) -> None:
        self._rows.show(self._fields, self._texts)
        if self._entry is not None and self._fields:
            there = self._fields[self.place]
            self._entry.set_class(there.wrong, "wrong")
            self._entry.placeholder = plain(there.usual)
            self._rows.fit(self._entry, self.place)

    async def _pressed(self, place: int) -> Entry:
        """A text that was drawn is pressed with the mouse, and is typed into from now on."""
        return await self.go_to(place, chosen=False)


class _Rows(CachedDrawing):
    """The fields as text, names at the left; over one of them lies the entry."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"rows--name", "rows--text", "rows--usual", "rows--wrong"}
    DEFAULT_CSS = """
    _Rows { width: 1fr; }
    _Rows > .rows--name { color: $text-muted; }
    _Rows > .rows--text { background: $panel; }
    _Rows > .rows--usual { background: $panel; color: $text-muted; }
    _Rows > .rows--wrong { background: $panel; color: $text-error; text-style: bold; }
    _Rows Entry { width: 1fr; background: $panel; }
    _Rows Entry:focus { background: $block-cursor-background; }
    _Rows Entry.wrong { color: $text-error; text-style: bold; }
    """

    rows: Shown[tuple[Field, ...]] = Shown(())

    def __init__(self, names: int, pressed: Callable[[int], Awaitable[Entry]]) -> None:
        """No texts yet; `names` are the cells for names, `pressed` lays the entry over a row, and gives it."""
        super().__init__()
        self._names, self._pressed = names, pressed
        self._entry: Entry | None = None
        self._place = 0

    def show(self, fields: Sequence[Field], texts: Sequence[str]) -> None:
        """Show fields, with these texts typed into them."""
        self.rows = tuple(replace(one, text=text) for one, text in zip(fields, texts, strict=True))

    def fit(self, entry: Entry, place: int) -> None:
        """Give the entry the place of the text in a row."""
        self._entry, self._place = entry, place
        entry.styles.margin = (0, 0, 0, self._names)
        entry.styles.width = self._text(self.size.width, self.rows[place]) or 1

    def on_resize(self) -> None:
        if self._entry is not None:
            self.fit(self._entry, self._place)

    def _text(self, width: int, one: Field) -> int:
        """Cells for the text of a row: all behind the names, unless something stands beside it, or beside a short one
        in other rows, and there is room for that."""
        room = max(0, width - self._names)
        is_alone = not one.beside and (one.is_long or not any(other.beside for other in self.rows))
        if room < _BESIDE_FROM or is_alone:
            return room
        return max(_TEXT[0], min(_TEXT[1], room * 2 // 5))

    def draw(self, width: int, height: int) -> list[Strip]:
        strips = [Strip(self._drawn(one, self._text(width, one), width)).crop(0, width) for one in self.rows[:height]]
        return strips + [Strip.blank(width, self.look())] * (height - len(strips))

    def _drawn(self, one: Field, text: int, width: int) -> list[Segment]:
        look = "rows--wrong" if one.wrong else "rows--usual" if one.usual and not one.text else "rows--text"
        cells = [
            Segment(fill(clip(one.name, self._names - 1), self._names), self.look("rows--name")),
            Segment(fill(plain(one.text or one.usual), text), self.look(look)),
        ]
        if text < width - self._names:
            beside = clip(f"  {plain(one.beside)}", width - self._names - text)
            cells.append(Segment(fill(beside, width - self._names - text), self.look("rows--name")))
        return cells

    async def on_mouse_down(self, event: events.MouseDown) -> None:
        if event.y < len(self.rows):
            self._entry = await self._pressed(event.y)
            self._entry.post_message(self._seen_by(self._entry, event))

    def on_mouse_up(self, event: events.MouseUp) -> None:
        # It may come before the entry has heard that it is pressed, and captures the mouse.
        if self._entry is not None:
            self._entry.post_message(self._seen_by(self._entry, event))

    def _seen_by(self, entry: Entry, event: events.MouseEvent) -> events.MouseEvent:
        """The same as the entry sees it when it lies there."""
        x = max(0, event.x - self._names)
        return type(event)(entry, x, 0, 0, 0, event.button, event.shift, event.meta, event.ctrl)

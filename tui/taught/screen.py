"""The screen of what a shop's sittings teach: each figure, what it rests on, what heatbook goes by; keep or forget."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from textwrap import wrap
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from plans.logbook import LogbookError
from plans.logbook.taught import ALL_FORGOTTEN, NOTHING, FactorFigure, Row
from plans.shown import counted
from tui.actions import Place, bindings
from tui.config import UsageError
from tui.screens import Host, TellingScreen, Told, gap, heading, host_of, keys_at_foot
from tui.taught.changes import ShopChanges
from tui.taught.lines import ABOUT, READING, forgotten_text, row_text
from tui.taught.reading import TaughtNow, read_taught
from tui.widgets import Choices, KeyLine, SplitLine

_FORGOTTEN = "forgotten:"
"""Stands before the id of a row that was forgotten."""
_ROOM = 4
"""Columns that the list has beside its rows: padding and the bar by which it is scrolled."""

_PATIENCE = 0.4
"""What has been read by then stands there without another word [s]."""


async def open_taught(host: Host) -> None:
    """Show what the sittings teach, as soon as it has been read."""
    await host.push_screen(TaughtScreen())


class TaughtScreen(TellingScreen):
    """A row for each thing that the sittings teach, and those that were forgotten."""

    PLACE: ClassVar[Place] = Place.TAUGHT
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.TAUGHT)
    DEFAULT_CSS = """
    TaughtScreen #head { text-style: bold; background: $surface; }
    TaughtScreen OptionList { height: 1fr; padding: 1 1 0 1; }
    TaughtScreen #keys { background: $surface; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._now: TaughtNow | None = None
        """What is shown; None until it has been read."""
        self._instead = READING
        """Stands there until then."""
        self._rows: dict[str, Row] = {}
        self._busy = False

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        yield Choices(markup=False)
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self._changes = ShopChanges(host_of(self).folders.shop, host_of(self).settings.units)
        self.query_one(OptionList).focus()
        self.set_timer(_PATIENCE, self._show)
        self._do(None)

    def on_resize(self) -> None:
        if self._now is not None:
            self._show()

    def _show(self) -> None:
        listed = self.query_one(OptionList)
        chosen, at = self._chosen_id(), listed.highlighted
        self._rows = {} if self._now is None else {row.id: row for row in self._now.rows}
        count = "" if self._now is None else counted(len(self._rows), "figure")
        self.query_one("#head", SplitLine).show("What your sittings teach", count)
        options = list(self._options(self.app.size.width - _ROOM))
        listed.clear_options()
        listed.add_options(options)
        ids = [option.id for option in options]
        can_be_chosen = [place for place, option in enumerate(options) if not option.disabled]
        if chosen in ids:
            listed.highlighted = ids.index(chosen)
        elif can_be_chosen:
            listed.highlighted = min(can_be_chosen, key=lambda place: abs(place - (at or 0)))
        self._show_keys()

    def _options(self, width: int) -> Iterator[Option]:
        units = host_of(self).settings.units
        yield Option(Content.styled("\n".join(wrap(self._about(), width)), "$text-muted"), disabled=True)
        if self._now is None:
            return
        for row in self._now.rows:
            yield gap()
            yield Option(row_text(row, width, units), id=row.id)
        if self._now.forgotten:
            yield gap()
            yield heading("Forgotten")
        for name, until in self._now.forgotten.items():
            yield Option(forgotten_text(name, until, width), id=f"{_FORGOTTEN}{name}")

    def _about(self) -> str:
        """What stands above the rows."""
        if self._now is None:
            return self._instead
        return ABOUT if self._now.rows else ALL_FORGOTTEN if self._now.forgotten else NOTHING

    def on_option_list_option_highlighted(self) -> None:
        self._show_keys()

    def _show_keys(self) -> None:
        row, forgotten = self._chosen(), self._chosen_forgotten()
        keeps = row is not None and bool(row.key) and isinstance(row.figure, FactorFigure)
        now = {} if keeps else {"taught.keep": ""}
        now |= {} if row is not None else {"taught.forget": "count again" if forgotten else ""}
        now |= {} if self._changes.can_undo else {"taught.undo": ""}
        self.query_one("#keys", KeyLine).show(keys_at_foot(self, Place.TAUGHT, now))

    def _chosen_id(self) -> str:
        at = self.query_one(OptionList).highlighted_option
        return (at.id if at is not None else "") or ""

    def _chosen(self) -> Row | None:
        return self._rows.get(self._chosen_id())

    def _chosen_forgotten(self) -> str:
        """The id of the row that was forgotten and is chosen; empty where none is."""
        chosen = self._chosen_id()
        return chosen.removeprefix(_FORGOTTEN) if chosen.startswith(_FORGOTTEN) else ""

    def action_keep(self) -> None:
        """Keep the factor that is chosen in the shop file."""
        if (row := self._chosen()) is not None:
            self._do(lambda: self._changes.keep(row, host_of(self).now()))

    def action_forget(self) -> None:
        """Have what is chosen count no more, or again where it was forgotten."""
        if not host_of(self).presses.counts("taught.forget"):
            return
        if (row := self._chosen()) is not None:
            self._do(lambda: self._changes.forget(row, host_of(self).now()))
        elif forgotten := self._chosen_forgotten():
            self._do(lambda: self._changes.recall(forgotten))

    def action_undo(self) -> None:
        """Take the last change of the shop file back."""
        if self._changes.can_undo:
            self._do(self._changes.undo)

    def action_leave(self) -> None:
        """Go back to where you came from."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _do(self, change: Callable[[], str] | None) -> None:
        if not self._busy:
            self._busy = True
            self.run_worker(self._done(change))

    async def _done(self, change: Callable[[], str] | None) -> None:
        """Change the shop file, if that is asked, in a thread; say what came of it, and show what counts now."""
        host = host_of(self)
        try:
            if change is not None:
                host.say_aside(await asyncio.to_thread(change))
            self._now = await asyncio.to_thread(read_taught, host.logbook, host.folders.shop)
            for text in self._now.messages:
                host.say_aside(text, wrong=True)
            self._show()
        except (LogbookError, UsageError) as error:
            self._instead = ""
            host.say_aside(str(error), wrong=True)
        except OSError as error:
            host.say_aside(f"{error.filename}: {error.strerror or error}; the shop file is as it was", wrong=True)
        finally:
            self._busy = False

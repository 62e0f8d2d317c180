"""Sittings beside one another: the traces of one heat of each, and their figures with what differs marked."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList, Static

from plans.logbook.comparing import LETTERS, SINCE, Moment, Part, letters_without, skin_text
from plans.prose import in_units
from plans.shown import show_clock
from tui.actions import BY_ID, Place, bindings, shown_key
from tui.comparing.compared import Compared, Overlaid, read_compared
from tui.comparing.rows import FigureTable, compared_options
from tui.running import ReviewRequest, TrendsRequest
from tui.screens import Host, TellingScreen, Told, host_of, keys_at_foot, logbook_of
from tui.widgets import Choices, Key, KeyLine, SplitLine, TraceView


async def open_comparing(host: Host, ids: Sequence[str], rehearsal: bool = False) -> None:
    """Read sittings that were kept, in a thread, and show them beside one another.

    Args:
        host: shows them
        ids: their ids
        rehearsal: whether they are among the rehearsals, which are kept apart

    Raises:
        PlansError: fewer than two of them can be read.
    """
    found = await asyncio.to_thread(read_compared, logbook_of(host, rehearsal), ids)
    await host.push_screen(ComparingScreen(found, rehearsal))


class ComparingScreen(TellingScreen):
    """Up and down walk along the figures, whose step's heats are laid over one another; left and right read them.

    Args:
        compared: what is shown
        rehearsal: whether the sittings are among the rehearsals, which are kept apart
    """

    PLACE: ClassVar[Place] = Place.COMPARING
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.COMPARING)
    DEFAULT_CSS = """
    ComparingScreen #head { text-style: bold; background: $surface; }
    ComparingScreen #trace { height: 2fr; min-height: 5; margin: 0 1; }
    ComparingScreen #reading { color: $text-muted; }
    ComparingScreen #columns { text-style: bold; color: $text-muted; padding: 0 1; height: 1; }
    ComparingScreen OptionList { height: 3fr; padding: 0 0 0 1; }
    ComparingScreen #keys { background: $surface; }
    """

    def __init__(self, compared: Compared, rehearsal: bool) -> None:
        super().__init__()
        self.compared, self._rehearsal = compared, rehearsal
        self._moment, self._heat = Moment.FIRE, 1
        self._overlaid: Overlaid | None = None

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        yield SplitLine(id="what")
        yield TraceView(id="trace", cursor=True, blocks=host_of(self).settings.blocks)
        yield SplitLine(id="reading")
        yield Static(id="columns", markup=False)
        yield Choices(markup=False)
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        count = len(self.compared.sittings)
        name = "Rehearsals" if self._rehearsal else "Sittings"
        self.query_one("#head", SplitLine).show(f"{name} beside one another", f"{LETTERS[0]} to {LETTERS[count - 1]}")
        self._list()
        self.query_one(OptionList).focus()
        self.call_after_refresh(self._show)
        for message in self.compared.messages:
            self.tell(message, wrong=True)

    def on_resize(self) -> None:
        self._list()

    def _list(self) -> None:
        """List the figures, as wide as there is room for them now."""
        units, room = host_of(self).settings.units, self.app.size.width - 3
        self.query_one("#columns", Static).update(FigureTable(self.compared, units, room).head_line())
        listed = self.query_one(OptionList)
        at = listed.highlighted
        listed.clear_options()
        listed.add_options(compared_options(self.compared, units, room))
        if at is None:
            listed.action_first()
        else:
            listed.highlighted = at

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        del message
        self._show()

    async def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        await self.action_open()

    def on_trace_view_moved(self, message: TraceView.Moved) -> None:
        self._read(message.at)

    def action_moment(self) -> None:
        """Count from another moment."""
        if self._overlaid is not None and (part := self._part()) is not None:
            moments = self.compared.moments(part)
            self._moment = moments[(moments.index(self._overlaid.moment) + 1) % len(moments)]
            self._show()

    def action_before(self) -> None:
        """Show the heat before this one."""
        self._go(-1)

    def action_after(self) -> None:
        """Show the heat after this one."""
        self._go(1)

    def action_earlier(self) -> None:
        """Move the reading line to the left."""
        self.query_one(TraceView).action_move(-1)

    def action_later(self) -> None:
        """Move the reading line to the right."""
        self.query_one(TraceView).action_move(1)

    async def action_trends(self) -> None:
        """Show how figures go over all sittings of the plan, or that have steps of the kind that the list is at."""
        part = self._listed_part()
        plan, kind = self.compared.sittings[0].header.plan, None if part is None else part.kind
        await host_of(self).open(TrendsRequest(plan, kind, self._rehearsal))

    async def action_open(self) -> None:
        """Show the whole of the sitting that the list stands on."""
        what, number = self._at()
        if what == "sitting":
            await host_of(self).open(ReviewRequest(self.compared.sittings[number].header.id, self._rehearsal))

    def action_leave(self) -> None:
        """Go back to the log."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _at(self) -> tuple[str, int]:
        """What the list stands on: a sitting or a part, and which."""
        option = self.query_one(OptionList).highlighted_option
        what, number, *_ = f"{(option.id if option is not None else '') or ''}:0".split(":")
        return what, int(number or 0)

    def _listed_part(self) -> Part | None:
        """The step whose figures the list stands on; None where it is at none."""
        what, number = self._at()
        return self.compared.parts[number] if what == "part" and number else None

    def _part(self) -> Part | None:
        """The step whose heats are shown: that of the list, or the first that has any."""
        steps = self.compared.parts[1:]
        return self._listed_part() or next((part for part in steps if self.compared.moments(part)), None)

    def _go(self, heats: int) -> None:
        """Show the heat that is so many further on, where there is one."""
        if (shown := self._overlaid) is not None:
            place = shown.heats.index(shown.heat) + heats
            self._heat = shown.heats[min(max(0, place), len(shown.heats) - 1)]
            self._show()

    def _show(self) -> None:
        """Lay over one another what the list stands on, and say what that is."""
        units, part = host_of(self).settings.units, self._part()
        shown = self._overlaid = None if part is None else self.compared.overlaid(part, self._moment, self._heat)
        what, trace = self.query_one("#what", SplitLine), self.query_one(TraceView)
        self._show_keys()
        if part is None or shown is None:
            title = "nothing was heated" if part is None else f"nothing was heated in {in_units(part.title, units)}"
            what.show(f"{title}: there are no traces to lay over one another")
            trace.display = False
            self.query_one("#reading", SplitLine).show("")
            return
        trace.display = True
        trace.data = shown.data(units)
        number = shown.heats.index(shown.heat) + 1
        heat = f"heat {shown.heat}" + (f", {number} of {len(shown.heats)}" if len(shown.heats) > 1 else "")
        without = letters_without(shown.laid)
        what.show(f"{in_units(part.title, units)}, {heat}", f"without it: {', '.join(without)}" if without else "")
        at = trace.cursor_at
        trace.cursor_at = at = shown.seconds / 2 if at is None or at > shown.seconds else at
        self._read(at)

    def _read(self, at: float) -> None:
        """Say what each is so long after the moment."""
        if (shown := self._overlaid) is None:
            return
        units = host_of(self).settings.units
        texts = [(letter, skin_text(one, at, units)) for letter, one in zip(LETTERS, shown.laid, strict=False)]
        said = ", ".join(f"{letter} {text}" for letter, text in texts if text)
        right = Content(f"{said} {units.degree}" if said else "none is known")
        self.query_one("#reading", SplitLine).show(f"{show_clock(at)} {SINCE[shown.moment]}", right)

    def _show_keys(self) -> None:
        shown = self._overlaid
        now = {} if self._at()[0] == "sitting" else {"comparing.open": ""}
        now |= {} if shown is not None else {"comparing.moment": ""}
        first, *others = keys_at_foot(self, Place.COMPARING, now)
        walk: list[Key] = [("↑ ↓", "along", "open"), ("← →", "reading line", "later")]
        if shown is not None and len(shown.heats) > 1:
            keys = host_of(self).settings.keys
            pair = " ".join(shown_key(BY_ID[f"comparing.{one}"], keys) for one in ("before", "after"))
            walk.append((pair, "heat", "after"))
        self.query_one("#keys", KeyLine).show([first, *walk, *others])

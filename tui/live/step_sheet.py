"""All there is to read about the step, and the plan around it; its checklist is ticked here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import ClassVar, Final

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from plans.prose import in_units
from plans.shown import show_clock
from plans.sitting import ItemTick, Sitting, Word, written_tick
from plans.text import plain
from tui.actions import BY_ID, shown_key
from tui.live.step_text import BEFORE_GOING_ON, box, side_text, step_list
from tui.screens import Sheet, host_of
from tui.widgets import KeyLine, step_lines

_WIDTH: Final = 60
"""Of the text, however wide the sheet is [cells]."""
_STYLES: Final = {"done": "$text-muted", "current": "bold"}
_KEYS: Final = 9
"""Items that have a digit at a time."""


class StepSheet(Sheet):
    """Goes away by any of the keys that one would try; digits tick the items of the checklist.

    Space and the pedal go back as everywhere, and never tick: whoever looks at it with full hands changes nothing.

    Args:
        sitting: whose step at hand it is
        lessons: of earlier sittings on this step
    """

    OPENED_BY = "step-sheet"
    LEAVES = "back to the sitting"
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(str(digit), f"tick({digit})", show=False) for digit in range(1, _KEYS + 1)),
        Binding("0", "further", show=False),
    ]
    DEFAULT_CSS = """
    StepSheet #sheet { max-width: 96; }
    StepSheet #title { text-style: bold; margin-bottom: 1; }
    """

    def __init__(self, sitting: Sitting, lessons: Sequence[str]) -> None:
        super().__init__()
        self._sitting, self._lessons = sitting, lessons
        # The step may be over by the time that an item is ticked: it is still the one that is read here.
        self._number, self._step = sitting.state.step, sitting.current_step
        self._first = 0

    def heading(self) -> Iterable[Widget]:
        """Make the title: that of the step."""
        title = in_units(self._step.title, host_of(self).settings.units)
        return (Static(Content(plain(title)), id="title"),)

    def reading(self) -> Iterable[Widget]:
        """Make the checklist, what else the plan says of the step, and below it the steps of the plan."""
        units = host_of(self).settings.units
        if self._step.checklist:
            yield Static(Content.styled(BEFORE_GOING_ON, "bold $accent"))
            for item in range(len(self._step.checklist)):
                yield _Item(self._line(item), self._ticker(item))
            yield Static("")
        rest = replace(self._step, checklist=())
        yield Static(side_text(rest, _WIDTH, units, self._lessons))
        yield Static(self._plan_text())

    def show_keys(self) -> None:
        """Say the keys at the foot."""
        key = shown_key(BY_ID[self.OPENED_BY], host_of(self).settings.keys)
        items = len(self._step.checklist)
        ticks = [(f"1-{min(_KEYS, items)}" if items > 1 else "1", "tick", "tick(1)")] if items else []
        more = [("0", "number the others", "further")] if items > _KEYS else []
        self.query_one(KeyLine).show([(key, self.LEAVES, "close"), *ticks, *more, ("↓ ↑", "more", "scroll(5)")])

    def action_tick(self, digit: int) -> None:
        """Tick the item that has this digit, or take its tick off."""
        item = self._first + digit - 1
        if item < len(self._step.checklist):
            self._tick(item)

    def action_further(self) -> None:
        """Give the digits to the items behind those that have them, and after the last to the first again."""
        self._first = self._first + _KEYS if self._first + _KEYS < len(self._step.checklist) else 0
        self._show_items()

    def _ticker(self, item: int) -> Callable[[], None]:
        return lambda: self._tick(item)

    def _tick(self, item: int) -> None:
        on = self._sitting.state.ticked_at(self._number, item) is None
        if host_of(self).say(Word.TICK, written_tick(ItemTick(item, self._number, on))):
            self._show_items()

    def _show_items(self) -> None:
        for item, line in enumerate(self.query(_Item)):
            line.update(self._line(item))

    def _line(self, item: int) -> Content:
        """An item: its digit, its box, its words, and when it was ticked."""
        units, state = host_of(self).settings.units, self._sitting.state
        at, digit = state.ticked_at(self._number, item), item - self._first + 1
        key = str(digit) if 1 <= digit <= _KEYS else " "
        first, *others = wrap(plain(in_units(self._step.checklist[item], units)), _WIDTH - 4) or [""]
        when = "" if at is None else f"  {show_clock(state.clock(at))}"
        lines = [first, *(f"    {line}" for line in others)]
        lines[-1] += when
        return Content.assemble((f"{key} ", "bold $accent"), (f"{box(at is not None)} ", "$accent"), "\n".join(lines))

    def _plan_text(self) -> Content:
        settings = host_of(self).settings
        lines, current, working = step_list(self._sitting, settings.units)
        texts = step_lines(lines, current, _WIDTH, len(lines), working=working, blocks=settings.blocks)
        heading = Content.styled("\nThe plan", "bold $accent")
        return Content("\n").join(
            [heading, *(Content.styled(text.rstrip(), _STYLES.get(state, "")) for text, state in texts)]
        )


class _Item(Static):
    """An item of the checklist; a click ticks it."""

    def __init__(self, line: Content, tick: Callable[[], None]) -> None:
        super().__init__(line)
        self._tick = tick

    def on_click(self) -> None:
        self._tick()

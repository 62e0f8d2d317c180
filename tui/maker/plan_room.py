"""The room of the plan: its steps in a list, and the keys of the chosen one, each to be typed over."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import OptionDoesNotExist

from plans.editing import draft_of, with_keys
from plans.errors import PlanError
from plans.maker import Proposal, comment_of, doubts_on
from plans.reader import notes_on, read_plan
from plans.text import plain
from plans.toml import KeyPath
from plans.units import Units
from tui.maker.key_rows import KeyRow, field_of, key_rows
from tui.maker.plan_rows import HEAD, PlanRows, part_of, row_of
from tui.widgets import Choices, Field, Fields, SplitLine

if TYPE_CHECKING:
    from plans.editing import Draft
    from plans.plan import Plan
    from plans.times import PlanTimes

_NAMES = 16
"""Cells for the names of the keys."""


class PlanRoom(Container):
    """The whole plan, and one part of it key by key.

    Args:
        units: in which figures are shown
    """

    DEFAULT_CSS = """
    PlanRoom { layout: vertical; height: 1fr; }
    PlanRoom #columns { color: $text-muted; }
    PlanRoom #steps { height: 1fr; border: none; padding: 0 1; }
    PlanRoom #notes { height: auto; max-height: 2; padding: 0 1; text-wrap: nowrap; text-overflow: ellipsis; }
    PlanRoom Fields { height: 1fr; border-top: solid $panel; }
    """

    class Edited(Message):
        """A figure was typed over.

        Args:
            text: of the plan
        """

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    class Chosen(Message):
        """Another part of the plan is looked at.

        Args:
            gave_up: whether something that was typed could not be taken, and is let be
        """

        def __init__(self, gave_up: bool) -> None:
            super().__init__()
            self.gave_up = gave_up

    def __init__(self, units: Units) -> None:
        super().__init__()
        self._units = units
        self._text = ""
        self._plan: Plan | None = None
        self._draft: Draft | None = None
        self._proposal: Proposal | None = None
        self._times: PlanTimes | None = None
        self._rows: list[KeyRow] = []
        self._pending: dict[KeyPath, str] = {}
        """What was typed over keys of the chosen part and can't be taken yet, by their paths."""
        self.wrong = ""
        """Why it can't; empty where nothing waits."""
        self.doubts: list[tuple[str, str]] = []
        """What does not add up, each with its mark."""
        self._of: KeyPath | None = None
        """The part that the fields are of."""

    def compose(self) -> ComposeResult:
        yield SplitLine(id="columns")
        yield Choices(id="steps", markup=False)
        yield Static(id="notes")
        yield Fields(_NAMES)

    @property
    def steps(self) -> Choices:
        """The list of the plan's parts."""
        return self.query_one("#steps", Choices)

    @property
    def keys(self) -> Fields:
        """The keys of the chosen part."""
        return self.query_one(Fields)

    @property
    def chosen(self) -> KeyPath:
        """The part of the plan that is chosen: ("step", 2), or `HEAD`."""
        option = self.steps.highlighted_option
        return HEAD if option is None else part_of(option.id or "")

    @property
    def row(self) -> KeyRow | None:
        """The key that the cursor stands in."""
        return self._rows[self.keys.place] if self._rows else None

    @property
    def why(self) -> list[tuple[str, str]]:
        """Where the figure comes from that the cursor stands in, and what it is: each with what it stands on."""
        if (row := self.row) is None:
            return []
        parts = [("what it is", row.meaning)]
        if (why := row.why) is not None:
            parts = [(why.basis, self._units.text(why.said)), ("source", self._units.text(why.source)), *parts]
        return parts

    def show(
        self, text: str, proposal: Proposal | None, times: PlanTimes | None, choose: KeyPath | None = None
    ) -> None:
        """Show a plan, with the part chosen that was chosen before.

        Args:
            text: of the plan, which can be followed
            proposal: what it was made from, which has the reasons; None where that is not known
            times: what it takes; None while that is worked out
            choose: the part to be chosen instead
        """
        is_same = text == self._text and proposal is self._proposal and choose is None
        if text != self._text:
            self._text, self._plan, self._draft = text, read_plan(text, "", "plan"), draft_of(text, "plan")
        self._proposal, self._times = proposal, times
        self._tell_notes()
        self._list(choose if choose is not None else self.chosen)
        if not is_same:
            self._show_keys()

    def _tell_notes(self) -> None:
        """Say what is odd in the plan, though it can be followed."""
        assert self._plan is not None
        self.doubts = [
            (" ? ", f"{one.where}: {one.key} {one.what}".strip(": ")) for one in notes_on(self._plan, "plan")
        ]
        if self._times is not None:
            units = self._units
            self.doubts += [
                (" ! " if one.serious else " ? ", f"{units.text(one.what)}; {units.text(one.mend)}")
                for one in doubts_on(self._plan, self._times, self._proposal)
            ]
        told = self.query_one("#notes", Static)
        told.display = bool(self.doubts)
        shown = [Content.assemble((mark, "bold $warning"), f" {plain(said)}") for mark, said in self.doubts]
        if len(shown) > 1:
            shown[1:] = [Content.styled(f"     and {len(shown) - 1} more that do not add up: !", "$text-muted")]
        told.update(Content("\n").join(shown))

    def on_resize(self) -> None:
        if self._plan is not None:
            self._list(self.chosen)

    def _list(self, choose: KeyPath) -> None:
        assert self._plan is not None
        rows = PlanRows(self._plan, self._times, self._units, self.size.width - 4)
        self.query_one("#columns", SplitLine).show(rows.heading)
        steps = self.steps
        with self.prevent(OptionList.OptionHighlighted):
            top = steps.scroll_y
            steps.clear_options()
            steps.add_options(rows.options)
            try:
                steps.highlighted = steps.get_option_index(row_of(choose))
            except OptionDoesNotExist:
                steps.highlighted = steps.option_count - 1
            steps.scroll_to(y=top, animate=False)
        steps.scroll_to_highlight()

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        message.stop()
        gave_up = bool(self._pending)
        self._show_keys()
        self.post_message(self.Chosen(gave_up))

    def _show_keys(self) -> None:
        """Show the keys of the chosen part; of the same part as before, with the cursor where it was."""
        assert self._draft is not None
        part = self.chosen
        if part != self._of:
            self._pending, self.wrong = {}, ""
        there = self.row.path if self._rows and part == self._of and self.row is not None else None
        self._of, self._rows = part, key_rows(part, self._draft, self._proposal)
        paths = [row.path for row in self._rows]
        self.keys.begin(self._fields(), paths.index(there) if there in paths else 0)

    def _fields(self) -> list[Field]:
        return [self._field(row) for row in self._rows]

    def _field(self, row: KeyRow) -> Field:
        field = field_of(row, self._units, self.wrong if row.path in self._pending else "")
        waiting = self._pending.get(row.path)
        if waiting is None:
            return field
        return replace(field, text=waiting)

    def on_input_changed(self, message: Input.Changed) -> None:
        message.stop()

    def keep(self) -> None:
        """Take what was typed over the keys; say what is wrong with it, where it can't be taken."""
        typed = dict(zip([row.path for row in self._rows], self.keys.texts, strict=True))
        changed = {row.path: typed[row.path] for row in self._rows if typed[row.path] != row.shown(self._units)}
        if changed != self._pending:
            self._pending = changed
            self._try()

    def on_fields_moved(self) -> None:
        self.keep()

    def on_descendant_blur(self) -> None:
        self.keep()

    def give_up(self) -> bool:
        """Let what waits be as it was; whether something did."""
        waited = bool(self._pending)
        self._pending, self.wrong = {}, ""
        if waited:
            self.keys.begin(self._fields(), self.keys.place)
        return waited

    def _try(self) -> None:
        rows = {row.path: row for row in self._rows}
        self.wrong = ""
        try:
            typed = {path: rows[path].typed(text) for path, text in self._pending.items()}
            whys = {path: rows[path].why for path in typed}
            reasons = {path: comment_of(why, self._units) for path, why in whys.items() if why is not None}
            text = with_keys(self._text, typed, reasons=reasons)
        except PlanError as error:
            fault = error.faults[0]
            said = f"{fault.key} {fault.what}".strip()
            self.wrong = f"{said}; {fault.hint}" if fault.hint else said
            self.keys.tell(self._fields())
            return
        self._pending = {}
        if text != self._text:
            self.post_message(self.Edited(text))
        else:
            self.keys.tell(self._fields())

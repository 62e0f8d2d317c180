"""The reckoner: what is typed is answered while it is typed, large; behind it, why; and the known steels, as cards."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.geometry import Size
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Input, Tab, Tabs

from plans.errors import PlansError
from plans.reckoner import ReckonError
from plans.units import Units
from tui.actions import Place, bindings
from tui.reckoner.answer_pane import AnswerPane
from tui.reckoner.fields import Fields
from tui.reckoner.picture_pane import PicturePane
from tui.reckoner.pictures import Picture, picture
from tui.reckoner.question import Question
from tui.reckoner.questions import QUESTIONS
from tui.reckoner.steels import Steels
from tui.screens import Host, host_of, keys_at_foot
from tui.widgets import KeyLine, SplitLine

_STEELS = "steels"
"""The tab of the cards."""
_TAB = "tab-"
_NARROW = 64
"""Below this the answer stands under what is given."""
_ROWS_AROUND = 5
"""Rows of the head, the questions, the hint and the keys."""


async def open_reckoner(host: Host) -> None:
    """Show the reckoner."""
    await host.push_screen(ReckonerScreen())


class ReckonerScreen(Screen[None]):
    """A row of questions; what is given and what comes of it; below, what it looks like."""

    PLACE: ClassVar[Place] = Place.RECKONER
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(Place.RECKONER),
        # Keys that move on are obeyed before the next key is looked at: left to the widget that has the focus, they
        # would be obeyed when it comes to them, and what is typed fast would go where the focus still is.
        Binding("down", "down(1)", show=False, priority=True),
        Binding("up", "down(-1)", show=False, priority=True),
        Binding("enter,tab", "along(1)", show=False, priority=True),
        Binding("shift+tab", "along(-1)", show=False, priority=True),
        Binding("right", "turn(1)", show=False, priority=True),
        Binding("left", "turn(-1)", show=False, priority=True),
        Binding("escape", "questions", show=False, priority=True),
    ]
    DEFAULT_CSS = """
    ReckonerScreen #head { text-style: bold; background: $surface; }
    ReckonerScreen Tabs { height: 2; }
    ReckonerScreen #both { height: 1fr; }
    ReckonerScreen #hint { background: $surface; }
    ReckonerScreen #keys { background: $surface; }
    ReckonerScreen.narrow #both { layout: vertical; }
    ReckonerScreen.narrow Fields, ReckonerScreen.narrow Steels { width: 1fr; height: auto; max-height: 50%; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._asked = next(iter(QUESTIONS))
        self._asked_before = {self._asked}
        """The questions whose fields are there, shown or not."""
        self._drawn: Picture | None = None
        self._fitted = Size()
        """The screen's size that things are laid out for."""
        self._due = False
        """Whether the answer is older than what is typed."""

    def compose(self) -> ComposeResult:
        names = [*QUESTIONS, _STEELS]
        yield SplitLine(id="head")
        yield Tabs(*(Tab(name, id=_TAB + name) for name in names))
        with Horizontal(id="both"):
            yield self._fields_of(self._asked)
            yield AnswerPane()
        yield PicturePane(blocks=host_of(self).settings.blocks)
        yield SplitLine(id="hint")
        yield KeyLine(id="keys")

    def _fields_of(self, name: str) -> Fields | Steels:
        if name == _STEELS:
            return Steels()
        question = QUESTIONS[name]
        return Fields(question, question.example(host_of(self).settings.units))

    async def on_mount(self) -> None:
        self._fit(self.app.size)
        await self._ask(self._asked)
        self._answer()  # before the first paint, for which it need not wait
        if self.focused is None:  # a fast key may have been further already
            self.action_questions()

    def on_resize(self, event: events.Resize) -> None:
        if event.size != self._fitted:
            self._fit(event.size)
            self._answer_soon()

    def _fit(self, size: Size) -> None:
        self._fitted = size
        self.set_class(size.width < _NARROW, "narrow")

    # What is asked

    async def on_tabs_tab_activated(self) -> None:
        """A question was clicked; by a key it has been turned to already."""
        await self._turned()

    async def _turned(self) -> None:
        asked = self.query_one(Tabs).active.removeprefix(_TAB)
        if asked and asked != self._asked:
            await self._ask(asked)

    async def _ask(self, name: str) -> None:
        """Show this question's fields, and its answer from the first figure on."""
        self._asked = name
        about = "the steels that are known here" if name == _STEELS else QUESTIONS[name].about
        self.query_one("#head", SplitLine).show(about[0].upper() + about[1:], "reckoner")
        self._pane.begin()
        # Its fields are there before the next key is looked at, which may go to one of them.
        if name not in self._asked_before:
            self._asked_before.add(name)
            await self.query_one("#both").mount(self._fields_of(name), before=self._pane)
        for fields in self.query(Fields):
            fields.display = fields.question.name == name
        for steels in self.query(Steels):
            steels.display = name == _STEELS
            steels.highlighted = steels.highlighted or 0
        self._answer_soon()

    @property
    def _question(self) -> Question:
        return QUESTIONS["steel" if self._asked == _STEELS else self._asked]

    @property
    def fields(self) -> Fields | None:
        """The fields of the question that is asked; None where a steel is chosen from the list."""
        return None if self._asked == _STEELS else self.query_one(f"#fields-{self._asked}", Fields)

    @property
    def _pane(self) -> AnswerPane:
        return self.query_one(AnswerPane)

    @property
    def _steels(self) -> Steels:
        return self.query_one(Steels)

    def _typed(self) -> dict[str, str]:
        fields = self.fields
        if fields is not None:
            return fields.typed
        return {"grade": self._steels.chosen}

    def _units(self, typed: dict[str, str]) -> Units:
        """The units to answer in: as typed, or else as set; what an example put into a field was not typed."""
        question, units = self._question, host_of(self).settings.units
        example = question.example(units)
        return question.units_typed({name: text for name, text in typed.items() if text != example.get(name)}, units)

    # The answer

    def on_input_changed(self) -> None:
        self._answer_soon()

    def on_option_list_option_highlighted(self) -> None:
        self._answer_soon()

    def _answer_soon(self) -> None:
        """Answer once the keys that have come are typed: a fast hand does not wait for the answer to every letter."""
        if not self._due:
            self._due = True
            self.call_after_refresh(self._answer_if_due)

    def _answer_if_due(self) -> None:
        if self._due:
            self._answer()

    def _answer(self) -> None:
        """Reckon with what stands in the fields, and show what comes of it, or what is wrong."""
        self._due = False
        question, typed = self._question, self._typed()
        units = self._units(typed)
        wrong, self._drawn = "", None
        try:
            found = question.ask(typed, units)
            self._drawn = picture(question.name, question.read(typed), found, units)
            self._pane.show(found, units, found.asked(units) if self._asked == _STEELS else "")
        except ReckonError as error:
            wrong = error.given
            self._pane.refuse(f"{error.given}: {error.why}")
        except PlansError as error:
            wrong = "grade"
            self._pane.refuse(str(error))
        if (fields := self.fields) is not None:
            fields.blame(wrong)
        self._lay_out()

    def _lay_out(self) -> None:
        """Give the picture what room there is below the large figures."""
        rows = self._fitted.height - _ROWS_AROUND
        taken = self._pane.rows_needed
        if self.has_class("narrow"):
            taken += min(len(self._question.fields), rows // 2)
        self.query_one(PicturePane).show(self._drawn, min(rows - taken, rows * 2 // 5))
        self.query_one(KeyLine).show(self._keys())
        self._hint()

    def _hint(self) -> None:
        """What the field is that the cursor stands in."""
        hint, units = self.query_one("#hint", SplitLine), host_of(self).settings.units
        name = self.fields.name_of(self.focused) if self.fields is not None else ""
        field = next((one for one in self._question.fields if one.name == name), None)
        if field is not None:
            hint.show(f"{field.name}: {units.text(field.about)}", f"e.g. {units.text(field.example)}")
        elif isinstance(self.focused, Steels):
            hint.show("↑ ↓ another steel; → ← along its card; esc to the questions")
        else:
            hint.show("← → another question; ↓ into its fields")

    # Keys

    def _keys(self) -> list[tuple[str, str, str]]:
        keys = keys_at_foot(self, Place.RECKONER, {"reckoner.further": "further"} if self._pane.behind else None)
        return [("↑ ↓", "fields", "along(1)"), *keys[:-2], ("← →", "questions", "questions"), keys[-2]]

    def on_descendant_focus(self) -> None:
        self._hint()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which of the keys that are looked at first are meant for the widget that has the focus."""
        if action == "turn":
            return not isinstance(self.focused, Input)
        if action == "questions":
            return not isinstance(self.focused, Tabs)
        return super().check_action(action, parameters)

    def action_down(self, steps: int) -> None:
        """To the next field or the next steel, or the one before."""
        if isinstance(self.focused, Steels):
            self.focused.step(steps)
        else:
            self.action_along(steps)

    def action_along(self, steps: int) -> None:
        """To the next field, or the one before; round over the row of questions."""
        fields = self.fields
        stops: list[Widget] = [self.query_one(Tabs), *(fields.entries if fields is not None else [self._steels])]
        place = stops.index(self.focused) if self.focused in stops else 0
        self.set_focus(stops[(place + steps) % len(stops)])

    async def action_turn(self, steps: int) -> None:
        """To the next question, or the one before; where the steels are listed, whose page keys turn the list, along
        the card."""
        tabs = self.query_one(Tabs)
        if isinstance(self.focused, Steels):
            self.action_further() if steps > 0 else self.action_nearer()
        elif steps > 0:
            tabs.action_next_tab()
        else:
            tabs.action_previous_tab()
        await self._turned()

    def action_questions(self) -> None:
        """To the row of questions."""
        self.set_focus(self.query_one(Tabs))

    def action_further(self) -> None:
        """What the answer stands on, and further down there."""
        self._pane.further()
        self._lay_out()

    def action_nearer(self) -> None:
        """Further up, and from the top back to the answer."""
        self._pane.nearer()
        self._lay_out()

    async def action_leave(self) -> None:
        """From a field to the row of questions, and from there back to where one came from."""
        if self.focused is not None and not isinstance(self.focused, Tabs):
            self.action_questions()
        else:
            await host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

"""The reckoner: what is typed is answered while it is typed, large; behind it, why; and the known steels, as cards."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.geometry import Size
from textual.screen import Screen

from plans.errors import PlansError
from plans.reckoner import ReckonError
from plans.units import Units
from tui.actions import Place, before_the_focus, bindings
from tui.reckoner.answer_pane import AnswerPane
from tui.reckoner.fields import QuestionFields
from tui.reckoner.picture_pane import PicturePane
from tui.reckoner.question import Answers, Question
from tui.reckoner.questions import GROUPS, QUESTIONS
from tui.reckoner.steels import Steels
from tui.screens import Host, host_of, keys_at_foot
from tui.widgets import KeyLine, QuestionRow, SplitLine

if TYPE_CHECKING:
    from plans.reckoner import Reckoning
    from tui.reckoner.pictures import Picture

_STEELS = "steels"
"""What the cards are called in the row of questions, where they stand among those of steel."""
_NARROW = 64
"""Below this the answer stands under what is given."""
_ROWS_AROUND = 5
"""Rows of the head, groups and questions, the hint and the keys."""


async def open_reckoner(host: Host) -> None:
    """Show the reckoner."""
    await host.push_screen(ReckonerScreen())


class ReckonerScreen(Screen[None]):
    """A row of questions; what is given and what comes of it; below, what it looks like."""

    PLACE: ClassVar[Place] = Place.RECKONER
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(Place.RECKONER),
        *before_the_focus(
            {
                **{"down": "down(1)", "up": "down(-1)", "enter,tab": "along(1)", "shift+tab": "along(-1)"},
                **{"right": "turn(1)", "left": "turn(-1)", "escape": "questions"},
                **{str(key): f"group({key})" for key in range(1, 10)},
            }
        ),
    ]
    DEFAULT_CSS = """
    ReckonerScreen #head { text-style: bold; background: $surface; }
    ReckonerScreen #both { height: 1fr; }
    ReckonerScreen #hint { background: $surface; }
    ReckonerScreen #keys { background: $surface; }
    ReckonerScreen.narrow #both { layout: vertical; }
    ReckonerScreen.narrow QuestionFields, ReckonerScreen.narrow Steels { width: 1fr; height: auto; max-height: 50%; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._asked = next(iter(QUESTIONS))
        self._picture: Callable[[], Picture | None] = _none
        """What draws the answer."""
        self._fitted = Size()
        """The screen's size that things are laid out for."""
        self._due = False
        """Whether the answer is older than what is typed."""

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        yield QuestionRow(_names())
        with Horizontal(id="both"):
            yield QuestionFields(host_of(self).settings.units)
            yield AnswerPane()
        yield PicturePane(blocks=host_of(self).settings.blocks)
        yield SplitLine(id="hint")
        yield KeyLine(id="keys")

    async def on_mount(self) -> None:
        self._fit(self.app.size)
        await self._ask(self._asked)
        await self._answer()  # before the first paint, for which it need not wait
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

    async def on_question_row_turned(self, message: QuestionRow.Turned) -> None:
        """A question was clicked."""
        if message.name != self._asked:
            await self._ask(message.name)

    async def _ask(self, name: str) -> None:
        """Show this question's fields, and its answer from the first figure on."""
        await self._fields.typed_out()
        self._asked = self._row.chosen = name
        about = "the steels that are known here" if name == _STEELS else QUESTIONS[name].about
        self.query_one("#head", SplitLine).show(about[0].upper() + about[1:], "reckoner")
        self._pane.begin()
        # What is asked is there before the next key is looked at, which may go to it.
        if name != _STEELS:
            self._fields.show(QUESTIONS[name])
        elif not self.query(Steels):
            await self.query_one("#both").mount(Steels(), before=self._pane)
        self._fields.display = name != _STEELS
        for steels in self.query(Steels):
            steels.display = name == _STEELS
            steels.highlighted = steels.highlighted or 0
        self._answer_soon()

    @property
    def _question(self) -> Question:
        return QUESTIONS["steel" if self._asked == _STEELS else self._asked]

    @property
    def fields(self) -> QuestionFields | None:
        """The fields of the question that is asked; None where a steel is chosen from the list."""
        return None if self._asked == _STEELS else self._fields

    @property
    def _fields(self) -> QuestionFields:
        return self.query_one(QuestionFields)

    @property
    def _row(self) -> QuestionRow:
        return self.query_one(QuestionRow)

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

    async def _answer_if_due(self) -> None:
        if self._due:
            await self._answer()

    async def _answer(self) -> None:
        """Reckon with what stands in the fields, and show what comes of it, or what is wrong."""
        self._due = False
        question, typed = self._question, self._typed()
        units = self._units(typed)
        wrong, self._picture = "", _none
        try:
            answers = question.read(typed, units)
            found = question.answer(answers)
            self._picture = lambda: _picture_of(question, answers, found, units)
            self._pane.show(found, units, found.asked(units) if self._asked == _STEELS else "")
        except ReckonError as error:
            wrong = error.given
            self._pane.refuse(f"{error.given}: {error.why}")
        except PlansError as error:
            wrong = "grade"
            self._pane.refuse(str(error))
        if (fields := self.fields) is not None:
            fields.blame(wrong)
        await self._lay_out()

    async def _lay_out(self) -> None:
        """Give the picture what room there is below the large figures."""
        rows = self._fitted.height - _ROWS_AROUND
        taken = self._pane.rows_needed
        if self.has_class("narrow"):
            taken += min(len(self._question.fields), rows // 2)
        self.query_one(KeyLine).show(self._keys())
        self._hint()
        await self.query_one(PicturePane).show(self._picture, min(rows - taken, rows * 2 // 5))

    def _hint(self) -> None:
        """What the field is that the cursor stands in."""
        hint, units = self.query_one("#hint", SplitLine), host_of(self).settings.units
        fields = self.fields
        if fields is not None and fields.has_cursor:
            field = self._question.fields[fields.place]
            hint.show(f"{field.name}: {units.text(field.about)}", f"e.g. {units.text(field.example)}")
        elif isinstance(self.focused, Steels):
            hint.show("↑ ↓ another steel; → ← along its card; esc to the questions")
        else:
            hint.show(f"← → another question; 1 to {self._row.groups} another group; ↓ into the fields")

    # Keys

    def _keys(self) -> list[tuple[str, str, str]]:
        keys = keys_at_foot(self, Place.RECKONER, {"reckoner.further": "further"} if self._pane.behind else None)
        if (
            self._fields.has_cursor
        ):  # there, the arrows to the sides move the cursor, and leaving leads to the questions
            return [("↑ ↓", "fields", "along(1)"), *keys[:-2], (keys[-2][0], "questions", "questions")]
        return [("↑ ↓", "fields", "along(1)"), *keys[:-2], ("← →", "questions", "questions"), keys[-2]]

    def on_descendant_focus(self) -> None:
        self.query_one(KeyLine).show(self._keys())
        self._hint()

    def on_fields_moved(self) -> None:
        self._hint()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which of the keys that are looked at first are meant for what has the focus."""
        match action:
            case "turn":
                return not self._fields.has_cursor
            case "group":
                return isinstance(self.focused, QuestionRow)
            case "questions":
                return not isinstance(self.focused, QuestionRow)
        return super().check_action(action, parameters)

    async def action_down(self, steps: int) -> None:
        """To the next field or the next steel, or the one before."""
        if isinstance(self.focused, Steels):
            self.focused.step(steps)
        else:
            await self.action_along(steps)

    async def action_along(self, steps: int) -> None:
        """To the next field, or the one before; round over the row of questions."""
        fields = self.fields
        stops = 1 + (1 if fields is None else fields.count)
        before = 0 if isinstance(self.focused, QuestionRow) else 1 if fields is None else 1 + fields.place
        stop = (before + steps) % stops
        if fields is not None:
            await fields.typed_out()
        if stop == 0:
            self.action_questions()
        elif fields is None:
            self.set_focus(self._steels)
        else:
            await fields.go_to(stop - 1)

    async def action_turn(self, steps: int) -> None:
        """To the next question, or the one before; where the steels are listed, whose page keys turn the list, along
        the card."""
        if isinstance(self.focused, Steels):
            await (self.action_further() if steps > 0 else self.action_nearer())
        else:
            await self._ask(self._row.beside(steps))

    async def action_group(self, key: int) -> None:
        """To the first question of a group."""
        if key <= self._row.groups:
            await self._ask(self._row.first_of(key))

    def action_questions(self) -> None:
        """To the row of questions."""
        self.set_focus(self._row)

    async def action_further(self) -> None:
        """What the answer stands on, and further down there."""
        self._pane.further()
        await self._lay_out()

    async def action_nearer(self) -> None:
        """Further up, and from the top back to the answer."""
        self._pane.nearer()
        await self._lay_out()

    async def action_leave(self) -> None:
        """From a field to the row of questions, and from there back to where one came from."""
        if self.focused is not None and not isinstance(self.focused, QuestionRow):
            self.action_questions()
        else:
            host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def _names() -> dict[str, list[str]]:
    """What can be asked, by group."""
    names = {group: [*questions] for group, questions in GROUPS.items()}
    names["steel"].append(_STEELS)
    return names


def _none() -> None:
    return None


def _picture_of(question: Question, answers: Answers, found: Reckoning, units: Units) -> Picture | None:
    from tui.reckoner.pictures import picture

    return picture(question.name, answers, found, units)

"""The maker: questions on what shall be made, what comes of the answers at once, and the plan itself to be changed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar, Final

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.geometry import Size
from textual.widgets import OptionList

from plans.maker import MakeError
from plans.toml import KeyPath
from tui.actions import Place, before_the_focus, bindings
from tui.maker.answers import AnswerError, read_typed
from tui.maker.figuring import Figuring
from tui.maker.following import ask_to_make_anew, follows
from tui.maker.foot import Foot
from tui.maker.keeping import Keeping
from tui.maker.pages import PLAN, Pages, Part
from tui.maker.plan_edits import PlanEdits
from tui.maker.plan_room import PlanRoom
from tui.maker.questions_room import QuestionsRoom
from tui.maker.sheets import WhySheet
from tui.maker.work import Made, Work
from tui.screens import TellingScreen, Told, host_of
from tui.widgets import KeyLine, QuestionRow, SplitLine

if TYPE_CHECKING:
    from tui.running import Maker

_NARROW: Final = 100
"""Cells below which what comes of the answers stands below them."""


class MakerScreen(TellingScreen):
    """A row of pages; the questions with what comes of them, or the plan step by step.

    Args:
        work: what is made
        asked: what was asked for
    """

    PLACE: ClassVar[Place] = Place.MAKER
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(Place.MAKER),
        *before_the_focus(
            {
                **{"down": "along(1)", "up": "along(-1)", "enter": "enter", "pagedown": "why", "escape": "leave"},
                **{"tab": "next_part(1)", "shift+tab": "next_part(-1)", "right": "turn(1)", "left": "turn(-1)"},
                # From anywhere, for in a field the arrows are for its text.
                **{"f4": "page(1)", "f3": "page(-1)"},
                **{str(key): f"group({key})" for key in range(1, 3)},
            }
        ),
    ]
    DEFAULT_CSS = """
    MakerScreen #head { text-style: bold; background: $surface; }
    """

    def __init__(self, work: Work, asked: Maker) -> None:
        super().__init__()
        self._work = work
        self._keeping = Keeping(work, asked.written)
        self._fitted = Size()
        self._figuring = Figuring(self, work, self._made, self._refused, self._timed)
        self._edits = PlanEdits(work, lambda: self._plan.chosen, self._changed, lambda why: self.tell(why, wrong=False))

    def compose(self) -> ComposeResult:
        host = host_of(self)
        yield SplitLine(id="head")
        yield Pages(host.settings.units, blocks=host.settings.blocks, is_answered=self._work.is_answered)
        yield Told()
        yield Foot(host.settings.units)

    async def on_mount(self) -> None:
        self._fit(self.app.size)
        if self._work.made is not None:
            self._questions.ask(self._work.made.proposal.answers)
            self._questions.show(self._work.made.proposal, None, None)
        await self._open(self._pages.page)
        await self._pages.begin()
        self._figuring.rest()
        if self._work.has_other_answers:
            ask_to_make_anew(self, self._work, self._made_anew)

    def _made_anew(self, was: bool) -> None:
        if was:
            self._questions.mark(False)
            self._changed()
        self._tell()

    def on_resize(self, event: events.Resize) -> None:
        if event.size != self._fitted:
            self._fit(event.size)

    def _fit(self, size: Size) -> None:
        self._fitted = size
        self._questions.set_class(size.width < _NARROW, "narrow")

    @property
    def _pages(self) -> Pages:
        return self.query_one(Pages)

    @property
    def _questions(self) -> QuestionsRoom:
        return self._pages.questions

    @property
    def _plan(self) -> PlanRoom:
        return self._pages.plan

    # Pages

    async def on_question_row_turned(self, message: QuestionRow.Turned) -> None:
        """A page was clicked."""
        await self._turn_to(message.name)

    async def _turn_to(self, page: str) -> None:
        """Show a page; before the plan is, it may be made anew for other answers."""
        await self._pages.typed_out()
        if page != PLAN or follows(self, self._work, self._open_plan):
            await self._open(page)

    async def _open_plan(self, brought: bool) -> None:
        if brought:
            self._figuring.rest()
        await self._open(PLAN)
        self.set_focus(self._plan.steps)

    async def _open(self, page: str, place: int = 0) -> None:
        self._pages.open(page)
        if self._pages.on_plan:
            self._show_plan()
        else:
            self._questions.open(page, self._work.typed, place)
            self._questions.mark(self._work.is_apart)
        self._tell()

    def _show_plan(self, choose: KeyPath | None = None) -> None:
        made = self._work.made
        known = self._figuring.known(self._work.text)
        self._plan.show(
            self._work.text,
            made.proposal if made is not None else None,
            known[1] if known is not None else None,
            choose,
        )

    def _tell(self) -> None:
        """Say at head and foot what is looked at, and what can be done."""
        title = self._work.title
        state = "not written down" if self._work.is_unsaved else self._work.name
        self.query_one("#head", SplitLine).show(f"Write a plan: {title}" if title else "Write a plan", state)
        self.query_one(Foot).tell(self._pages, narrow=self._fitted.width < _NARROW)

    def on_descendant_focus(self) -> None:
        self._tell()

    def on_fields_moved(self) -> None:
        self.query_one(Foot).hint(self._pages)

    def on_plan_room_chosen(self, message: PlanRoom.Chosen) -> None:
        """Another part of the plan is looked at."""
        if message.gave_up:
            self.tell("left as it was", wrong=False)
        self._tell()

    # What comes of the answers

    async def on_questions_room_answered(self, message: QuestionsRoom.Answered) -> None:
        """Something was typed: make the plan anew, in a thread, for the newest answers alone."""
        self._work.typed = message.typed
        try:
            self._questions.ask(read_typed(message.typed))
        except AnswerError as error:
            self._questions.refuse(error)
        self._figuring.answers()

    def _made(self, made: Made) -> None:
        self._questions.mark(self._work.is_apart)
        self._questions.show(made.proposal, *(self._figuring.known(made.text) or (None, None)))
        self._tell()

    def _refused(self, error: AnswerError | MakeError) -> None:
        self._questions.refuse(error)
        self._tell()

    def _timed(self) -> None:
        made = self._work.made
        if self._pages.on_plan:
            self._show_plan()
        elif made is not None and not self._questions.wrong and (known := self._figuring.known(made.text)) is not None:
            self._questions.show(made.proposal, *known)

    # Moving about

    async def _go_to(self, part: Part, place: int | None = None) -> None:
        await self._pages.go_to(part, place)
        self._tell()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which of the keys that are looked at first are meant for what has the focus."""
        match action:
            case "along":
                return self._pages.part in ("row", "fields")
            case "enter":
                return self._pages.part != "doubts"
            case "turn" | "group":
                return self._pages.part == "row"
            case "add" | "repeat" | "split" | "raise" | "lower" | "take_out" | "undo" | "redo":
                return self._pages.on_plan and self._pages.part != "fields"
        return super().check_action(action, parameters)

    async def action_along(self, steps: int) -> None:
        """To the next field, or the one before; above the first is the row of pages."""
        await self._pages.along(steps)
        self._tell()

    async def action_enter(self) -> None:
        """On to the next field, and from the last of a page to the next page; from a step to its keys."""
        if not await self._pages.enter():
            await self.action_page(1)
        self._tell()

    async def action_next_part(self, steps: int) -> None:
        """To the next part of the page, or the one before."""
        await self._pages.next_part(steps)
        self._tell()

    async def action_page(self, steps: int) -> None:
        """From wherever the cursor stands to the next page, or the one before."""
        page = self._pages.row.beside(steps)
        await self._turn_to(page)
        if self._pages.page == page:
            await self._pages.begin()
            self._tell()

    async def action_turn(self, steps: int) -> None:
        """To the next page, or the one before."""
        await self._turn_to(self._pages.row.beside(steps))

    async def action_group(self, key: int) -> None:
        """To the first page of a group."""
        if key <= self._pages.row.groups:
            await self._turn_to(self._pages.row.first_of(key))

    async def action_doubts(self) -> None:
        """To what does not add up; on the page of the plan, a sheet of it."""
        if self._pages.on_plan and self._plan.doubts:
            host_of(self).push_screen(WhySheet("What does not add up", self._plan.doubts))
        elif not self._pages.on_plan and self._questions.doubts.option_count:
            await self._go_to("doubts")
        else:
            self.tell("nothing is known that does not add up", wrong=False)

    async def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """From a doubt to the answer that would mend it, and from a step to its keys."""
        message.stop()
        if message.option_list is self._plan.steps:
            await self._go_to("fields", 0)
            return
        if not (message.option.id or "").partition(" ")[2]:
            await self.action_by_hand()  # what a step is in doubt of, no answer mends
            return
        there = self._questions.find((message.option.id or "").partition(" ")[2])
        if there is not None:
            await self._open(*there)
            await self._go_to("fields", there[1])

    async def action_by_hand(self) -> None:
        """To the plan step by step."""
        await self._turn_to(PLAN)
        if self._pages.on_plan:
            await self._go_to("steps")

    async def action_why(self) -> None:
        """Where the figure comes from that the cursor stands in."""
        await self._pages.typed_out()
        if not self._pages.on_plan:
            said, _ = self._questions.hint
            host_of(self).push_screen(WhySheet(said.partition(":")[0], self._questions.why))
        elif (row := self._plan.row) is not None:
            host_of(self).push_screen(WhySheet(row.name, self._plan.why))

    # The plan, changed

    def on_plan_room_edited(self, message: PlanRoom.Edited) -> None:
        """A figure was typed over."""
        self._work.edit(message.text)
        self._changed()

    def _changed(self, choose: KeyPath | None = None) -> None:
        """The plan is another than before."""
        self._show_plan(choose)
        self._tell()
        self._figuring.rest()

    def action_add(self) -> None:
        """A step more, below the chosen one, of a kind that is asked for."""
        self._edits.add(host_of(self))

    def action_repeat(self) -> None:
        """The chosen step or bar once more."""
        self._edits.repeat()

    def action_split(self) -> None:
        """The chosen step in two, after some of its heats, which are asked for."""
        self._edits.split(host_of(self))

    def action_raise(self) -> None:
        """The chosen step or bar one place up."""
        self._edits.move(-1)

    def action_lower(self) -> None:
        """The chosen step or bar one place down."""
        self._edits.move(1)

    def action_take_out(self) -> None:
        """Take the chosen step or bar out."""
        self._edits.take_out()

    def action_undo(self) -> None:
        """Take the last change of the plan back."""
        self._edits.undo()

    def action_redo(self) -> None:
        """Take back that it was taken back."""
        self._edits.redo()

    # Writing down and leaving

    async def action_write(self) -> None:
        """Write the plan to its file; its name is asked for."""
        await self._pages.typed_out()
        if wrong := self._pages.wrong:
            self.tell(f"nothing is written down before this is right: {wrong}", wrong=False)
            return
        if follows(self, self._work, self._ask_name):
            self._ask_name(False)

    def _ask_name(self, brought: bool) -> None:
        if brought:
            self._figuring.rest()
        if self._pages.on_plan:
            self._show_plan()
        self._keeping.ask(host_of(self), self._wrote)

    def _wrote(self, told: str, wrong: bool) -> None:
        self._tell()
        self.tell(told, wrong)

    async def action_leave(self) -> None:
        """From a field to the row of pages, and from there out; what is not written down is asked about."""
        if self._pages.part == "fields" and self._pages.on_plan:
            await self._pages.typed_out()
            if self._plan.give_up():
                self.tell("left as it was", wrong=False)
            self.set_focus(self._plan.steps)
        elif self._pages.part != "row":
            await self._go_to("row")
        elif not self.asks_to_leave(host_of(self).leave_screen):
            host_of(self).leave_screen()

    def asks_to_leave(self, leave: Callable[[], object]) -> bool:
        """Ask what shall become of what is not written down; whether there is something to be asked.

        Args:
            leave: called where it is left
        """
        if self._work.is_unsaved:
            self._keeping.ask_to_leave(host_of(self), self._wrote, leave)
        return self._work.is_unsaved

    def keep_unsaved(self) -> str:
        """Keep what is not written down, as the program ends; what is to be said of it, or nothing."""
        return self._keeping.keep_unsaved(host_of(self).folders.plans)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

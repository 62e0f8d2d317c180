"""The maker: questions on what shall be made, what comes of the answers at once, and the plan itself to be changed."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar, Final

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.geometry import Size
from textual.widgets import OptionList, Static

from plans.errors import PlanError
from plans.maker import MakeError
from plans.text import plain
from plans.toml import KeyPath
from tui.actions import Place, bindings
from tui.maker.answers import AnswerError, read_typed
from tui.maker.figuring import Figuring
from tui.maker.keeping import Keeping, kept_unsaved
from tui.maker.opening import read_known, work_on
from tui.maker.plan_edits import PlanEdits
from tui.maker.plan_room import PlanRoom
from tui.maker.questions_room import QuestionsRoom
from tui.maker.sheets import RemadeScreen, WhySheet, told_of
from tui.maker.work import Made, Work
from tui.screens import Host, TellingScreen, Told, host_of, keys_at_foot
from tui.widgets import Fields, KeyLine, QuestionRow, SplitLine

if TYPE_CHECKING:
    from tui.running import Maker

_PIECE: Final = ("what", "built", "bars", "steps")
"""The pages of questions, each the name of a group of answers in small letters."""
_PLAN: Final = "step by step"
"""The page of the plan."""
_NARROW: Final = 100
"""Cells below which what comes of the answers stands below them."""
_KEYS_OF_GROUPS: Final = range(1, 3)


async def open_maker(host: Host, asked: Maker) -> None:
    """Show the maker.

    Raises:
        PlanError: the plan that shall be changed can't be used.
    """
    folders, units = host.folders, host.settings.units

    def read() -> tuple[Work, str]:
        work = work_on(read_known(folders, units), asked.file)
        return work, work.begin()

    work, wrong = await asyncio.to_thread(read)
    await host.push_screen(MakerScreen(work, asked))
    if wrong:
        host.say_aside(wrong, wrong=True)
    elif asked.file is None and (kept := kept_unsaved(folders.plans)):
        host.say_aside(f"kept from before, and not written down yet: {', '.join(kept)}; on the shelf, among your own")


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
        # As in the reckoner: keys that move on are obeyed before the next key is looked at.
        Binding("down", "along(1)", show=False, priority=True),
        Binding("up", "along(-1)", show=False, priority=True),
        Binding("enter", "enter", show=False, priority=True),
        Binding("tab", "next_part(1)", show=False, priority=True),
        Binding("shift+tab", "next_part(-1)", show=False, priority=True),
        Binding("right", "turn(1)", show=False, priority=True),
        Binding("left", "turn(-1)", show=False, priority=True),
        Binding("pagedown", "why", show=False, priority=True),
        Binding("escape", "leave", show=False, priority=True),
        *(Binding(str(key), f"group({key})", show=False, priority=True) for key in _KEYS_OF_GROUPS),
    ]
    DEFAULT_CSS = """
    MakerScreen #head { text-style: bold; background: $surface; }
    MakerScreen #wrong { height: auto; max-height: 3; padding: 0 1; }
    MakerScreen #hint { background: $surface; }
    MakerScreen #keys { background: $surface; }
    """

    def __init__(self, work: Work, asked: Maker) -> None:
        super().__init__()
        self._work = work
        self._keeping = Keeping(work, asked.written)
        self._page = _PIECE[0] if work.is_answered else _PLAN
        self._fitted = Size()
        self._figuring = Figuring(self, work, self._made, self._refused, self._timed)
        self._edits = PlanEdits(work, lambda: self._plan.chosen, self._changed, lambda why: self.tell(why, wrong=False))

    def compose(self) -> ComposeResult:
        host = host_of(self)
        pages = {"the piece": _PIECE} if self._work.is_answered else {}
        yield SplitLine(id="head")
        yield QuestionRow({**pages, "the plan": (_PLAN,)})
        with Container():
            yield QuestionsRoom(host.settings.units, blocks=host.settings.blocks)
            yield PlanRoom(host.settings.units)
        yield Told()
        yield Static(id="wrong")
        yield SplitLine(id="hint")
        yield KeyLine(id="keys")

    async def on_mount(self) -> None:
        self._fit(self.app.size)
        if self._work.made is not None:
            self._questions.ask(self._work.made.proposal.answers)
            self._questions.show(self._work.made.proposal, None, None)
        await self._open(self._page)
        if self._page == _PLAN:
            self.set_focus(self._plan.steps)
        else:
            await self._questions.fields.go_to(0)
        self._figuring.rest()
        if self._work.has_other_answers:
            self._ask_to_make_anew()

    def _ask_to_make_anew(self) -> None:
        """Show where the plan's file is not what its answers give: whoever changed answers there sees it no sooner."""

        def answered(take: bool | None) -> None:
            if take:
                self._work.make_anew()
                self._questions.mark(False)
                self._changed()
            self._tell()

        host_of(self).push_screen(
            RemadeScreen(
                {"What its answers give today, in place of what stands in it": self._work.differs},
                self._work.known.units,
                "The plan is not what its answers give: make it anew?",
            ),
            answered,
        )

    def on_resize(self, event: events.Resize) -> None:
        if event.size != self._fitted:
            self._fit(event.size)

    def _fit(self, size: Size) -> None:
        self._fitted = size
        self._questions.set_class(size.width < _NARROW, "narrow")

    @property
    def _questions(self) -> QuestionsRoom:
        return self.query_one(QuestionsRoom)

    @property
    def _plan(self) -> PlanRoom:
        return self.query_one(PlanRoom)

    @property
    def _row(self) -> QuestionRow:
        return self.query_one(QuestionRow)

    @property
    def _on_plan(self) -> bool:
        return self._page == _PLAN

    @property
    def _fields(self) -> Fields:
        return self._plan.keys if self._on_plan else self._questions.fields

    # Pages

    async def on_question_row_turned(self, message: QuestionRow.Turned) -> None:
        """A page was clicked."""
        await self._turn_to(message.name)

    async def _turn_to(self, page: str) -> None:
        """Show a page; before the plan is, it may be made anew for other answers."""
        await self._typed_out()
        if page != _PLAN or self._follows(self._open_plan):
            await self._open(page)

    async def _open_plan(self) -> None:
        await self._open(_PLAN)
        self.set_focus(self._plan.steps)

    async def _open(self, page: str, place: int = 0) -> None:
        self._page = self._row.chosen = page
        self._questions.display, self._plan.display = not self._on_plan, self._on_plan
        if self._on_plan:
            self._show_plan()
        else:
            self._questions.open(page, self._work.typed, place)
            self._questions.mark(self._work.is_apart)
        self._tell()

    async def _typed_out(self) -> None:
        await self._fields.typed_out()
        if self._on_plan:
            self._plan.keep()

    def _follows(self, then: Callable[[], object]) -> bool:
        """Bring a plan that was changed by hand after its answers; what would change is shown first, and asked about.

        Args:
            then: called once that has been answered

        Returns:
            whether there was nothing to be asked
        """
        if not self._work.is_behind:
            return True
        try:
            remade = self._work.remade()
        except PlanError as error:
            self.tell(f"the plan can't follow its answers: {error}", wrong=True)
            return True
        assert remade is not None

        def answered(take: bool | None) -> None:
            if take:
                self._work.take_remade(remade)
                self._figuring.rest()
            else:
                self.tell("the plan is as it was, for the answers as they were", wrong=False)
            self.call_later(then)

        host_of(self).push_screen(RemadeScreen(told_of(remade), self._work.known.units), answered)
        return False

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
        self._hint()
        keys = self.query_one("#keys", KeyLine)
        keys.styles.height = 2 if self._part == "steps" and self._fitted.width < _NARROW else 1
        keys.show(self._keys())

    def _hint(self) -> None:
        hint, units = self.query_one("#hint", SplitLine), self._work.known.units
        wrong = self._plan.wrong if self._on_plan else self._questions.wrong
        told = self.query_one("#wrong", Static)
        told.display = bool(wrong)
        told.update(Content.assemble((" ! ", "bold reverse $error"), f" {plain(wrong)}"))
        if self._on_plan:
            row = self._plan.row
            if self._fields.has_cursor and row is not None:
                hint.show(f"{row.name}: {row.meaning}", f"e.g. {row.figure.key.example.replace(chr(34), '')}")
            else:
                hint.show("enter: into its keys; steel: share of the stock that it leaves of the work")
        elif self._fields.has_cursor:
            hint.show(*(units.text(one) for one in self._questions.hint))
        elif self.focused is self._questions.doubts:
            hint.show("enter to the answer that would mend it")
        else:
            hint.show("← → another page; ↓ into it; 2 to the plan step by step")

    def _keys(self) -> list[tuple[str, str, str]]:
        only: tuple[str, ...]
        if self._fields.has_cursor:
            only = ("maker.why", "maker.leave")
        elif self._on_plan and self.focused is self._plan.steps:
            only = (
                *("maker.write", "maker.add", "maker.take-out", "maker.repeat", "maker.split", "maker.raise"),
                *("maker.lower", "maker.undo", "maker.redo", "maker.leave"),
            )
        else:
            only = ("maker.write", "maker.by-hand", "maker.doubts", "maker.leave")
        keys = keys_at_foot(self, Place.MAKER, only=only)
        if self._fields.has_cursor:
            return [
                ("enter", "next", "enter"),
                ("↑ ↓", "fields", "along(1)"),
                *keys[:-2],
                ("esc", "done", "leave"),
                keys[-1],
            ]
        return keys

    def on_descendant_focus(self) -> None:
        self._tell()

    def on_fields_moved(self) -> None:
        self._hint()

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
        if self._on_plan:
            self._show_plan()
        elif made is not None and not self._questions.wrong and (known := self._figuring.known(made.text)) is not None:
            self._questions.show(made.proposal, *known)

    # Moving about

    @property
    def _parts(self) -> list[str]:
        """The parts that the tab key goes through, from the top."""
        if self._on_plan:
            return ["row", "steps", "fields"]
        return ["row", "fields", *(["doubts"] if self._questions.doubts.option_count else [])]

    @property
    def _part(self) -> str:
        if self._fields.has_cursor:
            return "fields"
        if self.focused is self._plan.steps:
            return "steps"
        return "doubts" if self.focused is self._questions.doubts else "row"

    async def _go_to(self, part: str, place: int | None = None) -> None:
        await self._typed_out()
        match part:
            case "fields" if self._fields.count:
                await self._fields.go_to(self._fields.place if place is None else place)
            case "steps":
                self.set_focus(self._plan.steps)
            case "doubts":
                self.set_focus(self._questions.doubts)
                self._questions.doubts.highlighted = self._questions.doubts.highlighted or 0
            case _:
                self.set_focus(self._row)
        self._tell()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Which of the keys that are looked at first are meant for what has the focus."""
        match action:
            case "along":
                return self._part in ("row", "fields")
            case "enter":
                return self._part != "doubts"
            case "turn" | "group":
                return self._part == "row"
            case "add" | "repeat" | "split" | "raise" | "lower" | "take_out" | "undo" | "redo":
                return self._on_plan and self._part != "fields"
        return super().check_action(action, parameters)

    async def action_along(self, steps: int) -> None:
        """To the next field, or the one before; above the first is the row of pages."""
        if self._part == "row":
            if steps > 0:
                await self._go_to(self._parts[1], 0)
            return
        await self._typed_out()
        place = self._fields.place + steps
        if place < 0:
            await self._go_to("steps" if self._on_plan else "row")
        elif place < self._fields.count:
            await self._fields.go_to(place)
            self._tell()

    async def action_enter(self) -> None:
        """On to the next field, and from the last of a page to the next page; from a step to its keys."""
        match self._part:
            case "row":
                await self._go_to(self._parts[1], 0)
            case "steps":
                await self._go_to("fields", 0)
            case "fields":
                await self._typed_out()
                if self._fields.place + 1 < self._fields.count:
                    await self._fields.go_to(self._fields.place + 1)
                elif self._on_plan:
                    await self._go_to("steps")
                else:
                    await self._next_page()
        self._tell()

    async def _next_page(self) -> None:
        page = self._row.beside(1)
        await self._turn_to(page)
        if self._page == page:
            await self._go_to(self._parts[1], 0)

    async def action_next_part(self, steps: int) -> None:
        """To the next part of the page, or the one before."""
        parts = self._parts
        await self._go_to(parts[(parts.index(self._part) + steps) % len(parts)])

    async def action_turn(self, steps: int) -> None:
        """To the next page, or the one before."""
        await self._turn_to(self._row.beside(steps))

    async def action_group(self, key: int) -> None:
        """To the first page of a group."""
        if key <= self._row.groups:
            await self._turn_to(self._row.first_of(key))

    async def action_doubts(self) -> None:
        """To what does not add up; on the page of the plan, a sheet of it."""
        if self._on_plan and self._plan.doubts:
            host_of(self).push_screen(WhySheet("What does not add up", self._plan.doubts))
        elif not self._on_plan and self._questions.doubts.option_count:
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
        await self._turn_to(_PLAN)
        if self._on_plan:
            await self._go_to("steps")

    async def action_why(self) -> None:
        """Where the figure comes from that the cursor stands in."""
        await self._typed_out()
        units, row = self._work.known.units, self._plan.row
        if not self._on_plan:
            said, _ = self._questions.hint
            host_of(self).push_screen(WhySheet(said.partition(":")[0], self._questions.why))
        elif row is not None:
            why = row.why
            parts = [("what it is", row.meaning)]
            if why is not None:
                parts = [(why.basis, units.text(why.said)), ("source", units.text(why.source)), *parts]
            host_of(self).push_screen(WhySheet(row.name, parts))

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
        await self._typed_out()
        if wrong := self._plan.wrong if self._on_plan else self._questions.wrong:
            self.tell(f"nothing is written down before this is right: {wrong}", wrong=False)
            return
        if self._follows(self._ask_name):
            self._ask_name()

    def _ask_name(self) -> None:
        if self._on_plan:
            self._show_plan()
        self._keeping.ask(host_of(self), self._wrote)

    def _wrote(self, told: str, wrong: bool) -> None:
        self._tell()
        self.tell(told, wrong)

    async def action_leave(self) -> None:
        """From a field to the row of pages, and from there out; what is not written down is asked about."""
        if self._part == "fields" and self._on_plan:
            await self._fields.typed_out()
            self._plan.keep()
            if self._plan.give_up():
                self.tell("left as it was", wrong=False)
            self.set_focus(self._plan.steps)
        elif self._part != "row":
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

"""The room of questions: what shall be made is answered at one side, and what comes of it is seen at the other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from plans.maker import Group, MakeError, Proposal, applies, doubts_on
from plans.reader import AnswerKeys
from plans.text import plain
from plans.units import Units
from tui.maker.answers import AnswerError
from tui.maker.pictures import picture_of, piece_of
from tui.maker.question_rows import Row, field_of, hint_of, rows_of, typed_with, why_of
from tui.maker.result_text import doubt_rows, result_text
from tui.widgets import Choices, Field, Fields, ScaleDrawing, ScaleView

if TYPE_CHECKING:
    from plans.plan import Plan
    from plans.times import PlanTimes

_NAMES = 13
"""Cells for the names of the answers."""
_BOTH_FROM = 26
"""Rows from which on there is room for the picture of the page and for the piece."""
_MOST_DOUBTS = 3
"""So many doubts are seen at once; the list is scrolled for more."""


class QuestionsRoom(Container):
    """One page of questions at a time, with what comes of all answers beside it.

    Args:
        units: in which figures are shown
        blocks: whether pictures are drawn with blocks, for fonts without the finer dots
    """

    DEFAULT_CSS = """
    QuestionsRoom { layout: horizontal; height: 1fr; }
    QuestionsRoom Fields { width: 58%; }
    QuestionsRoom #result { width: 1fr; height: 1fr; }
    QuestionsRoom #seen { layout: vertical; height: 1fr; }
    QuestionsRoom #doubts { height: auto; border: none; padding: 0 1; background: $background; }
    QuestionsRoom #words { height: auto; padding: 0 1; }
    QuestionsRoom .outdated { color: $text-muted; }
    QuestionsRoom ScaleView { padding: 0 1; }
    QuestionsRoom.narrow { layout: vertical; }
    QuestionsRoom.narrow Fields { width: 1fr; height: auto; max-height: 10; }
    QuestionsRoom.narrow #result { border-top: solid $panel; }
    QuestionsRoom.narrow #seen { layout: horizontal; }
    QuestionsRoom.narrow #words { width: 52%; }
    """

    class Answered(Message):
        """Something was typed.

        Args:
            typed: all answers, by their attributes
        """

        def __init__(self, typed: dict[str, str]) -> None:
            super().__init__()
            self.typed = typed

    def __init__(self, units: Units, *, blocks: bool) -> None:
        super().__init__()
        self._units, self._blocks = units, blocks
        self._typed: dict[str, str] = {}
        self._answers = AnswerKeys()
        """What was answered, as far as it can be read."""
        self._proposal: Proposal | None = None
        self._plan: Plan | None = None
        self._page = ""
        self._rows: list[Row] = []
        self._at_fault, self._wrong = "", ""
        """The answer that is at fault, and what is wrong."""
        self.apart = False
        """Whether the plan is another than these answers give."""
        self._outdated = False
        self._words = Content("")
        """What comes of the answers, the last time that something did."""
        self._shown: list[str] | None = None
        """What does not add up, as it stands there; None before anything does."""

    def compose(self) -> ComposeResult:
        yield Fields(_NAMES)
        with Vertical(id="result"):
            yield Choices(id="doubts", markup=False)
            with Horizontal(id="seen"):
                yield Static(id="words", markup=False)
                yield ScaleView(blocks=self._blocks, id="picture")
                yield ScaleView(blocks=self._blocks, id="piece")

    @property
    def fields(self) -> Fields:
        """The fields of the page."""
        return self.query_one(Fields)

    @property
    def doubts(self) -> Choices:
        """What does not add up."""
        return self.query_one("#doubts", Choices)

    @property
    def hint(self) -> tuple[str, str]:
        """What the field asks for that has the cursor, and an example."""
        if not self._rows:
            return "", ""
        return hint_of(self._rows[self.fields.place], self._typed, self._answers)

    @property
    def why(self) -> list[tuple[str, str]]:
        """Where the figure comes from that the cursor stands in, and what it is: each with what it stands on."""
        if not self._rows or self._proposal is None:
            return []
        return why_of(self._rows[self.fields.place], self._typed, self._answers, self._proposal, self._units)

    @property
    def wrong(self) -> str:
        """What is wrong with the answers; empty where nothing is."""
        return self._wrong

    def on_resize(self) -> None:
        self._picture()

    # Pages and fields

    def open(self, page: str, typed: Mapping[str, str], place: int = 0) -> None:
        """Show a page of questions.

        Args:
            page: the name of the group in small letters
            typed: the answers as typed
            place: the field that the cursor goes to
        """
        self._page, self._typed = page, dict(typed)
        self._rows = self._rows_now()
        self.fields.begin(self._fields(), place)
        self._picture()

    def ask(self, answers: AnswerKeys) -> None:
        """Ask for what applies to these answers; the fields that are there already stay as they are."""
        self._answers = answers
        rows = self._rows_now()
        if rows != self._rows:
            there = self._rows[self.fields.place] if self._rows else None
            self._rows = rows
            self.fields.begin(self._fields(), rows.index(there) if there in rows else 0)

    def find(self, answer: str) -> tuple[str, int] | None:
        """The page on which an answer is asked for, and its place there; None where it is not."""
        for group in applies(self._answers):
            for place, row in enumerate(rows_of(group, self._answers)):
                if row[0] == answer:
                    return group.name.lower(), place
        return None

    def _rows_now(self) -> list[Row]:
        group = next((one for one in applies(self._answers) if one.name.lower() == self._page), Group("", ()))
        return rows_of(group, self._answers)

    def _fields(self) -> list[Field]:
        if self._proposal is None:
            return []
        wrong = {self._at_fault: self._wrong} if self._wrong else {}
        return [field_of(row, self._typed, self._answers, self._proposal, wrong, self._units) for row in self._rows]

    def on_input_changed(self, message: Input.Changed) -> None:
        message.stop()
        typed = self._typed
        for row, text in zip(self._rows, self.fields.texts, strict=True):
            typed = typed_with(typed, row, text)
        if typed != self._typed:
            self._typed = typed
            self.post_message(self.Answered(dict(typed)))

    # What comes of it

    def show(self, proposal: Proposal, plan: Plan | None, times: PlanTimes | None) -> None:
        """Show what comes of the answers.

        Args:
            proposal: what is proposed
            plan: the same as it can be followed; None where it can't
            times: what it takes; None while that is worked out
        """
        self._at_fault = self._wrong = ""
        self._proposal, self._plan = proposal, plan
        self._words = result_text(proposal, times, self._units)
        self._outdate(False)
        concerns = proposal.concerns if plan is None or times is None else doubts_on(plan, times, proposal)
        rows = doubt_rows(concerns, self._units)
        said = [str(row.prompt) for row in rows]
        if said != self._shown:
            self._shown = said
            doubts, at = self.doubts, self.doubts.highlighted
            doubts.clear_options()
            doubts.add_options(rows)
            doubts.highlighted = at if at is not None and at < len(rows) else None
            doubts.display = bool(rows)
            # What would make the work fail is seen; what is only doubted leaves room for bars and steps.
            serious = sum(one.serious for one in concerns)
            doubts.styles.max_height = 2 * min(_MOST_DOUBTS, max(serious, 1))
        self.fields.tell(self._fields())
        self._picture()

    def refuse(self, error: AnswerError | MakeError) -> None:
        """Say which answer is at fault and why; what came of the ones before stays, as outdated."""
        self._at_fault, self._wrong = error.answer, plain(str(error))
        self._outdate(True)
        self.fields.tell(self._fields())

    def _outdate(self, outdated: bool) -> None:
        for widget in self.query("#words, ScaleView"):
            widget.set_class(outdated, "outdated")
        self._outdated = outdated
        self._tell()

    def mark(self, apart: bool) -> None:
        """Say that the plan is another than these answers give, or that it is not."""
        self.apart = apart
        self._tell()

    def _tell(self) -> None:
        said = "as it was before what is wrong now\n" if self._outdated else ""
        if self.apart:
            said += "by these answers; the plan is another: 2\n"
        self.query_one("#words", Static).update(Content.styled(said, "$text-warning") + self._words)

    def _picture(self) -> None:
        """Show what the page is about and the piece, or one of them where there is no room for both."""
        if self._proposal is None:
            return
        drawn, piece = picture_of(self._page, self._proposal, self._plan), piece_of(self._proposal)
        if drawn is not None and (self.has_class("narrow") or self.size.height < _BOTH_FROM):
            piece = None
        for name, drawing in (("#picture", drawn), ("#piece", piece)):
            view = self.query_one(name, ScaleView)
            view.display = drawing is not None
            view.data = ScaleDrawing(drawing, self._units)

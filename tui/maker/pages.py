"""The maker's pages: which one is open, in which part of it the cursor stands, and where it goes from there."""

from __future__ import annotations

from typing import Final, Literal

from textual.app import ComposeResult
from textual.containers import Container

from plans.units import Units
from tui.maker.plan_room import PlanRoom
from tui.maker.questions_room import QuestionsRoom
from tui.widgets import Fields, QuestionRow

Part = Literal["row", "steps", "fields", "doubts"]
"""A part of the screen that the tab key goes to: the row of pages, the plan's steps, fields, what does not add up."""

_PIECE: Final = ("what", "built", "bars", "steps")
"""The pages of questions, each the name of a group of answers in small letters."""
PLAN: Final = "step by step"
"""The page of the plan."""


class Pages(Container):
    """The row of pages, and below it the room of the one that is open.

    Args:
        units: in which figures are shown
        blocks: whether pictures are drawn with blocks, for fonts without the finer dots
        is_answered: whether the plan is made from answers: else its own page is the only one
    """

    def __init__(self, units: Units, *, blocks: bool, is_answered: bool) -> None:
        super().__init__()
        self.row = QuestionRow({**({"the piece": _PIECE} if is_answered else {}), "the plan": (PLAN,)})
        self.questions = QuestionsRoom(units, blocks=blocks)
        self.plan = PlanRoom(units)
        self.page: str = _PIECE[0] if is_answered else PLAN
        """The name of the page that is open."""

    def compose(self) -> ComposeResult:
        yield self.row
        yield self.questions
        yield self.plan

    def open(self, page: str) -> None:
        """Have the room of a page in sight; what it shows is told to the room itself."""
        self.page = self.row.chosen = page
        self.questions.display, self.plan.display = not self.on_plan, self.on_plan

    @property
    def on_plan(self) -> bool:
        """Whether the plan is looked at, step by step."""
        return self.page == PLAN

    @property
    def fields(self) -> Fields:
        """What can be typed into on the page."""
        return self.plan.keys if self.on_plan else self.questions.fields

    @property
    def wrong(self) -> str:
        """What is wrong with what was typed on the page; empty where nothing is."""
        return self.plan.wrong if self.on_plan else self.questions.wrong

    @property
    def part(self) -> Part:
        """The part that the cursor stands in."""
        focused = self.screen.focused
        if self.fields.has_cursor:
            return "fields"
        if focused is self.plan.steps:
            return "steps"
        return "doubts" if focused is self.questions.doubts else "row"

    @property
    def _parts(self) -> list[Part]:
        """The parts of the page, from the top."""
        if self.on_plan:
            return ["row", "steps", "fields"]
        return ["row", "fields", "doubts"] if self.questions.doubts.option_count else ["row", "fields"]

    async def typed_out(self) -> None:
        """Wait until all that was typed so far stands in its field, and have it taken."""
        await self.fields.typed_out()
        if self.on_plan:
            self.plan.keep()

    async def go_to(self, part: Part, place: int | None = None) -> None:
        """Put the cursor into a part of the page; where that is not there, into the row of pages.

        Args:
            part: which
            place: the field of the fields, from 0; None for that where the cursor was
        """
        await self.typed_out()
        match part:
            case "fields" if self.fields.count:
                await self.fields.go_to(self.fields.place if place is None else place)
            case "steps":
                self.screen.set_focus(self.plan.steps)
            case "doubts":
                self.screen.set_focus(self.questions.doubts)
                self.questions.doubts.highlighted = self.questions.doubts.highlighted or 0
            case _:
                self.screen.set_focus(self.row)

    async def begin(self) -> None:
        """From the row into the page: to its steps, or to its first field."""
        await self.go_to(self._parts[1], 0)

    async def along(self, steps: int) -> None:
        """To the next field, or the one before; above the first is the list of steps, or the row of pages."""
        if self.part == "row":
            if steps > 0:
                await self.begin()
            return
        await self.typed_out()
        place = self.fields.place + steps
        if place < 0:
            await self.go_to("steps" if self.on_plan else "row")
        elif place < self.fields.count:
            await self.fields.go_to(place)

    async def enter(self) -> bool:
        """On to the next field, and from the row or from a step into the page; False at the last of its questions."""
        match self.part:
            case "row":
                await self.begin()
            case "steps":
                await self.go_to("fields", 0)
            case "fields":
                await self.typed_out()
                if self.fields.place + 1 < self.fields.count:
                    await self.fields.go_to(self.fields.place + 1)
                elif self.on_plan:
                    await self.go_to("steps")
                else:
                    return False
        return True

    async def next_part(self, steps: int) -> None:
        """To the next part of the page, or the one before, and round."""
        parts = self._parts
        await self.go_to(parts[(parts.index(self.part) + steps) % len(parts)])

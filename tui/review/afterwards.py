"""What is said of a sitting when it is over, or a week later: how each weld is, what came of the work, lessons."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from plans.errors import PlansError
from plans.logbook import KeptSitting, Lesson, Logbook, Outcome, SittingLessons, as_said_before, welds_of
from plans.logbook.lines import LESSONS_HEADING, NOT_SAID, OUTCOME_HEADING, lesson_line, outcome_parts, weld_line
from plans.plan import Plan
from plans.prose import in_units
from plans.text import plain
from plans.units import Units
from tui.review.amended import Amended, amended
from tui.review.asking import PUT, Change, ask_lesson, ask_lesson_change, ask_part, ask_weld
from tui.screens import Put, Told, gap, heading, host_of, logbook_of
from tui.widgets import Choices, KeyLine


class AfterwardsScreen(ModalScreen[KeptSitting | None]):
    """Stands over the review; each line can be chosen, and is written into the log when it is answered.

    Gives back the sitting as it is kept now; None where nothing was said.

    Args:
        kept: the sitting
        plan: that it followed; None where this version can't read it
        step: the step that it begins at, from 0
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,l", "close", show=False),
        Binding("space", "choose", show=False),
        Binding("w", "put", show=False),
        Binding("u", "undo", show=False),
    ]
    DEFAULT_CSS = """
    AfterwardsScreen { align: center middle; background: $background 60%; }
    AfterwardsScreen #sheet { width: 96%; max-width: 100; height: 96%; background: $surface; padding: 0 2 1 2; }
    AfterwardsScreen OptionList { height: 1fr; border: none; padding: 0; background: $surface; }
    AfterwardsScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, kept: KeptSitting, plan: Plan | None, step: int) -> None:
        super().__init__()
        self._kept, self._plan, self._step = kept, plan, step
        self._said = False
        self._back: list[Put | Amended] = []
        """What can be taken back, the last one last: lessons that were put into a plan, and what else was said here."""
        self._one_at_a_time = asyncio.Lock()

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Choices(*self._options(), markup=False)
            yield Told()
            yield KeyLine()

    def on_mount(self) -> None:
        self._show_keys()
        self._stand_at(f"add:{self._step}")
        self.query_one(OptionList).focus()

    def tell(self, text: str, wrong: bool) -> None:
        """Show a message where it covers nothing; see `Told.tell`."""
        self.query_one(Told).tell(text, wrong)

    def _options(self) -> list[Option]:
        return list(said_options(self._kept, self._plan, host_of(self).settings.units))

    def _stand_at(self, name: str, beside: int | None = None) -> None:
        listed = self.query_one(OptionList)
        places = [place for place in range(listed.option_count) if listed.get_option_at_index(place).id == name]
        if places:
            listed.highlighted = places[0]
        elif beside is not None and listed.option_count:
            listed.highlighted = min(beside, listed.option_count - 1)  # what stood there is gone
        else:
            listed.action_first()

    def _show_keys(self) -> None:
        at = self.query_one(OptionList).highlighted_option
        on_lesson = at is not None and (at.id or "").startswith("lesson:")
        put = [("w", "put into the plan", "put")] if on_lesson and self._plan is not None else []
        undo = [("u", "take it back", "undo")] if self._back else []
        choose = ("enter", "change it" if on_lesson else "say", "choose")
        self.query_one(KeyLine).show([choose, ("↑ ↓", "along", "choose"), *put, *undo, ("q", "back", "close")])

    def on_option_list_option_highlighted(self) -> None:
        self._show_keys()

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        self.run_worker(self._answer(message.option.id or ""), exclusive=True)

    def action_choose(self) -> None:
        """Choose the line that the list stands on."""
        self.query_one(OptionList).action_select()

    def action_put(self) -> None:
        """Put the lesson that the list stands on into a plan."""
        at = self.query_one(OptionList).highlighted_option
        what, _, which = ((at.id if at is not None else "") or "").partition(":")
        if what == "lesson" and self._plan is not None:
            self.run_worker(self._putting(self._plan, int(which)), exclusive=True)

    def action_undo(self) -> None:
        """Take back what was said or put into a plan last."""
        self.run_worker(self._taking_back())

    def action_close(self) -> None:
        """Go back to the review."""
        self.dismiss(self._kept if self._said else None)

    async def _answer(self, name: str) -> None:
        """Ask what the chosen line wants to know, and write it into the log."""
        host, plan = host_of(self), self._plan
        what, _, which = name.partition(":")
        change: Change | None = None
        try:
            if what == "weld" and plan is not None:
                change = await ask_weld(host, plan, int(which), self._outcome)
            elif what == "part":
                change = await ask_part(host, which, self._outcome)
            elif what == "add" and plan is not None:
                change = await ask_lesson(host, plan, int(which))
            elif what == "lesson":
                asked = await ask_lesson_change(host, self._lesson(int(which)), plan is not None)
                if asked == PUT and plan is not None:
                    await self._putting(plan, int(which))
                elif not isinstance(asked, str):
                    change = asked
            if change is not None:
                await self._write(change)
            if change is not None and what == "lesson":
                await self._tell_where_it_stands(self._lesson(int(which)))
            if change is not None and what == "add":
                # On the new lesson: from there it goes into the plan by one key.
                self._stand_at(f"lesson:{max(one.number for one in (self._kept.lessons or SittingLessons()).written)}")
        except PlansError as error:
            host.say_aside(str(error), wrong=True)

    async def _tell_where_it_stands(self, lesson: Lesson) -> None:
        """Say which of the smith's plans still say a lesson that was changed in its former words, or at all."""
        from tui.config import plans_saying

        retired = lesson.retired is not None
        own = host_of(self).folders.plans
        plans = await asyncio.to_thread(plans_saying, lesson, own, in_former_words=not retired)
        if plans and retired:
            host_of(self).say_aside(f"{', '.join(plans)} still says it: take it out there")
        elif plans:
            host_of(self).say_aside(f"{', '.join(plans)} says it in its former words; w puts the new ones there")

    async def _putting(self, plan: Plan, number: int) -> None:
        from tui.screens import put_lesson

        try:
            put = await put_lesson(host_of(self), self._logbook, plan, self._kept.header.id, self._lesson(number))
        except (PlansError, OSError) as error:
            host_of(self).say_aside(f"not put into the plan: {error}", wrong=True)
            return
        if put is not None:
            self._back.append(put)
            host_of(self).say_aside(f"{put.told}; u takes it out again")
            await self._read_again()

    async def _taking_back(self) -> None:
        from tui.screens import take_lesson_back

        async with self._one_at_a_time:  # the key is faster than the disk
            if not self._back:
                return
            last = self._back.pop()
            try:
                if isinstance(last, Put):
                    await take_lesson_back(host_of(self), self._logbook, last)
                else:
                    change = as_said_before(last.before, last.after, host_of(self).now().replace(microsecond=0))
                    await asyncio.to_thread(self._logbook.amend, self._kept.header.id, change)
                    host_of(self).say_aside("taken back")
            except (PlansError, OSError) as error:
                host_of(self).say_aside(f"not taken back: {error}", wrong=True)
            await self._read_again()

    @property
    def _logbook(self) -> Logbook:
        host = host_of(self)
        return logbook_of(host, self._kept.header.rehearsal)

    async def _write(self, change: Change) -> None:
        name, now = self._kept.header.id, host_of(self).now().replace(microsecond=0)
        said = await asyncio.to_thread(amended, self._logbook, name, lambda kept: change(kept, now))
        self._kept = said.after
        self._back.append(said)
        self._list_again()

    async def _read_again(self) -> None:
        """The lessons as the log has them now, since a plan that was written is noted beside them."""
        kept = await asyncio.to_thread(self._logbook.load, self._kept.header.id)
        self._kept = replace(self._kept, outcome=kept.outcome, lessons=kept.lessons)
        self._list_again()

    def _list_again(self) -> None:
        self._said = True
        listed = self.query_one(OptionList)
        at, place = listed.highlighted_option, listed.highlighted
        listed.clear_options()
        listed.add_options(self._options())
        self._stand_at((at.id if at is not None else "") or "", place)
        self._show_keys()

    @property
    def _outcome(self) -> Outcome:
        return self._kept.outcome or Outcome()

    def _lesson(self, number: int) -> Lesson:
        lessons = self._kept.lessons or SittingLessons()
        lesson = next(lesson for lesson in lessons.written if lesson.number == number)
        return replace(lesson, plan=lesson.plan or self._kept.header.plan)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def said_options(kept: KeptSitting, plan: Plan | None, units: Units) -> Iterator[Option]:
    """A line for each thing that can be said, with what was said of it; its id says what it is.

    Args:
        kept: the sitting
        plan: that it followed; None where this version can't read it: then welds and steps can't be named
        units: that figures are shown in
    """
    outcome = kept.outcome or Outcome()
    yield heading(OUTCOME_HEADING)
    for step in welds_of(plan) if plan is not None else ():
        assert plan is not None
        title = f"weld of step {step + 1}, {in_units(plan.steps[step].title, units)}"
        yield _row(title, weld_line(outcome.weld(step)), f"weld:{step}")
    for name, text in outcome_parts(outcome, units):
        yield _row(name, text or NOT_SAID, f"part:{name}")
    lessons = () if kept.lessons is None else kept.lessons.written
    yield gap()
    yield heading(LESSONS_HEADING)
    steps = range(len(plan.steps)) if plan is not None else sorted({lesson.step for lesson in lessons})
    for step in steps:
        for lesson in lessons:
            if lesson.step == step:
                style = "" if lesson.retired is None else "$text-muted"
                line = Content.styled(f"  {plain(lesson_line(lesson, units))}", style)
                yield Option(line, id=f"lesson:{lesson.number}")
        if plan is not None:
            title = plain(in_units(plan.steps[step].title, units))
            yield Option(
                Content.assemble(("  + ", "bold $accent"), f"a lesson from step {step + 1}, {title}"), id=f"add:{step}"
            )


def _row(name: str, said: str, id_: str) -> Option:
    return Option(Content.assemble(f"  {plain(name)}: ", (said, "bold" if said != NOT_SAID else "$text-muted")), id=id_)

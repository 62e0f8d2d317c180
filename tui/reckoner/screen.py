"""The reckoner: what is typed is answered while it is typed, with a picture; and the known steels, as cards."""

from __future__ import annotations

import asyncio
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Input, Label, OptionList, Static, Tab, Tabs
from textual.widgets.option_list import Option

from plans.errors import PlansError
from plans.reckoner import ReckonError, Reckoning
from plans.steel import Grade, all_grades
from plans.text import plain
from plans.units import Units
from plans.warmth import screen_glow
from tui.actions import Place, bindings
from tui.reckoner.answer_text import answer_text, asked_text
from tui.reckoner.pictures import picture
from tui.reckoner.question import Field, Question
from tui.reckoner.questions import QUESTIONS, warm_up
from tui.screens import Host, host_of, keys_at_foot
from tui.widgets import GlowData, GlowMap, KeyLine, SplitLine, TraceData, TraceView, clip, fill

_STEELS = "steels"
"""The tab of the cards."""
_TAB = "tab-"
_USE = 22
"""Cells for what a steel is used for, in the list."""
_NARROW = 64
"""Below this the answer stands under what is given."""
_LOW = 18
"""Below this there is no room for a picture."""


async def open_reckoner(host: Host) -> None:
    """Show the reckoner, once what it takes to answer has been read in a thread."""
    await asyncio.to_thread(warm_up)
    await host.push_screen(ReckonerScreen())


class ReckonerScreen(Screen[None]):
    """A row of questions; what is given and what comes of it; below, what it looks like."""

    PLACE: ClassVar[Place] = Place.RECKONER
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(Place.RECKONER),
        Binding("down,enter", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
        # Where the steels are listed, page keys turn the list.
        Binding("right", "further", show=False),
        Binding("left", "nearer", show=False),
    ]
    DEFAULT_CSS = """
    ReckonerScreen #head { text-style: bold; background: $surface; }
    ReckonerScreen Tabs { height: 2; }
    ReckonerScreen #both { height: 3fr; }
    ReckonerScreen #given { width: 36; height: 1fr; padding: 0 1; }
    ReckonerScreen #given Horizontal { height: 1; }
    ReckonerScreen #given Label { width: 14; color: $text-muted; }
    ReckonerScreen #given Input { width: 1fr; background: $panel; }
    ReckonerScreen #given Input:focus { background: $block-cursor-background; }
    ReckonerScreen #given Input.wrong { color: $text-error; text-style: bold; }
    ReckonerScreen #steels { width: 36; height: 1fr; padding: 0 1; display: none; }
    ReckonerScreen #answer { width: 1fr; height: 1fr; padding: 0 1; }
    ReckonerScreen #picture { height: 2fr; padding: 0 1; }
    ReckonerScreen #said { color: $text-muted; }
    ReckonerScreen #glow { margin-left: 2; }
    ReckonerScreen #hint { background: $surface; }
    ReckonerScreen #keys { background: $surface; }
    ReckonerScreen.narrow #both { layout: vertical; }
    ReckonerScreen.narrow #given, ReckonerScreen.narrow #steels { width: 1fr; height: auto; max-height: 50%; }
    ReckonerScreen.low #picture, ReckonerScreen.low #said { display: none; }
    ReckonerScreen.bare #picture, ReckonerScreen.bare #said { display: none; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._typed: dict[str, dict[str, str]] = {_STEELS: {}}
        """What stands in the fields of each question; kept while another one is looked at."""
        self._asked = next(iter(QUESTIONS))
        self._found: Reckoning | None = None

    def compose(self) -> ComposeResult:
        units = host_of(self).settings.units
        self._typed |= {name: question.example(units) for name, question in QUESTIONS.items()}
        names = [*QUESTIONS, _STEELS]
        yield SplitLine(id="head")
        yield Tabs(*(Tab(name, id=_TAB + name) for name in names))
        with Horizontal(id="both"):
            yield VerticalScroll(id="given", can_focus=False)
            yield OptionList(*map(_steel_row, all_grades()), id="steels", markup=False)
            with VerticalScroll(id="answer", can_focus=False):
                yield Static(id="words", markup=False)
        yield SplitLine(id="said")
        with Horizontal(id="picture"):
            yield TraceView(id="curve", blocks=host_of(self).settings.blocks, glow=screen_glow)
            yield GlowMap(screen_glow, id="glow")
        yield SplitLine(id="hint")
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self.query_one(KeyLine).show(self._keys())
        self.query_one(Tabs).focus()

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.width < _NARROW, "narrow")
        self.set_class(event.size.height < _LOW, "low")
        self.call_after_refresh(self._answer)

    async def on_tabs_tab_activated(self, message: Tabs.TabActivated) -> None:
        """Another question: its fields, with what was typed into them before."""
        self._asked = (message.tab.id or "").removeprefix(_TAB)
        cards = self._asked == _STEELS
        given, steels = self.query_one("#given", VerticalScroll), self.query_one("#steels", OptionList)
        given.display, steels.display = not cards, cards
        about = "the steels that are known here" if cards else QUESTIONS[self._asked].about
        self.query_one("#head", SplitLine).show(about[0].upper() + about[1:], "reckoner")
        self.query_one("#answer", VerticalScroll).scroll_home(animate=False)
        await given.remove_children()
        if cards:
            steels.highlighted = steels.highlighted or 0
            self._card(steels)
        else:
            await given.mount_all(self._row(field) for field in QUESTIONS[self._asked].fields)
        self._answer()

    def _row(self, field: Field) -> Horizontal:
        typed = self._typed[self._asked].get(field.name, "")
        entry = Input(typed, name=self._asked, id=f"field-{field.name}", compact=True, select_on_focus=False)
        return Horizontal(Label(field.name, markup=False), entry)

    def on_input_changed(self, message: Input.Changed) -> None:
        # A field may still speak when its question has been left.
        question = message.input.name or ""
        self._typed[question][_name(message.input)] = message.value
        if question == self._asked:
            self._answer()

    def on_input_submitted(self) -> None:
        self.focus_next()

    def on_descendant_focus(self) -> None:
        self._hint()

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._card(message.option_list)
        self._answer()

    def _card(self, steels: OptionList) -> None:
        if (chosen := steels.highlighted_option) is not None:
            self._typed[_STEELS] = {"grade": chosen.id or ""}

    @property
    def _question(self) -> Question:
        return QUESTIONS["steel" if self._asked == _STEELS else self._asked]

    def _answer(self) -> None:
        """Reckon with what stands in the fields, and show what comes of it, or what is wrong."""
        question, typed = self._question, self._typed[self._asked]
        units = self._units(question)
        wrong, self._found = "", None
        try:
            self._found = question.ask(typed, units)
        except ReckonError as error:
            wrong = error.given
            self._say(f"{error.given}: {error.why}")
        except PlansError as error:
            wrong = "grade"
            self._say(str(error))
        for entry in self.query(Input):
            entry.set_class(_name(entry) == wrong, "wrong")
        drawn = None
        if self._found is not None:
            pane = self.query_one("#answer", VerticalScroll)
            said = answer_text(self._found, pane.size.width - 3, units)
            if self._asked == _STEELS:
                said = Content("\n\n").join([Content.styled(asked_text(self._found, units), "bold"), said])
            self.query_one("#words", Static).update(said)
            drawn = picture(question.name, question.read(typed), self._found, units)
        self.set_class(drawn is None, "bare")
        curve, glow = self.query_one("#curve", TraceView), self.query_one("#glow", GlowMap)
        curve.display = drawn is not None and drawn.curve is not None
        glow.display = drawn is not None and drawn.glow is not None
        curve.data = drawn.curve if drawn is not None and drawn.curve is not None else TraceData()
        glow.data = drawn.glow if drawn is not None and drawn.glow is not None else GlowData()
        self.query_one("#said", SplitLine).show(drawn.said if drawn is not None else "")
        self._hint()

    def _say(self, wrong: str) -> None:
        self.query_one("#words", Static).update(plain(wrong))

    def _units(self, question: Question) -> Units:
        """The units to answer in: as typed, or else as set; what an example put into a field was not typed."""
        units = host_of(self).settings.units
        example = question.example(units)
        typed = {name: text for name, text in self._typed[self._asked].items() if text != example.get(name)}
        return question.units_typed(typed, units)

    def _hint(self) -> None:
        """What the field is that the cursor stands in."""
        focused = self.focused
        field = None
        if isinstance(focused, Input):
            field = next((one for one in self._question.fields if one.name == _name(focused)), None)
        if field is not None:
            units = host_of(self).settings.units
            self.query_one("#hint", SplitLine).show(
                f"{field.name}: {units.text(field.about)}", f"e.g. {units.text(field.example)}"
            )
        elif isinstance(focused, OptionList):
            self.query_one("#hint", SplitLine).show("↑ ↓ another steel; → ← along its card; esc to the questions")
        else:
            self.query_one("#hint", SplitLine).show("← → another question; ↓ into its fields")

    def _keys(self) -> list[tuple[str, str, str]]:
        keys = keys_at_foot(self, Place.RECKONER)
        return [("↑ ↓", "fields", "app.focus_next"), *keys[:-2], ("← →", "questions", "questions"), keys[-2]]

    def action_questions(self) -> None:
        self.query_one(Tabs).focus()

    def action_further(self) -> None:
        self.query_one("#answer", VerticalScroll).scroll_page_down(animate=False)

    def action_nearer(self) -> None:
        self.query_one("#answer", VerticalScroll).scroll_page_up(animate=False)

    async def action_leave(self) -> None:
        """From a field to the row of questions, and from there back to where one came from."""
        tabs = self.query_one(Tabs)
        if self.focused is not None and self.focused is not tabs:
            tabs.focus()
        else:
            await host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def _steel_row(grade: Grade) -> Option:
    return Option(
        Content.assemble(fill(plain(grade.name), 10), (clip(plain(grade.use), _USE), "$text-muted")), id=grade.name
    )


def _name(entry: Input) -> str:
    """Of the field that is typed into."""
    return (entry.id or "").removeprefix("field-")

"""The first start: what there is, and three questions, each answered with one key."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from devices import find_ports
from plans.record import record
from plans.sitting import Volume
from plans.text import plain
from plans.units import Units
from tui.actions import BY_ID, shown_key
from tui.config import ProbeSetting, UsageError, keep_first_settings
from tui.screens.host import Host, host_of, says_next
from tui.screens.question import Choice
from tui.widgets import KeyLine, SplitLine

if TYPE_CHECKING:
    from tui.config import Settings

_THERE_IS = (
    ("plans", "what to do, step by step: those that ship, and your own"),
    ("rehearsal", "any plan on a simulated forge, nothing hot: good to begin with"),
    ("log", "every sitting heat by heat, with the lines that you left in it"),
    ("reckoner", "cooling, soaks, steels, tempers: figures without a sitting"),
)
_PORTS = 3
"""So many ports are offered for the probe."""
_NARROW, _LOW = 60, 18
"""On a screen of fewer columns or rows stands the one question that is asked, an answer to a line."""
_LATER, _NONE = "later", "none"
_VOICE, _BELL, _SILENT = "voice", "bell", "silent"


@record
class Asked:
    """One of the questions."""

    about: str
    """What it is about, in a word."""
    choices: tuple[Choice, ...]
    """Its answers; the first is as it ships."""


async def ask_first(host: Host, speaks: bool) -> tuple[str, bool]:
    """Ask what is asked at the first start, go by it and keep it; only in a worker.

    Args:
        host: asks; it goes by the answers from then on
        speaks: whether the machine has a speech command

    Returns:
        what is to be told of it: where it was kept, and whether something went wrong
    """
    # A port that is built in is there with and without a probe: it says nothing.
    ports = [port.port for port in await asyncio.to_thread(find_ports) if port.vendor_id is not None][:_PORTS]
    questions = first_questions(ports, speaks)
    answers = await host.push_screen_wait(FirstStartScreen(questions))
    host.settings = answered(host.settings, answers)
    path = host.folders.configuration
    try:
        await asyncio.to_thread(keep_first_settings, path, host.settings)
    except (UsageError, OSError) as error:
        why = (error.strerror or str(error)) if isinstance(error, OSError) else str(error)
        return f"{path}: can't be written ({why}); the answers hold until you leave", True
    told = f"Kept in {path}; all else is as it ships."
    if answers[1] == _LATER:
        told += (
            ' Once the probe is plugged in, heatbook probe list names its port: write [probe] and port = "..." there.'
        )
    return told, False


def first_questions(ports: Sequence[str], speaks: bool) -> tuple[Asked, ...]:
    """The questions of the first start.

    Args:
        ports: serial ports that a probe may be on
        speaks: whether the machine has a speech command
    """
    probes = [(_NONE, "none: heatbook reckons")]
    probes += [(port, f"on the work, at {plain(port)}") for port in ports] or [(_LATER, "yes, not plugged in yet")]
    sounds = [(_VOICE, "voice and bell")] if speaks else []
    sounds += [(_BELL, "bell"), (_SILENT, "none, but for too hot")]
    return (
        Asked("Units", _numbered([(Units.METRIC, "mm and degC"), (Units.INCH, "inches and degF")])),
        Asked("Probe", _numbered(probes)),
        Asked("Sound", _numbered(sounds)),
    )


def _numbered(answers: Sequence[tuple[str, str]]) -> tuple[Choice, ...]:
    return tuple(Choice(name, str(number), text) for number, (name, text) in enumerate(answers, 1))


def answered(settings: Settings, answers: Sequence[str]) -> Settings:
    """The settings with the answers in them.

    Args:
        settings: as they ship
        answers: the name of the choice for each question
    """
    units, probe, sound = answers
    return replace(
        settings,
        units=Units(units),
        probe=None if probe in (_NONE, _LATER) else ProbeSetting(probe),
        mute=sound == _SILENT,
        talk=None if sound == _BELL else Volume.NORMAL,
    )


class FirstStartScreen(Screen[tuple[str, ...]]):
    """Says what there is and asks; answers with the name of a choice for each question.

    Args:
        questions: what is asked, in order
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space,enter", "next", show=False),
        *(Binding(str(number), f"take({number - 1})", show=False) for number in range(1, 10)),
        Binding("u", "undo", show=False),
        Binding("q,escape", "leave", show=False),
    ]
    DEFAULT_CSS = """
    FirstStartScreen #head { text-style: bold; background: $surface; }
    FirstStartScreen #all { height: 1fr; padding: 1 1 0 1; }
    FirstStartScreen #asked { margin-top: 1; }
    FirstStartScreen #keys { background: $surface; }
    FirstStartScreen.-small #all { padding: 0 1; }
    FirstStartScreen.-small #there-is { display: none; }
    FirstStartScreen.-small #asked { margin-top: 0; }
    """

    def __init__(self, questions: Sequence[Asked]) -> None:
        super().__init__()
        self._questions = tuple(questions)
        self._answers: list[Choice] = []

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        with VerticalScroll(id="all"):
            yield Static(_there_is(), id="there-is")
            yield Static(id="asked")
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self._show()

    def on_resize(self) -> None:
        self._show()

    def on_key(self, event: events.Key) -> None:
        """A key that says "next" takes what ships, as space does."""
        if event.key != "space" and says_next(host_of(self), event.key):
            event.stop()
            self.action_next()

    def action_next(self) -> None:
        """Take what ships; a key that bounces takes it once."""
        if host_of(self).presses.counts("next"):
            self._take(0)

    def action_take(self, number: int) -> None:
        """Take an answer by its number, from 0; a key that bounces takes it once."""
        if host_of(self).presses.counts(f"answer {number}"):
            self._take(number)

    def _take(self, number: int) -> None:
        """Take an answer to the question that is asked; after the last one it is done."""
        if not self.is_current or number >= len(self._asked.choices):
            return
        self._answers.append(self._asked.choices[number])
        if len(self._answers) == len(self._questions):
            self.dismiss(tuple(choice.name for choice in self._answers))
        else:
            self._show()

    def action_undo(self) -> None:
        """Ask the question before once more."""
        if self._answers:
            self._answers.pop()
            self._show()

    def action_leave(self) -> None:
        """Leave all that was not asked yet as it ships."""
        left = self._questions[len(self._answers) :]
        self.dismiss(tuple(choice.name for choice in (*self._answers, *(asked.choices[0] for asked in left))))

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    @property
    def _asked(self) -> Asked:
        return self._questions[len(self._answers)]

    def _show(self) -> None:
        number, count = len(self._answers) + 1, len(self._questions)
        self.query_one("#head", SplitLine).show("heatbook", f"the first start, question {number} of {count}")
        small = self.app.size.width < _NARROW or self.app.size.height < _LOW
        self.set_class(small, "-small")
        lines = [Content.styled(f"{count} questions, asked only now; one key answers each.", "bold"), Content("")]
        lines += [self._line(asked, index) for index, asked in enumerate(self._questions)]
        if small:
            lines = [Content.styled(self._asked.about, "bold"), *map(_answer, self._asked.choices)]
        self.query_one("#asked", Static).update(Content("\n").join(lines))
        self.query_one("#asked").scroll_visible(animate=False)
        first, *others = self._asked.choices
        next_ = shown_key(BY_ID["next"], host_of(self).settings.keys)
        keys = [(next_, plain(first.text), "take(0)")]
        keys += [(one.key, plain(one.text), f"take({int(one.key) - 1})") for one in others]
        if self._answers:
            keys.append(("u", "undo", "undo"))
        self.query_one(KeyLine).show([*keys, ("q", "the rest as it ships", "leave")])

    def _line(self, asked: Asked, index: int) -> Content:
        now = index == len(self._answers)
        head = (f"{'>' if now else ' '} {asked.about:<7}", "bold" if now else "")
        if index < len(self._answers):
            return Content.assemble(head, (plain(self._answers[index].text), "bold"))
        return Content.assemble(head, Content("  ").join(map(_answer, asked.choices)))


def _answer(choice: Choice) -> Content:
    return Content.assemble((f" {choice.key} ", "bold $accent"), plain(choice.text))


def _there_is() -> Content:
    lines = [
        Content(
            "heatbook stands beside your forge: it leads you through a plan heat by heat, says how long until the "
            "steel is warm through and how long you may hammer, and keeps a log."
        ),
        Content(""),
    ]
    lines += [Content.assemble((f"  {name:<11}", "bold $accent"), about) for name, about in _THERE_IS]
    return Content("\n").join(lines)

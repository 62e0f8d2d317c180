"""A real pseudo-terminal that falls silent, sends rubbish, is set anew or goes, under an app in this process."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import sys
import termios
from base64 import b64encode
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager, suppress
from threading import Event
from typing import ClassVar

import pytest
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.events import Key, Paste
from textual.screen import Screen
from textual.widgets import Static

from tui.running.no_traceback import NoTracebackApp
from tui.terminal.driver import TerminalDriver

ESCAPES = re.compile(r"\x1b(\[[0-9;:<>=?]*[ -/]*[@-~]|.)")


class Over(Screen[None]):
    """Closed by any key."""

    def on_key(self, event: Key) -> None:
        event.stop()
        self.dismiss(None)


class Shown(NoTracebackApp):
    """Shows a text, and notes what it hears."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+c", "quit", priority=True)]

    def __init__(self) -> None:
        super().__init__()
        self.heard: list[str] = []

    def compose(self) -> ComposeResult:
        yield Static("unchanged")
        yield Static("first", id="text")

    def show(self, text: str) -> None:
        self.screen_stack[0].query_one("#text", Static).update(text)

    def on_key(self, event: Key) -> None:
        self.heard.append(event.key)

    def on_paste(self, event: Paste) -> None:
        self.heard.append(event.text)

    def close_sitting(self) -> None:
        self.heard.append("put away")


class Pty:
    """The end of the terminal that a smith would look at and type into."""

    def __init__(self, ours: int, theirs: int, app: Shown) -> None:
        self.ours, self.theirs, self.app = ours, theirs, app
        self.before = termios.tcgetattr(theirs)
        self.seen = ""

    async def until(self, met: Callable[[], bool]) -> None:
        """Let the app run, unread, until something holds."""
        for _ in range(2000):
            if met():
                return
            await asyncio.sleep(0.001)
        raise AssertionError(f"it never came: {self.app.heard} {self.seen[-300:]!r}")

    async def shows(self, text: str, after: str = "") -> None:
        """Read on until this has been drawn, after a certain sequence."""
        self.seen = ""

        def drawn() -> bool:
            with suppress(BlockingIOError):
                self.seen += os.read(self.ours, 65536).decode()
            _, found, rest = self.seen.rpartition(after) if after else ("", "", self.seen)
            return found == after and text in ESCAPES.sub("", rest)

        await self.until(drawn)

    async def hears(self, *heard: str) -> None:
        """Let the app run until it has heard just this."""
        await self.until(lambda: len(self.app.heard) >= len(heard))
        assert self.app.heard == list(heard)

    def type(self, data: bytes) -> None:
        """Type."""
        os.write(self.ours, data)

    @property
    def driver(self) -> TerminalDriver:
        assert isinstance(self.app._driver, TerminalDriver)
        return self.app._driver

    def fill(self) -> None:
        """Have more drawn than a terminal that does not read takes."""
        for _ in range(1000):
            self.driver.write("." * 200)

    def gone(self) -> None:
        """The terminal goes."""
        os.close(self.theirs)
        os.close(self.ours)
        self.ours = self.theirs = -1


Drawn = Callable[..., AbstractAsyncContextManager[Pty]]


@pytest.fixture
def drawn_on(monkeypatch: pytest.MonkeyPatch) -> Drawn:
    """Runs an app on a terminal: `async with drawn_on() as pty: ...`; waits until it is drawn, or not."""

    @asynccontextmanager
    async def run(awaited: bool = True) -> AsyncIterator[Pty]:
        ours, theirs = os.openpty()
        os.set_blocking(ours, False)
        termios.tcsetwinsize(theirs, (10, 40))
        with os.fdopen(os.dup(theirs), "rb", 0) as typed, os.fdopen(os.dup(theirs), "wb", 0) as drawn:
            monkeypatch.setattr(sys, "__stdin__", typed)
            monkeypatch.setattr(sys, "__stderr__", drawn)
            app = Shown()
            pty = Pty(ours, theirs, app)
            running = asyncio.create_task(app.run_async())
            try:
                if awaited:
                    await pty.shows("first")
                with app._context():
                    yield pty
                app.exit()
                await asyncio.wait_for(running, 5)
            finally:
                running.cancel()
                for end in (pty.ours, pty.theirs):
                    if end >= 0:
                        os.close(end)

    return run


async def test_a_terminal_that_does_not_read_holds_nothing_up_and_is_drawn_whole_when_it_does(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        pty.fill()
        assert pty.app.unheard
        pty.type(b"a")
        await pty.hears("a")
        pty.app.show("meanwhile")
        await pty.until(lambda: not pty.app.screen._dirty_widgets)
        await pty.shows("unchanged", after="\x1b[?1049h")  # some of what it was set to may have been left out
        assert "meanwhile" in ESCAPES.sub("", pty.seen)
        assert not pty.app.unheard


async def test_what_waits_for_a_terminal_that_does_not_read_is_bounded(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        pty.fill()
        assert pty.driver._output is not None
        assert 0 < len(pty.driver._output._waiting) < 10_000


async def test_one_that_is_held_up_is_left_all_the_same_and_its_settings_come_back(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        termios.tcflow(pty.theirs, termios.TCOOFF)
        pty.app.show("held up")
        await pty.until(lambda: pty.app.unheard)
        before = pty.before
        pty.app.leave()
        await pty.until(lambda: termios.tcgetattr(pty.theirs) == before)
        assert pty.app.unheard


@pytest.mark.parametrize("silent", [False, True])
async def test_one_that_goes_without_a_signal_is_left_with_the_reason(drawn_on: Drawn, silent: bool) -> None:
    async with drawn_on() as pty:
        if silent:
            pty.fill()
        pty.gone()
        await pty.hears("put away")
        await pty.until(lambda: not pty.app.is_running)
    assert pty.app.outcome.status == 1
    assert "the terminal has gone" in pty.app.outcome.errors[0]


RUBBISH = (
    b"\xff",
    "späte Glut".encode("latin-1"),
    b"\x1b[M !\xe9\xe9",  # a mouse of old, right of column 95
    b"\x1b[999999999u",
    b"\x1b[99999;99999;1114112u",
    b"\x1b[48;99999;99999;0;0t",
    b"\x1b[48;0;0;0;0t",
    b"\x1b[?2048;1$y",
    b"\x1b[<99999;99999;99999M",
    b"\x1b[<0;3;3M\x1b[<0;3;3m",
    b"\x1b]11;rgb:ffff/ffff/ffff\x07",
    b"\x1bP1$r\x1b\\",
    b"\xf0\x9f",
    b"\x00\x80\xc3",
    b"\x1b",
    b"\x1b[200~never ended",
)


async def test_no_bytes_end_it_or_make_it_deaf(drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("textual.constants.ESCAPE_DELAY", 0.001)
    for patience in ("_LOST", "_PAUSE"):
        monkeypatch.setattr(f"tui.terminal.pastes.{patience}", 0.005)
    loop = asyncio.get_running_loop()
    async with drawn_on() as pty:

        async def taken(data: bytes) -> None:
            typed = pty.driver._typed
            before = typed._timer
            pty.type(data)
            await pty.until(lambda: typed._timer not in (before, None))
            await pty.until(lambda: typed._timer is not None and typed._timer.when() < loop.time())
            await asyncio.sleep(0)

        for rubbish in RUBBISH:
            # The first key may count as what is left of a paste that never ended.
            for data in (rubbish, b"z", b"z"):
                await taken(data)
            await pty.until(lambda: pty.app.heard[-1:] == ["z"])
            pty.app.heard.clear()
        assert pty.app.size == (40, 10)


async def test_no_part_of_a_paste_is_a_key_though_it_stalls(drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tui.terminal.pastes._LOST", 0.01)
    async with drawn_on() as pty:
        pty.type(b"a\x1b[200~one\x1b[0m n \r")
        await pty.hears("a", "one[0m n \r")
        pty.type(b"two n \r\x1b[201~b")
        await pty.hears("a", "one[0m n \r", "b")


async def test_a_letter_in_two_pieces_and_a_paste_in_three_are_one(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        for piece in ("ä".encode()[:1], "ä".encode()[1:], b"\x1b[20", b"0~left co", b"rner\x1b[201~b"):
            pty.type(piece)
            await asyncio.sleep(0)
        await pty.hears("ä", "left corner", "b")


async def test_a_key_goes_to_the_screen_that_the_one_before_has_led_to(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        await pty.app.push_screen(Over())
        await pty.app.push_screen(Over())
        pty.type(b"abc")
        await pty.hears("c")
        assert len(pty.app.screen_stack) == 1


class Busy(Screen[None]):
    """Is not done with a key until it is set free."""

    def __init__(self) -> None:
        super().__init__()
        self.free = asyncio.Event()

    async def on_key(self, event: Key) -> None:
        event.stop()
        await self.free.wait()


async def test_leaving_waits_for_no_key(drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tui.terminal.one_by_one._PATIENCE", 60.0)
    async with drawn_on() as pty:
        await pty.app.push_screen(busy := Busy())
        pty.type(b"ab\x03")
        await pty.until(lambda: pty.app._exit)
        busy.free.set()


async def test_leaving_is_heard_though_more_waits_than_is_kept(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        await pty.app.push_screen(busy := Busy())
        for _ in range(6):
            pty.type(b"a" * 200)
            await asyncio.sleep(0)
        waiting = pty.driver._one_by_one._waiting
        await pty.until(lambda: len(waiting) >= 499)
        pty.type(b"a" * 200 + b"\x03")
        await pty.until(lambda: pty.app._exit)
        busy.free.set()


async def test_going_on_after_a_stop_sets_the_terminal_anew_and_at_the_end_as_it_was(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        needed = termios.tcgetattr(pty.theirs)
        assert needed != pty.before
        for left in (pty.before, needed):  # a shell sets it back meanwhile, or it does not
            termios.tcsetattr(pty.theirs, termios.TCSANOW, left)
            signal.raise_signal(signal.SIGCONT)
            await pty.shows("unchanged", after="\x1b[?1049h")
            assert termios.tcgetattr(pty.theirs) == needed
        pty.app.exit()
        await pty.until(lambda: termios.tcgetattr(pty.theirs) == pty.before)


async def test_told_to_end_while_it_is_held_up_the_terminal_is_set_back_all_the_same(
    drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended = Event()
    monkeypatch.setattr(os, "_exit", lambda _: ended.set())
    monkeypatch.setattr("tui.terminal.signals._AT_MOST", 0.0)
    async with drawn_on() as pty:
        await pty.shows("unchanged")
        signal.raise_signal(signal.SIGTERM)
        assert ended.wait(5)  # the loop is held up by this line
        assert termios.tcgetattr(pty.theirs) == pty.before
        with suppress(BlockingIOError):
            pty.seen = os.read(pty.ours, 65536).decode()
        assert pty.seen.endswith("\x1b[?1049l\x1b[?25h")
        assert "\x1b[?2026l" in pty.seen
        await pty.hears("put away")


async def test_told_to_end_as_soon_as_the_terminal_is_set_it_is_set_back(
    drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = TerminalDriver._set

    def told_first(driver: TerminalDriver) -> None:
        real(driver)
        signal.raise_signal(signal.SIGTERM)

    monkeypatch.setattr(TerminalDriver, "_set", told_first)
    monkeypatch.setattr("tui.terminal.signals.end_within", lambda *_, **__: None)
    async with drawn_on(awaited=False) as pty:
        await pty.hears("put away")
        await pty.until(lambda: termios.tcgetattr(pty.theirs) == pty.before)


async def test_a_stop_that_is_asked_for_gives_the_terminal_back_first(
    drawn_on: Drawn, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with drawn_on() as pty:
        stopped = []
        monkeypatch.setattr(os, "kill", lambda _, number: stopped.append((number, termios.tcgetattr(pty.theirs))))
        signal.raise_signal(signal.SIGTSTP)
        await pty.until(lambda: bool(stopped))
        assert stopped == [(signal.SIGSTOP, pty.before)]
        monkeypatch.undo()


async def test_it_may_be_as_small_as_one_cell(drawn_on: Drawn) -> None:
    async with drawn_on() as pty:
        for rows, columns in ((1, 1), (55, 200), (1, 1), (10, 40)):
            termios.tcsetwinsize(pty.theirs, (rows, columns))
            signal.raise_signal(signal.SIGWINCH)
            while pty.app.size != (columns, rows):
                await asyncio.sleep(0.001)
        await pty.shows("unchanged")


async def test_what_is_copied_goes_to_the_terminal_that_keeps_it(drawn_on: Drawn) -> None:
    """OSC 52 as xterm's control sequences have it: 52 ; c ; the text in base64."""
    async with drawn_on() as pty:
        text = "Set the weld: heat 2, leaving 1251 degC"
        pty.app.copy_to_clipboard(text)
        pty.app.show("copied")
        await pty.shows("copied", after=f"\x1b]52;c;{b64encode(text.encode()).decode()}\a")

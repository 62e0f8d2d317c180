"""What was typed is handed on one by one: a key goes to the screen that the one before it has led to."""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from textual.app import App, ScreenStackError
from textual.events import InputEvent, Key, MouseDown, MouseEvent, MouseUp, Paste
from textual.message import Message

_CHANGES_SCREENS = (Key, Paste, MouseDown, MouseUp)
_LEAVES = "ctrl+c"
_LEAVES_OR_ASKS = "ctrl+q"
"""Leaves where no sitting runs, as none does before there is a screen that hears."""
_PATIENCE = 0.5
"""A screen that has not done with a key after this is not waited for [s]."""
_LOOK = 0.02
"""How often one looks whether a screen stands there that hears [s]."""
_MANY = 500
"""A program that has not come to so many hears of no more, but of the key that leaves it."""


class OneByOne:
    """Hands messages on to an app; keys, pastes and the mouse each when the app has done with the one before.

    Textual takes keys as they come: of two in one go, the second would be sent to a screen that the first has closed,
    which closes the one below, or to one that is not there yet. Those that leave the program wait for nothing.

    A screen whose `HEARS` is False stands there only until another one does: keys and pastes wait for that one, and
    the mouse, which can't point at it yet, is left out.

    Args:
        app: the app, running in this thread's asyncio loop
        send: sends it a message
    """

    def __init__(self, app: App[Any], send: Callable[[Message], object]) -> None:
        self._app, self._send = app, send
        self._waiting: deque[Message] = deque()
        self._task: asyncio.Task[None] | None = None

    def put(self, message: Message) -> None:
        """Hand it on, when its turn has come; left out where too much waits."""
        leaves = isinstance(message, Key) and message.key in (_LEAVES, _LEAVES_OR_ASKS if self._is_deaf else "")
        if leaves:
            while self._waiting:
                self._send(self._waiting.popleft())
        if leaves or not isinstance(message, InputEvent | Paste):
            self._send(message)
        elif isinstance(message, MouseEvent) and self._is_deaf:
            return
        elif len(self._waiting) < _MANY:
            self._waiting.append(message)
            if self._task is None:
                self._task = asyncio.create_task(self._hand_on())

    async def _hand_on(self) -> None:
        try:
            while self._waiting:
                await self._heard()
                if not self._waiting:  # one that leaves has taken them with it
                    break
                message = self._waiting.popleft()
                self._send(message)
                if isinstance(message, _CHANGES_SCREENS):
                    await self._done()
        finally:
            self._task = None

    async def _done(self) -> None:
        """Wait until all that a key goes through, from the app to what has the focus and back, has come to this."""
        try:
            screen = self._app.screen
        except ScreenStackError:
            return
        await self._passed(self._app.call_later)
        for node in (screen.focused or screen).ancestors_with_self:
            await self._passed(node.call_later)

    @property
    def _is_deaf(self) -> bool:
        """Whether no screen stands there yet that hears."""
        try:
            return not getattr(self._app.screen, "HEARS", True)
        except ScreenStackError:
            return True

    async def _heard(self) -> None:
        """Wait until a screen stands there that hears, and has its focus."""
        if self._is_deaf:
            while self._is_deaf:
                await asyncio.sleep(_LOOK)
            await self._passed(self._app.call_after_refresh)

    async def _passed(self, later: Callable[[Callable[[], None]], bool]) -> None:
        """Wait until what is called later is called."""
        passed = asyncio.Event()
        if later(passed.set):
            with suppress(TimeoutError):
                await asyncio.wait_for(passed.wait(), _PATIENCE)

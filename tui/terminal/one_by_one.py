"""What was typed is handed on one by one: a key goes to the screen that the one before it has led to."""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from textual.app import App, ScreenStackError
from textual.events import Key, MouseDown, MouseUp, Paste
from textual.message import Message
from textual.message_pump import MessagePump

_CHANGES_SCREENS = (Key, Paste, MouseDown, MouseUp)
_LEAVES = "ctrl+c"
_PATIENCE = 0.5
"""A screen that has not done with a key after this is not waited for [s]."""
_MANY = 500
"""A program that has not come to so many hears of no more, but of the key that leaves it."""


class OneByOne:
    """Hands messages on to an app, each when the app has done with the one before.

    Textual takes keys as they come: of two in one go, the second would be sent to a screen that the first has closed,
    which closes the one below, or to one that is not there yet. Those that leave the program wait for nothing.

    Args:
        app: the app, running in this thread's asyncio loop
        send: sends it a message
    """

    def __init__(self, app: App[Any], send: Callable[[Message], None]) -> None:
        self._app, self._send = app, send
        self._waiting: deque[Message] = deque()
        self._task: asyncio.Task[None] | None = None

    def put(self, message: Message) -> None:
        """Hand it on, when its turn has come; left out where too much waits."""
        if isinstance(message, Key) and message.key == _LEAVES:
            while self._waiting:
                self._send(self._waiting.popleft())
            self._send(message)
        elif len(self._waiting) < _MANY:
            self._waiting.append(message)
            if self._task is None:
                self._task = asyncio.create_task(self._hand_on())

    async def _hand_on(self) -> None:
        try:
            while self._waiting:
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
        await self._passed(self._app)
        for node in (screen.focused or screen).ancestors_with_self:
            await self._passed(node)

    async def _passed(self, pump: MessagePump) -> None:
        passed = asyncio.Event()
        if pump.call_later(passed.set):
            with suppress(TimeoutError):
                await asyncio.wait_for(passed.wait(), _PATIENCE)

"""The start: what every screen needs is read, a first start asks, and one that was cut off is offered."""

from __future__ import annotations

import asyncio
from importlib import import_module
from typing import TYPE_CHECKING

from tui.running import First, Maker, Reckoner, RunRequest, Shelf

if TYPE_CHECKING:
    from tui.app.shell import Starting
    from tui.config import Settings
    from tui.running import Loaded


async def start(app: Starting) -> None:
    """Open what was asked for; what that takes is read and imported in a thread, while the first paint shows itself."""
    await (_reckon(app) if isinstance(app.first, Reckoner) else _load(app))


async def _reckon(app: Starting) -> None:
    """Open the reckoner, which is all that was asked for; it keeps nothing, so that no logbook is opened."""

    def read() -> tuple[Settings, list[str]]:
        from tui.running import read_own

        import_screen(app.first)
        return read_own(app.folders)

    app.settings, messages = await asyncio.to_thread(read)
    app.set_keymap(dict(app.settings.keys))
    await app.open(Reckoner())
    for text in messages:
        app.say_aside(text, wrong=True)


async def _load(app: Starting) -> None:
    """Read what every screen needs, then open what was asked for."""
    first = app.first
    apart = isinstance(first, RunRequest) and first.seed is not None
    going_on = first.go_on if isinstance(first, RunRequest) else None

    def read() -> Loaded:
        from tui.running import load

        import_screen(first)
        # A test's process says nothing that it was not told to.
        return load(app.folders, not app.is_headless, apart, going_on)

    loaded = await asyncio.to_thread(read)
    app.take_up(loaded)
    asked = None
    # Whoever comes for a sitting, a rehearsal or an answer is not held up: only the shelf asks.
    # Nor whom a crash took from the work.
    if isinstance(first, Shelf) and not app.folders.configuration.exists() and not loaded.cut_off:
        from tui.screens import ask_first

        asked = await ask_first(app, bool(loaded.speech))
    app.set_keymap(dict(app.settings.keys))
    app.keep_time()
    if isinstance(first, RunRequest):
        from tui.screens import or_go_on

        first = await or_go_on(app, first)
    await app.open(first)
    for text in loaded.messages:
        app.say_aside(text, wrong=True)
    if asked is not None:
        app.say_aside(*asked)


def import_screen(first: First) -> None:
    """Import the screen that comes first, in a thread: it takes a while."""
    match first:
        case Reckoner():
            import_module("tui.reckoner.screen")
        case Shelf():
            import_module("tui.shelf.screen")
        case Maker():
            import_module("tui.maker.opening")
        case RunRequest(seed=None, go_on=None):
            import_module("tui.live.cautions")
        case _:
            pass

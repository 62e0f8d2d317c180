"""Every screen made as small as a terminal gets, very large and very odd, and left and come back to by its terminal.

At its old size it must look as before. What was changed meanwhile must be seen: nothing may come out of a store of what
was drawn before, so each screen is painted once more with all that was stored forgotten, and must look the same.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator
from itertools import zip_longest
from pathlib import Path

from rich.cells import cell_len
from textual import events

from plans.reading import ProbeOn
from plans.sitting.events import Word
from tests.tui.conftest import PLAN, Stage
from tui.running.requests import First, LogList, Reckoner, Shelf
from tui.widgets.still import Still

SIZE = (80, 24)
ODD = ((1, 1), (1, 24), (80, 1), (2, 300), (400, 2), (20, 5), (39, 40), (200, 55))
"""What a screen is made, one after the other, and at `SIZE` again after each."""

Way = Callable[[Stage], Awaitable[object]]


async def _to_fire(on: Stage) -> None:
    await on.say(Word.NEXT, Word.NEXT)
    await on.pass_time(8)


def _keys(*keys: str) -> Way:
    async def press(on: Stage) -> None:
        await on.read_cautions()
        await _to_fire(on)
        await on.press(*keys)

    return press


def _press(*keys: str) -> Way:
    async def press(on: Stage) -> None:
        await on.press(*keys)
        await on.opened()

    return press


async def _worked_out(on: Stage) -> None:
    """Wait until the plan that is looked at has been read and worked out, in a thread."""
    await on.opened()
    await on.settled(lambda: any("in the fire" in row for row in on.rows()))


SCREENS: dict[str, tuple[str, First | None, Way]] = {
    "first start": ("FirstStartScreen", Shelf(), _press()),
    "cautions": ("CautionsScreen", None, _press()),
    "live": ("LiveScreen", None, _keys()),
    "far view": ("LiveScreen", None, _keys("f")),
    "back from the far view": ("LiveScreen", None, _keys("f", "f")),
    "step sheet": ("StepSheet", None, _keys("c")),
    "help": ("HelpScreen", None, _keys("question_mark")),
    "all actions": ("Palette", None, _keys("colon")),
    "note": ("LineScreen", None, _keys("n", "a", "b")),
    "leaving": ("QuestionScreen", None, _keys("q")),
    "finished": ("FinishedScreen", None, _keys("q", "f")),
    "shelf": ("ShelfScreen", Shelf(), _worked_out),
    "pedal": ("PedalScreen", Shelf(), _press("d")),
    "before a rehearsal": ("RehearsalScreen", Shelf(), _press("t")),
    "log": ("LogScreen", LogList(), _press()),
    "review": ("ReviewScreen", LogList(), _press("enter")),
    "reckoner": ("ReckonerScreen", Reckoner(), _press()),
    "reckoner, its figures": ("ReckonerScreen", Reckoner(), _press("pagedown")),
}
"""What it is, what is opened first, and the way on from there. Log and review follow a sitting that was finished."""


def resizes(folder: Path, name: str) -> Iterator[str | None]:
    """Resize one screen through all sizes.

    Args:
        folder: an empty one
        name: of the screen, as in `SCREENS`

    Yields:
        For each size, and for a terminal that is left and come back to, what was wrong, or None.
    """
    if name != "first start":
        (folder / "heatbook.toml").touch()
    if name in ("log", "review"):
        asyncio.run(_through(folder, *SCREENS["finished"]))
    ways = *(f"through {width}x{height}" for width, height in ODD), "left and come back to"
    for way, wrong in zip(ways, asyncio.run(_through(folder, *SCREENS[name])), strict=True):
        yield f"{name}, {way}: {wrong}" if wrong else None


async def _through(home: Path, screen: str, first: First | None, way: Way) -> list[str]:
    on = Stage(home, ProbeOn.WORK, first, PLAN)
    found = []
    async with on.app.run_test(size=SIZE, notifications=True) as on.pilot:
        await on.opened()
        await way(on)
        if (opened := type(on.app.screen).__name__) != screen:
            raise RuntimeError(f"not {screen} but {opened} was opened")
        before = await _seen(on, SIZE)
        for size in ODD:
            shown = await _seen(on, size)
            wrong = [] if {cell_len(row) for row in shown} == {size[0]} and len(shown) == size[1] else ["not filled"]
            after = await _seen(on, SIZE)
            changed = [f"{row!r} for {was!r}" for row, was in zip_longest(after, before) if row != was]
            found.append("; ".join(wrong + changed[:2] + _stale(on)))
        found.append("; ".join(await _left_and_back(on)))
        await on.press("ctrl+c")
    return found


def _stale(on: Stage) -> list[str]:
    """What stands there otherwise than it is painted with all that was stored forgotten."""
    was = on.rows()
    for widget in on.app.screen.walk_children(Still, with_self=True):
        widget.refresh()
    return [f"{old!r} still for {new!r}" for old, new in zip(was, on.rows(), strict=True) if old != new][:2]


async def _left_and_back(on: Stage) -> list[str]:
    """What is stale once time has passed while the terminal had not the focus, and once more while it has it again."""
    found = []
    for event in (events.AppBlur(), events.AppFocus()):
        on.app.post_message(event)
        if on.app.running is not None:
            await on.pass_time(3)
        for _ in range(2):
            await on.pilot.pause()
        found += _stale(on)
    return found


async def _seen(on: Stage, size: tuple[int, int]) -> list[str]:
    await on.pilot.resize_terminal(*size)
    for _ in range(3):
        await on.pilot.pause()
    return on.rows()

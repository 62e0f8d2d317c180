"""What stands on the live screen, and the way to a soak."""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.phase import PhaseKind
from plans.sitting.events import Said, Word
from tui.live.screen import LiveScreen
from tui.widgets.big_line import BigLine
from tui.widgets.hero import Hero
from tui.widgets.lines import KeyLine, SplitLine, placed

if TYPE_CHECKING:
    from tests.tui.conftest import Stage


def live(on: Stage) -> LiveScreen:
    return next(screen for screen in on.app.screen_stack if isinstance(screen, LiveScreen))


def line(on: Stage, name: str) -> str:
    """Both texts of a line; of what is said in full and shorter, what is said in full."""
    found = live(on).query_one(name)
    if isinstance(found, BigLine):
        left = " ".join(text for text in (found.lead, *found.left[:1]) if text)
        return f"{left} | {' '.join(found.right[:1])}"
    assert isinstance(found, SplitLine)
    right = found.right if isinstance(found.right, str) else found.right.plain
    return f"{found.left} | {right}"


def hero(on: Stage) -> Hero:
    return live(on).query_one(Hero)


def big(on: Stage) -> tuple[str, str]:
    return hero(on).said.word, hero(on).said.figure


def keys(on: Stage) -> list[str]:
    """The keys at the foot that are really to be seen."""
    foot = live(on).query_one(KeyLine)
    return [key[0] for _, _, key in placed(foot.keys, *foot.size)]


def words(on: Stage) -> list[Word]:
    """What the log has of the smith's words."""
    return [event.word for event in on.running.logged.journal.log.events if isinstance(event, Said)]


async def to_soak(on: Stage) -> None:
    state = on.running.sitting.state
    await on.say(Word.NEXT)
    await on.press("space")
    await on.until(lambda: state.phase is PhaseKind.SOAK)

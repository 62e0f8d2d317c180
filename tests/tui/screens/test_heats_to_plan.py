"""The heats that a sitting took go into a copy of its plan: from the sitting as it runs, and from its review."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

from plans.logbook.book import Logbook
from plans.logbook.figures.heats import heat_figures, heats_done
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import read_plan_file
from plans.sitting.events import Said, Word
from tests.tui.conftest import PLAN, STARTED
from tui.running.requests import ReviewRequest
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

COMMENTED = PLAN.read_text().replace("heats = 3\nsection", "heats = 3  # never fewer\nsection", 1)


def copies(home: Path) -> list[str]:
    return sorted(path.name for path in (home / "plans").glob("*.toml"))


def changed(before: str, after: str) -> list[tuple[str, str]]:
    """The lines that differ, pair by pair; both texts have as many."""
    pairs = zip(before.splitlines(), after.splitlines(), strict=True)
    return [(one, other) for one, other in pairs if one != other]


def foot(on: Stage) -> list[str]:
    return [key for key, _, _ in on.app.screen.query_one(KeyLine).keys]


async def test_one_heat_more_goes_into_a_copy_while_the_sitting_runs(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(plan_text=COMMENTED, plans={"draw-2": "years of work"}) as on:
        await on.say(Word.NEXT)
        await on.press("w")
        await on.app.workers.wait_for_complete()
        assert copies(tmp_path) == ["draw-2.toml"], "nothing was asked for yet"
        await on.press("r", "w")
        await on.app.workers.wait_for_complete()
        assert copies(tmp_path) == ["draw-2.toml", "draw-3.toml"]
        assert (tmp_path / "plans" / "draw-2.toml").read_text() == "years of work"
        assert changed(COMMENTED, (tmp_path / "plans" / "draw-3.toml").read_text()) == [
            ('title = "Drawknife with a laid edge"', 'title = "Drawknife with a laid edge, 3"'),
            ("heats = 3  # never fewer", "heats = 4  # never fewer"),
        ]
        await on.press("w")
        await on.app.workers.wait_for_complete()
        assert copies(tmp_path) == ["draw-2.toml", "draw-3.toml"], "it lies there already"
        assert on.running.sitting.heats_planned(1) == 4, "and the sitting goes on by what it had"


async def test_what_was_left_early_goes_into_a_copy_from_the_review(stage: StageMaker, tmp_path: Path) -> None:
    logbook = Logbook(tmp_path / "logbook")
    running = LoggedSitting.begin(logbook, read_plan_file(PLAN), STARTED, None)
    at = 0.0
    # Two of the three weld heats, and on while it is hot, into the fire; three of the four that draw it, and the end.
    for word in (Word.NEXT, *(Word.IN, Word.OUT) * 2, Word.ON, Word.OUT, *(Word.IN, Word.OUT) * 2, Word.FINISH):
        at += 300.0
        running.take(Said(at, word))
        if running.sitting.state.question is not None:
            running.take(Said(at + 1, word))
    figures = heat_figures(running.sitting)
    assert heats_done(running.sitting) == {step.step: step.done for step in figures.steps if step.heats}
    name = running.put_away().id
    logbook.close()
    async with stage(first=ReviewRequest(name)) as on:
        assert "w" in foot(on)
        await on.press("w")
        await on.app.workers.wait_for_complete()
        assert copies(tmp_path) == ["draw-2.toml"]
        heats = [step.get("heats") for step in tomllib.loads((tmp_path / "plans/draw-2.toml").read_text())["step"]]
        assert heats == [None, 2, 4, 3, None], "the step that it ended in may have wanted more"
        # A folder that can't be made costs the copy, and nothing else.
        (tmp_path / "plans" / "draw-2.toml").unlink()
        (tmp_path / "plans").rmdir()
        (tmp_path / "plans").write_text("")
        await on.press("w")
        await on.app.workers.wait_for_complete()
        assert [str(one.message) for one in on.app._notifications if one.severity == "warning"]

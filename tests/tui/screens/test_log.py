"""The list of sittings is searched as one types; what is done to one there can be taken back until heatbook is left."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.events import Paste
from textual.widgets import Input, OptionList, Static

import plans
from plans.logbook import Logbook, Progress
from plans.logbook.sitting_files import read_summary
from plans.units import Units
from tui.running.requests import LogList
from tui.screens.line import LineScreen
from tui.screens.listing import sitting_row
from tui.screens.told import Told

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

KEPT = Path(plans.__file__).parents[1] / "tests" / "plans" / "logbook" / "kept" / "format-1.json"
OLDER, NEWER = "20261125-091500-normalize", "20261126-091500-normalize"
ROW = "2026-11-25 09:15  Normalize three heats"


def fill(home: Path) -> Path:
    sittings = home / "logbook" / "sittings"
    sittings.mkdir(parents=True)
    shutil.copy(KEPT, sittings / f"{OLDER}.json")
    # Another day, 20 K hotter, and another note.
    other = KEPT.read_text().replace("2026-11-25", "2026-11-26").replace('"peak_celsius":910', '"peak_celsius":930')
    (sittings / f"{NEWER}.json").write_text(other.replace("scale came off clean", "hung too near the door"))
    return sittings


def listed(on: Stage) -> list[str]:
    options = on.app.screen.query_one(OptionList)
    rows = [str(options.get_option_at_index(index).prompt).strip() for index in range(options.option_count)]
    return [row.split("  finished")[0].strip() for row in rows]


async def type_in(on: Stage, text: str) -> None:
    on.app.screen.query_one(Input).value = text
    await on.pilot.pause()


async def test_the_log_is_searched_as_one_types(stage: StageMaker, tmp_path: Path) -> None:
    fill(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("slash", *"door")
        await on.settled(lambda: listed(on) == ["2026-11-26 09:15  Normalize three heats"])
        await type_in(on, "norm peak < 920")
        assert len(listed(on)) == 2, "what goes before what is not understood is found"
        wrong = on.app.screen.query_one("#wrong", Static)
        assert str(wrong.content).startswith('"peak < 920": the unit is missing')
        await type_in(on, "norm peak < 920 degC")
        assert (listed(on), wrong.display) == ([ROW], False)
        await type_in(on, "norm peak")
        assert str(wrong.content).startswith('"peak" is looked for as a word')
        await type_in(on, "is: archived")
        assert listed(on) == ["no sitting is like that"]
        await on.press("escape")
        assert len(listed(on)) == 2


def test_a_narrow_row_stands_on_one_line() -> None:
    one = replace(read_summary(KEPT), state=Progress.UNFINISHED, outcome="warped, rated 4", heats=14, calls=30)
    rows = {width: str(sitting_row(one, width, Units.METRIC)) for width in (36, 60, 76)}
    assert [cell_len(row) for row in rows.values()] == list(rows)
    assert rows[36] == "2026-11-25 09:15  Normal… warped 4/5"
    assert rows[76].endswith("unfinished, warped 4/5, 14 heats, 30 calls")
    assert str(sitting_row(replace(one, damaged=True), 36, Units.METRIC)).endswith("damaged, warped 4/5")


async def test_what_is_found_is_changed_while_the_search_stands(stage: StageMaker, tmp_path: Path) -> None:
    """And what another heatbook has taken away is listed no longer, once that is said."""
    sittings = fill(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("slash", *"norm", "tab", "down", "N")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen))
        await on.press("escape")
        await on.settled(lambda: not isinstance(on.app.screen, LineScreen))
        Logbook(tmp_path / "logbook").delete(OLDER)
        await on.press("delete")
        await on.settled(lambda: listed(on) == ["2026-11-26 09:15  Normalize three heats"])
        assert OLDER in on.app.screen.query_one(Told).text
        assert (sittings / f"{NEWER}.json").exists()


async def test_what_is_done_to_a_sitting_can_be_taken_back(stage: StageMaker, tmp_path: Path) -> None:
    sittings = fill(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("down", "N")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen))
        await type_in(on, "A blade for the shed")
        await on.press("enter")
        await on.settled(lambda: listed(on)[1:] == ["2026-11-25 09:15  A blade for the shed"])
        await on.press("delete")
        await on.settled(lambda: len(listed(on)) == 1)
        assert not (sittings / f"{OLDER}.json").exists()
        await on.press("u")
        await on.settled(lambda: len(listed(on)) == 2)
        await on.press("u")
        await on.settled(lambda: listed(on)[1] == ROW)
        await on.press("A")
        await on.settled(lambda: len(listed(on)) == 1)
        await on.press("delete")
        await on.settled(lambda: not (sittings / f"{NEWER}.json").exists())
        await on.press("q")
    assert not (tmp_path / "logbook" / "trash").exists()


async def test_a_title_or_mark_that_is_too_long_is_refused_and_can_be_mended(stage: StageMaker, tmp_path: Path) -> None:
    fill(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("down", "M")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen))
        await on.press(*"for-the-summer-fair-of-the-guild", "enter")
        await on.settled(lambda: "the mark has 32 characters and may have 20; leave 12 out" in shown(on))
        assert on.app.screen.query_one(Input).value == "for-the-summer-fair-of-the-guild"
        await type_in(on, "two words")
        await on.press("enter")
        await on.settled(lambda: 'write one, as "two-words"' in shown(on))
        await type_in(on, "fair")
        await on.press("enter")
        await on.settled(lambda: listed(on)[1].startswith(ROW) and listed(on)[1].endswith("fair"))
        await on.press("N")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen))
        on.app.screen.query_one(Input).value = ""
        on.app.screen.query_one(Input).post_message(Paste("A blade " * 40))
        await on.settled(lambda: on.app.screen.query_one(Input).value != "")
        await on.press("enter")
        await on.settled(lambda: "the title has 319 characters and may have 80; leave 239 out" in shown(on))


async def test_the_long_title_of_a_plan_may_stand_as_it_is(stage: StageMaker, tmp_path: Path) -> None:
    sittings = fill(tmp_path)
    long = "A drawknife with a laid edge of tool steel on a body of iron, forged from the bar and ground"
    kept = sittings / f"{OLDER}.json"
    kept.write_text(kept.read_text().replace("Normalize three heats", long))
    async with stage(first=LogList()) as on:
        await on.press("down", "N")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen))
        await on.press("enter")
        await on.settled(lambda: not isinstance(on.app.screen, LineScreen))


def shown(on: Stage) -> str:
    return " ".join(" ".join(on.rows()).split())

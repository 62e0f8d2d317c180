"""Sittings put beside one another in the log, their figures and traces on a screen, and how figures go over many."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import OptionList

from plans.logbook import Logbook, LogbookError
from tests.tui.screens.test_log import NEWER, OLDER, fill
from tui.comparing.compared import read_compared
from tui.comparing.screen import ComparingScreen
from tui.comparing.trends import TrendsScreen
from tui.running.requests import LogList
from tui.screens.told import Told

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def listed(on: Stage) -> list[str]:
    options = on.app.screen.query_one(OptionList)
    return [" ".join(str(options.get_option_at_index(index).prompt).split()) for index in range(options.option_count)]


async def test_two_sittings_stand_beside_one_another(stage: StageMaker, tmp_path: Path) -> None:
    fill(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("B", "V")  # alone, and chosen: nothing to hold it against
        assert "two to 5" in on.app.screen.query_one(Told).text
        await on.press("down", "B")
        assert [row[:12] for row in listed(on)] == ["A 2026-11-26", "B 2026-11-25"]
        await on.press("V")
        await on.settled(lambda: isinstance(on.app.screen, ComparingScreen))
        # The newer one was 20 K hotter, which two thermocouples may differ by (IEC 60584-1): no star.
        assert "peak, degC 930 910" in listed(on)
        assert "since it went into the fire" in "\n".join(on.rows())
        await on.press("F")
        shown = "\n".join(on.rows())
        assert "since it came out of the fire" in shown
        assert {"A", "B"} <= set("".join(on.rows()[2:8])), "each curve has its letter on it"
        await on.press("T")
        await on.settled(lambda: isinstance(on.app.screen, TrendsScreen))
        assert [row[:10] for row in listed(on)][:2] == ["2026-11-25", "2026-11-26"]
        assert "2 sittings" in on.rows()[0]


def test_what_can_not_be_compared_is_told(tmp_path: Path) -> None:
    """What is damaged, or was deleted meanwhile, is left out and told; fewer than two are refused."""
    sittings = fill(tmp_path)
    third = "20261127-091500-normalize"
    text = (sittings / f"{NEWER}.json").read_text()
    (sittings / f"{third}.json").write_text(text.replace("2026-11-26", "2026-11-27"))
    logbook, ids = Logbook(tmp_path / "logbook"), (OLDER, NEWER, third)
    assert read_compared(logbook, ids).messages == ()
    (sittings / f"{OLDER}.json").unlink()
    found = read_compared(logbook, ids)
    assert [kept.header.id for kept in found.sittings] == [NEWER, third]
    assert OLDER in "".join(found.messages)
    (sittings / f"{NEWER}.json").write_text("no sitting any more")
    with pytest.raises(LogbookError, match=f"fewer than two sittings.*{OLDER}.*{NEWER}"):
        read_compared(logbook, ids)

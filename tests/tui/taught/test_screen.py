"""What all sittings teach, on one screen: kept in the shop file, forgotten, and taken back letter by letter."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import OptionList

from plans.logbook import Logbook
from plans.logbook.teaching.teaches import VERSION
from plans.units import Units
from tests.tui.screens.test_log import OLDER, fill
from tui.config import UsageError, read_forgotten, read_shop
from tui.running.requests import LogList, TaughtList
from tui.screens.told import Told
from tui.taught.changes import ShopChanges
from tui.taught.reading import read_taught
from tui.taught.screen import TaughtScreen

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

SHOP = "# my shop\ncooling_factor = 1.3  # by hand\nfire = 'reducing'\n"
NOW = datetime.fromisoformat("2026-01-20T10:00:00+01:00")


def fill_four(folder: Path) -> Path:
    """Four sittings of which each teaches a factor in air, 1.10 to 1.16 with a standard error of 0.05."""
    sittings = fill(folder)
    text = (sittings / f"{OLDER}.json").read_text()
    for path in sittings.iterdir():
        path.unlink()
    for day in range(4):
        document = json.loads(text.replace("2026-11-25", f"2026-01-1{day}").replace("20261125", f"2026011{day}"))
        factor = {"value": 1.1 + day * 0.02, "standard_error": 0.05, "stays": 3}
        document["sitting"]["1"]["summary"]["teaches"] = {"version": VERSION, "cooling_factor": factor}
        (sittings / f"2026011{day}-091500-normalize.json").write_text(json.dumps(document, separators=(",", ":")))
    (folder / "shop.toml").write_text(SHOP)
    return folder / "shop.toml"


def shown(on: Stage) -> str:
    options = on.app.screen.query_one(OptionList)
    rows = (str(options.get_option_at_index(index).prompt) for index in range(options.option_count))
    return " ".join(" ".join(rows).split())


async def test_a_factor_is_kept_and_forgotten_and_the_shop_file_put_back(stage: StageMaker, tmp_path: Path) -> None:
    shop = fill_four(tmp_path)
    async with stage(first=LogList()) as on:
        await on.press("S")
        await on.settled(lambda: isinstance(on.app.screen, TaughtScreen))
        # The mean of four alike in weight, and no more scatter than their errors: 0.05, as of one more sitting
        # 0.05 / sqrt(4), with the logarithm's bend below what is shown.
        assert "cooling in air, factor 1.13 +- 0.03 12 stays, 4 sittings, 2026-01-10 to 2026-01-13" in shown(on)
        assert "goes by: 1.30, the shop file" in shown(on)
        await on.press("a")
        await on.settled(lambda: "goes by: 1.13 +- 0.03, the shop file" in shown(on))
        assert read_shop(shop)[0].cooling_factor == 1.13
        await on.press("delete")
        await on.settled(lambda: "Forgotten cooling-factor" in shown(on))
        assert "All that your sittings taught was forgotten" in shown(on)
        assert read_shop(shop)[0].cooling_factor == 1.0
        await on.press("u")
        await on.settled(lambda: "goes by: 1.13" in shown(on))
        await on.press("u")
        await on.settled(lambda: "goes by: 1.30" in shown(on))
        assert shop.read_text() == SHOP
        assert "? help" in on.rows()[-1]


async def test_without_anything_taught_it_says_what_would_teach(stage: StageMaker) -> None:
    async with stage(size=(60, 20), first=TaughtList()) as on:
        await on.settled(lambda: "weighing or measuring before and after" in shown(on))
        await on.press("a", "delete", "u")
        assert on.app.screen.query_one(Told).text == ""


def test_what_was_forgotten_counts_again_and_others_changes_stay(tmp_path: Path) -> None:
    shop, logbook = fill_four(tmp_path), Logbook(tmp_path / "logbook")
    [row] = read_taught(logbook, shop).rows
    changes = ShopChanges(shop, Units.METRIC)
    changes.forget(row, NOW)
    assert read_forgotten(shop) == {"cooling-factor": NOW}
    assert "fire = 'reducing'" in shop.read_text()
    assert read_taught(logbook, shop).rows == ()
    ShopChanges(shop, Units.METRIC).recall("cooling-factor")
    assert read_taught(logbook, shop).rows[0].text == row.text
    with pytest.raises(UsageError, match="was changed since"):
        changes.undo()
    assert not changes.can_undo
    shop.write_text("[forgotten]\ncooling-factor = 'yesterday'\n")
    found = read_taught(logbook, shop)
    assert found.rows[0].text == row.text, "and the rest is read"
    assert "write a time with its offset, as" in "".join(found.messages)
    shop.write_text("[forgotten]\ncooling_factor = 2026-01-20T10:00:00+01:00\n")
    found = read_taught(logbook, shop)
    assert found.rows[0].text == row.text
    assert "2: forgotten.cooling_factor is no row of what sittings teach; perhaps cooling-factor" in found.messages[0]
    shop.chmod(0o444)
    with pytest.raises(PermissionError, match="it is read-only"):
        changes.forget(row, NOW)
    shop.chmod(0o644)
    shop.write_text("cooling_factor = \n")
    with pytest.raises(UsageError, match="mend it"):
        changes.forget(row, NOW)
    assert shop.read_text() == "cooling_factor = \n"

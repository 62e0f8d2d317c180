"""What is loaded until a screen can be used; what that costs in time `python -m tests.cost` tells."""

from __future__ import annotations

import sys
from contextlib import closing
from pathlib import Path

import pytest

from tests.cost.usable import OPENINGS, keep_two, wait_for
from tests.terminal import Terminal, environment

# What is imported by name from a package's front does not stand in the list of `-X importtime`.
PROGRAM = """
import sys

class Telling:
    def find_spec(self, name, path=None, target=None):
        print(name, file=log, flush=True)

log = open(sys.argv.pop(1), "w")
sys.meta_path.insert(0, Telling())
from tui.cli.main import start
start()
"""
SLOW_TO_LOAD = {"pint", "numpy", "serial", "tomlkit"}
NEEDLESS = {
    "shelf": {"plans.sitting.engine", "plans.warmth.conduction", "tui.live.screen"},
    # Until the cautions have been read there is no other screen, and the sitting is begun behind them. The index of the
    # log is read, for whether the plan's last sitting was left.
    "run PLAN": {
        "plans.sitting.engine",
        "plans.warmth.conduction",
        "tui.live.screen",
        "tui.widgets.trace",
        "tui.shelf.screen",
    },
    # It reads no plan and keeps nothing, and no question of a group that is not shown has been asked.
    "reckoner": {
        "tinydb",
        "plans.logbook.book",
        "plans.reader.plan_text",
        "plans.sitting.engine",
        "tui.live.screen",
        "tui.cli.reckon_options",
        *(f"tui.reckoner.questions.{file}" for file in ("steel", "stock", "billets", "bench")),
        "tui.reckoner.entry",
        "plans.steel.grades",
    },
}
"""By what is opened, what it can do without until it can be used."""
NEEDED = {"shelf": "tui.shelf.screen", "run PLAN": "tui.live.cautions", "reckoner": "tui.reckoner.screen"}


@pytest.mark.slow
@pytest.mark.parametrize("what", NEEDLESS)
def test_a_screen_can_be_used_without_what_is_slow_to_load(home: Path, tmp_path: Path, what: str) -> None:
    keep_two(home)
    opening = next(one for one in OPENINGS if one.what == what)
    log = tmp_path / "loaded"
    program = [sys.executable, "-c", PROGRAM, str(log), *opening.command[2:]]
    with closing(Terminal(program, environment=environment())) as terminal:
        wait_for(terminal, opening)
    loaded = set(log.read_text().split())
    assert NEEDED[what] in loaded
    assert not (SLOW_TO_LOAD | NEEDLESS[what]) & loaded

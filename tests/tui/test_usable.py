"""What is loaded until a screen can be used; what that costs in time `python -m tests.cost` tells."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

import pytest

from tests.cost.usable import OPENINGS, painted, started, wait_for

SLOW_TO_LOAD = {"pint", "numpy", "serial", "tomlkit"}
NEEDLESS = {
    # The index of a logbook is a TinyDB; the steel of a plan is asked for when it is in the fire.
    "shelf": {"plans.sitting.engine", "plans.warmth.conduction", "tui.live.screen"},
    # Until the cautions have been read there is no other screen.
    "run PLAN": {"tinydb", "tui.live.screen", "tui.widgets.trace", "tui.screens.shelf"},
    # It asks for no plan, and keeps nothing.
    "reckoner": {"tinydb", "plans.logbook.book", "plans.reader.plan_text", "plans.sitting.engine", "tui.live.screen"},
}
"""By what is opened, what it can do without until it can be used."""
NEEDED = {"shelf": "tui.screens.shelf", "run PLAN": "tui.live.cautions", "reckoner": "tui.reckoner.screen"}


@pytest.mark.slow
@pytest.mark.parametrize("what", NEEDLESS)
def test_a_screen_can_be_used_without_what_is_slow_to_load(home: Path, what: str) -> None:
    home.mkdir()
    (home / "heatbook.toml").touch()
    opening = next(one for one in OPENINGS if one.what == what)
    program = [sys.executable, "-X", "importtime", *opening.command]
    with started(program, os.environ | {"TERM": "xterm-256color"}) as terminal:
        if what == "shelf":  # its texts are of a logbook with sittings
            seen = painted(terminal, ("the log is empty", "help"))
        else:
            seen = wait_for(terminal, opening)
    loaded = {name.decode() for name in re.findall(rb"import time: [ \d]+\|[ \d]+\| +([\w.]+)", seen)}
    assert NEEDED[what] in loaded
    assert not (SLOW_TO_LOAD | NEEDLESS[what]) & loaded

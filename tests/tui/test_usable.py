"""What is loaded until a screen can be used; what that costs in time `python -m tests.cost` tells."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

import pytest

from tests.cost.usable import OPENINGS, started, wait_for

SLOW_TO_LOAD = {"pint", "numpy", "serial", "tinydb", "tomlkit"}


@pytest.mark.slow
def test_a_sitting_begins_without_what_is_slow_to_load(home: Path) -> None:
    home.mkdir()
    (home / "heatbook.toml").touch()
    opening = next(one for one in OPENINGS if one.what == "run PLAN")
    program = [sys.executable, "-X", "importtime", *opening.command]
    with started(program, os.environ | {"TERM": "xterm-256color"}) as terminal:
        seen = wait_for(terminal, opening)
    loaded = {name.decode() for name in re.findall(rb"import time: [ \d]+\|[ \d]+\| +([\w.]+)", seen)}
    assert "tui.live.screen" in loaded
    assert not SLOW_TO_LOAD & loaded

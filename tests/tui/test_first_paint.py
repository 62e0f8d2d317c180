"""What is loaded before the first thing is on the screen; what that costs in time `python -m tests.cost` tells."""

from __future__ import annotations

import os
import re
import sys

import pytest

from tests.cost.first_paint import painted

SLOW_TO_LOAD = {"pint", "serial", "tinydb", "numpy"}


@pytest.mark.slow
def test_nothing_that_is_slow_to_load_is_loaded_before_the_first_paint() -> None:
    environment = os.environ | {"TERM": "xterm-256color"}
    program = [sys.executable, "-X", "importtime", "-m", "tui.cli"]
    with painted(program, environment, mark=b"mheatbook") as seen:
        loaded = set(re.findall(rb"^import time: [ \d]+\|[ \d]+\| +(\w+)", seen, re.MULTILINE))
    assert b"textual" in loaded
    assert not SLOW_TO_LOAD & {name.decode() for name in loaded}
